"""``trainer layout``: the set-out table of a level, or its layout as JSON."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

import typer

from trainer.cli.given import AsJson, LevelName, given_layout, given_level
from trainer.cli.table import table

if TYPE_CHECKING:
    from trainer.layout import End, Layout, Member

HEADS = ("tag", "kind", "station", "span", "from", "tail", "to", "tail", "carried by", "area m2")


def layout(level: LevelName, as_json: AsJson = False) -> None:
    """Print a level's set-out table.

    Every truss with its station, bearings, fixings, tails and carriers, wing by wing.
    """
    from trainer.layout.as_json import layout_json  # noqa: PLC0415

    given = given_level(level)
    worked = given_layout(given)
    if as_json:
        typer.echo(json.dumps(layout_json(given.id, worked)))
    else:
        typer.echo(_for_people(given.title, worked))


def _for_people(title: str, worked: Layout) -> str:
    from trainer.picture import counts_in_words, settings_in_words  # noqa: PLC0415
    from trainer.words import CAUTION, INVENTED  # noqa: PLC0415

    parts = [f"{title}: set-out", INVENTED, settings_in_words(worked)]
    for wing in worked.wings:
        members = [member for member in worked.members if member.wing == wing.id]
        if not members:
            continue
        x1, y1, x2, y2 = (f"{value:g}" for value in wing.rect)
        parts.append(f"Wing {wing.id}: ({x1}, {y1}) to ({x2}, {y2}), span {wing.span:g}, ridge along {wing.axis}")
        parts.append(table(HEADS, [_row(worked, member) for member in members], "llrrlrlrlr"))
    parts.append(f"{len(worked.members)} trusses: {counts_in_words(worked)}.")
    parts.append(CAUTION)
    return "\n\n".join(parts)


def _row(worked: Layout, member: Member) -> tuple[str, ...]:
    one, two = member.ends
    return (
        member.tag,
        member.kind.replace("_", " ") + (f" x{member.plies}" if member.plies > 1 else ""),
        f"{member.station:g}",
        f"{member.span:.0f}",
        _bearing(worked, one),
        _tail(one),
        _bearing(worked, two),
        _tail(two),
        ", ".join(member.carried_by) or "-",
        f"{member.tributary_m2:.2f}",
    )


def _bearing(worked: Layout, end: End) -> str:
    """Return what an end bears on, where along it the tape shows, and how it is fixed."""
    if end.on_plate:
        wall = worked.house.plan.by_name[end.bears_on.removeprefix("plate ")]
        run = abs(end.at[0] - wall.a[0]) + abs(end.at[1] - wall.a[1])
    elif carrier := worked.by_tag.get(end.bears_on):
        run = abs(end.at[0] - carrier.start[0]) + abs(end.at[1] - carrier.start[1])
    else:
        return f"{end.bears_on}, {end.fixing}"
    return f"{end.bears_on} at {run:g}, {end.fixing}"


def _tail(end: End) -> str:
    return f"{end.tail:.0f}" if end.tail else "-"
