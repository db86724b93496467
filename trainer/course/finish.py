"""*Finish it*: a house built but for one idea, which is left to the learner.

What an idea is, is what a film has a caption for. Help fades from one to the next: a worked example is finished first
with all that teaches it, at last alone (trade of teaching: worked example, then completion, then whole).
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import replace
from typing import Literal

from trainer.chance import pick
from trainer.course.model import CourseStep
from trainer.drill import CannotDrill, Drill, make_drill
from trainer.drill.playing import DrillSite
from trainer.film.course import Course as FilmCourse
from trainer.film.ideas import BY_KEY
from trainer.layout import Layout, lay_out
from trainer.level import Level
from trainer.order import Step
from trainer.rehearse.playing import actions_of
from trainer.rules import all_rules
from trainer.site import AnyAction
from trainer.terms import STAGE_OF, VERBS, Stage
from trainer.words import _, listed

Help = Literal["shown", "faded", "alone"]
"""What stands by a learner: the text that teaches and hints, hints alone, nothing."""
KIND = "finish-{step}-{number}"
"""What such a drill is called in the records."""
STAGES: tuple[Stage, ...] = ("set-out", "stand", "brace", "fix")
MOST_STEPS = 12
"""Steps left to the learner, at most."""
READING_S, STEP_S = 90, 12
"""What a beginner takes to read, and for a step: twice what the stated minutes of the first houses allow for one."""


def help_at(step: CourseStep, number: int) -> Help:
    """Return how much help there is the time ``number``, from 1: less each time, none the last time and after it."""
    return "shown" if number == 1 else "alone" if number >= len(step.finish) else "faded"


def finish(step: CourseStep, number: int, level: Level, seed: int, layout: Layout | None = None) -> Drill:
    """Return the drill that leaves only a step's idea of a house to be done, for the time ``number``, from 1.

    :raises CannotDrill: where the house has nothing of it that could be left out by itself.
    :raises LayoutRefused: where the house can't be laid out.
    """
    layout = layout or lay_out(level.house())
    kind, helped = KIND.format(step=step.id, number=number), help_at(step, number)
    if step.drill:
        made = make_drill(step.drill, level, seed, layout)
        made = replace(made, level=_with_hints(made.level, helped), kind=kind, title=step.title)
    else:
        made = _left_out(step, level, layout, seed, helped, kind)
    return replace(made, rules=_touched(step, made))


def _left_out(step: CourseStep, level: Level, layout: Layout, seed: int, helped: Help, kind: str) -> Drill:
    house = _with_hints(_bare(level), helped)
    scene = DrillSite.of(house, layout, seed)
    steps = [each for each in scene.sequence if each.verb != "hand_over"]
    course = FilmCourse(layout, scene.job.order, seed, tuple(steps), (), ())
    idea = BY_KEY[step.film]
    lots = _lots([each for each in steps if idea.about(course, each)])
    # Some need much else that waits for them in turn: that would be more than one idea.
    fit = [left for left in map(scene.left, lots) if len(left) <= MOST_STEPS]
    if not fit:
        raise CannotDrill(_("This house has nothing of this idea that can be left out by itself."))
    longest = max(map(len, fit))
    left = pick([left for left in fit if 2 * len(left) >= longest], seed, level.id, step.film)
    idea_text = idea.text(course).removeprefix(f"{step.title}.").strip() if helped == "shown" else ""
    before = _before(scene, left)
    given = tuple(actions_of(scene.job, before, scene.seed))
    task = _left_in_words(step, left)
    if helped != "alone":
        doing = actions_of(scene.job, [*before, *left], scene.seed)[len(given) :]
        task = f"{task} {_by_means_of(left, doing)} {idea_text}".strip()
    return Drill(
        kind=kind, title=step.title, task=task, level=house, layout=layout, seed=seed, given=given,
        steps=tuple(left), minutes=-(-(READING_S + STEP_S * len(left)) // 60),
    )  # fmt: skip


def _left_in_words(step: CourseStep, left: Sequence[Step]) -> str:
    """Say what is left to the learner, and on which trusses."""
    what = _("Left to you: {what}.").format(what=step.title[:1].lower() + step.title[1:])
    tags = listed(sorted({each.tag for each in left}, key=_by_number))
    return f"{what} " + _("This time that is {tags}.").format(tags=tags)


def _by_means_of(left: Sequence[Step], doing: Iterable[AnyAction]) -> str:
    """Say with which tools it is done, and where the measures of marks stand."""
    said = [_("Tools: {tools}.").format(tools=listed(list(dict.fromkeys(VERBS[each.do].name for each in doing))))]
    if all(each.verb == "mark" for each in left):
        said.append(_("The layout has the measures."))
    return " ".join(said)


def _by_number(tag: str) -> tuple[str, int]:
    name, number = re.fullmatch(r"(.*?)(\d*)", tag, re.DOTALL).groups()  # type: ignore[union-attr]
    return name, int(number or 0)


def _bare(level: Level) -> Level:
    """The level without the dangers of its site: nothing else is wrong there."""
    lesson = level.lesson.model_copy(update={"stages": tuple(each for each in STAGES if each in level.lesson.stages)})
    bare = {"walls": (), "delivery": (), "wind": "calm", "dangers": (), "lifting": None, "loading": False, "day": None}
    return level.model_copy(update={"lesson": lesson, "site": level.site.model_copy(update=bare)})


def _with_hints(level: Level, helped: Help) -> Level:
    lesson = level.lesson.model_copy(update={"hints": helped != "alone"})
    return level.model_copy(update={"lesson": lesson})


def _lots(steps: Sequence[Step]) -> list[list[Step]]:
    """The steps in lots of at most so many, each with all that is done on its trusses."""
    by_tag: dict[str, list[Step]] = {}
    for step in steps:
        by_tag.setdefault(step.tag, []).append(step)
    lots: list[list[Step]] = []
    for mine in by_tag.values():
        if lots and len(lots[-1]) + len(mine) <= MOST_STEPS:
            lots[-1] += mine
        else:
            lots.append(mine[:MOST_STEPS])
    return lots


def _before(scene: DrillSite, left: Sequence[Step]) -> list[Step]:
    """The steps that build all of the house which waits for nothing of ``left``; on bare plates marks alone."""
    waiting = set(left)
    if all(step.verb == "mark" for step in left):
        waiting.update(step for step in scene.sequence if STAGE_OF[step.verb] != "set-out")
    for step in scene.sequence:
        if any(edge.first in waiting for edge in scene.job.order.into.get(step, ())):
            waiting.add(step)
    return [step for step in scene.sequence if step not in waiting and step.verb != "hand_over"]


def _touched(step: CourseStep, drill: Drill) -> tuple[str, ...]:
    """The rules of a step that its drill is about: those of the stages whose work is left."""
    if drill.faults:
        return step.rules
    stages = {STAGE_OF[each.verb] for each in drill.steps}
    return tuple(rule.name for rule in all_rules() if rule.name in step.rules and rule.stage in stages)
