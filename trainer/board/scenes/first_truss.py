"""The first truss, step by step: one minute on a real house, with everything else left out."""

from __future__ import annotations

from dataclasses import replace

from trainer.board.aim import on_wall
from trainer.board.library import HouseEntry, read_entry
from trainer.board.path import FIRST_HOUSE
from trainer.board.scenes.asking import ask_which
from trainer.board.scenes.assignment import OneHouse
from trainer.board.scenes.work import Work
from trainer.board.services import Services
from trainer.board.tools.registry import TOOLS
from trainer.board.widgets import Button, Pad, Paragraph, Prose, Scroll, Widget
from trainer.board.widgets.boxes import Beside
from trainer.order import Step
from trainer.session import Session
from trainer.shipped import find_level
from trainer.site.actions import AnyAction, Mark, Stand
from trainer.terms import VERBS
from trainer.words import _

STAGES = ("set-out", "stand", "brace", "fix")
"""What a truss on its own needs."""
LARGE_TEXT = 1.5
"""From this size of text on the guide is set no larger than the rest."""
TOOL_OF: dict[str, str] = {"mark": "mark", "stand": "stand", "tie": "brace", "fix": "fix"}
SAID: dict[str, str] = {
    "mark": _(
        "This is a small house from above. Chalk where the first truss goes: press on the dashed line on wall {wall}, "
        "or type {at} and press Enter."
    ),
    "mark again": _(
        "Chalk the other end: press on the dashed line on wall {wall}. "
        "Or press W until it says {wall}, type {at} and press Enter."
    ),
    "stand": _("Take {tag} from the yard. Put it on its line and press, or type {at} and press Enter."),
    "tie": _("Nothing holds it yet. Brace it to something solid: press on it, or press Enter on {tag}."),
    "fix": _("Fix each end to the plate. Press near the end, or choose {tag} and the end, and press Enter."),
}
WHY: dict[str, str] = {
    "mark": _("Marks come first: every truss stands on one."),
    "stand": _("The plan is true to scale. The tape shows where you are."),
    "tie": _("An unbraced truss falls over."),
    "fix": _("The wind must not lift it off."),
}


class FirstTruss(Work):
    """Work with a guide over the plan. Nothing of it is recorded, and it can be left at any time."""

    def __init__(self, services: Services) -> None:
        entry = _short(read_entry(find_level(FIRST_HOUSE)))
        session = Session(entry.level, 1)
        super().__init__(services, entry, session, "practice", OneHouse(session, None))
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

    def _point_out(self) -> None:
        """Show on the plan what the guide asks for."""
        following = self.next_step
        self.ghost = following[1] if following else None

    def changed(self) -> None:
        super().changed()
        self._point_out()
        if self.next_step is None:
            self._done()

    # the screen

    def make(self, region: str) -> Widget:
        return self._guide() if region == "strip" else super().make(region)

    def _guide(self) -> Widget:
        """What to do now, under the plan where else the strip is; and what was said last."""
        large = "heading" if self.ui.look.scale < LARGE_TEXT else "body"
        lines = ((self._words(), large), (self.message, "body"))
        said = Prose([Paragraph(text, style, "ink") for text, style in lines if text], ground="select")
        skip = Button(_("Skip"), self.skip, shortcut="Esc", ground="select", key="guide/skip")
        text = Scroll(said, _("Guide"))
        text.ground = "select"
        return Pad(Beside(text, skip), pad=10, ground="select", name=_("Guide"), key="guide")

    def _words(self) -> str:
        following = self.next_step
        if following is None:
            return _("Your first truss stands.")
        step, action = following
        tool = TOOL_OF[step.verb]
        if self.tool.verb != tool:
            said = _("Choose the tool {tool}: press {key}.").format(tool=VERBS[tool].name, key=TOOLS[tool].key)
            return f"{WHY[step.verb]} {said}"
        again = step.verb == "mark" and bool(self.site.marks)
        at = action.at if isinstance(action, Mark) else self._station(action)
        wall = action.wall if isinstance(action, Mark) else ""
        return SAID["mark again" if again else step.verb].format(tag=self.tag, at=f"{at:g}", wall=wall)

    def _station(self, action: AnyAction) -> float:
        """The measure to type for a truss that is to be stood, from the wall that the hand is aimed at."""
        wall = self.site.layout.house.plan.by_name[self.hand.aim.wall]
        return on_wall(wall, action.start)[0] if isinstance(action, Stand) else 0.0

    def use(self, verb: str) -> None:
        super().use(verb)
        self.message = ""
        self._point_out()

    # the end

    def _done(self) -> None:
        lines = [
            _("You marked it, stood it, braced it and fixed it. That is the job, one truss at a time."),
            _("H gives a hint at any time. U takes a step back."),
        ]
        whole = read_entry(find_level(FIRST_HOUSE))
        self._remember()
        options = (
            (_("Build the whole house"), lambda: self.services.go_work(whole, "practice")),
            (_("See all houses"), self.services.go_home),
        )
        ask_which(self.services, _("Your first truss stands"), lines, options)

    def skip(self) -> None:
        """Leave the guide for the houses."""
        self._remember()
        self.services.go_home()

    def leave(self) -> None:
        self.skip()

    def hand_over(self) -> None:
        self.skip()

    def _remember(self) -> None:
        if not self.services.comfort.settings.shown:
            self.services.comfort.remember(shown=True)


def _short(entry: HouseEntry) -> HouseEntry:
    """Return the house with only the stages that one truss needs, and the gaps of time that they leave."""
    lesson = entry.level.lesson.model_copy(update={"stages": STAGES, "hints": True})
    return replace(entry, level=entry.level.model_copy(update={"lesson": lesson}))
