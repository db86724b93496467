"""Take back: who of a class is back, the closing codes in one table, and what came of it."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from trainer.board.scenes.asking import show_message
from trainer.board.scenes.folders import choose_folder
from trainer.board.widgets import Button, Label, LineEntry, Widget
from trainer.records.countersign import TYPE_CODE, pack_is_missing, signed_result, standing
from trainer.records.desk import take_back
from trainer.records.errors import RecordsError
from trainer.records.remarks import remarks, seen_together
from trainer.records.stick import RESULTS, Place, packs_of, places, results_in
from trainer.records.trust import rank_by
from trainer.records.waiting import PACKS, assessors_in
from trainer.words import _, listed, ngettext

if TYPE_CHECKING:
    from trainer.board.scenes.desk_page import DeskPage
    from trainer.records.stick import Result

EVERY = 5_000
"""The folder is looked at again after so many ms, so that the class fills as results come."""


class TakeBack:
    """The folder that came back, and what was typed of the codes."""

    title = _("Take back")

    def __init__(self, screen: DeskPage) -> None:
        self.screen = screen
        self.written: dict[str, str] = {}
        self.troubles: list[str] = []
        self.said: tuple[str, ...] = ()
        """What is to be said of the class, or came of the last taking back."""
        self.results: tuple[Result, ...] = ()
        self._places: tuple[Place, ...] = ()
        self._looked = -EVERY
        self._seen: object = None
        self._noticed: dict[bytes, tuple[str, ...]] = {}
        """What is to be asked about before an attempt is signed, by its last hash."""

    @property
    def folder(self) -> Path | None:
        """The folder of the class."""
        return self.screen.class_folder

    def look(self, now_ms: int) -> bool:
        """Look from time to time whether results have come; return whether something has."""
        if self.folder is None or now_ms - self._looked < EVERY:
            return False
        self._looked = now_ms
        seen = [*_files_in(self.folder / RESULTS), *_files_in(self.folder / PACKS)]
        if seen == self._seen:
            return False
        self._seen, self.troubles = seen, []
        self.results = results_in(self.folder, self.troubles)
        every, seat = [each.attempt for each in self.results], self.screen.seat
        self._places = places(self.folder, every, self.troubles)
        together = seen_together(every, seat.clock(), rank_by(self._known))
        packs = packs_of(each.file for each in self.results)
        self._noticed = {
            each.head: (*remarks(each), *filter(None, [together.get(each.id), pack_is_missing(each, packs)]))
            for each in every
        }
        return True

    @property
    def _known(self) -> dict[str, str]:
        """The keys of the assessors whose tickets and signatures count here, the open one's among them."""
        return assessors_in(self.screen.seat.folder)

    def await_results(self, lines: Sequence[str]) -> None:
        """Wait for the results of a class that was handed out just now."""
        self.said = tuple(lines)
        self._again()

    def waits(self) -> bool:
        """Look whether the class that was handed out last is still out: a result missing, or not signed yet."""
        if self.folder is None or not self.folder.is_dir():
            return False
        self._again()
        known = self._known
        return any(signed_result(row, known) is None for row in self._places)

    def _again(self) -> None:
        """Look at the folder anew."""
        self._seen = None
        self.look(self._looked + EVERY)

    def widgets(self) -> list[Widget]:
        """Return the table."""
        choose = Button(_("Choose the folder of the class"), self.choose, key="desk/folder")
        if self.folder is None:
            return [Label(_("Which folder came back?"), "body"), choose]
        tickets = [each for each in self._places if each.ticket_there]
        back = sum(bool(each.sat) for each in tickets)
        text = _("{n} of {all} results are back, in {folder}").format(n=back, all=len(tickets), folder=self.folder)
        said: list[Widget] = [Label(line, "body", key=f"desk/said/{n}") for n, line in enumerate(self.said)]
        said.append(Label(text, "strong", key="desk/back"))
        known = self._known
        for row in self._places:
            said += [*self._row(row, known), *self._worth_a_look(row)]
        said += [Label(text, "small", key=f"desk/trouble/{n}") for n, text in enumerate(self.troubles)]
        report = Button(_("Report on the class"), self.screen.report_class, key="desk/class report")
        take = Button(_("Counter-sign by these codes, and take all in"), self.take, kind="primary", key="desk/take")
        return [choose, *said, *([take, report] if self.results else [])]

    def _row(self, row: Place, known: dict[str, str]) -> list[Widget]:
        came = standing(row, known)
        said = [] if came == TYPE_CODE else [Label(f"{row.code}: {came}", "body")]
        if row is not self._asks(row.code, known):
            return [*said]
        name = _("{code}: the code at the close").format(code=row.code)
        typed = self.written.get(row.code, "")
        return [
            *said,
            LineEntry(name, typed, partial(self._write, row.code), key=f"desk/code/{row.code}", enter=self.take),
        ]

    def _asks(self, code: str, known: dict[str, str]) -> Place | None:
        """The first of a candidate's places with something to sign: one code is typed for all that is theirs."""
        theirs = (each for each in self._places if each.code == code and signed_result(each, known) is None)
        return next((each for each in theirs if any(made.closed for made in each.sat)), None)

    def _worth_a_look(self, row: Place) -> list[Widget]:
        texts = [text for each in row.sat for text in self._noticed.get(each.head, ())]
        return [
            Label(_("{code}: {text}").format(code=row.code, text=text), "small", key=f"desk/look/{row.code}/{n}")
            for n, text in enumerate(dict.fromkeys(texts))
        ]

    def _write(self, code: str, text: str) -> None:
        self.written[code] = text

    def choose(self) -> None:
        """Ask for the folder that came back."""
        start = self.folder or self.screen.ui.memory.get("folders/last", Path.home())
        choose_folder(self.screen.services, _("The folder of the class"), start, self._open)

    def _open(self, folder: Path) -> None:
        self.screen.ui.memory["folders/last"] = folder
        self.said = ()
        self.screen.keep_class(folder)
        self._again()
        self.screen.refresh()

    def take(self) -> None:
        """Counter-sign what has its code, take all in, and say what came of it."""
        written = {code: [text] for code, text in self.written.items() if text.strip()}
        from trainer.board.quiz_start import bank

        seat = self.screen.seat
        try:
            came = take_back(seat.store, self.results, written, self.screen.desk.key, self._known, seat.clock(), bank)
        except RecordsError as error:
            show_message(self.screen.services, _("They were not taken in"), [str(error)])
            return
        n = sum(each.fate != "known" for each in came.taken)
        text = ngettext("{n} result is newly taken in or signed.", "{n} results are newly taken in or signed.", n)
        lines = [text.format(n=n)]
        if came.signed:
            lines.append(_("Counter-signed: {codes}.").format(codes=listed(came.signed)))
        lines += came.said
        lines += [
            _("{code} was left out: its id is here under the code name {other}.").format(
                code=each.attempt.code, other=each.under
            )
            for each in came.taken
            if each.fate == "other"
        ]
        self.written = {code: text for code, text in self.written.items() if code not in came.signed}
        self._again()
        self.said = tuple(lines)
        self.screen.refresh()


def _files_in(folder: Path) -> list[tuple[str, int]]:
    """The names of a folder's files and when each was written; nothing where it can't be read."""
    try:
        return sorted((path.name, path.stat().st_mtime_ns) for path in folder.glob("*.json"))
    except OSError:
        return []
