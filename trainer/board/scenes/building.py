"""A house while it is built: what the learner has in the hand and does, before any of it is shown."""

from __future__ import annotations

import math
from collections.abc import Sequence
from copy import copy
from functools import partial
from typing import TYPE_CHECKING, Literal, get_args

from trainer.board import diary_words, wording
from trainer.board.library import HouseEntry
from trainer.board.plan_view import PlanView
from trainer.board.scene import Scene
from trainer.board.scenes.asking import confirm, save_diary
from trainer.board.scenes.assignment import Assignment
from trainer.board.scenes.views import Views
from trainer.board.services import Services
from trainer.board.still_open import open_at_hand_over
from trainer.board.tools.hand import Hand, yard
from trainer.board.tools.panel import DO_IT
from trainer.board.tools.registry import STAGE_TOOLS, TOOLS, AnyTool, Toolbox, stage_of
from trainer.plan import Point
from trainer.session.hands import FIRST_HOUSES, Routine
from trainer.session.session import DEEPEST, DEPTHS
from trainer.site import HandOver, Site
from trainer.site.actions import AnyAction
from trainer.terms import SEVERITIES, Mode, Stage
from trainer.words import _, ngettext

if TYPE_CHECKING:
    from trainer.rules.finding import Finding
    from trainer.session import ActionResult, Session
    from trainer.session.hints import Hint

Tab = Literal["own", "yard", "roof", "sheet", "diary"]
TABS: tuple[Tab, ...] = get_args(Tab)
STILL_PX = 12.0
"""A mouse left lying on the plan must move this far before it aims again."""
REACH_PX = 22.0
"""How near the mouse must be to a truss to mean it, px."""
NOTE_TEXT, GO_ON = "note/text", "note/go on"
"""Keys of the text of what was found, and of the button that goes on from it."""
SHEET = "side/sheet"
"""Key of what the job sheet scrolls in."""


class Building(Scene):
    """The state of the work screen and all that is done there; :class:`Work` says what is shown of it, and where."""

    plan: PlanView
    views: Views
    strip_lines = 0
    """How many lines of text the strip under the plan has room for in any view, where it is more than what it says."""

    strip_grows = 1 / 3
    """The most that the strip takes of the plan where the text is large and what was said needs it."""

    def __init__(
        self, services: Services, entry: HouseEntry, session: Session, mode: Mode, assignment: Assignment
    ) -> None:
        super().__init__(services)
        self.entry, self.name = entry, entry.level.title
        self.session = session
        self.practice = mode == "practice"
        self.assignment = assignment
        self.tools = Toolbox(session)
        self.tab: Tab = "sheet"
        self.stage = self.tools.first_stage
        self.noted: tuple[Finding, ...] = ()
        self.message = wording.begin(self.tool.key if self.tool.verb == "check" else "", self.stage, self.site)
        self.diary_row = self.refusal = self.hovered = ""
        self.ghost: AnyAction | None = None
        self._hint: Hint | None = None
        self._depth = 0
        self._mouse: tuple[int, int] = (-1, -1)
        self._mouse_left: tuple[int, int] | None = None
        self.ui.memory.pop(SHEET, None)  # another house begins at the top of its own sheet

    def said(self, width: int) -> int:
        """How high all that the strip says is where it is so wide, px."""
        return 0

    # what is asked of it

    @property
    def site(self) -> Site:
        """The site as it stands."""
        return self.session.site

    @property
    def tool(self) -> AnyTool:
        """The tool in use."""
        return self.tools.tool

    @property
    def hand(self) -> Hand:
        """What the tools share."""
        return self.tools.hand

    @property
    def findings(self) -> tuple[Finding, ...]:
        """What has been found so far, as far as it may be shown."""
        return tuple(self.session.findings) if self.practice else ()

    @property
    def can_undo(self) -> bool:
        """Whether there is something to take back, and it may be."""
        return self.practice and self.site.done > 0

    def offers(self, routine: Routine | None) -> bool:
        """Whether a routine may be done in one go: always later on and in an assessment, and for whoever needs it."""
        later = self.services.path.houses_met >= FIRST_HOUSES
        always = later or not self.practice or self.services.comfort.settings.fewer_presses
        return self.may_offer(routine) and (always or routine in self.tools.practised)

    def may_offer(self, routine: Routine | None) -> bool:
        """Whether a routine is offered here some time, if not yet."""
        return routine is not None

    @property
    def by_keyboard(self) -> bool:
        """Whether the learner moves a focus, and has no mouse on the screen."""
        return self.ui.show_focus

    def changed(self) -> None:
        """The site is another: draw everything again."""
        self.ghost, self._hint, self._depth = None, None, 0
        self.views.moving.acted()
        self.views.invalidate()
        self.refresh()

    # choosing

    def hold_still(self) -> None:
        """Let a mouse that lies on the plan disturb nothing until it moves."""
        self._mouse_left = self._mouse

    def adjusted(self) -> None:
        """Show that a control has changed what the tool holds."""
        self.hand.caught = ""
        self.hold_still()
        self.refresh()

    def focus_on(self, key: str) -> None:
        """Put the focus on a control, once it is there."""
        self.update(self.size)
        self.services.focus(key)

    def use(self, verb: str) -> None:
        """Take up a tool, and open the list that goes with it."""
        self._take_typed()
        self.views.stop_drawing()
        tool = self.tools.use(verb)
        self._open_stage_of(verb)
        self.tab = "own" if tool.list_name else "yard" if tool.from_yard or not self.site.stood else "roof"
        self.noted = ()
        self.message = tool.first_words
        self.refresh()

    def _take_typed(self) -> None:
        """Give what has been typed to the tool that it was typed for, before there is another."""
        for widget in self.roots["side"].walk() if "side" in self.roots else ():
            if widget.key == self.ui.focus:
                widget.on_leave(self.ui)

    def _open_stage_of(self, verb: str) -> None:
        if TOOLS[verb] not in STAGE_TOOLS[self.stage]:
            self.stage = stage_of(verb, self.stage)

    def open_stage(self, stage: Stage) -> None:
        """Show the tools of a stage, and take up the one that was used there last, else the first."""
        self.stage = stage
        if type(self.tool) not in STAGE_TOOLS[stage]:
            self.use(self.tools.last_of(stage))
        self.refresh()

    def choose_row(self, row: str) -> None:
        """Choose a row of the tool's own list."""
        self.tool.choose_row(row)
        self.refresh()

    def take_row(self, row: str) -> None:
        """Press Enter, or the mouse, on a row of the tool's own list."""
        self.tool.take_row(self, row)
        self.refresh()

    def open_tab(self, tab: Tab) -> None:
        """Open a tab of the column."""
        self.tab = tab
        self.noted = ()
        self.refresh()

    def choose(self, tag: str) -> None:
        """Choose a truss in a list."""
        self.tool.choose(tag)
        self.refresh()

    def take(self, tag: str) -> None:
        """Press Enter, or the mouse, on a truss in a list: go on with it as the tool asks."""
        self.tool.choose(tag)
        if self.tool.only_standing and tag not in self.site.stood:
            self.use("stand")
        self.tool.take(self, tag)
        self.refresh()

    def turn(self) -> None:
        """Turn the truss in the hand end for end."""
        self.hand.turn()
        self.refresh()

    def choose_diary(self, row: str) -> None:
        """Choose a line of the diary."""
        self.diary_row = row
        self.refresh("side")

    # the mouse on the plan

    def hover(self, place: Point | None) -> None:
        """Follow the mouse, but not the slight move of one that lies still while somebody types."""
        if place is None:
            return
        self._mouse = self.plan.to_window(place)
        if self._mouse_left is not None:
            if math.dist(self._mouse, self._mouse_left) < STILL_PX:
                return
            self._mouse_left = None
        self.point_at(place)

    def hover_left(self) -> None:
        if self.hovered:
            self.hovered = ""
            self.redraw("plan")

    def point_at(self, place: Point) -> None:
        """Aim at a place of the plan."""
        before = copy(self.hand), copy(self.tool)
        mm_per_px = self.plan.camera.mm_per_px
        hovered = self.tools.point_at(place, REACH_PX * mm_per_px, mm_per_px, self.plan.words_at(place))
        if (self.hand, self.tool) != before:
            self.refresh("plan", "side")
        elif hovered != self.hovered:
            self.redraw("plan")
        self.hovered = hovered

    def click(self, place: Point, button: int) -> None:
        """Press on the plan: do what the tool does there; the right button turns the truss in the hand."""
        if button == 3:
            self.turn()
        elif button == 1:
            self.point_at(place)
            self.tool.press(self, place, self.hovered)
            self.refresh()

    def carry(self, pos: tuple[int, int]) -> None:
        """Drag a truss out of the yard over the plan."""
        if self.tool is not self.tools["stand"]:
            self.use("stand")
        if self.plan.rect.collidepoint(pos):
            self.point_at(self.plan.to_mm(pos))

    def drop(self, pos: tuple[int, int]) -> None:
        """Let go of a truss dragged out of the yard: over the plan it is stood there."""
        if self.tool is self.tools["stand"] and self.plan.rect.collidepoint(pos):
            self.click(self.plan.to_mm(pos), 1)

    # doing

    def say(self, text: str) -> None:
        """Put a sentence in the strip."""
        self.message = text
        self.refresh("strip", "plan")

    def act(self) -> None:
        """Do what the tool is aimed at."""
        wanted = self.tool.actions()
        if isinstance(wanted, str):
            self.say(wanted)
        else:
            self.do(wanted)

    def do(self, wanted: Sequence[AnyAction]) -> bool:
        """Do actions one after the other; stop at one that can't be done. Return whether all were."""
        offered_before = self.offers(self.tool.routine)
        outcomes = self.do_recorded(wanted)
        found = tuple(finding for outcome in outcomes for finding in outcome.findings)
        if outcomes:
            self.message = diary_words.came_of(outcomes, self.tools)
            self.refusal = self.message if outcomes[-1].refused is not None else ""
        if not found and not offered_before and self.offers(self.tool.routine):
            self.message = f"{self.message.rstrip('.')}. " + _("Now you can do more of it in one go: press V.")
        if len(outcomes) == len(wanted) and outcomes[-1].refused is None:
            self.tools.after(wanted[0])
        for tool in self.tools:
            tool.in_one_go = tool.in_one_go and self.offers(tool.routine)
        self.changed()
        if found and self.practice:
            self.show_found(found)
        return not found

    def do_recorded(self, actions: Sequence[AnyAction]) -> tuple[ActionResult, ...]:
        """Do what one hand does and have it recorded; where that can't be, say why, and nothing was done."""
        from trainer.records.errors import RecordsError

        try:
            return self.assignment.do(actions)
        except RecordsError as error:
            self.message = str(error)
            return ()

    def show_found(self, found: tuple[Finding, ...]) -> None:
        """Show what was found, the worst first."""
        self.noted = tuple(sorted(found, key=lambda finding: SEVERITIES.index(finding.severity)))
        self.ui.memory.pop(NOTE_TEXT, None)
        self.ui.memory["note/back to"] = self.ui.focus
        self.refresh()
        self.ui.focus = NOTE_TEXT

    def close_note(self) -> None:
        """Put the note away and go on."""
        self.noted = ()
        self.ui.focus = str(self.ui.memory.get("note/back to", ""))
        self.refresh()

    def undo(self) -> None:
        """Take the last action back."""
        if not self.practice:
            self.say(_("There is no undo in an assessment. Take the truss down instead."))
            return
        if not self.can_undo:
            self.say(_("There is nothing to take back."))
            return
        last = self.session.last_act
        if self.do_recorded(self.session.undos):
            if self.noted:
                self.close_note()
            self.message = _("Taken back.")
            self.tools.took_back(last)
        self.changed()

    # hints

    def hint(self) -> None:
        """Go one step deeper into a hint: why, which, where, and at last take up the tool for it."""
        if self._hint is None:
            hints = [found for found in self.session.hint() if self.assignment.asks_for(found.step)]
            if not hints:
                given = self.practice and self.entry.level.lesson.hints
                self.say(_("There is no hint for now.") if given else _("There are no hints here."))
                return
            fitting = [] if hints[0].urgent else [found for found in hints if found.action.do == self.tool.verb]
            self._hint = (fitting or hints)[0]
        self._depth = min(self._depth + 1, DEEPEST)
        self.session.take_hint(self._depth)
        self._say_hint(self._hint)

    def _say_hint(self, hint: Hint) -> None:
        """Say and show what belongs to the depth that a hint has got to."""
        action = hint.action
        if self._depth == DEEPEST:
            self.get_ready(action)
            return
        self.ghost = action if DEPTHS[self._depth - 1] == "where" else None
        self.say(diary_words.of_hint(hint, self._depth, self.tools))
        self.redraw("plan")

    def get_ready(self, action: AnyAction) -> None:
        """Take up the tool for an action, aimed at it; doing it is left to the learner."""
        if isinstance(action, HandOver):
            self.hand_over()
            return
        self._take_typed()
        self.noted = ()
        why = self.tools.aim_at(action)
        self._open_stage_of(self.tool.verb)
        self.tab = "own" if self.tool.list_name else "roof" if self.hand.stands else "yard"
        to_do = diary_words.to_do(action, self.tools)
        self.message = why or _("It is aimed. Enter does it: {what}.").format(what=to_do)
        self.hold_still()
        self.refresh()
        self.focus_on(DO_IT)

    # leaving

    def hand_over(self) -> None:
        """Ask, then hand the roof over."""
        if not self.assignment.handed_over_by_hand:
            self.say(_("This is not handed over. It ends by itself when all of it is done."))
            return
        lines = [_("The roof is judged as it stands. You can't go on afterwards.")]
        if self.practice and (still_open := open_at_hand_over(self.session)):
            lines = [_("Still open:"), *still_open, *lines]
        if waiting := len(yard(self.site)):
            still = ngettext("{n} truss is still in the yard.", "{n} trusses are still in the yard.", waiting)
            lines.insert(0, still.format(n=waiting))
        confirm(self.services, _("Hand the roof over?"), lines, _("Hand over"), self._hand_over)

    def _hand_over(self) -> None:
        outcomes = self.do_recorded([HandOver()])
        refused = outcomes[0].refused if outcomes else None
        if refused is not None or not outcomes:
            self.say(refused.why if refused else self.message)
            return
        self.assignment.handed_over(self.services, self.entry, self.session)

    def save(self) -> None:
        """Save the diary as a file and say where it is."""
        save_diary(self.services, self.session)

    def leave(self) -> None:
        """Go back to where one came from, after asking if anything has been done."""
        leave = partial(self.assignment.left, self.services)
        if warning := self.assignment.before_leaving() if self.site.done else "":
            confirm(self.services, _("Leave this house?"), [warning], _("Leave"), leave)
        else:
            leave()
