"""``trainer layout``: the set-out table of a level, or its layout as JSON."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

from trainer.cli.data import DataFolder
from trainer.cli.given import AsJson, LevelName, given_layout, show
from trainer.cli.open_level import open_level
from trainer.cli.table import table
from trainer.terms import KIND_NAMES, thing
from trainer.words import CAUTION, INVENTED, _, ngettext

if TYPE_CHECKING:
    from trainer.layout import End, Layout, Member

HEADS = (
    _("tag"), _("kind"), _("station"), _("span"), _("from"), _("tail"), _("to"), _("tail"), _("area m2"),
    _("carried by"),
)  # fmt: skip
SIDES = "llrrlrlrrl"
NO_AREA_M2 = 1e-6
TAPED = _(
    "On walls the measures are those of the drawings: from the end of the house where the first wall begins. In a "
    "diary they run from each wall's first corner."
)


def layout(level: LevelName, as_json: AsJson = False, data: DataFolder = None) -> None:
    """Print a level's set-out table.

    Every truss with its station, bearings, fixings, tails and carriers, wing by wing.
    """
    from trainer.layout.as_json import layout_json
    from trainer.layout.bracing import bracing_plan

    given = open_level(level, data)
    worked = given_layout(given)
    if as_json:
        show(json.dumps(layout_json(given.id, worked, bracing_plan(worked, given.bracing.spec()))))
    else:
        show(_for_people(given.title, worked))


def _for_people(title: str, worked: Layout) -> str:
    from trainer.layout import loads
    from trainer.picture.sheet import counts_in_words, settings_in_words

    parts = [_("{title}: set-out").format(title=title), INVENTED, settings_in_words(worked)]
    load = loads(worked)
    for wing in worked.wings:
        members = [member for member in worked.members if member.wing == wing.id]
        if not members:
            continue
        x1, y1, x2, y2 = (f"{value:g}" for value in wing.rect)
        parts.append(
            _("Wing {id}: ({x1}, {y1}) to ({x2}, {y2}), span {span:g}, ridge along {axis}").format(
                id=wing.id, x1=x1, y1=y1, x2=x2, y2=y2, span=wing.span, axis=wing.axis
            )
        )
        rows = [_row(worked, member, load[member.tag].direct_m2) for member in members]
        parts.append(table(HEADS, rows, SIDES))
    n = len(worked.members)
    parts.append(
        ngettext("{n} truss: {counts}.", "{n} trusses: {counts}.", n).format(n=n, counts=counts_in_words(worked))
    )
    parts += [TAPED, CAUTION]
    return "\n\n".join(parts)


def _row(worked: Layout, member: Member, area_m2: float) -> tuple[str, ...]:
    one, two = member.ends
    return (
        member.tag,
        KIND_NAMES[member.kind] + (f" x{member.plies}" if member.plies > 1 else ""),
        f"{member.station:g}",
        _mm(member.span),
        _bearing(worked, member, 1),
        _tail(one),
        _bearing(worked, member, 2),
        _tail(two),
        _area(member, area_m2),
        ", ".join(member.carried_by) or "-",
    )


def _area(member: Member, area_m2: float) -> str:
    """Return the roof that a truss bears; under saddles a jack or creeper may bear none, and hold a ceiling only."""
    if member.kind in ("jack", "creeper") and area_m2 < NO_AREA_M2:
        return _("ceiling only")
    return f"{area_m2:.2f}"


def _bearing(worked: Layout, member: Member, number: int) -> str:
    """Return what an end bears on, what the tape shows where its centre line crosses that, and how it is fixed."""
    from trainer.layout.marks import centre_run
    from trainer.plan import taped

    end, plan = member.ends[number - 1], worked.house.plan
    if end.wall:
        on = (_("plate {wall}") if end.on_plate else _("ledger {wall}")).format(wall=end.wall)
    elif end.bears_on in worked.by_tag:
        on = end.bears_on
    else:
        return f"{end.bears_on}, {thing(end.fixing)}"
    run = centre_run(worked, member, number)
    run = taped(plan, plan.by_name[end.wall], run) if end.wall else run
    return _("{on} at {at}, {fixing}").format(on=on, at=_mm(run), fixing=thing(end.fixing))


def _mm(length: float) -> str:
    from trainer.plan import half

    return f"{half(length):g}"


def _tail(end: End) -> str:
    return _mm(end.tail) if end.tail else "-"
