"""Where a film stops and asks "which next, and why?". Answers and reasons are those of the order's own edges.

A wrong answer is a truss that has to wait for another, with a reason as somebody might think of it who has the edge the
wrong way round. Trade brief, "Order of work": common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from trainer.chance import shuffled
from trainer.film.course import Course
from trainer.film.model import Option, Stop
from trainer.order import Edge, as_good, hold_steps
from trainer.quiz.worked.orders import REASONS, TO_THE_STRING
from trainer.rules.plain import called
from trainer.terms import TrussKind
from trainer.words import _

STOPS = 3
LOCKED = "true before braced for good"
"""The key of the edge from straightening a truss to the permanent bracing that crosses it."""
WHICH = _("Which next, and why?")
MISREAD: Mapping[str, str] = {
    "carrier": _("because {first} hangs on it"),
    "support": _("because {first} sits on it"),
    "girders first": _("because {first} needs something to be tied to"),
    "truncated first": _("because {first} can go in under its extension later"),
    "hip end first": _("because the row in the middle holds the hip ends"),
    "outermost first": _("because a row goes up bay by bay from what stands"),
}
"""The reasons of somebody who has the edge from ``first`` the wrong way round."""


def stops(course: Course) -> tuple[Stop, ...]:
    """Return where the film stops, in order: what holds the first truss, then reasons of different kinds."""
    found = [*_hold_first(course)]
    spare: list[Stop] = []
    by_why: dict[str, list[Stop]] = {}
    for why, stop in _which_truss(course):
        by_why.setdefault(why, []).append(stop)
    for why in shuffled(sorted(by_why), course.seed, "stops"):
        first, *others = by_why[why]
        found.append(first)
        spare += others
    if len(by_why) < STOPS - 1:
        found += _straight_first(course)
    taken: dict[int, Stop] = {}
    for stop in (*found, *_look_first(course), *shuffled(spare, course.seed, "more stops")):
        if len(taken) < STOPS:
            taken.setdefault(stop.at_ms, stop)
    return tuple(taken[at] for at in sorted(taken))


def _mixed(course: Course, at: int, text: str, options: list[Option]) -> Stop:
    return Stop(course.starts[at], _capital(text), tuple(shuffled(options, course.seed, "options", at)))


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]


def _hold_first(course: Course) -> Iterator[Stop]:
    """Ask what comes after the first truss stands: it is held before anything else."""
    if len(course.stands) < 2:
        return
    first, second = (course.steps[number] for number in course.stands[:2])
    at = course.stands[0] + 1
    if course.steps[at] not in hold_steps(course.layout, course.order, first.tag):
        return
    tag = first.tag
    right = _("Brace {tag}, because nothing holds it yet").format(tag=tag)
    options = [
        Option(right, True, _("{tag} falls as soon as it is let go. It is held first.").format(tag=tag)),
        Option(
            _("Stand {other}, because two trusses hold each other up").format(other=second.tag), False,
            _("Nothing holds either of them. They fall together."),
        ),
        Option(
            _("Stand the whole row, because it is braced quicker in one go"), False,
            _("A row that is tied to nothing solid goes over like dominoes."),
        ),
    ]  # fmt: skip
    truss = called(course.layout.by_tag[tag])
    text = _("{truss} stands on its marks. Hands are still on it. {which}")
    yield _mixed(course, at, text.format(truss=truss, which=WHICH), options)


def _which_truss(course: Course) -> Iterator[tuple[str, Stop]]:
    """Yield what can be asked before each truss is stood, with the key of the reason why it is that one's turn."""
    asked: set[tuple[str, TrussKind]] = set()
    for number in course.stands[1:]:
        step, stood = course.steps[number], course.stood_before(number)
        for edge in course.order.out_of[step]:
            if not _asks(course, edge) or edge.then.tag in stood:
                continue
            sort = (edge.why, course.layout.by_tag[edge.then.tag].kind)
            other = None if sort in asked else _another(course, edge, stood)
            if other is None:
                continue
            asked.add(sort)
            right = _("{truss}, {reason}").format(truss=_called(course, step.tag), reason=_reason(course, edge))
            options = [
                Option(_capital(right), True, _before(course, edge)),
                _wrong(course, edge),
                _wrong(course, other),
            ]
            yield edge.why, _mixed(course, number, WHICH, options)


def _asks(course: Course, edge: Edge) -> bool:
    """Whether an edge is a reason for one truss before another, either way round of which is not as good."""
    between = edge.first.verb == edge.then.verb == "stand"
    return between and edge.why in REASONS and not as_good(course.layout, edge)


def _another(course: Course, edge: Edge, stood: frozenset[str]) -> Edge | None:
    """Return why some other truss has to wait: of another kind than those of ``edge``, if there is such a one."""
    mine = {course.layout.by_tag[step.tag].kind for step in (edge.first, edge.then)}
    found = None
    for number in course.stands:
        step = course.steps[number]
        if step.tag in stood or step in (edge.first, edge.then):
            continue
        waits = (e for e in course.order.into[step] if _asks(course, e) and e.first.tag not in stood)
        lacking = next(waits, None)
        if lacking is not None and course.layout.by_tag[step.tag].kind not in mine:
            return lacking
        found = found or lacking
    return found


def _called(course: Course, tag: str) -> str:
    return called(course.layout.by_tag[tag])


def _reason(course: Course, edge: Edge) -> str:
    gable = edge.why == "outermost first" and course.layout.by_tag[edge.then.tag].kind == "gable"
    return (TO_THE_STRING if gable else REASONS[edge.why]).format(then=edge.then.tag)


def _before(course: Course, edge: Edge) -> str:
    text = _("{first} comes before {then}, {reason}.")
    return text.format(first=edge.first.tag, then=edge.then.tag, reason=_reason(course, edge))


def _wrong(course: Course, edge: Edge) -> Option:
    """Return the truss that waits, as an answer with the reason the wrong way round."""
    text = _("{truss}, {reason}").format(
        truss=_called(course, edge.then.tag), reason=MISREAD[edge.why].format(first=edge.first.tag)
    )
    return Option(_capital(text), False, _before(course, edge))


def _straight_first(course: Course) -> Iterator[Stop]:
    """Ask what comes before permanent bracing: the row is straightened, since that locks it as it stands."""
    locks = (edge.first for edges in course.order.into.values() for edge in edges if edge.why == LOCKED)
    straighten = frozenset(locks)
    last = course.stands[-1] if course.stands else 0
    at = next((n for n, step in enumerate(course.steps) if n > last and step in straighten), None)
    if at is None:
        return
    options = [
        Option(
            _("Straighten the row, because permanent bracing holds it as it stands"), True,
            _("Once it is braced for good, a lean or a bow stays in it."),
        ),
        Option(
            _("Put the permanent bracing on, because it pulls the row straight"), False,
            _("It locks the row as it stands. The row is straightened first."),
        ),
        Option(
            _("Take the temporary braces off, because all trusses stand"), False,
            _("Nothing would hold the row then. They stay until permanent bracing is in."),
        ),
    ]  # fmt: skip
    yield _mixed(course, at, _("All trusses stand and are tied. {which}").format(which=WHICH), options)


def _look_first(course: Course) -> Iterator[Stop]:
    """Ask what comes before the first lift: looking, where the level has that stage."""
    if course.steps[0].verb != "check":
        return
    options = [
        Option(
            _("Look at walls, delivery and dangers, because nobody sees them from under a truss"), True,
            _("What is wrong is put right while nothing hangs overhead."),
        ),
        Option(
            _("Lift the first truss, because the walls are up"), False,
            _("Walls that are not braced or not true won't take a roof. They are looked at first."),
        ),
        Option(
            _("Mark the plates, because the marks show what is out of true"), False,
            _("A mark shows nothing of a loose wall or a damaged truss. Look first."),
        ),
    ]  # fmt: skip
    yield _mixed(course, 0, _("The walls are up and the trusses are on site. {which}").format(which=WHICH), options)
