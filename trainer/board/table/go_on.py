"""What can be done with a house that is drawn: built, asked about, printed, made an assessment of."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import TYPE_CHECKING, Protocol

from trainer.board.command import Command
from trainer.board.library import HouseEntry, entry_of
from trainer.board.scenes.asking import show_message
from trainer.board.services import Services
from trainer.board.table.faults_said import faults_said
from trainer.board.table.form import button
from trainer.board.table.state import Table
from trainer.board.widgets import Label, Paragraph, Prose, Widget
from trainer.level.write import write_level
from trainer.words import CAUTION, INVENTED, _

if TYPE_CHECKING:
    from trainer.layout import Layout
    from trainer.level import Level


class AtTable(Protocol):
    """What these buttons need of the drawing table."""

    table: Table
    services: Services
    doing: Iterator[None]
    """What takes a while, a step a frame."""

    def save(self, then: Callable[[], None] = lambda: None) -> None:
        """Save the house, and go on."""


def go_on_panel(scene: AtTable) -> list[Widget]:
    """Return a button for each thing to do; until the house is sound, what is in the way."""
    faults = len(scene.table.study.faults)
    parts: list[Widget] = [
        Label(INVENTED, "small", "accent", key="table/invented"),
        *(
            button(name, run, f"table/{key}", kind="plain" if n else "primary")
            for n, (key, name, run) in enumerate(_doings(scene))
        ),
        button(_("Save it"), scene.save, "table/save"),
    ]
    if faults:
        said = _("Some of these wait until the faults under the sheet are put right.")
        parts.insert(1, Label(said, "small", "rework", key="table/waits"))
    notes = (_("A saved house stands among the houses, at the top, marked Your own."), CAUTION)
    return [*parts, Prose([Paragraph(text, "small", "panel_faint") for text in notes], key="table/caution")]


def _doings(scene: AtTable) -> tuple[tuple[str, str, Callable[[], None]], ...]:
    """What can be done with the house: (key, name, what does it), the likeliest first."""
    return (
        ("practise", _("Practise it"), lambda: practise(scene)),
        ("watch", _("Watch it built"), lambda: _with_entry(scene, lambda entry: _watch(scene, entry))),
        ("quiz", _("Quiz on it"), lambda: _with_entry(scene, scene.services.go_quiz)),
        ("drills", _("Drills on it"), lambda: _with_entry(scene, lambda entry: _drills(scene, entry))),
        ("print", _("Print its sheets and its card model"), lambda: _print(scene)),
        ("assessment", _("Make an assessment of it"), lambda: make_assessment(scene)),
    )


def going_on(scene: AtTable) -> list[Command]:
    """Return what can be done with the house, to be found by name."""
    return [Command(name, "", run) for _key, name, run in _doings(scene)]


def practise(scene: AtTable) -> None:
    """Save the house, and begin on it."""
    if _sound(scene) is None:
        return

    def begin() -> None:
        _with_entry(scene, lambda entry: scene.services.go_work(entry, "practice"))

    if scene.services.records.folder is None:
        begin()
    else:
        scene.save(begin)


def _sound(scene: AtTable) -> tuple[Level, Layout] | None:
    """Return the level and its layout; where there is none, say what is in the way."""
    found = scene.table.study
    if found.level is not None and found.layout is not None and found.sound:
        return found.level, found.layout
    lines = faults_said(found.drawing, found.faults)
    show_message(scene.services, _("Not yet"), [_("Put these right first:"), *lines])
    return None


def entry(table: Table, level: Level) -> HouseEntry:
    """Return the house on the table as the screens for building take it; it holds what its style gives."""
    text = table.source.text if table.saved and table.source is not None and not level.style else write_level(level)
    return entry_of(level, text)


def _with_entry(scene: AtTable, then: Callable[[HouseEntry], object]) -> None:
    found = _sound(scene)
    if found is not None:
        then(entry(scene.table, found[0]))


def _watch(scene: AtTable, house: HouseEntry) -> None:
    from trainer.board.scenes.film import FilmScreen

    scene.services.show(FilmScreen(scene.services, house, back=_("Drawing table"), leave=scene.services.go_table))


def _drills(scene: AtTable, house: HouseEntry) -> None:
    from trainer.board.scenes.drill_choice import DrillChoice

    scene.services.show(DrillChoice(scene.services, house))


def _print(scene: AtTable) -> None:
    from trainer.board.table.printing import print_sheets

    found = _sound(scene)
    if found is not None:
        scene.doing = print_sheets(scene.services, found[0])


def make_assessment(scene: AtTable) -> None:
    """Make a pack of this house, signed by this machine, that waits here under Assessments."""
    from trainer.records.clock import now
    from trainer.records.errors import RecordsError
    from trainer.records.files import write_whole
    from trainer.records.pack import make_pack
    from trainer.records.signed import write_signed
    from trainer.records.waiting import PACKS

    found, seat = _sound(scene), scene.services.records.seat()
    if found is None or seat is None:
        return
    level, _layout = found
    try:
        pack = make_pack(seat.key, level.title, [entry(scene.table, level).text], now(), scene.services.seed())
        path = seat.folder / PACKS / f"{level.id}.json"
        write_whole(path, write_signed(pack.signed))
    except RecordsError as error:
        show_message(scene.services, _("Not written"), [str(error)])
        return
    signed = _("Its file is {path}. This machine signed it. An assessor signs with a key of their own, under {name}.")
    waits = _("It waits on the houses' screen under **Assessments**, for whoever works here.")
    lines = [waits, signed.format(path=path, name=_("Assessor"))]
    show_message(scene.services, _("An assessment of {title}").format(title=level.title), lines)
