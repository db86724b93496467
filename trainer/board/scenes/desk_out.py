"""Hand out: what is sat, by whom, and the folder that goes to the seats; or one candidate at this very machine."""

from __future__ import annotations

import secrets
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from trainer.board.scenes.asking import ask_which, show_message
from trainer.board.scenes.folders import choose_folder
from trainer.board.widgets import Button, Choice, Flow, Label, LineEntry, Listing, Row, TextEntry, Widget
from trainer.level import parse_level, whole_text
from trainer.quiz.paper import TooFewQuestions
from trainer.read import Faulty
from trainer.records.desk import Wish, packed, tickets_of
from trainer.records.errors import RecordsError
from trainer.records.pack import AssessmentPack
from trainer.records.stick import Candidate, read_candidates, write_class
from trainer.records.verify import LIMITS
from trainer.records.waiting import Waiting
from trainer.shipped import find_level, style_texts
from trainer.words import _, ngettext

if TYPE_CHECKING:
    from trainer.board.scenes.desk_page import DeskPage

QUESTIONS = (0, 5, 10, 20, 40)
MINUTES = (None, 30, 45, 60, 90, 120, 180, 240)
MARKS = (None, 60, 70, 80, 90, 100)
SHEETS, SHOWN, SITES = (_("given"), _("not given")), (_("shown"), _("kept back")), (_("the same"), _("each their own"))
NAMES = _("Code names, one a line. Beside one may stand, after commas, extra minutes and minutes of breaks.")
HERE = _("Here and now: one candidate at this machine. Their code name:")


class HandOut:
    """What was chosen so far."""

    title = _("Hand out")

    def __init__(self, screen: DeskPage) -> None:
        self.screen = screen
        self.called = _("Assessment")
        self.names = self.one = ""
        self.houses: list[str] = []
        self.row = ""
        self.at = dict.fromkeys(("questions", "minutes", "mark", "sheet", "shown", "sites"), 0)

    def widgets(self) -> list[Widget]:
        """Return the form."""
        library = self.screen.services.library
        entries = library.entries if library is not None else []
        rows = [
            Row(each.id, each.level.title, picture="good" if each.id in self.houses else "open",
                detail=_("is sat, {n}").format(n=self.houses.index(each.id) + 1) if each.id in self.houses else each.id)
            for each in entries
        ]  # fmt: skip
        row = self.row or (entries[0].id if entries else "")
        listing = Listing(_("Houses to sit"), rows, row, self._choose, take=self.toggle, key="desk/houses", show=6)
        listing.grows = False
        put = _("Take this house off") if row in self.houses else _("Have this house sat")
        choices = (
            ("questions", _("Questions"), [str(n) for n in QUESTIONS]),
            ("minutes", _("Minutes"), [_("no limit") if n is None else str(n) for n in MINUTES]),
            ("mark", _("Practice mark"), [_("the house's own") if n is None else str(n) for n in MARKS]),
            ("sheet", _("Layout drawing"), SHEETS),
            ("shown", _("Results at the seat"), SHOWN),
            ("sites", _("Sites"), SITES),
        )
        form = [
            Choice(name, list(options), self.at[what], partial(self._set, what), key=f"desk/{what}")
            for what, name, options in choices
        ]
        return [
            LineEntry(_("What it is called"), self.called, partial(self._take, "called"), key="desk/called", most=80),
            listing,
            Button(put, partial(self.toggle, row), key="desk/put", enabled=bool(row)),
            Flow([*form], gap=14, key="desk/form"),
            Label(NAMES, "small", "panel_faint"),
            TextEntry(_("Code names"), self.names, partial(self._take, "names"), key="desk/names"),
            Button(_("Write the folder for the seats"), self.write, kind="primary", key="desk/write"),
            Label(HERE, "small", "panel_faint"),
            LineEntry(_("One code name"), self.one, partial(self._take, "one"), key="desk/one", enter=self.here),
            Button(_("Begin here, and hand the machine over"), self.here, key="desk/here"),
        ]  # fmt: skip

    def _take(self, what: str, text: str) -> None:
        setattr(self, what, text)

    def _choose(self, row: str) -> None:
        self.row = row
        self.screen.refresh()

    def toggle(self, house: str) -> None:
        """Have a house sat after those that are, or take it off."""
        self.row = house
        self.houses.remove(house) if house in self.houses else self.houses.append(house)
        self.screen.refresh()

    def _set(self, what: str, index: int) -> None:
        self.at[what] = index
        self.screen.refresh()

    def wish(self) -> Wish:
        """Return what was chosen.

        :raises Faulty: where a house has faults; :raises RecordsError: where it has no name.
        """
        if not self.called.strip():
            raise RecordsError(_("Give it a name."))
        texts = []
        for house in self.houses:
            path = find_level(house)
            text = path.read_text(encoding="utf-8")
            texts.append(whole_text(parse_level(text, house, style_texts(path)), text))
        at = self.at
        return Wish(
            self.called.strip(), tuple(texts), QUESTIONS[at["questions"]], MINUTES[at["minutes"]], MARKS[at["mark"]],
            at["sheet"] == 0, at["shown"] == 1, at["sites"] == 1,
        )  # fmt: skip

    def _pack(self) -> AssessmentPack:
        from trainer.board.quiz_start import bank

        wish = self.wish()
        asked = bank() if wish.questions else ()
        return packed(wish, self.screen.desk.key, secrets.randbelow(2**48), self.screen.seat.clock(), asked)

    def write(self) -> None:
        """Ask where the folder goes, once all of it can be made."""
        made = self._ready(self.names)
        if made is None:
            return
        start = self.screen.ui.memory.get("folders/last", Path.home())
        then = partial(self._write, *made)
        choose_folder(self.screen.services, _("Where does the folder go?"), start, then, new="class")

    def _ready(self, names: str) -> tuple[AssessmentPack, tuple[Candidate, ...]] | None:
        """The pack and who sits it; None where something is to be put right first, which is said."""
        lines: list[str] = []
        try:
            candidates = read_candidates(names.encode("utf-8"), _("code names"))
            return self._pack(), candidates
        except Faulty as error:
            lines = [str(fault) for fault in error.faults]
        except (RecordsError, TooFewQuestions, OSError) as error:
            lines = [str(error)]
        show_message(self.screen.services, _("This is to be put right first"), lines)
        return None

    def _write(self, pack: AssessmentPack, candidates: tuple[Candidate, ...], folder: Path) -> None:
        services, desk = self.screen.services, self.screen.desk
        try:
            nonces = [secrets.token_hex(16) for _each in candidates]
            tickets = tickets_of(pack, desk.key, candidates, nonces, self.screen.seat.clock())
            write_class(folder, desk.key, desk.name, [(pack, tickets)])
        except (RecordsError, OSError) as error:
            show_message(services, _("The folder was not written"), [str(error)])
            return
        services.ui.memory["folders/last"] = services.ui.memory["desk/class"] = folder
        n = len(candidates)
        text = ngettext("{n} ticket is in it: {folder}", "{n} tickets are in it: {folder}", n)
        lines = [
            text.format(n=n, folder=folder),
            _("Take it from seat to seat. There: *Assessments*, then *Open the folder of a class*."),
            _("Write down the code that each seat shows at the close. You type it here under *Take back*."),
        ]
        show_message(services, _("The folder is written"), lines)

    def here(self) -> None:
        """Begin a sitting of one candidate at this machine; the key is shut before it is handed over."""
        made = self._ready(self.one)
        if made is None:
            return
        lines = [
            _("The key is shut, and **{code}** sits at this machine. Stay with them.").format(code=made[1][0].code),
            _("At the close the board shows a code. Come back to this desk then, with your passphrase."),
            _("What one laptop can't show:"),
            *LIMITS[:3],
        ]
        yes = partial(self._begin, *made)
        ask_which(self.screen.services, _("Hand the machine over?"), lines, ((_("Begin"), yes), (_("Stay"), None)))

    def _begin(self, pack: AssessmentPack, candidates: tuple[Candidate, ...]) -> None:
        from trainer.board.scenes.sitting import before_sitting

        screen = self.screen
        try:
            nonces, at = [secrets.token_hex(16)], screen.seat.clock()
            (ticket,) = tickets_of(pack, screen.desk.key, candidates[:1], nonces, at)
            handed = [(pack, [ticket])]
            write_class(screen.seat.folder, screen.desk.key, screen.desk.name, handed, beside_others=True)
        except (RecordsError, OSError) as error:
            show_message(screen.services, _("The sitting was not begun"), [str(error)])
            return
        screen.desk.forget()
        screen.ui.memory["desk/class"] = screen.seat.folder
        screen.services.go_home()
        waiting = Waiting(pack, candidates[0].code, ticket, None, screen.seat.folder)
        before_sitting(screen.services, screen.seat, waiting)
