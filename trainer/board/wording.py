"""Names and short sentences for what stands in the diary and in the lists."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from trainer.board.bench import place_of
from trainer.board.bracing_words import from_where_to_where
from trainer.layout import Kind, Member
from trainer.picture.compare import Difference
from trainer.picture.measures import figure
from trainer.plan.points import half
from trainer.site.actions import (
    AnyAction,
    Brace,
    Check,
    Cut,
    Fit,
    Fix,
    Inspect,
    Load,
    Mark,
    Measure,
    Report,
    Restrain,
    Stand,
    String,
    Unbrace,
)
from trainer.site.model import Bracing, Event, Site
from trainer.words import _

KIND: dict[Kind, str] = {
    "standard": _("standard truss"), "girder": _("girder truss"), "truncated_girder": _("truncated girder"),
    "truncated": _("truncated truss"), "hip": _("hip truss"), "jack": _("jack truss"),
    "creeper": _("creeper truss"), "gable": _("gable truss"), "saddle": _("saddle truss"),
}  # fmt: skip
SEVERITY = {
    "stop-work": _("Stop work"), "rework": _("Rework"), "tolerance": _("Out of tolerance"), "habit": _("Habit"),
}  # fmt: skip
SEVERITY_MEANS = {
    "stop-work": _("Someone could be hurt, or it could fall."),
    "rework": _("It must come down or be done again."),
    "tolerance": _("It is out by more than this house allows."),
    "habit": _("It is sound, but a better order exists."),
}
OUTCOME = {
    "met": _("Practice mark met"), "not yet met": _("Practice mark not yet met"), "unfinished": _("Not finished"),
}  # fmt: skip


DIFFERS = {
    "missing": _("It does not stand."),
    "off": _("{tag} stands {off} mm from its place."),
    "turned": _("{tag} stands end for end."),
    "other": _("{tag} stands there, another kind of truss."),
    "astray": _("{tag} stands where no truss belongs."),
}


def difference(one: Difference) -> str:
    """Say how a truss differs from the reference."""
    return DIFFERS[one.what].format(tag=one.tag, off=figure(round(one.off)))


def size(member: Member) -> str:
    """Say how large a truss is: span, rise, tails, thickness."""
    rise = max(z for _run, z in member.top)
    tails = " / ".join(figure(round(end.tail)) if end.tail else _("none") for end in member.ends)
    plies = f"{member.plies} × {member.thickness:g}" if member.plies > 1 else f"{member.thickness:g}"
    return _("span {span} · top {rise} above the plate · tails {tails} · {plies} thick").format(
        span=figure(half(member.span)), rise=figure(round(rise)), tails=tails, plies=plies
    )


THINGS: dict[str, str] = {
    "hanger": _("hanger"), "heavy girder bracket": _("heavy girder bracket"), "batten": _("batten"),
    "trimmer": _("trimmer"), "packer": _("packer"), "outrigger": _("outrigger"), "verge rafter": _("verge rafter"),
    "gable stud": _("gable stud"), "plies joined": _("plies joined"), "framing anchor": _("framing anchor"),
    "tie-down strap": _("tie-down strap"), "slotted bracket": _("slotted bracket"), "nails": _("nails"),
    "screws": _("screws"), "solid": _("solid"), "steel brace": _("steel brace"), "diagonal": _("diagonal"),
    "prop": _("prop"), "method statement": _("method statement"), "edge protection": _("edge protection"),
    "falls inside": _("falls inside"), "exclusion zone": _("exclusion zone"), "lifting plan": _("lifting plan"),
    "weather": _("weather"), "power lines": _("power lines"), "walls braced": _("walls braced"),
    "studs under girders": _("studs under girders"), "plates": _("plates"), "delivery": _("delivery"),
    "roof brace": _("roof brace"), "bottom-chord tie": _("bottom-chord tie"), "web tie": _("web tie"),
    "top-chord tie": _("top-chord tie"), "end brace": _("end brace"),
}  # fmt: skip
"""The diary's own words for parts, connectors, braces and what is checked, as a learner reads them."""


def thing(word: str) -> str:
    """Return a word of the diary as a learner reads it."""
    return THINGS.get(word, word)


READINGS: dict[str, str] = {
    "between": _("between two points"), "diagonals": _("diagonals of the plates"), "level": _("plate level"),
    "straight": _("plate straight"), "length": _("length of the wall"), "plumb": _("how far a truss leans"),
    "bow": _("how far a truss bows"), "apex": _("top off the string line"),
}  # fmt: skip
FAULTS: dict[str, str] = {
    "bowed wall": _("wall: bowed"), "plate out of level": _("wall: plate out of level"),
    "wrong length": _("wall: wrong length"), "out of square": _("wall: out of square"),
    "wall not braced": _("wall: not braced"), "studs missing": _("wall: studs missing"),
    "pack landed badly": _("wall: pack landed badly"), "missing truss": _("truss: missing"),
    "swapped tag": _("truss: wears another's tag"), "broken web": _("truss: broken web"),
    "loose nailplate": _("truss: loose nailplate"), "unwanted tail": _("truss: a tail too many"),
    "loose brackets": _("truss: brackets left loose"), "a fall": _("what fell, and where it lies"),
}  # fmt: skip
CUTS: dict[str, str] = {
    "tail": _("the tail"), "top chord": _("the top chord"), "bottom chord": _("the bottom chord"), "web": _("a web"),
}  # fmt: skip
LOADS: dict[str, str] = {
    "battens": _("battens"), "sheets": _("sheets"), "tiles": _("tiles"), "packs": _("packs"),
}  # fmt: skip
DONE = {
    "check": _("Checked: {item}"), "measure": _("Measured {of}"), "report": _("Reported {of}"),
    "mark": _("Marked {where}"), "fit": _("Fitted on {on}{at}"), "stand": _("Stood {tag}"),
    "brace": _("Braced {tags}"), "unbrace": _("Unbraced {tags}"), "string": _("String from {start} to {finish}"),
    "plumb": _("Straightened {tag}"), "fix": _("Fixed {tag}, {end}"), "cut": _("Cut {tag}"),
    "remove": _("Took {tag} down"), "load": _("Loaded the roof"), "inspect": _("Inspected {tag}"),
    "restrain": _("Put in: {piece}"), "hand_over": _("Handed over"), "undo": _("Undid the action before"),
    "clear": _("Cleared up after the fall"),
}  # fmt: skip
TO_DO = {
    "check": _("Check: {item}"), "measure": _("Measure {of}"), "report": _("Report {of}"),
    "mark": _("Mark {where}"), "fit": _("Fit on {on}{at}"), "stand": _("Stand {tag}"),
    "brace": _("Brace {tags}"), "unbrace": _("Unbrace {tags}"), "string": _("Pull a string from {start} to {finish}"),
    "plumb": _("Straighten {tag}"), "fix": _("Fix {tag}, {end}"), "cut": _("Cut {tag}"),
    "remove": _("Take {tag} down"), "load": _("Load the roof"), "inspect": _("Inspect {tag}"),
    "restrain": _("Put in: {piece}"), "hand_over": _("Hand over"), "undo": _("Undo the action before"),
    "clear": _("Clear up after the fall"),
}  # fmt: skip


def done(action: AnyAction, site: Site) -> tuple[str, str]:
    """Say an action as two short lines of the diary: what, and where or with what."""
    return _say(DONE, action, site)


def to_do(action: AnyAction, site: Site) -> str:
    """Say an action as something that could be done next."""
    said, detail = _say(TO_DO, action, site)
    if isinstance(action, Inspect):
        detail = _("accept it") if action.accept else _("reject it")
    return ", ".join(filter(None, (said, detail)))


def reading(event: Event) -> str:
    """Say what a measurement showed, or which faults a report had put right; nothing for any other event."""
    if event.reading is not None and isinstance(event.action, Mark):
        return _("The mark sits at {got} mm.").format(got=figure(event.reading.got))
    if event.reading is not None:
        text = _("It reads {got} mm. It should be {want} mm.")
        return text.format(got=figure(event.reading.got), want=figure(half(event.reading.want)))
    if isinstance(event.action, Report) and event.action.fault == "a fall":
        return _("They come at once. Nothing is touched until the place is released.")
    if isinstance(event.action, Report):
        return _("It is put right.") if event.put_right else _("They look, and find no such fault.")
    return ""


def piece_in_words(piece: Bracing) -> str:
    """Say a piece of bracing: its kind and the trusses it is on."""
    return f"{_bracing(piece)}: {' – '.join(piece.tags)}"


def _bracing(piece: Bracing | Brace | Unbrace) -> str:
    """Say what bracing is; of battens, how far apart their rows are, where that was told."""
    kind = thing(piece.kind)
    return kind if piece.every is None else _("{kind}, rows every {every} mm").format(kind=kind, every=piece.every)


def _say(templates: Mapping[str, str], action: AnyAction, site: Site) -> tuple[str, str]:
    words, detail = _words(action, site)
    return templates[action.do].format(**words), detail


Said = tuple[dict[str, str], str]
"""What the templates need, and the second line."""


def _words(action: AnyAction, site: Site) -> Said:
    if isinstance(action, Stand):
        return {"tag": action.tag}, place_of(site, action.start)
    if isinstance(action, Restrain):
        return {"piece": thing(action.kind)}, from_where_to_where(site, action)
    return _SAID.get(type(action), _by_tag)(action)


def _by_tag(action: Any) -> Said:
    return {"tag": getattr(action, "tag", "")}, ""


def _mark(action: Mark) -> Said:
    where = _wall(action.wall) if action.wall else str(action.on)
    return {"where": where}, _("at {at}").format(at=figure(action.at))


def _fit(action: Fit) -> Said:
    at = "" if action.at is None else _(" at {at}").format(at=figure(action.at))
    return {"on": action.on, "at": at}, thing(action.part)


def _brace(action: Brace | Unbrace) -> Said:
    return {"tags": " – ".join(action.tags)}, _bracing(action)


def _fix(action: Fix) -> Said:
    end = _("end {end}").format(end=action.end) if action.end else _("a crossing")
    count = f"{action.count} × " if action.count > 1 else ""
    return {"tag": action.tag, "end": end}, count + thing(action.with_)


def _of(action: Measure | Report) -> str:
    return _wall(action.wall) if action.wall else str(action.tag or _("a fall"))


def _wall(name: str) -> str:
    return _("wall {wall}").format(wall=name)


_SAID: dict[type[AnyAction], Callable[[Any], Said]] = {
    Mark: _mark,
    Fit: _fit,
    Brace: _brace,
    Unbrace: _brace,
    Fix: _fix,
    Measure: lambda a: ({"of": _of(a)}, READINGS.get(a.what, a.what)),
    Report: lambda a: ({"of": _of(a)}, FAULTS.get(a.fault, a.fault)),
    Check: lambda a: ({"item": thing(a.item)}, ""),
    String: lambda a: ({"start": a.start, "finish": a.finish}, ""),
    Cut: lambda a: ({"tag": a.tag}, CUTS.get(a.where, a.where)),
    Load: lambda a: ({}, LOADS.get(a.what, a.what)),
    Inspect: lambda a: ({"tag": a.tag}, _("accepted") if a.accept else _("rejected")),
}
