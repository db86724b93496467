"""Where a film stops and asks "which next, and why?", before it shows it.

Trade brief, "Order of work": common practice, no source.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from itertools import pairwise

from trainer.chance import shuffled
from trainer.film.course import Course
from trainer.film.model import Option, Stop
from trainer.film.which import WHICH, WhichNext, capital
from trainer.order import Step, hold_steps
from trainer.rules.plain import called
from trainer.site import Brace
from trainer.words import _

STOPS = 3
LOCKED = "true before braced for good"
"""The key of the edge from straightening a truss to the permanent bracing that crosses it."""


def stops(course: Course, wanted: Callable[[Stop], bool] = lambda _stop: False) -> tuple[Stop, ...]:
    """Return where the film stops, in order: what holds the first truss, then reasons of different kinds.

    Those that are ``wanted`` go before all others.
    """
    found = [*_hold_first(course)]
    spare: list[Stop] = []
    by_why: dict[str, list[Stop]] = {}
    for why, stop in _which_truss(course):
        by_why.setdefault(why, []).append(stop)
    for why in shuffled(sorted(by_why), course.seed, "stops"):
        first, *others = by_why[why]
        found.append(first)
        spare += others
    found += [*_straight_first(course), *_look_first(course)]
    taken: dict[int, Stop] = {}
    every = [*found, *shuffled(spare, course.seed, "more stops"), *_tie_next(course)]
    for stop in sorted(every, key=lambda stop: not wanted(stop)):
        if len(taken) < STOPS:
            taken.setdefault(stop.at_ms, stop)
    return tuple(taken[at] for at in sorted(taken))


def _mixed(course: Course, at: int, text: str, options: list[Option], waits: Step | None = None) -> Stop:
    return Stop(course.starts[at], capital(text), tuple(shuffled(options, course.seed, "options", at)), waits)


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


def _tie_next(course: Course) -> Iterator[Stop]:
    """Ask what comes after a truss stands beside one that is held: it is tied before the next is lifted."""
    for number, following in pairwise(course.stands[1:]):
        tag, then = course.steps[number].tag, course.steps[following].tag
        tie = course.actions[number + 1]
        if course.steps[number + 1] == Step("tie", tag) and isinstance(tie, Brace) and tie.kind != "solid":
            options = [
                Option(
                    _("Tie {tag}, because a truss beside it does not hold it").format(tag=tag), True,
                    _("{tag} is held by nothing yet. Each truss is tied before the next is lifted.").format(tag=tag),
                ),
                Option(
                    _("Stand {then}, because the first truss is braced and holds the row").format(then=then), False,
                    _("A brace holds only what is tied to it."),
                ),
                Option(
                    _("Let {tag} go, because its ends sit on the walls").format(tag=tag), False,
                    _("An end that sits on a wall does not keep a truss upright."),
                ),
            ]  # fmt: skip
            text = _("{truss} stands beside one that is held. {which}")
            truss = called(course.layout.by_tag[tag])
            yield _mixed(course, number + 1, text.format(truss=truss, which=WHICH), options)
            return


def _which_truss(course: Course) -> Iterator[tuple[str, Stop]]:
    """Yield what can be asked before each truss is stood, with the key of the reason why it is that one's turn."""
    which = WhichNext(course.layout, course.order)
    rest = [course.steps[number].tag for number in course.stands]
    met: set[tuple[str, str]] = set()
    for number in course.stands[1:]:
        for edge, options in which.asked(course.steps[number].tag, course.stood_before(number), rest):
            sort = (edge.why, course.layout.by_tag[edge.then.tag].kind)
            if sort not in met:
                met.add(sort)
                yield edge.why, _mixed(course, number, WHICH, options, edge.then)


def _straight_first(course: Course) -> Iterator[Stop]:
    """Ask what comes before permanent bracing: the row is straightened, since that locks it as it stands."""
    locks = [edge for edges in course.order.into.values() for edge in edges if edge.why == LOCKED]
    straighten = {edge.first: edge.then for edge in locks}
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
    waits = straighten[course.steps[at]]
    yield _mixed(course, at, _("All trusses stand and are tied. {which}").format(which=WHICH), options, waits)


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
