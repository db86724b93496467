"""Names and short sentences for what stands in the diary and in the lists."""

from __future__ import annotations

from collections.abc import Mapping

from trainer.board.bench import place_of
from trainer.layout import Kind, Member
from trainer.picture.measures import figure
from trainer.site.actions import AnyAction, Brace, Fit, Fix, Mark, Remove, Stand
from trainer.site.model import Site
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


def size(member: Member) -> str:
    """Say how large a truss is: span, rise, tails, thickness."""
    rise = max(z for _run, z in member.top)
    tails = " / ".join(figure(round(end.tail)) if end.tail else _("none") for end in member.ends)
    plies = f"{member.plies} × {member.thickness:g}" if member.plies > 1 else f"{member.thickness:g}"
    return _("span {span} · top {rise} above the plate · tails {tails} · {plies} thick").format(
        span=figure(round(member.span * 2) / 2), rise=figure(round(rise)), tails=tails, plies=plies
    )


DONE = {
    "mark": _("Marked {where}"), "fit": _("Fitted on {on}{at}"), "stand": _("Stood {tag}"),
    "brace": _("Braced {tags}"), "fix": _("Fixed {tag}, {end}"), "remove": _("Took {tag} down"),
    "hand_over": _("Handed over"), "undo": _("Undid the action before"),
}  # fmt: skip
TO_DO = {
    "mark": _("Mark {where}"), "fit": _("Fit on {on}{at}"), "stand": _("Stand {tag}"),
    "brace": _("Brace {tags}"), "fix": _("Fix {tag}, {end}"), "remove": _("Take {tag} down"),
    "hand_over": _("Hand over"), "undo": _("Undo the action before"),
}  # fmt: skip


def done(action: AnyAction, site: Site) -> tuple[str, str]:
    """Say an action as two short lines of the diary: what, and where or with what."""
    return _say(DONE, action, site)


def to_do(action: AnyAction, site: Site) -> str:
    """Say an action as something that could be done next."""
    return ", ".join(filter(None, _say(TO_DO, action, site)))


def _say(templates: Mapping[str, str], action: AnyAction, site: Site) -> tuple[str, str]:
    if action.do not in templates:
        # A verb that the board has no tool for yet, from a hint: as it stands in a diary.
        fields = action.model_dump(by_alias=True, exclude_none=True, exclude={"do"})
        return action.do.replace("_", " ").capitalize(), ", ".join(str(value) for value in fields.values())
    words, detail = _words(action, site)
    return templates[action.do].format(**words), detail


def _words(action: AnyAction, site: Site) -> tuple[dict[str, str], str]:
    """Return what the templates need, and the second line."""
    if isinstance(action, Mark):
        where = _("wall {wall}").format(wall=action.wall) if action.wall else str(action.on)
        return {"where": where}, _("at {at}").format(at=figure(action.at))
    if isinstance(action, Fit):
        at = "" if action.at is None else _(" at {at}").format(at=figure(action.at))
        return {"on": action.on, "at": at}, action.part
    if isinstance(action, Stand):
        return {"tag": action.tag}, place_of(site, action.start)
    if isinstance(action, Brace):
        return {"tags": " – ".join(action.tags)}, action.kind
    if isinstance(action, Fix):
        end = _("end {end}").format(end=action.end) if action.end else _("a crossing")
        count = f"{action.count} × " if action.count > 1 else ""
        return {"tag": action.tag, "end": end}, count + action.with_
    return {"tag": action.tag} if isinstance(action, Remove) else {}, ""
