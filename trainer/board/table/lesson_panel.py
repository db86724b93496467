"""The panel of the lesson: its stages and settings, what is found on the site, and trusses moved by hand."""

from __future__ import annotations

from collections.abc import Mapping
from functools import partial

from trainer.board.table.panels import Numbers, button, choice_entry, number_entry
from trainer.board.table.state import Table
from trainer.board.widgets import Button, Choice, Flow, Label, LineEntry, NumberEntry, Paragraph, Prose, Widget
from trainer.layout.changes import MOVED
from trainer.level.as_found import BY
from trainer.picture.drafted import fault_name
from trainer.table import MoveTruss, SetValue, moved_by_hand
from trainer.table.teaches import teaches
from trainer.terms import STAGE_NAMES, STAGES
from trainer.words import _

NUMBERS: Numbers = (
    (_("Practice mark"), ("lesson", "practice_mark"), 80, 5, ""),
    (_("Trusses stood in a day, 0: no nights"), ("site", "day"), 0, 5, ""),
)
YES: tuple[tuple[bool | None, str], ...] = ((True, _("yes")), (False, _("no")))
NO = YES[::-1]
TRUSS_FAULTS = ("missing truss", "broken web", "loose nailplate", "unwanted tail", "swapped tag")
WALL_FAULTS = ("bowed wall", "plate out of level", "wrong length", "out of square", "wall not braced")
WINDS = (("calm", _("calm")), ("fresh", _("fresh")), ("strong", _("strong")))
LIFT_PLAN: tuple[tuple[dict[str, int] | None, str], ...] = ((None, _("no")), ({"by_hand": 60}, _("yes")))
USUAL_BOW = 15.0


def lesson_panel(table: Table, entries: dict[str, float]) -> list[Widget]:
    """Return the settings of the lesson; ``entries`` are measures that wait."""
    drawing = table.drawing
    chosen = drawing.at("lesson", "stages") or list(STAGES)
    stages = [
        Button(
            STAGE_NAMES[stage], lambda stage=stage: _stage(table, stage), checked=stage in chosen,  # type: ignore[misc]
            kind="quiet", key=f"table/stage {stage}",
        )
        for stage in STAGES
    ]  # fmt: skip
    taught = drawing.at("lesson", "teaches") or ()
    return [
        Label(_("Stages that the learner does"), "strong", key="table/stages"),
        Flow([*stages], gap=4, key="table/stage row"),
        Flow([number_entry(table, *one) for one in NUMBERS[:1]], gap=8, key="table/lesson numbers"),
        choice_entry(table, _("Hints in practice"), ("lesson", "hints"), YES),
        choice_entry(table, _("Layout sheet to look at"), ("lesson", "layout_sheet"), YES),
        button(_("Suggest what it teaches"), lambda: _suggest(table), "table/suggest"),
        Prose([Paragraph(", ".join(taught) or _("Nothing named yet."), "small", "panel_faint")], key="table/teaches"),
        Label(_("The site"), "strong", key="table/site"),
        choice_entry(table, _("Wind at night"), ("site", "wind"), WINDS),
        _day(table),
        choice_entry(table, _("Asks for a lift plan"), ("site", "lifting"), LIFT_PLAN),
        choice_entry(table, _("Asks where the packs land"), ("site", "loading"), NO),
        *_found(table, entries),
        *_by_hand(table, entries),
    ]


def _stage(table: Table, stage: str) -> None:
    chosen = list(table.drawing.at("lesson", "stages") or STAGES)
    kept = [each for each in STAGES if (each in chosen) != (each == stage)]
    if not kept:
        table.said = _("A lesson has one stage at least.")
        table.changed()
        return
    table.act(SetValue(("lesson", "stages"), None if kept == list(STAGES) else kept))


def _suggest(table: Table) -> None:
    found = table.study
    if found.level is None or found.layout is None:
        table.said = _("Put the faults right first: what a lesson teaches comes of its layout.")
        table.changed()
        return
    table.act(SetValue(("lesson", "teaches"), list(teaches(found.level, found.layout))))


def _day(table: Table) -> Widget:
    found = table.drawing.at("site", "day")
    day = float(found) if type(found) is int else 0.0
    return NumberEntry(
        NUMBERS[1][0], day, lambda n: table.act(SetValue(("site", "day"), round(n) or None)), key="table/day", unit="",
        nudge=5.0,
    )  # fmt: skip


def _found(table: Table, entries: dict[str, float]) -> list[Widget]:
    """Return what is found wrong on the site, and how something is added or taken off."""
    kind, wall_kind = table.truss_fault, table.wall_fault
    size = entries.get("wall by", USUAL_BOW)

    def put_truss() -> None:
        other = {"other": table.other} if kind == "swapped tag" else {}
        _add(table, ("site", "delivery"), {"truss": table.truss, "fault": kind, **other})

    def put_wall() -> None:
        by = {"by": round(size)} if wall_kind in BY else {}
        _add(table, ("site", "walls"), {"wall": table.wall, "fault": wall_kind, **by})

    def take(number: float) -> None:
        entries["wall by"] = number

    swapped = LineEntry(_("and wears the tag of"), table.other, table.name_other, key="table/other")
    parts: list[Widget] = [
        LineEntry(_("A truss by its tag, such as ST3"), table.truss, table.name_truss, key="table/truss"),
        Choice(
            _("came with"), [fault_name(each) for each in TRUSS_FAULTS], TRUSS_FAULTS.index(kind),
            lambda i: table.choose_faults(truss=TRUSS_FAULTS[i]), key="table/truss fault",
        ),
        *([swapped] if kind == "swapped tag" else []),
        button(_("Add it to the delivery"), put_truss, "table/add truss fault"),
        Choice(
            _("The chosen wall has"), [fault_name(each) for each in WALL_FAULTS], WALL_FAULTS.index(wall_kind),
            lambda i: table.choose_faults(wall=WALL_FAULTS[i]), key="table/wall fault",
        ),
        *([NumberEntry(_("by"), size, take, key="table/wall by", nudge=5.0)] if wall_kind in BY else []),
        button(_("Add it to the walls"), put_wall, "table/add wall fault"),
        Label(_("Dangers are placed on the sheet: choose Danger as what the mouse does."), "small", "panel_faint"),
    ]  # fmt: skip
    return [*parts, *_taken_off(table)]


def _taken_off(table: Table) -> list[Widget]:
    """Return a button for each thing that is wrong on the site, which takes it off."""
    parts: list[Widget] = []
    for key in ("walls", "delivery", "dangers"):
        found = table.drawing.at("site", key) or ()
        for n, one in enumerate(found):
            rest = [each for i, each in enumerate(found) if i != n]
            act = SetValue(("site", key), rest or None)
            said = _("Take off: {what}").format(what=_line(one))
            parts.append(button(said, partial(table.act, act), f"table/off {key} {n}"))
    return parts or [Label(_("Nothing is wrong on this site."), "small", "panel_faint", key="table/nothing")]


def _line(one: Mapping[str, object]) -> str:
    """Say what is wrong, and of what."""
    of = next((f"{one[key]}" for key in ("truss", "wall", "tag", "at") if one.get(key)), "")
    return f"{fault_name(str(one.get('fault', one.get('what'))))}: {of}".removesuffix(": ")


def _add(table: Table, way: tuple[str, ...], one: dict[str, object]) -> None:
    named = one.get("wall", one.get("truss"))
    if not named:
        table.said = _("Choose a wall first.") if "wall" in one else _("Name a truss first.")
        table.changed()
        return
    table.act(SetValue(way, [*(table.drawing.at(*way) or ()), one]))


def _bullets(lines: list[str]) -> list[Paragraph]:
    return [Paragraph(line, "small", "panel_faint", "•", 2.0) for line in lines]


def _by_hand(table: Table, entries: dict[str, float]) -> list[Widget]:
    """Return what moves a truss off the rule, as a fabricator's drawing may have it, and all that were moved."""
    layout = table.study.layout
    member = layout.by_tag.get(table.truss) if layout is not None else None
    parts: list[Widget] = [Label(_("Fixed by hand"), "strong", key="table/by hand")]
    if member is not None and member.kind in MOVED:
        station = entries.get(f"station {member.tag}", member.station)
        parts += [
            NumberEntry(
                _("Station of {tag}").format(tag=member.tag), station,
                lambda n: entries.update({f"station {member.tag}": n}), key="table/station", nudge=10.0,
            ),
            button(_("Move it there"), lambda: table.act(MoveTruss(member.tag, station)), "table/move truss"),
            button(_("Back to the rule"), lambda: table.act(MoveTruss(member.tag, None)), "table/to rule"),
        ]  # fmt: skip
    else:
        said = _("Name a standard or truncated truss above to move it, as a fabricator's drawing may have it.")
        parts.append(Label(said, "small", "panel_faint", key="table/no truss"))
    text = _("{tag}: {by_hand:g}, by the rule {rule:g}")
    lines = [text.format(tag=tag, by_hand=by_hand, rule=rule) for tag, rule, by_hand in moved_by_hand(table.drawing)]
    if lines:
        parts.append(Prose(_bullets(lines), key="table/moved"))
    return parts
