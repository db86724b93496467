"""The panels beside the sheet: the chosen wall and the tools, and the sizes of the house."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from functools import partial
from typing import TypeVar

from trainer.board.table.form import Numbers, choice_entry, length_entry, number_entry, text_entry
from trainer.board.table.state import GRIDS, OVER_IT, TOOL_NAMES, Table
from trainer.board.widgets import Button, Choice, Flow, Label, LineEntry, NumberEntry, Paragraph, Prose, Widget
from trainer.level.dangers import LIES
from trainer.picture.drafted import KIND_NAMES, fault_name
from trainer.table import (
    KINDS,
    NEAREST,
    Kind,
    Mirror,
    MoveWall,
    PushBay,
    PutBehind,
    SetBeam,
    SetDutch,
    SetLength,
    SplitWall,
    TakeInside,
    TakeOut,
    Turn,
    usual_depth,
    wall_behind,
    whole_mm,
)
from trainer.table.form_acts import Way
from trainer.words import INVENTED, _

T = TypeVar("T")
KIND_PICTURES: Mapping[Kind, str] = {
    "eave": "wall_eave", "gable": "wall_gable", "dutch gable": "wall_dutch", "beam": "wall_beam",
    "against": "wall_against",
}  # fmt: skip
KIND_WORDS: Mapping[Kind, str] = {
    "eave": _("hip end"), "gable": "", "dutch gable": _("gablet"), "beam": _("alfresco verandah patio carport porch"),
    "against": _("lean-to double storey"),
}  # fmt: skip
"""What people look for who do not know the words for a kind of wall."""


def drawing_panel(table: Table, entries: dict[str, float]) -> list[Widget]:
    """Return the tools, the chosen wall, and what is done to the whole; ``entries`` are measures that wait."""
    tools = [
        Button(
            name, partial(table.take_tool, tool), kind="quiet", checked=table.tool == tool, key=f"table/tool {tool}",
        )
        for tool, name in TOOL_NAMES.items()
    ]  # fmt: skip
    parts: list[Widget] = [
        *_kinds(table),
        Label(_("What the mouse does (W)"), "small", "panel_faint", key="table/tool"),
        Flow([*tools], gap=2, key="table/tools"),
    ]
    if table.tool == "danger":
        whats = list(LIES)
        parts.append(
            Choice(
                _("Which danger"), [fault_name(what) for what in whats], whats.index(table.danger),
                lambda i: _danger(table, whats[i]), key="table/danger",
            )
        )  # fmt: skip
    whole: list[Widget] = [
        Choice(
            _("Places snap to"), [f"{grid} mm" for grid in GRIDS], GRIDS.index(table.grid),
            lambda i: _grid(table, GRIDS[i]), key="table/grid", shortcut="G",
        ),
        Button(_("Mirror"), lambda: table.act(Mirror()), shortcut="M", key="table/mirror"),
        Button(_("Turn"), lambda: table.act(Turn()), shortcut="R", key="table/turn"),
    ]  # fmt: skip
    parts.append(Flow(whole, gap=8, key="table/whole"))
    if table.wall:
        return [*parts, *_wall(table, entries)]
    if table.drawing.closed:
        said = _("Press a wall to choose it, or N for the next one.")
        parts.append(Label(said, "small", "panel_faint", key="table/no wall"))
    return parts


def _kinds(table: Table) -> list[Widget]:
    """Return what a wall can be, in pictures; always at the same place, so that nothing moves when one is chosen."""
    wall, now = table.chosen
    said = _("What wall {wall} is").format(wall=wall) if wall else _("What the chosen wall is")
    kinds = [
        Button(
            KIND_NAMES[kind],
            partial(table.make_it, kind),
            kind="tool",
            picture=KIND_PICTURES[kind],
            shortcut=str(number),
            checked=kind == now,
            key=f"table/kind {kind}",
        )
        for number, kind in enumerate(KINDS, 1)
    ]
    return [Label(said, "strong", key="table/kind"), Flow([*kinds], gap=4, fill=True, key="table/kinds")]


def _danger(table: Table, what: str) -> None:
    table.danger = what
    table.changed()


def _grid(table: Table, grid: int) -> None:
    table.grid = grid
    table.changed()


def _wall(table: Table, entries: dict[str, float]) -> list[Widget]:
    """Return what there is to do with the chosen wall."""
    drawing, name = table.drawing, table.wall
    index = drawing.index(name)
    wall, length = drawing.walls[index], drawing.length(index)

    def entry(said: str, key: str, usual: float) -> NumberEntry:
        def take(number: float) -> None:
            entries[key] = number

        return NumberEntry(said, entries.get(key, usual), take, key=f"table/{key}", nudge=float(table.grid), exact=True)

    def number(key: str, usual: float) -> int:
        return whole_mm(entries.get(key, usual), NEAREST)

    said = _("Length of wall {wall} (F)").format(wall=name)
    parts: list[Widget] = [
        length_entry(table, said, length, lambda n: SetLength(name, n), "table/length", float(table.grid))
    ]
    if wall.dutch:
        at, verge = wall.dutch[0], 300 if wall.dutch[1] is None else wall.dutch[1]
        parts.append(
            _pair(
                length_entry(table, _("Girder in from the wall"), at, lambda n: SetDutch(name, n, verge),
                             "table/dutch at", 100.0),
                length_entry(table, _("Small verge"), verge, lambda n: SetDutch(name, at, n),
                             "table/dutch verge", 50.0, NEAREST),
            )
        )  # fmt: skip
    if wall.beam:
        parts += [*_behind(table, name, entry, number), *_beam(table, name, length)]

    def pushed() -> PushBay:
        return PushBay(name, number("bay from", 0), number("bay to", length), number("bay out", 900.0))

    parts += [
        _pair(
            entry(_("Move the wall out by"), "out", 600.0),
            Button(
                _("Move it out"), lambda: table.act_as(lambda: MoveWall(name, number("out", 600.0))),
                key="table/draw out",
            ),
        ),
        _pair(
            entry(_("Cut at"), "cut", length / 2),
            Button(
                _("Cut it"), lambda: table.act_as(lambda: SplitWall(name, number("cut", length / 2))),
                key="table/cut it",
            ),
        ),
        _pair(entry(_("A part from"), "bay from", 0.0), entry(_("to"), "bay to", float(length))),
        _pair(
            entry(_("This part out by"), "bay out", 900.0),
            Button(_("Set the part forward"), lambda: table.act_as(pushed), key="table/push out"),
        ),
        Button(_("Take this wall out"), lambda: table.act(TakeOut(name)), shortcut="Del", key="table/take out"),
    ]  # fmt: skip
    return parts


def _beam(table: Table, name: str, length: int) -> list[Widget]:
    """Return from where to where a wall is a beam, and where its posts stand."""
    wall = table.drawing.walls[table.drawing.index(name)]
    low, high = wall.stretch or (0, length)
    typed = table.posts or ", ".join(map(str, wall.posts or ()))
    return [
        _pair(
            length_entry(table, _("Beam from"), low, lambda n: SetBeam(name, (n, high), wall.posts),
                         "table/beam from", 100.0, NEAREST),
            length_entry(table, _("to"), high, lambda n: SetBeam(name, (low, n), wall.posts),
                         "table/beam to", 100.0, NEAREST),
        ),
        LineEntry(
            _("Posts at, mm from its first corner; none: by the rules"), typed, table.type_posts, key="table/posts",
            enter=table.put_posts,
        ),
    ]  # fmt: skip


def _behind(
    table: Table, name: str, entry: Callable[[str, str, float], Widget], number: Callable[[str, float], int]
) -> list[Widget]:  # fmt: skip
    """Return what is assumed of the wall behind a beam, and what changes it."""
    found, depth = wall_behind(table.drawing, name), usual_depth(table.drawing, name)
    if found is not None:
        index, into = found
        said = _("The wall {depth} behind the beam carries no truss. They run over it to the far wall.")
        change: Widget = Button(
            _("Take that wall out"), lambda: table.act(TakeInside(index)), key="table/behind out"
        )  # fmt: skip
        said = said.format(depth=into)
    else:
        said = OVER_IT
        change = _pair(
            entry(_("Wall behind the beam, at"), "behind", depth),
            Button(
                _("Put a wall there"),
                lambda: table.act_as(lambda: PutBehind(name, number("behind", depth))),
                key="table/behind in",
            ),
        )
    note = _("If the fabricator's plan lets that wall carry trusses, follow the plan: it can't be laid out here.")
    prose = [Prose([Paragraph(text, "small", "panel_faint")], key=f"table/behind {text}") for text in (said, note)]
    return [prose[0], change, prose[1]]


def _pair(one: Widget, other: Widget) -> Widget:
    return Flow([one, other], gap=8, key=f"pair/{one.key}")


# the sizes

ROOF: Numbers = (
    (_("Pitch"), ("roof", "pitch"), 22.5, 0.5, "°"),
    (_("Overhang"), ("roof", "overhang"), 450, 50, "mm"),
    (_("Heel"), ("roof", "heel"), 90, 10, "mm"),
    (_("Straight fascia past steps of"), ("roof", "straight_fascia"), 600, 50, "mm"),
    (_("Width of the plates"), ("plates", "width"), 90, 10, "mm"),
    (_("Height of the walls"), ("plates", "height"), 2400, 50, "mm"),
)
TRUSSES: Numbers = (
    (_("Spacing"), ("trusses", "spacing"), 600, 50, "mm"),
    (_("Setback"), ("trusses", "setback"), 1800, 100, "mm"),
    (_("Thickness of a ply"), ("trusses", "thickness"), 35, 5, "mm"),
    (_("Plies of a girder"), ("trusses", "girder_plies"), 2, 1, ""),
    (_("Outrigger depth"), ("trusses", "outrigger_depth"), 90, 10, "mm"),
    (_("Smallest saddle"), ("trusses", "smallest_saddle"), 0, 100, "mm"),
    (_("Saddle past its last truss, at most"), ("trusses", "saddle_overrun"), 300, 50, "mm"),
)
CHOICES: Sequence[tuple[str, Way, tuple[tuple[str, str], ...]]] = (
    (_("Cover"), ("roof", "cover"), (("sheet", _("sheet")), ("tile", _("tile")))),
    (
        _("Stations run to"), ("trusses", "stations_to"),
        (("centre line", _("the centre line")), ("near face", _("the near face"))),
    ),
    (
        _("Gable truss stands"), ("trusses", "gable_stands"),
        (("inside plate", _("inside the plate")), ("flush", _("flush with its outside"))),
    ),
)  # fmt: skip


def sizes_panel(table: Table) -> list[Widget]:
    """Return the form of the house's sizes; what is left alone has a usual value."""
    parts: list[Widget] = [
        Label(INVENTED, "small", "accent", key="table/invented"),
        text_entry(table, _("What the house is called"), ("title",), most=80),
        _style(table),
    ]
    numbers = [number_entry(table, *one) for one in (*ROOF, *TRUSSES)]
    parts.append(Flow([*numbers], gap=8, fill=True, key="table/numbers"))
    return [*parts, *(choice_entry(table, *one) for one in CHOICES)]


def _style(table: Table) -> Widget:
    """Return the choice of a house style; what it gives is taken from it, and from the level no more."""
    from trainer.table.form_acts import UseStyle

    names: list[str | None] = [None, *table.styles]
    now = table.drawing.at("style")
    return Choice(
        _("House style"), [name or _("none") for name in names], names.index(now) if now in names else 0,
        lambda i: table.act(UseStyle(names[i], table.habits(names[i]))), key="table/style",
    )  # fmt: skip
