"""The ideas that a film has a caption for, each where it first comes: what is done, and what for.

Trade brief, "Order of work": common practice, no source. They are listed as they are wanted: where a house has more of
them than a film has captions, the last ones go without.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType

from trainer.film.course import Course
from trainer.film.model import Caption, Part
from trainer.layout import Member
from trainer.layout.marks import mark_run
from trainer.order import Step
from trainer.plan import round_corners
from trainer.terms import STAGE_NAMES, STAGE_OF, StepVerb, TrussKind
from trainer.words import _, ngettext

MOST_CAPTIONS = 12
ON_A_TRUSS: tuple[StepVerb, ...] = ("fit", "join", "seat", "trim", "stand", "tie", "fix", "prop")
"""What is done on a truss as it goes up."""


@dataclass(frozen=True)
class Idea:
    """``about`` says whether a step is part of it; ``text`` is what is said when the first of those comes."""

    key: str
    name: str
    about: Callable[[Course, Step], bool]
    text: Callable[[Course], str]


def captions(course: Course, wanted: str = "") -> tuple[Caption, ...]:
    """Return what is said of the ideas of a house, as they come; the one with the key ``wanted`` is never left out."""
    found: list[Caption] = []
    for idea in sorted(IDEAS, key=lambda each: each.key != wanted):
        first = next((n for n, step in enumerate(course.steps) if idea.about(course, step)), None)
        if first is not None and len(found) < MOST_CAPTIONS:
            found.append(Caption(course.starts[first], idea.key, idea.name, idea.text(course)))
    return tuple(sorted(found, key=lambda caption: caption.at_ms))


def parts(
    course: Course, told: Sequence[Caption], wanted: str = "", near: Collection[int] = ()
) -> tuple[Part, ...]:  # fmt: skip
    """Return the stages of a film, then the ideas that it has a caption for, as they come.

    What begins at one of the times ``near``, ms, is shown with the idea ``wanted``.
    """
    stages = (
        Part(f"stage {key}", name, _ranges(course, [STAGE_OF[step.verb] == key for step in course.steps]))
        for key, name in STAGE_NAMES.items()
    )
    ideas = (
        Part(
            each.idea,
            each.name,
            _ranges(
                course,
                [
                    BY_KEY[each.idea].about(course, step) or (each.idea == wanted and start in near)
                    for step, start in zip(course.steps, course.starts, strict=False)
                ],
            ),
        )
        for each in told
    )
    return (*(stage for stage in stages if stage.ranges), *ideas)


def _ranges(course: Course, wanted: Sequence[bool]) -> tuple[tuple[int, int], ...]:
    found: list[tuple[int, int]] = []
    for number, is_wanted in enumerate(wanted):
        start, end = course.starts[number], course.starts[number + 1]
        if is_wanted and found and found[-1][1] == start:
            found[-1] = (found[-1][0], end)
        elif is_wanted and end > start:
            found.append((start, end))
    return tuple(found)


def _kinds(*kinds: TrussKind) -> Callable[[Course, Step], bool]:
    def about(course: Course, step: Step) -> bool:
        member = course.member(step)
        return step.verb in ON_A_TRUSS and member is not None and member.kind in kinds and not member.is_dutch

    return about


def _verbs(*verbs: StepVerb) -> Callable[[Course, Step], bool]:
    return lambda _course, step: step.verb in verbs


def _says(text: str) -> Callable[[Course], str]:
    return lambda _course: text


def _first(course: Course, step: Step) -> bool:
    return bool(course.stands) and step.verb in ON_A_TRUSS and step.tag == course.steps[course.stands[0]].tag


def _dutch(course: Course, step: Step) -> bool:
    member = course.member(step)
    return step.verb in ON_A_TRUSS and member is not None and member.is_dutch


def _between(course: Course, step: Step) -> bool:
    return _kinds("standard")(course, step) and step.tag not in course.outermost and not _first(course, step)


def _outermost(course: Course, step: Step) -> bool:
    outermost = _kinds("standard")(course, step) and step.tag in course.outermost
    return step.verb == "string" or (outermost and not _first(course, step))


def _on_a_beam(course: Course, step: Step) -> bool:
    member = course.member(step)
    return step.verb in ON_A_TRUSS and member is not None and any(_bears_on_a_beam(course, member))


def _bears_on_a_beam(course: Course, member: Member) -> Iterator[bool]:
    for number, end in enumerate(member.ends, 1):
        at = mark_run(course.layout, member, number) if end.wall else 0.0
        yield from (beam.low <= at <= beam.high for beam in course.layout.house.plan.beams if beam.wall == end.wall)


def _broken_hip(course: Course, step: Step) -> bool:
    member = course.member(step)
    if step.verb not in ON_A_TRUSS or member is None or member.kind != "hip":
        return False
    carriers = {course.layout.by_tag[end.bears_on].kind for end in member.ends if end.bears_on in course.layout.by_tag}
    return "girder" in carriers


def _how_many(course: Course, kind: TrussKind) -> int:
    return sum(member.kind == kind for member in course.layout.members)


def _girders(course: Course) -> str:
    if round_corners(course.layout.house.plan):
        return _("A half girder runs from the higher wall's corner, with no wall under it. Other trusses hang on it.")
    return _("A girder spans the opening: there is no wall under it. Other trusses will hang on it.")


def _gables(course: Course) -> str:
    if not any(step.verb == "string" for step in course.steps):
        return _("The gable truss closes the end. It is tied like the others of its row.")
    if course.layout.roof.steps:
        return _("The gable truss closes the end. One goes straight on over the lower roof, from wall to wall.")
    return _("The gable truss closes the end. It is set to the string of the row.")


def _truncated(course: Course) -> str:
    return ngettext(
        "The truncated truss has a level top. Extensions will run over it.",
        "Truncated trusses, higher at each station. Extensions will run over them.",
        _how_many(course, "truncated"),
    )


def _jacks(course: Course) -> str:
    return ngettext(
        "Jacks hang on the truncated girder, creepers on the hip. That finishes the hip end.",
        "Jacks hang on the truncated girder, creepers on the hips. That finishes the hip end.",
        _how_many(course, "hip"),
    )


def _straight(course: Course) -> str:
    if not any(step.verb == "string" for step in course.steps):
        return _("Each truss is set straight and plumb before permanent bracing holds it so.")
    return _("A string shows where the tops belong. Each truss is set straight and plumb to it.")


def _truncated_girders(course: Course) -> str:
    n = _how_many(course, "truncated_girder")
    return ngettext(
        "The truncated girder goes up at its setback. It is braced, fixed and joined before a hip end hangs on it.",
        "The truncated girders go up at their setback. Each is braced, fixed and joined before a hip end hangs on it.",
        n,
    )


def _hips(course: Course) -> str:
    if _how_many(course, "hip") == 1:
        return _("The hip now, from the corner: it steadies the truncated girder.")
    n = _how_many(course, "truncated_girder")
    return ngettext(
        "The hips now, from the corners: they steady the truncated girder.",
        "The hips now, from the corners: they steady the truncated girders.",
        n,
    )


IDEAS: tuple[Idea, ...] = (
    Idea("first truss", _("The first truss"), _first, _says(_(
        "The first truss. It is braced to something solid before anybody lets go of it."))),
    Idea("row", _("Tie as you go"), _between, _says(_(
        "Now the row between. Each truss is tied to one that is held, before the next is lifted."))),
    Idea("stop", _("A danger on the day"), _verbs("stop"), _says(_(
        "Something comes up on the day. Lifting stops until it is safe again."))),
    Idea("dutch gable", _("The girder of a dutch gable"), _dutch, _says(_(
        "The girder of the dutch gable. It is braced and fixed before the hip end hangs on it."))),
    Idea("half", _("Against a higher wall"), _kinds("half"), _says(_(
        "Half trusses: one end on the plate, the other against the higher wall. Each is tied to that wall at once."))),
    Idea("beam", _("On a verandah beam"), _on_a_beam, _says(_(
        "This end stands on a verandah beam. Its posts stay braced until the roof is."))),
    Idea("girder", _("Girders"), _kinds("girder"), _girders),
    Idea("saddle", _("Saddles"), _kinds("saddle"), _says(_(
        "Saddles come last and make the valley. The trusses under them are straight, braced and fixed."))),
    Idea("truncated girder", _("Truncated girders"), _kinds("truncated_girder"), _truncated_girders),
    Idea("hip", _("Hips"), _kinds("hip"), _hips),
    Idea("outermost", _("Outermost trusses and a string"), _outermost, _says(_(
        "The outermost trusses of full height come first. A string from apex to apex lines up the rest."))),
    Idea("gable", _("Gable ends"), _kinds("gable"), _gables),
    Idea("permanent", _("Permanent bracing"), _verbs("restrain"), _says(_(
        "The row is straight and plumb. Now permanent bracing holds it so, for good."))),
    Idea("truncated", _("Truncated trusses"), _kinds("truncated"), _truncated),
    Idea("jack", _("Jacks and creepers"), _kinds("jack", "creeper"), _jacks),
    Idea("strike", _("Braces come out"), _verbs("strike"), _says(_(
        "Only now the braces to floor and walls come out: something permanent holds the roof."))),
    Idea("verge", _("Gable and verge framing"), _verbs("frame"), _says(_(
        "The gable and its verge are framed once the row is straight."))),
    Idea("mark", _("Set-out"), _verbs("mark"), _says(_(
        "First the marks: one run of the tape along each plate. Every truss gets its station."))),
    Idea("cross", _("Fixed where they cross"), _verbs("cross"), _says(_(
        "Each extension is fixed where it crosses a truss. Until then it was propped."))),
    Idea("look", _("Look before you lift"), _verbs("check", "report", "plan"), _says(_(
        "Before the first lift: look at the walls, the delivery and the dangers of the day."))),
    Idea("inspect", _("Inspection"), _verbs("read", "inspect"), _says(_(
        "An inspection measures first, and then says yes or no."))),
    Idea("broken hip", _("A broken hip"), _broken_hip, _says(_(
        "Here a wing cuts the hip off. It lands on the girder, and has no tail there."))),
    Idea("straight", _("Straight and plumb"), _verbs("string", "plumb"), _straight),
)  # fmt: skip
BY_KEY: Mapping[str, Idea] = MappingProxyType({idea.key: idea for idea in IDEAS})
