"""Names and short sentences for what stands in the diary and in the lists."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from trainer.board.bench import place_of
from trainer.board.bracing_words import from_where_to_where
from trainer.layout import Member
from trainer.picture.compare import Difference
from trainer.picture.measures import figure
from trainer.plan.points import half
from trainer.site.actions import (
    AnyAction,
    Brace,
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
    Unbrace,
)
from trainer.site.model import Bracing, Event, Site
from trainer.terms import CUTS, FAULTS, LOADS, READINGS, done_line, thing, to_do_line
from trainer.words import _

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


def done(action: AnyAction, site: Site) -> tuple[str, str]:
    """Say an action as two short lines of the diary: what, and where or with what."""
    return done_line(_as_data(action)), _detail(action, site)


def to_do(action: AnyAction, site: Site) -> str:
    """Say an action as something that could be done next."""
    detail = _detail(action, site)
    if isinstance(action, Inspect):
        detail = _("accept it") if action.accept else _("reject it")
    return ", ".join(filter(None, (to_do_line(_as_data(action)), detail)))


def reading(event: Event) -> str:
    """Say what a measurement showed, or which faults a report had put right; nothing for any other event."""
    if event.reading is not None and isinstance(event.action, Mark):
        return _("The mark sits at {got} mm.").format(got=figure(event.reading.got))
    if event.reading is not None:
        text = _("It reads {got} mm. It should be {want} mm.")
        return text.format(got=figure(event.reading.got), want=figure(half(event.reading.want)))
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


def _as_data(action: AnyAction) -> dict[str, Any]:
    return action.model_dump(by_alias=True, exclude_none=True)


def _detail(action: AnyAction, site: Site) -> str:
    """Say where, or with what, beyond the words of the verb."""
    if isinstance(action, Stand):
        return place_of(site, action.start)
    if isinstance(action, Restrain):
        return from_where_to_where(site, action)
    return _DETAILS.get(type(action), lambda _action: "")(action)


_DETAILS: dict[type[AnyAction], Callable[[Any], str]] = {
    Mark: lambda a: _("at {at}").format(at=figure(a.at)),
    Fit: lambda a: thing(a.part),
    Brace: _bracing,
    Unbrace: _bracing,
    Fix: lambda a: (f"{a.count} × " if a.count > 1 else "") + thing(a.with_),
    Measure: lambda a: READINGS.get(a.what, a.what),
    Report: lambda a: FAULTS.get(a.fault, a.fault),
    Cut: lambda a: CUTS.get(a.where, a.where),
    Load: lambda a: LOADS.get(a.what, a.what),
    Inspect: lambda a: _("accepted") if a.accept else _("rejected"),
}
