"""``trainer layout``: the set-out table of a level, or its layout as JSON."""

from __future__ import annotations

import json
import math
from typing import TYPE_CHECKING

import typer

from trainer.cli.given import AsJson, LevelName, given_layout, given_level
from trainer.cli.table import table

if TYPE_CHECKING:
    from trainer.layout import End, Layout, Member

HEADS = ("tag", "kind", "station", "span", "from", "tail", "to", "tail", "area m2", "carried by")
SIDES = "llrrlrlrrl"
NO_AREA_M2 = 1e-6


def layout(level: LevelName, as_json: AsJson = False) -> None:
    """Print a level's set-out table.

    Every truss with its station, bearings, fixings, tails and carriers, wing by wing.
    """
    from trainer.layout.as_json import layout_json  # noqa: PLC0415
    from trainer.layout.bracing import bracing_plan  # noqa: PLC0415

    given = given_level(level)
    worked = given_layout(given)
    if as_json:
        typer.echo(json.dumps(layout_json(given.id, worked, bracing_plan(worked, given.bracing.spec()))))
    else:
        typer.echo(_for_people(given.title, worked))


def _for_people(title: str, worked: Layout) -> str:
    from trainer.layout import loads  # noqa: PLC0415
    from trainer.picture.sheet import counts_in_words, settings_in_words  # noqa: PLC0415
    from trainer.words import CAUTION, INVENTED  # noqa: PLC0415

    parts = [f"{title}: set-out", INVENTED, settings_in_words(worked)]
    load = loads(worked)
    for wing in worked.wings:
        members = [member for member in worked.members if member.wing == wing.id]
        if not members:
            continue
        x1, y1, x2, y2 = (f"{value:g}" for value in wing.rect)
        parts.append(f"Wing {wing.id}: ({x1}, {y1}) to ({x2}, {y2}), span {wing.span:g}, ridge along {wing.axis}")
        rows = [_row(worked, member, load[member.tag].direct_m2) for member in members]
        parts.append(table(HEADS, rows, SIDES))
    parts.append(f"{len(worked.members)} trusses: {counts_in_words(worked)}.")
    parts.append(CAUTION)
    return "\n\n".join(parts)


def _row(worked: Layout, member: Member, area_m2: float) -> tuple[str, ...]:
    one, two = member.ends
    return (
        member.tag,
        member.kind.replace("_", " ") + (f" x{member.plies}" if member.plies > 1 else ""),
        f"{member.station:g}",
        _mm(member.span),
        _bearing(worked, one),
        _tail(one),
        _bearing(worked, two),
        _tail(two),
        _area(member, area_m2),
        ", ".join(member.carried_by) or "-",
    )


def _area(member: Member, area_m2: float) -> str:
    """Return the roof that a truss bears; under saddles a jack or creeper may bear none, and hold a ceiling only."""
    if member.kind in ("jack", "creeper") and area_m2 < NO_AREA_M2:
        return "ceiling only"
    return f"{area_m2:.2f}"


def _bearing(worked: Layout, end: End) -> str:
    """Return what an end bears on, where along it the tape shows, and how it is fixed."""
    if end.on_plate:
        wall = worked.house.plan.by_name[end.bears_on.removeprefix("plate ")]
        run = math.dist(wall.a, end.at)
    elif carrier := worked.by_tag.get(end.bears_on):
        run = math.dist(carrier.start, end.at)
    else:
        return f"{end.bears_on}, {end.fixing}"
    return f"{end.bears_on} at {_mm(run)}, {end.fixing}"


def _mm(length: float) -> str:
    from trainer.plan import half  # noqa: PLC0415

    return f"{half(length):g}"


def _tail(end: End) -> str:
    return _mm(end.tail) if end.tail else "-"
