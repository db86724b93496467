"""What came of it: the roof as built with every finding on it, the mark line by line, and what it does not say."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING, Literal, get_args

import pygame

from trainer.board.back_to import BackTo
from trainer.board.command import Command
from trainer.board.library import HouseEntry
from trainer.board.overlay import rings_of
from trainer.board.paint import Brush
from trainer.board.plan_view import PlanView
from trainer.board.scene import Scene
from trainer.board.scenes.asking import save_diary
from trainer.board.scenes.drilling import can_practise, practise
from trainer.board.scenes.looking_back import LookingBack
from trainer.board.scenes.note import finding_widgets, shown_on_views
from trainer.board.scenes.result_words import left_in_words, marked, missing, taken_back_in_words, went_well
from trainer.board.scenes.views import LARGE_TEXT, Views
from trainer.board.services import Services
from trainer.board.widgets import (
    Button,
    Column,
    Flow,
    Label,
    Listing,
    Pad,
    Paragraph,
    Prose,
    Row,
    Scroll,
    Widget,
    top_bar,
)
from trainer.board.wording import difference
from trainer.picture import as_built
from trainer.picture.compare import Difference, differences, on_plan
from trainer.picture.found import FoundMark
from trainer.picture.model import Item, Text
from trainer.picture.still_site import StillSite
from trainer.score import mark
from trainer.terms import OUTCOME_NAMES, SEVERITIES, SEVERITY_NAMES
from trainer.words import CAUTION, _, ngettext

if TYPE_CHECKING:
    from trainer.rules.finding import Finding
    from trainer.session import Session
from trainer.session.skills import in_words, skills_shown
from trainer.session.why_now import hints_counted

Tab = Literal["mark", "differences"]
TABS: tuple[Tab, ...] = get_args(Tab)
NOTHING_FOUND = _("No mistake was found: 100, and nothing taken off.")
NOTHING_OPEN = _("Nothing is open: 100, and nothing taken off.")
LISTED = 0.4
"""The most of the column that the list takes where all of it scrolls."""
FOOT = 0.37
"""The most of the column that the buttons at its foot take."""
_ONCE = _("Its cause is counted with another finding.")


class ResultScreen(Scene):
    """The roof after hand-over."""

    order = ("side", "views", "plan", "back", "bar")

    def __init__(
        self, services: Services, entry: HouseEntry, session: Session, code: str, back: BackTo | None = None
    ) -> None:  # fmt: skip
        """Show what came of a session; ``code`` is its attempt's, ``back`` leads on from here, else to the houses."""
        super().__init__(services)
        self._sent_here = back is not None
        self.way = back or BackTo(_("Back to the houses"), _("Houses"), services.go_home)
        self.name = _("Result: {title}").format(title=entry.level.title)
        self.entry = entry
        self.session = session
        self.code = code
        # In the order of the mark's lines.
        self.findings = tuple(sorted(session.findings, key=lambda f: (f.event, f.rule, f.member, f.got)))
        lesson = entry.level.lesson
        self.mark = mark(
            self.findings, lesson.weights.by_severity(), lesson.practice_mark, handed_over=session.site.handed_over,
            hints=len(session.hints), hint_cost=lesson.hint_cost, shown=session.shown,
        )  # fmt: skip
        self.chosen = ""
        self.open = False
        self.tab: Tab = "mark"
        self.difference = ""
        self.back = LookingBack(session, self.findings, self._moved)
        self.differing = differences(self.back.site)
        self._still = StillSite(session.site.layout)
        box = as_built.whole_box(session.site.layout)
        self.plan = PlanView(_("The roof as built"), box, self._still_items, self._live, self._still.outlying)
        found = len(self.findings)
        self.plan.status = ngettext("{n} finding", "{n} findings", found).format(n=found)
        self.truss = ""
        self.views = Views(
            self, self.plan, lambda: self.back.site, chosen=lambda: self.truss, choose=self._choose_truss,
            found=self._found, reference=self._reference,
        )  # fmt: skip
        if self.mark.outcome == "met":
            self.views.cover()
        elif self.findings:
            self.views.show("angled")

    def _still_items(self, scale: float) -> list[Item]:
        items = self._still.items(self.back.site, scale, self.views.share)
        if self.tab == "mark":
            return items
        # Beside the reference only what differs has its tag; walls keep their letters.
        walls = self.back.site.layout.house.plan.by_name
        return [item for item in items if not (isinstance(item, Text) and item.spare and item.text not in walls)]

    def _shown(self) -> tuple[Finding, ...]:
        """The findings to show: at the end all of them, before it those of that moment."""
        return self.findings if self.back.at == self.back.last and not self.open else self.back.found

    def _found(self) -> tuple[FoundMark, ...]:
        if self.tab == "differences":
            return ()
        strong = self.findings[int(self.chosen)] if self.chosen else None
        return shown_on_views(self._shown(), strong)

    def _reference(self) -> tuple[Difference, ...]:
        return self.differing if self.tab == "differences" else ()

    def _live(self, brush: Brush) -> None:
        """Ring the trusses that findings are about, the chosen one more strongly; show the reference if asked."""
        site = self.back.site
        if self.tab == "differences":
            brush.paint(on_plan(self.differing, site))
            return
        brush.paint(rings_of(site, self._found()))

    def _moved(self) -> None:
        """Another moment is shown; one before the last, without the cover that would hide it."""
        if self.back.at < self.back.last:
            self.views.uncover()
        self.views.invalidate()
        self.refresh("views", "plan", "back")

    def _choose_truss(self, tag: str) -> None:
        self.truss = tag
        self.refresh("views", "plan")

    def tick(self, now_ms: int) -> None:
        self.back.tick(now_ms)
        self.views.tick(now_ms)

    def look_changed(self) -> None:
        self.views.invalidate()

    def places(self, size: tuple[int, int]) -> dict[str, pygame.Rect]:
        wide, high = size
        top = self._bar().high(self.ui, wide)
        roomy, large = self.ui.look.roomy(size), self.ui.look.scale > LARGE_TEXT
        side = min(self.ui.look.px(480), int(wide * (0.45 if roomy else 0.32 if large else 0.37)))
        middle = wide - side
        over = self.views.strip(middle).high(self.ui, middle)
        foot = self.back.strip(roomy=roomy).high(self.ui, middle)
        return {
            "bar": pygame.Rect(0, 0, wide, top),
            "side": pygame.Rect(wide - side, top, side, high - top),
            "views": pygame.Rect(0, top, middle, over),
            "plan": pygame.Rect(0, top + over, middle, high - top - over - foot),
            "back": pygame.Rect(0, high - foot, middle, foot),
        }

    def make(self, region: str) -> Widget:
        if region == "plan":
            return self.views.view()
        if region == "views":
            return self.views.strip(self.places(self.size)["views"].width)
        if region == "back":
            return self.back.strip(roomy=self.ui.look.roomy(self.size))
        if region == "bar":
            return self._bar()
        return self._finding() if self.open else self._summary()

    def first_focus(self) -> str:
        if self.open:
            return "result/back"
        if self.findings:
            return "result/findings"
        return "result/way" if self._sent_here else "result/next" if self._next_house() else "result/again"

    def _bar(self) -> Widget:
        return top_bar(self.name, self.way.short, self.way.go, self.services.help)

    def _summary(self) -> Widget:
        outcome = Label(OUTCOME_NAMES[self.mark.outcome], "title", role="heading")
        closed = _("Recorded. The code of this attempt: {code}").format(code=self.code)
        listing = self._listing() if self.tab == "mark" else self._differences()
        names = {"mark": _("The mark"), "differences": _("Beside the reference")}
        tabs = Flow(
            [
                Button(names[t], partial(self.open_tab, t), kind="tab", checked=self.tab == t, key=f"tab/{t}")
                for t in TABS
            ],
            gap=2, key="tabs",
        )  # fmt: skip
        caution = Prose([Paragraph(CAUTION, "small", "panel_faint", space=0)], key="caution")
        lines: list[Widget] = (
            [Label(closed, "body", key="result/code")] if self.code and self.session.mode == "assessment" else []
        )
        lines += [
            Label(_("Hints: {text}").format(text=line.text), "small", key="result/hints") for line in self.mark.besides
        ]
        if self.session.hints:
            lines.append(Label(hints_counted(self.session.hint_depths), "small", key="result/hint depths"))
        if shown := skills_shown(self.session.outcomes, self.session.site):
            text = _("Shown to you by a hint, so not done yet: {skills}.").format(skills=in_words(shown))
            lines.append(Prose([Paragraph(text, "small", "panel_ink", space=0)], key="result/skills shown"))
        aside = [] if self.ui.look.roomy(self.size) else [self.back.aside()]
        first: list[Widget] = [
            outcome,
            *missing(self.mark),
            *self._marked(),
            *lines,
            *taken_back_in_words(self.session),
        ]
        listing.grows = False
        above = Column([*first, tabs, listing, *aside, caution], gap=10)
        room = self.places(self.size)["side"].inflate(*[-2 * self.ui.look.px(self._pad)] * 2)
        buttons = self._buttons()
        # Large text: as much of it as has room stays in sight, and the rest is at the end of what scrolls.
        fits = [
            n for n in range(1, len(buttons) + 1) if _row(buttons[:n]).high(self.ui, room.width) <= FOOT * room.height
        ]
        many = max(fits, default=1)
        pinned = _row(buttons[:many])
        if buttons[many:]:
            above.children.append(Flow(buttons[many:], gap=10, key="result/more"))
        whole = Column([above, pinned], gap=10)
        listing.grows = whole.high(self.ui, room.width) <= room.height
        if not listing.grows:
            listing.show = max(1, int(LISTED * room.height / max(1, listing.row_height(self.ui, room.width))))
            whole = Column([Scroll(above, _("Result")), pinned], gap=10)
        else:
            above.grows = True
        return Pad(whole, pad=self._pad, column=True, name=_("Result"), key="result")

    def _buttons(self) -> list[Widget]:
        """What can be done from here, the likeliest first: on to the next house, or what went wrong, or once more."""
        again = [("result/again", _("Build it again"), self._again)]
        ways = [] if self.entry.level.lesson.unseen else again
        if self.findings:
            ways.insert(0, ("result/practise", _("Practise what went wrong"), self._practise))
        if (following := self._next_house()) is not None:
            title = _("Next house: {title}").format(title=following.level.title)
            ways.insert(0, ("result/next", title, partial(self.services.go_work, following, "practice")))
        if self._sent_here:
            ways.insert(0, ("result/way", self.way.name, self.way.go))
        if self.code:
            ways.append(("result/report", _("Write a report"), self.report))
        buttons: list[Widget] = [
            Button(name, do, key=key, kind="plain" if n else "primary") for n, (key, name, do) in enumerate(ways)
        ]
        return [*buttons, Button(_("Save the diary"), self.save, shortcut="Ctrl S", key="result/save")]

    def _next_house(self) -> HouseEntry | None:
        """The first house after this one that is not done yet, where this one was practised and its mark is met."""
        library, path = self.services.library, self.services.path
        if library is None or self.mark.outcome != "met" or self.session.mode != "practice":
            return None
        after = iter(library.entries)
        return next(
            (
                e
                for each in after
                if each.id == self.entry.id
                for e in after
                if path.sign(e.id) != "house_built" and not e.level.lesson.unseen
            ),
            None,
        )

    @property
    def _pad(self) -> int:
        """Room round the column's text; large text has none to give away."""
        return 18 if self.ui.look.roomy(self.size) else 8

    def _marked(self) -> list[Widget]:
        """What went well, the mark and what it is to be; what was not handed over has none."""
        if self.mark.outcome == "unfinished":
            return [left_in_words(self.back.last)]
        lesson = self.entry.level.lesson
        done = self.services.path.done.get(self.entry.id)
        return [*went_well(self.findings, lesson.stages), *marked(self.mark, lesson.practice_mark, done)]

    def _differences(self) -> Listing:
        """What is not as the reference has it."""
        rows = [Row(str(index), one.place.tag, second=difference(one)) for index, one in enumerate(self.differing)]
        return Listing(
            _("Differences"), rows, self.difference, self.choose_difference, key="result/differences", tall=True,
            empty=_("Every truss stands where the reference has it."),
        )  # fmt: skip

    def _listing(self) -> Listing:
        """The mark line by line: each finding and what it takes off, the worst first."""
        worst = sorted(enumerate(self.findings), key=lambda each: SEVERITIES.index(each[1].severity))
        rows = [
            Row(
                str(index), ", ".join(filter(None, (finding.member, SEVERITY_NAMES[finding.severity]))),
                detail=f"−{line.points}" if line.points else "0", picture=finding.severity,
                second=finding.what if line.points else f"{finding.what} {_ONCE}",
            )
            for index, finding in worst
            for line in self.mark.lines[index : index + 1]
        ]  # fmt: skip
        return Listing(
            _("Findings"), rows, self.chosen, self.choose, take=self.open_finding, key="result/findings", tall=True,
            empty=self._none_found(),
        )  # fmt: skip

    def _none_found(self) -> str:
        if self.session.taken_back:
            return NOTHING_OPEN
        return _("No mistake was found.") if self.mark.outcome == "unfinished" else NOTHING_FOUND

    def _finding(self) -> Widget:
        finding = self.findings[int(self.chosen)]
        parts = [*finding_widgets(finding), Prose([Paragraph(CAUTION, "small", "panel_faint")], key="caution")]
        back = Button(_("Back to the result"), self._close, kind="primary", shortcut="Esc", key="result/back")
        column = Column([Scroll(Column(parts, gap=4), _("What was found")), back], gap=12)
        return Pad(column, pad=self._pad, column=True, name=_("What was found"), key="note")

    def choose(self, index: str) -> None:
        """Choose a finding; it is shown on the plan."""
        self.chosen = index
        finding = self.findings[int(index)]
        self.truss = finding.member
        self.back.playing = False
        if self.back.at == self.back.last and finding.member in self.session.site.stood:
            lies = as_built.lying(self.session.site.stood[finding.member])
            self.plan.camera.reveal(lies.at(lies.length / 2))
        self.refresh("side", "plan")

    def open_finding(self, index: str) -> None:
        """Read a finding whole."""
        self.choose(index)
        self.open = True
        self.back.go_to(self.findings[int(index)])
        self.refresh("side")

    def _close(self) -> None:
        self.open = False
        self.back.go(self.back.last)
        self.refresh("side")

    def _practise(self) -> None:
        """Start a drill on the chosen finding, or on the one that took most off."""
        worst_first = sorted(range(len(self.findings)), key=lambda i: -self.mark.lines[i].points)
        level = self.entry.level
        worst = next((i for i in worst_first if can_practise(level, self.findings[i].rule)), worst_first[0])
        back = BackTo(_("Back to the result"), _("Result"), partial(self.services.show, self))
        practise(self.services, level, self.findings[int(self.chosen or worst)].rule, back)

    def open_tab(self, tab: Tab) -> None:
        """Open the mark, or what differs from the reference; that is shown at the last moment."""
        self.tab = tab
        if tab == "differences":
            self.views.show("plan")  # there what is off is seen to the millimetre
        self.views.invalidate()
        self.back.go(self.back.last)
        self.refresh()

    def choose_difference(self, index: str) -> None:
        """Choose what differs; the plan moves to it."""
        self.difference = index
        one = self.differing[int(index)]
        self.truss = one.tag or one.place.tag
        (ax, ay), (bx, by) = one.place.start, one.place.finish
        self.plan.camera.reveal(((ax + bx) / 2, (ay + by) / 2))
        self.refresh("side", "plan")

    def _again(self) -> None:
        self.services.go_work(self.entry, "practice")

    def report(self) -> None:
        """Write a report of this attempt as a page."""
        from trainer.board.scenes.reporting import report_attempt

        report_attempt(self.services, self.code)

    def save(self) -> None:
        """Save the diary as a file."""
        save_diary(self.services, self.session)

    def commands(self) -> list[Command]:
        return [
            Command(_("Build it again"), "", self._again),
            *([Command(_("Practise what went wrong"), "", self._practise)] if self.findings else []),
            Command(_("Play"), "", self.back.play),
            Command(_("Next finding"), "", self.back.next_finding),
            Command(_("Beside the reference"), "", partial(self.open_tab, "differences")),
            Command(_("The mark"), "", partial(self.open_tab, "mark")),
            *self.views.commands(),
            Command(_("Save the diary"), "Ctrl S", self.save),
            *([Command(_("Write a report"), "", self.report)] if self.code else []),
            Command(self.way.name, "Esc", self.way.go),
        ]

    def key(self, event: pygame.event.Event) -> bool:
        if event.mod & pygame.KMOD_CTRL and event.key == pygame.K_s:
            self.save()
        elif event.key == pygame.K_ESCAPE and self.views.drawing:
            self.views.stop_drawing()
        elif event.key == pygame.K_ESCAPE:
            self._close() if self.open else self.way.go()
        else:
            return self.views.key(event) or self.views.zoom_key(event)
        return True


def _row(buttons: list[Widget]) -> Flow:
    return Flow(buttons, gap=10, key="result/buttons")
