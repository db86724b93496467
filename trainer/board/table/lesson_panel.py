"""The panel of the lesson: its stages and settings, what is found on the site, and trusses moved by hand."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import partial
from typing import Literal, get_args

from trainer.board.table.form import Numbers, button, choice_entry, lines_entry, number_entry, optional_entry, several
from trainer.board.table.state import Table
from trainer.board.widgets import Button, Choice, Flow, Label, LineEntry, NumberEntry, Paragraph, Prose, Widget
from trainer.layout import Member
from trainer.layout.changes import MOVED
from trainer.layout.model import BRACKETS, CONNECTORS
from trainer.level.as_found import BY, CHECKS, OTHER_CHECKS, SiteSettings, TrussFault, WallFault
from trainer.level.dangers import LATE, Lifting
from trainer.level.lesson import Lesson
from trainer.picture.drafted import fault_name
from trainer.table import FastenTruss, MoveTruss, SetValue, moved_by_hand
from trainer.table.teaches import teaches
from trainer.terms import SEVERITY_NAMES, STAGE_NAMES, STAGES, thing
from trainer.words import _

_LESSON, _SITE, _LIFTING = Lesson(), SiteSettings(), Lifting()
NUMBERS: Numbers = (
    (_("Practice mark"), ("lesson", "practice_mark"), _LESSON.practice_mark, 5, ""),
    (_("Each hint takes off"), ("lesson", "hint_cost"), _LESSON.hint_cost, 1, ""),
    *(
        (_("{severity} takes off").format(severity=SEVERITY_NAMES[each]), ("lesson", "weights", each), weight, 1, "")
        for each, weight in _LESSON.weights.by_severity().items()
    ),
)
CLEAR: Numbers = (
    (_("Stay clear of open edges by"), ("site", "clear_of_edge"), _SITE.clear_of_edge, 100, "mm"),
    (_("Written method for a fall from"), ("site", "fall_height"), _SITE.fall_height, 100, "mm"),
    (_("Loads stay off service lines by"), ("site", "clear_of_lines"), _SITE.clear_of_lines, 500, "mm"),
)
BY_PLAN: Numbers = (
    (_("By hand, at most"), ("site", "lifting", "by_hand"), _LIFTING.by_hand, 5, "kg"),
    (_("By hand, no longer than"), ("site", "lifting", "by_hand_span"), _LIFTING.by_hand_span, 100, "mm"),
    (_("Spread slings if longer than"), ("site", "lifting", "spread_over"), _LIFTING.spread_over, 100, "mm"),
    (_("Mass of the timber"), ("site", "lifting", "density"), _LIFTING.density, 10, "kg/m³"),
)
YES: tuple[tuple[bool | None, str], ...] = ((True, _("yes")), (False, _("no")))
NO = YES[::-1]
TRUSS_FAULTS: tuple[str, ...] = get_args(TrussFault)
WALL_FAULTS: tuple[str, ...] = get_args(WallFault)
WINDS = (("calm", _("calm")), ("fresh", _("fresh")), ("strong", _("strong")))
USUAL_BOW = 15.0
ENDS: tuple[Literal["from", "to"], ...] = ("from", "to")


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
    return [
        Label(_("Stages that the learner does"), "strong", key="table/stages"),
        Flow([*stages], gap=4, key="table/stage row"),
        _flow(table, NUMBERS[:1], "practice mark"),
        choice_entry(table, _("Hints in practice"), ("lesson", "hints"), YES),
        choice_entry(table, _("Layout sheet to look at"), ("lesson", "layout_sheet"), YES),
        button(_("Suggest what it teaches"), lambda: _suggest(table), "table/suggest"),
        *_teaches(table),
        Label(_("The site"), "strong", key="table/site"),
        choice_entry(table, _("Wind at night"), ("site", "wind"), WINDS),
        optional_entry(table, _("Trusses stood in a day; 0: no nights"), ("site", "day"), 5),
        *_lift_plan(table),
        choice_entry(table, _("Asks where the packs land"), ("site", "loading"), NO),
        *_found(table, entries),
        *_by_hand(table, entries),
        *_more(table),
    ]


def _more(table: Table) -> list[Widget]:
    """Return what few lessons set."""
    return [
        Label(_("More of the lesson"), "strong", key="table/more"),
        _flow(table, NUMBERS[1:], "marks"),
        choice_entry(table, _("Kept for assessment, unseen in practice"), ("lesson", "unseen"), NO),
        lines_entry(table, _("What is new here, a few words a line"), ("lesson", "ideas"), show=3),
        optional_entry(table, _("Minutes that it takes; 0: not said"), ("lesson", "minutes"), 5),
        optional_entry(table, _("Place on the path; 0: the last"), ("lesson", "place"), 1),
        Label(_("More of the site"), "strong", key="table/more site"),
        _flow(table, CLEAR, "clear"),
        several(table, _("Looked at before lifting"), ("site", "checks"), (*CHECKS, *OTHER_CHECKS), CHECKS),
    ]


def _stage(table: Table, stage: str) -> None:
    chosen = list(table.drawing.at("lesson", "stages") or STAGES)
    kept = [each for each in STAGES if (each in chosen) != (each == stage)]
    if not kept:
        table.said = _("A lesson has one stage at least.")
        table.changed()
        return
    table.act(SetValue(("lesson", "stages"), None if kept == list(STAGES) else kept))


def _teaches(table: Table) -> list[Widget]:
    """Return the rules that the lesson names, each to be taken off and put back; those that are suggested with them."""
    found, taught = table.study, table.drawing.at("lesson", "teaches")
    if not taught:
        return [Label(_("Nothing named yet."), "small", "panel_faint", key="table/lesson.teaches")]
    suggested = teaches(found.level, found.layout) if found.level and found.layout else ()
    return [several(table, _("It teaches these rules"), ("lesson", "teaches"), suggested, ())]


def _suggest(table: Table) -> None:
    found = table.study
    if found.level is None or found.layout is None:
        table.said = _("Put the faults right first: what a lesson teaches comes of its layout.")
        table.changed()
        return
    table.act(SetValue(("lesson", "teaches"), list(teaches(found.level, found.layout))))


def _flow(table: Table, numbers: Numbers, key: str) -> Widget:
    return Flow([number_entry(table, *one) for one in numbers], gap=8, fill=True, key=f"table/{key}")


def _lift_plan(table: Table) -> list[Widget]:
    """Return whether a lift plan is asked for, and what it goes by then."""
    asked = table.drawing.at("site", "lifting") is not None
    new = None if asked else {"by_hand": _LIFTING.by_hand}
    choice = Choice(
        _("Asks for a lift plan"), [_("no"), _("yes")], int(asked),
        lambda _i: table.act(SetValue(("site", "lifting"), new)), key="table/site.lifting",
    )  # fmt: skip
    return [choice, _flow(table, BY_PLAN, "lift plan")] if asked else [choice]


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
            parts += _more_of(table, found, n) if key == "dangers" else []
    return parts or [Label(_("Nothing is wrong on this site."), "small", "panel_faint", key="table/nothing")]


def _more_of(table: Table, dangers: Sequence[Mapping[str, object]], n: int) -> list[Widget]:
    """Return what else is said of a danger: how near a line the load swings, or after how many lifts it comes."""
    one = dangers[n]
    asked = {"clear": _("How near to it loads swing"), "after": _("It comes after so many lifts")}
    key, unit, nudge = ("clear", "mm", 500.0) if one.get("what") == "service line" else ("after", "", 1.0)
    if key == "after" and one.get("what") not in LATE:
        return []
    now = one.get(key, 0)
    number = float(now) if isinstance(now, int) else 0.0

    def take(new: float) -> None:
        changed = {**one, key: round(new)} if new else {k: v for k, v in one.items() if k != key}
        if new != number:
            table.act(SetValue(("site", "dangers"), [*dangers[:n], changed, *dangers[n + 1 :]]))

    return [NumberEntry(asked[key], number, take, key=f"table/site.dangers.{key} {n}", unit=unit, nudge=nudge)]


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
    if member is not None:
        parts += [_fastener(table, member, end) for end in ENDS]
    text = _("{tag}: {by_hand:g}, by the rule {rule:g}")
    lines = [text.format(tag=tag, by_hand=by_hand, rule=rule) for tag, rule, by_hand in moved_by_hand(table.drawing)]
    if lines:
        parts.append(Prose(_bullets(lines), key="table/moved"))
    return parts


def _fastener(table: Table, member: Member, end: Literal["from", "to"]) -> Widget:
    """Return what fastens one end of a truss, where the fabricator's drawing has it otherwise."""
    by_hand: Sequence[Mapping[str, object]] = table.drawing.at("layout") or ()
    now = next((one.get(end) for one in by_hand if one.get("truss") == member.tag), None)
    which = member.ends[ENDS.index(end)]
    known = CONNECTORS if which.on_plate or member.kind == "saddle" else BRACKETS
    options: list[str | None] = [None, *known]
    said = _("{tag} on {bearing} is held by").format(tag=member.tag, bearing=which.bears_on)
    return Choice(
        said, [thing(each) if each else _("what the job says") for each in options],
        options.index(now) if now in options else 0,
        lambda i: table.act(FastenTruss(member.tag, end, options[i])), key=f"table/layout.{end}",
    )  # fmt: skip
