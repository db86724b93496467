"""The slips of the tools that look, say and put right: check, measure, report, string, plumb, cut, load, inspect."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import get_args

from trainer.board import bench as hand
from trainer.board.bench import BETWEEN
from trainer.board.scenes.desk import AT, Desk
from trainer.board.tools import Tool
from trainer.board.verbs import of_wall
from trainer.board.widgets import Button, Choice, Entry, Flow, Label, Widget
from trainer.board.wording import piece_in_words
from trainer.layout.bracing import KINDS
from trainer.level.as_found import TrussFault, WallFault
from trainer.site.actions import Cut, Load, TrussReading, WallReading
from trainer.terms import CUTS, FAULTS, LOADS, READINGS, thing
from trainer.words import _

WHATS: tuple[str, ...] = (BETWEEN, *get_args(WallReading), *get_args(TrussReading))
FAULT_KINDS: tuple[str, ...] = (*get_args(WallFault), *get_args(TrussFault))
WHERES: tuple[str, ...] = get_args(Cut.model_fields["where"].annotation)
LOAD_KINDS: tuple[str, ...] = get_args(Load.model_fields["what"].annotation)


def heading(text: str) -> Label:
    """Return the heading of a slip."""
    return Label(text, "heading", role="heading")


def faint(text: str) -> Label:
    """Return a small line of advice."""
    return Label(text, "small", "panel_faint")


def go(work: Desk, name: str) -> Button:
    """Return the button that does what the tool is aimed at."""
    return Button(name, work.act, kind="primary", shortcut="Enter", key="slip/go")


def walls(work: Desk) -> list[str]:
    """Return the names of the walls."""
    return [wall.name for wall in work.site.layout.house.plan.walls]


def choice_of(
    work: Desk, name: str, field: str, options: Sequence[str], names: Mapping[str, str], *, shortcut: str = "C"
) -> Choice:
    """Return a choice that puts one of ``options`` in a field of the bench."""

    def put(index: int) -> None:
        work.change(lambda b: setattr(b, field, options[index]))

    now = getattr(work.bench, field)
    index = options.index(now) if now in options else 0
    shown = [names.get(option, option) for option in options]
    return Choice(name, shown, index, put, key=f"slip/{field}", shortcut=shortcut)


def _wall(work: Desk) -> Choice:
    return choice_of(work, _("Wall"), "wall", walls(work), {}, shortcut="W")


def _chosen(work: Desk, *, standing: bool = True) -> Label:
    tag = work.bench.truss
    if tag and (not standing or tag in work.site.stood):
        return faint(_("Chosen: {tag}").format(tag=tag))
    return faint(_("Choose a standing truss.") if standing else _("Choose a truss in a list."))


def _check(work: Desk) -> list[Widget]:
    item = work.bench.item
    return [
        heading(_("Check before you lift")),
        faint(thing(item) or _("Nothing to check here.")),
        go(work, _("Checked")),
    ]


def _measure(work: Desk) -> list[Widget]:
    what = choice_of(work, _("What"), "what", WHATS, READINGS)
    if work.bench.what == BETWEEN:
        return [heading(_("Measure")), what, faint(_("Press on two places of the plan. Arrows and Enter do it too."))]
    aimed = _wall(work) if of_wall(work.bench.what) else _chosen(work)
    return [heading(_("Measure")), what, aimed, go(work, _("Measure it"))]


def _report(work: Desk) -> list[Widget]:
    fault = choice_of(work, _("What is wrong"), "fault", FAULT_KINDS, FAULTS)
    aimed = _wall(work) if of_wall(work.bench.fault) else _chosen(work, standing=False)
    return [heading(_("Report a fault")), fault, aimed, go(work, _("Report it"))]


def _string(work: Desk) -> list[Widget]:
    picked = " – ".join(work.bench.picked) or _("none yet")
    what = _("Picked: {tags}. Pick two that stand.").format(tags=picked)
    return [heading(_("Pull a string line")), faint(what), go(work, _("Pull it"))]


def _plumb(work: Desk) -> list[Widget]:
    return [heading(_("Straighten")), _chosen(work), go(work, _("Set it plumb"))]


def _cut(work: Desk) -> list[Widget]:
    where = choice_of(work, _("Where"), "where", WHERES, CUTS)
    return [heading(_("Cut a truss")), _chosen(work, standing=False), where, go(work, _("Cut it"))]


def _unbrace(work: Desk) -> list[Widget]:
    piece = hand.bracing_at(work.bench, work.site)
    say = piece_in_words(piece) if piece else _("There is no bracing to take off.")
    return [heading(_("Take bracing off")), faint(say), go(work, _("Take it off"))]


def _restrain(work: Desk) -> list[Widget]:
    bench = work.bench
    kind = choice_of(work, _("Kind"), "restraint", KINDS, {kind: thing(kind) for kind in KINDS})
    points = (*bench.tape, bench.point, bench.point)[:2]

    def entry(name: str, end: int, axis: int, key: str) -> Entry:
        def take(number: float) -> None:
            x, y = points[end]
            work.change(lambda b: hand.put_point(b, end, (number, y) if axis == 0 else (x, number)))

        return Entry(name, points[end][axis], take, key=key, enter=work.act, nudge=10.0)

    row = [
        entry(_("Begins: across"), 0, 0, AT), entry(_("Begins: up"), 0, 1, "slip/up"),
        entry(_("Ends: across"), 1, 0, "slip/to across"), entry(_("Ends: up"), 1, 1, "slip/to up"),
    ]  # fmt: skip
    return [
        heading(_("Restrain: permanent bracing")),
        faint(_("Press on two places, or type them: across and up the plan from the corner of wall A.")),
        kind,
        Flow(row, fill=True, key="slip/row"),
        go(work, _("Put it in")),
    ]


def _load(work: Desk) -> list[Widget]:
    return [
        heading(_("Load the roof")),
        choice_of(work, _("With"), "load", LOAD_KINDS, LOADS),
        go(work, _("Load it")),
    ]


def _inspect(work: Desk) -> list[Widget]:
    def put(index: int) -> None:
        work.change(lambda b: setattr(b, "accept", index == 0))

    verdict = Choice(
        _("Your verdict"), [_("accept it"), _("reject it")], int(not work.bench.accept), put, key="slip/accept",
        shortcut="C",
    )  # fmt: skip
    seen = work.site.inspected
    left = sum(tag not in seen for tag in work.site.stood)
    return [
        heading(_("Inspect")),
        _chosen(work),
        Flow([verdict], fill=True, key="slip/row"),
        faint(_("{n} trusses are not inspected yet.").format(n=left)),
        go(work, _("Say so")),
    ]


SLIPS: dict[Tool, Callable[[Desk], list[Widget]]] = {
    "check": _check, "measure": _measure, "report": _report, "string": _string, "plumb": _plumb, "cut": _cut,
    "unbrace": _unbrace, "restrain": _restrain, "load": _load, "inspect": _inspect,
}  # fmt: skip
