"""The class: a line for each attempt that was taken in, reports, and what becomes of the records."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from trainer.board.scenes.asking import confirm, show_message
from trainer.board.scenes.folders import choose_folder
from trainer.board.scenes.reporting import report_attempt
from trainer.board.widgets import Button, Choice, Flow, LineEntry, Listing, Paragraph, Prose, Row, Widget
from trainer.records.errors import RecordsError
from trainer.records.keeping import back_up
from trainer.records.people import attempts_of, erase, keep_for, let_go, overdue, retention_days
from trainer.records.proof import Proved, prove
from trainer.records.stick import missing_results
from trainer.records.trust import trust_and_why
from trainer.records.waiting import assessors_in
from trainer.report.class_book import book_rows
from trainer.report.class_content import NO_RESULT
from trainer.words import _, ngettext

if TYPE_CHECKING:
    from trainer.board.scenes.desk_page import DeskPage

DAYS = (None, 30, 90, 365, 730, 2555)


class OfClass:
    """Who is in the records of this machine, and how they did."""

    title = _("Class and records")

    def __init__(self, screen: DeskPage) -> None:
        self.screen = screen
        self.chosen = ""
        self.code = ""
        self._proved: dict[bytes, Proved] = {}

    def attempts(self) -> list[Proved]:
        """Return what was taken in, judged again, by code name and time."""
        store = self.screen.seat.store
        every = [each for id_ in store.ids() for each in store.attempts(id_) if each.fault is None]
        for each in every:
            if each.head not in self._proved:
                self._proved[each.head] = prove(each)
        sat = [self._proved[each.head] for each in every if each.houses or each.papers]
        return sorted(sat, key=lambda each: (each.code, each.began, each.id))

    def widgets(self) -> list[Widget]:
        """Return the list and what can be done."""
        trusted = assessors_in(self.screen.seat.folder)
        labelled = [(each, *trust_and_why(each, trusted)) for each in self.attempts()]
        rows = []
        for each, trust, why in labelled:
            ((code, _began, marks, questions, time, _trust),) = book_rows([(each, trust)])
            second = _("{time}; questions {questions}; {trust}: {why}")
            said = second.format(time=time, questions=questions, trust=trust, why=why)
            rows.append(Row(each.head.hex(), f"{code}: {marks}", second=said))
        listing = Listing(
            _("Attempts"), rows, self.chosen or (rows[0].key if rows else ""), self._choose, take=self.report,
            empty=_("Nothing is taken in yet."), key="desk/attempts", tall=True, show=4,
        )  # fmt: skip
        listing.grows = False
        folder = self.screen.class_folder
        missing = missing_results(folder, [each for each, _trust, _why in labelled]) if folder else ()
        named_missing = f"{NO_RESULT}: {', '.join(missing)}"
        kept = retention_days(self.screen.seat.store)
        named = [_("until erased") if n is None else ngettext("{n} day", "{n} days", n).format(n=n) for n in DAYS]
        at = DAYS.index(kept) if kept in DAYS else 0
        return [
            listing,
            *([Prose([Paragraph(named_missing)], key="desk/missing")] if missing else []),
            Flow(
                [
                    Button(_("Report on this one"), partial(self.report, ""), key="desk/report", enabled=bool(rows)),
                    Button(_("Report on the class"), self.class_report, key="desk/class report", enabled=bool(rows)),
                ],
                gap=10,
            ),
            Choice(_("Attempts are kept"), named, at, self._keep, key="desk/keep"),
            Button(_("Erase what was kept long enough"), self.erase_due, key="desk/due"),
            LineEntry(_("Erase a person: the code name"), self.code, self._take, key="desk/erase code"),
            Button(_("Erase this person"), self.erase, key="desk/erase"),
            Button(_("Back up all records"), self.back_up, key="desk/backup"),
        ]  # fmt: skip

    def _choose(self, row: str) -> None:
        self.chosen = row
        self.screen.refresh()

    def _take(self, code: str) -> None:
        self.code = code

    def report(self, _row: str) -> None:
        """Write the report of the chosen attempt."""
        chosen = next((each for each in self.attempts() if each.head.hex() == self.chosen), None)
        every = self.attempts()
        if chosen or every:
            report_attempt(self.screen.services, (chosen or every[0]).head_code)

    def class_report(self) -> None:
        """Write the report of the class."""
        self.screen.report_class()

    def _keep(self, index: int) -> None:
        try:
            keep_for(self.screen.seat.store, DAYS[index])
        except RecordsError as error:
            show_message(self.screen.services, _("It was not kept"), [str(error)])
        self.screen.refresh()

    def erase_due(self) -> None:
        """Ask before what was kept long enough is erased."""
        seat = self.screen.seat
        due = overdue(seat.store, seat.clock())
        n = len({each.id for each in due})
        if not due:
            show_message(self.screen.services, _("Nothing is due"), [_("Nothing was kept longer than you set.")])
            return
        text = ngettext("{n} attempt goes, for good.", "{n} attempts go, for good.", n).format(n=n)
        then = partial(self._do, lambda: let_go(seat.store, due, keep_statistics=True))
        confirm(self.screen.services, _("Erase them?"), [text], _("Erase"), then)

    def erase(self) -> None:
        """Ask before a person is erased."""
        store, code = self.screen.seat.store, self.code.strip()
        n = len({each.id for each in attempts_of(store, code)})
        if not n:
            show_message(self.screen.services, _("Nobody was erased"), [_("Nothing is recorded of that code name.")])
            return
        text = ngettext("{code} goes with {n} attempt, for good.", "{code} goes with {n} attempts, for good.", n)
        lines = [text.format(code=code, n=n), _("Files on sticks and backups made before are not reached.")]
        then = partial(self._do, lambda: erase(store, code))
        confirm(self.screen.services, _("Erase this person?"), lines, _("Erase"), then)

    def _do(self, change: Callable[[], object]) -> None:
        try:
            change()
            self.code = ""
        except RecordsError as error:
            show_message(self.screen.services, _("It was not done"), [str(error)])
        self.screen.refresh()

    def back_up(self) -> None:
        """Ask where the backup goes."""
        start = self.screen.ui.memory.get("folders/last", Path.home())
        choose_folder(self.screen.services, _("Where does the backup go?"), start, self._back_up)

    def _back_up(self, folder: Path) -> None:
        path = folder / f"records-{self.screen.services.stamp()}.db"
        try:
            health = back_up(self.screen.seat.store, path)
        except RecordsError as error:
            show_message(self.screen.services, _("There is no backup"), [str(error)])
            return
        lines = [_("It is in this file, with the names too: keep it as carefully."), str(path), *health.troubles]
        show_message(self.screen.services, _("The backup is made"), lines)
