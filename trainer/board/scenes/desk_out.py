"""Hand out: what is sat, by whom, and the folder that goes to the seats; or one candidate at this very machine."""

from __future__ import annotations

import secrets
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from trainer.board.scenes.asking import ask_which, show_message
from trainer.board.scenes.folders import choose_folder
from trainer.board.widgets import Button, Choice, Flow, Label, LineEntry, Listing, NumberEntry, Row, TextEntry, Widget
from trainer.generate import SHAPES, HouseShape
from trainer.level import parse_level, whole_text
from trainer.quiz.paper import TooFewQuestions
from trainer.read import Faulty
from trainer.records.desk import Family, Handed, Wish, packed, tickets_of
from trainer.records.errors import RecordsError
from trainer.records.pack import AssessmentPack, Ticket
from trainer.records.stick import Candidate, read_candidates, withdraw, write_class
from trainer.records.verify import LIMITS
from trainer.records.waiting import Waiting
from trainer.shipped import find_level, style_texts
from trainer.words import _, listed, ngettext

if TYPE_CHECKING:
    from trainer.board.scenes.desk_page import DeskPage

MOST_QUESTIONS = 40
MARKS = (None, 60, 70, 80, 90, 100)
SHEETS, SHOWN, SITES = (_("given"), _("not given")), (_("shown"), _("kept back")), (_("the same"), _("each their own"))
FAMILIES = (None, *SHAPES)
"""No new house for each candidate, or one of such a shape."""
CHOSEN = "desk/chosen"
"""Where the board remembers what was handed out last, until it is closed."""
MOST_MINUTES = 1440
NAMES = _("Code names, one a line. Beside one may stand, after commas, extra minutes and minutes of breaks.")
DIFFER = _(
    "Each gets a new house of this shape and difficulty, so that nobody can copy: the same stages and kinds of fault, "
    "trusses within 5 per cent, other measures. The report says so."
)
HERE = _("Here and now: one candidate at this machine. Their code name:")


class HandOut:
    """What was chosen so far."""

    title = _("Hand out")

    def __init__(self, screen: DeskPage) -> None:
        self.screen = screen
        self.called = _("Assessment")
        self.names = self.one = ""
        self.houses: list[str] = []
        self.row = self.said = ""
        self.questions, self.minutes, self.grade = 0, 90, 5
        self.at = dict.fromkeys(("mark", "sheet", "shown", "sites", "family"), 0)
        if chosen := screen.ui.memory.get(CHOSEN):  # the next one sits the same, unless something else is chosen
            self.called, houses, self.questions, self.minutes, self.grade, at = chosen
            self.houses, self.at = [*houses], {**at}

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
            ("mark", _("Practice mark"), [_("the house's own") if n is None else str(n) for n in MARKS]),
            ("sheet", _("Layout drawing"), SHEETS),
            ("shown", _("Results at the seat"), SHOWN),
            ("sites", _("Sites"), SITES),
        )
        form: list[Widget] = [
            Choice(name, list(options), self.at[what], partial(self._set, what), key=f"desk/{what}")
            for what, name, options in choices
        ]
        asked = _("Questions, 0 to {most}").format(most=MOST_QUESTIONS)
        form[:0] = [
            NumberEntry(asked, self.questions, self._questions, unit="", key="desk/questions"),
            NumberEntry(
                _("Minutes, 0: no limit"), self.minutes, self._minutes, unit="min", nudge=15, key="desk/minutes"
            ),
        ]
        families = [_("none") if name is None else name for name in FAMILIES]
        own: list[Widget] = [
            Choice(
                _("A new house for each"), families, self.at["family"], partial(self._set, "family"), key="desk/family"
            )
        ]
        if shape := self._shape:
            hard = _("How hard, {low} to {high} of 10").format(low=shape.easiest, high=shape.hardest)
            own += [
                NumberEntry(hard, self._grade, self._harder, unit="", key="desk/grade"),
                Label(DIFFER, "small", "panel_faint", key="desk/differ"),
            ]
        said = [Label(self.said, "body", key="desk/said", role="status")] if self.said else []
        return [
            *said,
            LineEntry(_("What it is called"), self.called, partial(self._take, "called"), key="desk/called", most=80),
            listing,
            Button(put, partial(self.toggle, row), key="desk/put", enabled=bool(row)),
            Flow(own, gap=14, key="desk/own houses"),
            Flow([*form], gap=14, key="desk/form"),
            Label(NAMES, "small", "panel_faint"),
            TextEntry(_("Code names"), self.names, partial(self._take, "names"), key="desk/names"),
            Button(_("Grant something to one of them"), self.ease, key="desk/ease"),
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

    def _questions(self, questions: float) -> None:
        self.questions = max(0, min(MOST_QUESTIONS, round(questions)))
        self.screen.refresh()

    def _minutes(self, minutes: float) -> None:
        self.minutes = max(0, min(MOST_MINUTES, round(minutes)))
        self.screen.refresh()

    @property
    def _shape(self) -> HouseShape | None:
        """The shape of the new houses, if there are to be any."""
        name = FAMILIES[self.at["family"]]
        return SHAPES[name] if name else None

    @property
    def _grade(self) -> int:
        """How hard they are: as was chosen, as far as a house of that shape can be."""
        shape = self._shape
        return max(shape.easiest, min(shape.hardest, self.grade)) if shape else self.grade

    def _harder(self, grade: float) -> None:
        self.grade = round(grade)
        self.grade = self._grade
        self.screen.refresh()

    def ease(self) -> None:
        """Ask what one candidate is granted, and put it beside their code name."""
        from trainer.board.scenes.desk_eased import ask_eased

        def say(text: str) -> None:
            show_message(self.screen.services, _("This is to be put right first"), [text])

        def take(names: str) -> None:
            self.names = names
            self.screen.refresh()

        ask_eased(self.screen.services, self.names, say, take)

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
        at, shape = self.at, self._shape
        return Wish(
            self.called.strip(), tuple(texts), self.questions, self.minutes or None, MARKS[at["mark"]],
            at["sheet"] == 0, at["shown"] == 1, at["sites"] == 1, Family(shape.name, self._grade) if shape else None,
        )  # fmt: skip

    def _packed(self, candidates: tuple[Candidate, ...]) -> tuple[Handed, ...]:
        from trainer.board.quiz_start import bank

        wish = self.wish()
        asked, seed = bank() if wish.questions else (), secrets.randbelow(2**48)
        return packed(wish, self.screen.desk.key, seed, self.screen.seat.clock(), asked, candidates)

    def write(self) -> None:
        """Ask where the folder goes, once all of it can be made."""
        made = self._ready(self.names)
        if made is None:
            return
        start = self.screen.ui.memory.get("folders/last", Path.home())
        services, then = self.screen.services, partial(self._write, made)
        choose = partial(choose_folder, services, _("Where does the folder go?"), start, then, new="class")
        if made[0][0].houses:
            choose()
        else:
            lines = _to_be_sat(made[0][0])
            options = ((_("Hand out questions only"), choose), (_("Stay"), None))
            ask_which(services, _("No house is chosen"), lines, options, first=1)

    def _ready(self, names: str) -> tuple[Handed, ...] | None:
        """The packs and who sits them; None where something is to be put right first, which is said."""
        lines: list[str] = []
        try:
            return self._packed(read_candidates(names.encode("utf-8"), _("code names")))
        except Faulty as error:
            lines = [str(fault) for fault in error.faults]
        except (RecordsError, TooFewQuestions, OSError) as error:
            lines = [str(error)]
        show_message(self.screen.services, _("This is to be put right first"), lines)
        return None

    def _write(self, made: tuple[Handed, ...], folder: Path) -> None:
        services, desk = self.screen.services, self.screen.desk
        try:
            handed = [(pack, self._tickets(pack, who)) for pack, who in made]
            write_class(folder, desk.key, desk.name, handed)
        except (RecordsError, OSError) as error:
            show_message(services, _("The folder was not written"), [str(error)])
            return
        services.ui.memory["folders/last"] = folder
        self._keep_chosen()
        n = sum(len(who) for _pack, who in made)
        text = ngettext("{n} ticket is in it: {folder}", "{n} tickets are in it: {folder}", n)
        lines = [
            text.format(n=n, folder=folder),
            _("Take it from seat to seat. There: Assessments, then Open the folder of a class."),
            _("Write down the code that each seat shows at the close. You type it here, beside the names."),
        ]
        self.screen.await_class(folder, lines)

    def _keep_chosen(self) -> None:
        self.screen.ui.memory[CHOSEN] = (
            self.called,
            (*self.houses,),
            self.questions,
            self.minutes,
            self.grade,
            {**self.at},
        )

    def _tickets(self, pack: AssessmentPack, who: tuple[Candidate, ...]) -> tuple[Ticket, ...]:
        nonces = [secrets.token_hex(16) for _each in who]
        return tickets_of(pack, self.screen.desk.key, who, nonces, self.screen.seat.clock())

    def here(self) -> None:
        """Begin a sitting of one candidate at this machine; the key is shut before it is handed over."""
        made = self._ready(self.one)
        if made is None:
            return
        lines = [
            *_to_be_sat(made[0][0]),
            _("The key is shut, and **{code}** sits at this machine. Stay with them.").format(code=made[0][1][0].code),
            _("At the close the board shows a code. Come back to this desk then, with your passphrase."),
            _("What one laptop can't show:"),
            *LIMITS[:3],
        ]
        yes = partial(self._begin, *made[0])
        ask_which(self.screen.services, _("Hand the machine over?"), lines, ((_("Begin"), yes), (_("Stay"), None)))

    def _begin(self, pack: AssessmentPack, candidates: tuple[Candidate, ...]) -> None:
        from trainer.board.scenes.sitting import before_sitting

        screen = self.screen
        try:
            (ticket,) = self._tickets(pack, candidates[:1])
            handed = [(pack, [ticket])]
            write_class(screen.seat.folder, screen.desk.key, screen.desk.name, handed, beside_others=True)
        except (RecordsError, OSError) as error:
            show_message(screen.services, _("The sitting was not begun"), [str(error)])
            return
        self._keep_chosen()
        screen.desk.forget()
        screen.keep_class(screen.seat.folder)
        screen.services.go_home()
        waiting = Waiting(pack, candidates[0].code, ticket, None, screen.seat.folder)
        put_off = partial(withdraw, screen.seat.folder, pack, ticket)
        before_sitting(screen.services, screen.seat, waiting, put_off)


def _to_be_sat(pack: AssessmentPack) -> list[str]:
    """What is handed out, to be looked at before it is: the houses by their titles, and how many questions."""
    titles = [parse_level(text, level).title for level, text in pack.houses]
    lines = [_("To be built: {houses}.").format(houses=listed([f"**{title}**" for title in titles]))] if titles else []
    if not titles:
        lines = [_("No house is chosen: there is nothing to build, only questions.")]
    n = pack.paper.questions if pack.paper else 0
    asked = ngettext("{n} question is asked.", "{n} questions are asked.", n).format(n=n)
    return [*lines, asked if n else _("No questions are asked.")]
