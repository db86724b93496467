"""The first truss, step by step: one minute on a real house, with everything else left out.

Nothing can go wrong in it: a press anywhere along the dashed line serves, and whatever else is tried changes nothing
and says in one sentence what to do.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import replace
from functools import partial

from trainer.board import diary_words
from trainer.board.aim import aims_of, ends, on_wall
from trainer.board.library import HouseEntry, read_entry
from trainer.board.overlay import NOTE_PX
from trainer.board.paint import Brush
from trainer.board.path import FIRST_HOUSE
from trainer.board.scenes.assignment import OneHouse
from trainer.board.scenes.work import Work
from trainer.board.scenes.work_frame import stage_label
from trainer.board.services import Services
from trainer.board.tools.brace import BraceTool
from trainer.board.tools.hand import FIRST_CORNER, OTHER_CORNER
from trainer.board.tools.registry import TOOLS, stage_of
from trainer.board.widgets import Button, Column, Flow, Pad, Paragraph, Prose, Scroll, Widget
from trainer.board.widgets.boxes import Beside, Followed
from trainer.order import Step
from trainer.picture.model import Item, Line, Text
from trainer.plan import Point
from trainer.session import Session
from trainer.session.hands import Routine
from trainer.shipped import find_level
from trainer.site.actions import AnyAction, Brace, Fix, Mark, Stand
from trainer.terms import VERBS, thing
from trainer.words import _

STAGES = ("set-out", "stand", "brace", "fix")
"""What a truss on its own needs."""
LARGE_TEXT = 1.5
"""From this size of text on the guide is set no larger than the rest."""
NEAR_PX, NEAR = 40.0, 300.0
"""How near to the dashed line, or past its ends, a press serves: px on the screen, and mm of the house."""
INSIDE = 350.0
"""How far inside the wall the measure of a mark is lettered, mm."""
TOOL_OF: dict[str, str] = {"mark": "mark", "stand": "stand", "tie": "brace", "fix": "fix"}
SAID: dict[str, str] = {
    "mark": _(
        "This is a small house from above. Chalk on wall {wall} where the first truss goes: "
        "press on the dashed line, or type {at} and press Enter."
    ),
    "mark again": _(
        "Chalk the other end, on wall {wall}: press on the dashed line again, or type {at} and press Enter. "
        "The tape is hooked at the same end of the house."
    ),
    "stand": _(
        "Take {tag} from the yard: press on it in the list, or go to it with ↓ and press Enter. "
        "Then press on the dashed line, or type {at} and press Enter."
    ),
    "stand it": _("{tag} is in your hand. Press on the dashed line, or type {at} and press Enter."),
    "tie": _(
        "Nothing holds it yet. Brace it to something solid: here that is the end wall, which is braced itself. "
        "Press on the dashed line, or press Enter on {tag}."
    ),
    "fix": _("Fix an end to the plate: press on the dashed line, or choose {tag} and press Enter."),
    "fix again": _("Fix the other end too: press on the dashed line, or press Enter."),
}
WHY: dict[str, str] = {
    "mark": _("Marks come first: every truss stands on one."),
    "stand": _("The plan is true to scale. The tape shows where you are."),
    "tie": _("An unbraced truss falls over."),
    "fix": _("The wind must not lift it off."),
}
WRONG_BRACE = _("A {kind} holds it to nothing yet. Press C until it says {wanted}: nothing has changed.")
ASIDE = _("Nothing has changed. {todo}")
"""Said of anything that is not what the guide asks for."""


class _Lesson(OneHouse):
    """A house that nobody hands over: the lesson ends by itself."""

    handed_over_by_hand = False


class FirstTruss(Work):
    """Work with a guide over the plan. Nothing of it is recorded, and it can be left at any time."""

    def __init__(self, services: Services) -> None:
        entry = _short(read_entry(find_level(FIRST_HOUSE)))
        session = Session(entry.level, 1)
        super().__init__(services, entry, session, "practice", _Lesson(session, None))
        self.name = _("Your first truss")
        self.tag = next(m.tag for m in self.site.layout.members if m.kind == "standard")
        self.tab = "yard"
        self.message = ""
        self._point_out()

    # what is next

    def _left(self) -> list[tuple[Step, AnyAction]]:
        """The steps of the one truss that are ready or will be, each with a right action where it is ready."""
        order = self.site.job.order
        own = [step for step in order.steps if step.tag == self.tag]
        ready = {hint.step: hint.action for hint in self.session.hint()}
        return [(step, ready[step]) for step in own if step in ready]

    @property
    def next_step(self) -> tuple[Step, AnyAction] | None:
        """What the guide asks for."""
        left = self._left()
        return left[0] if left else None

    @property
    def done(self) -> bool:
        """Whether the truss is marked, stands where it belongs, is braced and has both ends fixed."""
        site = self.site
        fixed = all(site.fixed.get((self.tag, end)) for end in (1, 2))
        braced = any(self.tag in brace.tags for brace in site.bracing)
        return self.next_step is None and site.at_place.get(self.tag) == self.tag and fixed and braced

    def _point_out(self) -> None:
        """Show on the plan what the guide asks for, the tape hooked at the same end of both walls."""
        following = self.next_step
        action = following[1] if following else None
        self.ghost = None if isinstance(action, Mark | Stand) else action
        if isinstance(action, Mark):
            self.tools["mark"].aim_at(action.model_copy(update={"at": 0.0}))
            far = action.at > self.hand.length_of(str(action.wall)) / 2
            self.hand.hook(str(action.wall), OTHER_CORNER if far else FIRST_CORNER)
        elif action is not None:
            self.hand.hook(self._wall, FIRST_CORNER)
            if isinstance(action, Fix) and self._one_end_fixed():
                self.tools["fix"].aim_at(action)  # Enter alone does the other end, as the guide says

    def changed(self) -> None:
        super().changed()
        self._point_out()
        if self.done:
            self.services.comfort.remember(shown=True, first_stands=True)
            self.refresh()
            self.focus_on("guide/today")

    # what serves, and what does not

    def hover(self, place: Point | None) -> None:
        super().hover(place)
        self._hold_square()

    def choose(self, tag: str) -> None:
        super().choose(tag)
        self._hold_square()

    def click(self, place: Point, button: int) -> None:
        following = self.next_step
        if button != 1 or following is None:
            return
        if self.tool.verb != TOOL_OF[following[0].verb] or not self._held(following[1]) or not self._near(place):
            self._aside()
        elif not self._wrong_brace(following[1]):
            self._perform(following[1])

    def carry(self, pos: tuple[int, int]) -> None:
        super().carry(pos)
        self._hold_square()

    def drop(self, pos: tuple[int, int]) -> None:
        if self.tool is self.tools["stand"] and self.plan.rect.collidepoint(pos):
            self.click(self.plan.to_mm(pos), 1)

    def turn(self) -> None:
        self._aside()

    def may_offer(self, routine: Routine | None) -> bool:
        """Nothing: a first truss is done by single acts."""
        return False

    def do(self, wanted: Sequence[AnyAction]) -> bool:
        following = self.next_step
        asked = following[1] if following else None
        serves = asked is not None and len(wanted) == 1 and self._serves(wanted[0], asked)
        if serves and asked is not None:
            if self._wrong_brace(asked):
                return False
            self._perform(asked if isinstance(asked, Mark | Stand) else wanted[0])
        else:
            self._aside()
        return serves

    def _held(self, action: AnyAction) -> bool:
        """Whether the truss that is asked for is in the hand, where one has to be."""
        return not isinstance(action, Stand) or self.hand.truss == action.tag

    def _near(self, place: Point) -> bool:
        """Whether a place lies along the line of the truss, or a little past its ends."""
        member = self.site.layout.by_tag[self.tag]
        run, reach = member.run(place), max(NEAR, NEAR_PX * self.plan.camera.mm_per_px)
        (x, y), (ux, uy) = member.start, member.direction
        aside = math.dist(place, (x + ux * run, y + uy * run))
        return aside <= reach and -reach <= run <= member.span + reach

    def _serves(self, given: AnyAction, asked: AnyAction) -> bool:
        """Whether an action is what the guide asks for; of bracing and fixing, any that is as good."""
        if isinstance(given, Mark) and isinstance(asked, Mark):
            return given.wall == asked.wall and abs(given.at - asked.at) <= 1
        if isinstance(given, Stand) and isinstance(asked, Stand):
            places = (given.start, given.finish), (given.finish, given.start)
            near = (math.dist(a, asked.start) + math.dist(b, asked.finish) <= 2 for a, b in places)
            return given.tag == asked.tag and any(near)
        return given.do == asked.do

    def _wrong_brace(self, asked: AnyAction) -> bool:
        """Whether another kind of brace is chosen than the one that holds a first truss; that is said then."""
        if not isinstance(asked, Brace) or not isinstance(self.tool, BraceTool) or self.tool.kind == asked.kind:
            return False
        self.say(WRONG_BRACE.format(kind=thing(self.tool.kind), wanted=thing(asked.kind)))
        return True

    def _perform(self, action: AnyAction) -> None:
        """Do it; what turns out to be a mistake is taken back."""
        outcomes = self.do_recorded([action])
        if not outcomes or outcomes[0].refused is not None or outcomes[0].findings:
            if outcomes and outcomes[0].refused is None:
                self.do_recorded(self.session.undos)
            self._aside()
        else:
            what, where = diary_words.done(action, self.site)
            self.message = what if isinstance(action, Mark) else ", ".join(filter(None, (what, where)))
            self.tools.after(action)
        self.changed()

    def _aside(self) -> None:
        """Say that nothing has changed, and what to do."""
        following = self.next_step
        if following is not None and self.tool.verb != TOOL_OF[following[0].verb]:
            todo = _("First choose the tool that is asked for.")
        elif following is not None and not self._held(following[1]):
            todo = _("First take {tag} from the yard.").format(tag=self.tag)
        else:
            todo = _("Press on the dashed line.")
        self.say(ASIDE.format(todo=todo))

    def _hold_square(self) -> None:
        """The truss in the hand lies as it will stand, wherever the mouse goes: turning it is for later."""
        following = self.next_step
        action = following[1] if following else None
        if isinstance(action, Stand) and self.tool.verb == "stand" and self.hand.truss == action.tag:
            plan, member = self.site.layout.house.plan, self.site.layout.by_tag[self.tag]
            aims = aims_of(plan, member, action.start, action.finish)
            asked = next(aim for aim in aims if aim.wall == self._wall)
            start, _finish = ends(plan, member, self.hand.aim)
            along = (
                on_wall(plan.by_name[self._wall], start)[0] if self.hand.aim.wall != asked.wall else self.hand.aim.at
            )
            self.hand.aim = replace(asked, at=round(along))
            self.redraw("plan")

    @property
    def _wall(self) -> str:
        """The wall from which the truss is measured."""
        return self.site.layout.by_tag[self.tag].ends[0].bears_on.removeprefix("plate ")

    # the screen

    @property
    def strip_lines(self) -> int:  # type: ignore[override]
        """Room for what the guide asks for, and for the end with its buttons."""
        if self.ui.look.scale < LARGE_TEXT:
            return 9 if self.done else 7
        return 7 if self.done else 5

    @property
    def strip_grows(self) -> float:  # type: ignore[override]
        """The end has the room that it needs."""
        return 0.8 if self.done else super().strip_grows

    def said(self, width: int) -> int:
        return self.make("strip").high(self.ui, width)

    def make(self, region: str) -> Widget:
        return self._guide() if region == "strip" else super().make(region)

    def _live(self, brush: Brush) -> None:
        super()._live(brush)
        if not self.done:
            member = self.site.layout.by_tag[self.tag]
            brush.paint([Line((member.start, member.finish), "ghost", 3.0, "px", (8.0, 5.0)), *self._measure()])

    def _measure(self) -> list[Item]:
        """The measure at the end that is to be marked."""
        following = self.next_step
        if following is None or not isinstance(following[1], Mark):
            return []
        wall = self.site.layout.house.plan.by_name[str(following[1].wall)]
        (x, y), (nx, ny) = wall.at(following[1].at), wall.inward
        at = (x + nx * INSIDE, y + ny * INSIDE)
        return [Text(at, f"{self._on_tape(following[1]):g}", "ink", NOTE_PX, "px", bold=True, ground="paper")]

    def _guide(self) -> Widget:
        """What to do now, under the plan where else the strip is; and what was said last."""
        if self.done:
            return self._end()
        large = "heading" if self.ui.look.scale < LARGE_TEXT else "body"
        lines = ((self._words(), large), (self.message, "body"))
        said = Prose([Paragraph(text, style, "ink") for text, style in lines if text], ground="select")
        skip = Button(_("Skip"), self.skip, shortcut="Esc", ground="select", key="guide/skip")
        text = Scroll(said, _("Guide"), text=said.value)
        text.ground = "select"
        return Pad(Beside(text, skip), pad=10, ground="select", name=_("Guide"), key="guide")

    def _words(self) -> str:
        following = self.next_step
        if following is None:
            return ""
        step, action = following
        tool = TOOL_OF[step.verb]
        if self.tool.verb != tool:
            said = _("Choose the tool {tool}: press {key}. Or step to {stage} on the left, and take {tool} under it.")
            stage = stage_label(stage_of(tool))
            return f"{WHY[step.verb]} {said.format(tool=VERBS[tool].name, key=TOOLS[tool].key, stage=stage)}"
        again = bool(self.site.marks) if step.verb == "mark" else step.verb == "fix" and self._one_end_fixed()
        held = step.verb == "stand" and self.hand.truss == self.tag
        said = f"{step.verb} again" if again else "stand it" if held else step.verb
        at = self._on_tape(action) if isinstance(action, Mark) else self._station(action)
        wall = action.wall if isinstance(action, Mark) else ""
        return SAID[said].format(tag=self.tag, at=f"{at:g}", wall=wall)

    def _one_end_fixed(self) -> bool:
        return any(self.site.fixed.get((self.tag, end)) for end in (1, 2))

    def _on_tape(self, action: Mark) -> float:
        """What the tape shows at the mark that is asked for."""
        return abs(action.at - self.hand.tape_start(str(action.wall)))

    def _station(self, action: AnyAction) -> float:
        """The measure to type for a truss that is to be stood."""
        wall = self.site.layout.house.plan.by_name[self._wall]
        return on_wall(wall, action.start)[0] if isinstance(action, Stand) else 0.0

    def use(self, verb: str) -> None:
        super().use(verb)
        self.message = ""
        if self.tag in self.site.stood:
            self.hand.truss = self.tag  # it is chosen in the list, where Enter does what the guide asks for
        self._point_out()
        self._hold_square()

    # the end

    def _end(self) -> Widget:
        """What was done and where to go on, in the strip: the truss stays in sight."""
        whole = read_entry(find_level(FIRST_HOUSE))
        scale = self.ui.look.scale
        done, job = _("You marked it, stood it, braced it and fixed it."), _("That is the job, one truss at a time.")
        # The larger the text, the less of it: the truss is to be seen beside it.
        lines = [f"{done} {job}" if scale <= LARGE_TEXT else done]
        if "fix" not in whole.level.lesson.stages and scale <= LARGE_TEXT:
            lines.append(_("In the whole house others fix the ends, once all of it stands. Its job sheet says so."))
        if not (large_text := scale >= LARGE_TEXT):
            lines.append(_("H gives a hint at any time. U takes a step back."))
        title = _("Your first truss stands")
        large = "strong" if large_text else "heading"
        said = Prose(
            [Paragraph(title, large, "ink"), *(Paragraph(each, "body", "ink") for each in lines)], ground="select"
        )
        # Large text: under the words, which have the whole width then, so that none of them has to be scrolled to.
        buttons = (partial(Flow, gap=8) if large_text else partial(Column, gap=8))(
            [
                Button(
                    _("Today's lesson"), partial(self._ask_why, self._to_the_lesson), kind="primary", ground="select",
                    key="guide/today",
                ),
                Button(
                    _("Build the whole house"),
                    partial(self._ask_why, lambda: self.services.go_work(whole, "practice")), ground="select",
                    key="guide/whole",
                ),
                Button(
                    _("See all houses"), self.services.go_home, shortcut="Esc", ground="select", key="guide/houses",
                ),
            ],
            key="guide/options",
        )  # fmt: skip
        text = Scroll(said, title)
        text.ground = "select"
        card = Followed(text, buttons, gap=4) if large_text else Beside(text, buttons)
        return Pad(card, pad=10, ground="select", name=title, key="guide")

    def _to_the_lesson(self) -> None:
        """Begin today's lesson."""
        from trainer.board.scenes.today import TodayScreen  # loads the course and the questions

        self.services.show(TodayScreen(self.services, at_once=True))

    def _ask_why(self, then: Callable[[], None]) -> None:
        """Ask what every roof asks before anybody goes on to a whole one."""
        from trainer.board.scenes.four_whys import FourWhys  # the first look shows before it

        self.services.show(FourWhys(self.services, then))

    def skip(self) -> None:
        """Leave the guide for the houses."""
        if not self.services.comfort.settings.shown:
            self.services.comfort.remember(shown=True)
        self.services.go_home()

    def leave(self) -> None:
        self.skip()


def _short(entry: HouseEntry) -> HouseEntry:
    """Return the house with only the stages that one truss needs, and the gaps of time that they leave."""
    lesson = entry.level.lesson.model_copy(update={"stages": STAGES, "hints": True})
    return replace(entry, level=entry.level.model_copy(update={"lesson": lesson}))
