"""The shapes of house that are made, each from measures that fit together whatever is drawn.

Bays run from the ends of the body, so the sides of a wing lie half a bay off them: no truss then comes down on a
corner of an opening. A wing flush with an end is an odd number of half bays wide for the same reason, and a wing's
length leaves half a bay before the girder. The body is always the wider, so that it runs through.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from types import MappingProxyType

from trainer.generate.draw import Draw
from trainer.generate.sketch import FrontStep, Sketch, WingSketch
from trainer.words import _

LEAST_GAP = 3000
"""Between wings, and from a wing to the end of the body where it is not flush with it, mm."""
NARROWEST = 4200
"""Of a wing, mm."""
LESS_THAN_BODY = 1200
"""How much narrower a wing is than the body at least, mm."""
LONGER = 600
"""How much longer than it is wide a body is at least, mm: its ridge runs along it."""
CLOSING = 300
"""The narrowest last bay of a row, and between the jacks in the middle of a hip end, mm."""


@dataclass(frozen=True, slots=True)
class Habits:
    """What of a fabricator's habits decides which measures fit, mm."""

    spacing: int
    setback: int


Make = Callable[[Draw, Habits], Sketch]


@dataclass(frozen=True, slots=True)
class HouseShape:
    """A shape: its name, how it is told, the difficulties it can have, and how it is drawn."""

    name: str
    brief: str
    easiest: int
    hardest: int
    make: Make
    openings: int = 0


def _gable(draw: Draw, habits: Habits) -> Sketch:
    width = draw.between(3300, 4800, 150, "width")
    return Sketch(_odd(draw, habits, _bays(width + LONGER, habits)), width, (True, True))


def _hip_and_gable(draw: Draw, habits: Habits) -> Sketch:
    width = draw.between(2 * habits.setback + 900, 2 * habits.setback + 2700, 150, "width")
    width = _roomy(width, habits)
    length = _odd(draw, habits, _bays(width + LONGER, habits))
    return Sketch(length, width, (False, True) if draw.maybe(0.5, "which end") else (True, False))


def _hip(draw: Draw, habits: Habits) -> Sketch:
    width = _roomy(draw.between(2 * habits.setback + 1200, 2 * habits.setback + 2700, 150, "width"), habits)
    return Sketch(_odd(draw, habits, _bays(width + LONGER, habits)), width)


def _lean_to(draw: Draw, habits: Habits) -> Sketch:
    depth = draw.between(2400, 3300, 150, "depth")
    return Sketch(_odd(draw, habits, _bays(2 * depth + LONGER, habits)), depth, (True, True), against="back")


def _along_wall(draw: Draw, habits: Habits) -> Sketch:
    depth = draw.between(habits.setback + 600, habits.setback + 1200, 150, "depth")
    return Sketch(_odd(draw, habits, _bays(2 * depth + LONGER, habits)), depth, against="back")


def _into_wall(draw: Draw, habits: Habits) -> Sketch:
    width = _roomy(draw.between(2 * habits.setback + 900, 2 * habits.setback + 2700, 150, "width"), habits)
    return Sketch(_odd(draw, habits, _bays(width + LONGER, habits)), width, against="end")


def _dutch_gable(draw: Draw, habits: Habits) -> Sketch:
    """A rectangle with a dutch gable at its second end, at the setback or a bay further in."""
    width = _roomy(draw.between(2 * habits.setback + 1500, 2 * habits.setback + 2700, 150, "width"), habits)
    length = _odd(draw, habits, _bays(width + LONGER, habits))
    return Sketch(length, width, (draw.maybe(0.5, "gable end"), False), dutch=(0, _girder_at(draw, habits, width)))


def _dutch_l(draw: Draw, habits: Habits) -> Sketch:
    """An L whose body has a dutch gable at the end away from its wing."""
    plain = _one_flush(draw, habits)
    return replace(plain, ends=(False, False), dutch=(_girder_at(draw, habits, plain.width), 0))


def _girder_at(draw: Draw, habits: Habits, width: int) -> int:
    further = habits.setback + habits.spacing
    return further if further + CLOSING <= width // 2 and draw.maybe(0.5, "further in") else habits.setback


def _one_flush(draw: Draw, habits: Habits) -> Sketch:
    width = _body(draw, habits)
    wing = _wing(draw, habits, width, "wing", front=False, flush=True)
    length = _bays(max(width + LONGER, wing.width + LEAST_GAP), habits)
    return Sketch(length, width, (draw.maybe(0.3, "gable end"), False), (_at(wing, length - wing.width),))


def _one_mid(draw: Draw, habits: Habits) -> Sketch:
    width = _body(draw, habits)
    wing = _at(_wing(draw, habits, width, "wing", front=False), _first_side(habits))
    length = _bays(max(width + LONGER, wing.at + wing.width + _first_side(habits)), habits)
    return Sketch(length, width, _gabled_ends(draw), (wing,))


def _two_one_side(draw: Draw, habits: Habits) -> Sketch:
    width = _body(draw, habits)
    left = _at(_wing(draw, habits, width, "left", front=False, flush=True), 0)
    right = _wing(draw, habits, width, "right", front=False, flush=True)
    length = _bays(max(width + LONGER, left.width + right.width + LEAST_GAP), habits)
    return Sketch(length, width, wings=(left, _at(right, length - right.width)))


def _two_across(draw: Draw, habits: Habits) -> Sketch:
    width = _body(draw, habits)
    left = _at(_wing(draw, habits, width, "left", front=True, flush=True), 0)
    right = _wing(draw, habits, width, "right", front=False, flush=True)
    length = _bays(max(width, left.width, right.width) + LEAST_GAP, habits)
    return Sketch(length, width, wings=(left, _at(right, length - right.width)))


def _two_facing(draw: Draw, habits: Habits) -> Sketch:
    width = _body(draw, habits)
    back = _at(_wing(draw, habits, width, "back", front=False), _first_side(habits))
    front = WingSketch(True, back.at, back.width, _out(draw, habits, back.width, "front"), draw.maybe(0.5, "front"))
    length = _bays(max(width + LONGER, back.at + back.width + _first_side(habits)), habits)
    return Sketch(length, width, _gabled_ends(draw), (back, front))


def _three(draw: Draw, habits: Habits) -> Sketch:
    """One wing off the front and two off the back; none faces another."""
    width = _body(draw, habits)
    left = _at(_wing(draw, habits, width, "left", front=False, flush=True), 0)
    middle = _wing(draw, habits, width, "middle", front=True)
    middle = _at(middle, left.width + _half_off(left.width, habits))
    right = _wing(draw, habits, width, "right", front=False, flush=True)
    length = _bays(middle.at + middle.width + right.width, habits)
    return Sketch(length, width, wings=(left, middle, _at(right, length - right.width)))


def _four(draw: Draw, habits: Habits) -> Sketch:
    """Two wings off the front and two off the back, each flush with an end."""
    width = _body(draw, habits)
    left = _at(_wing(draw, habits, width, "left", front=False, flush=True), 0)
    first = _at(_wing(draw, habits, width, "first", front=True), _first_side(habits))
    second = _wing(draw, habits, width, "second", front=True)
    start = first.at + first.width + LEAST_GAP
    second = _at(second, start + _half_off(start, habits))
    right = _wing(draw, habits, width, "right", front=False, flush=True)
    length = _bays(max(second.at + second.width + LEAST_GAP, left.width + right.width + LEAST_GAP), habits)
    return Sketch(length, width, wings=(left, first, second, _at(right, length - right.width)))


def _forward(draw: Draw, habits: Habits) -> Sketch:
    """Part of the front stands a little forward, under a straight fascia."""
    width = _roomy(draw.between(2 * habits.setback + 1200, 2 * habits.setback + 2700, 150, "width"), habits)
    forward = draw.between(150, 450, 10, "forward")
    length = _bays(width + LONGER, habits)
    to = _bays(length // 2, habits) + habits.spacing // 2
    return Sketch(length, width - forward, forward=forward, forward_to=to)


def _staggered(draw: Draw, habits: Habits) -> Sketch:
    """One end steps back; both ridges run the same way."""
    width = draw.between(7500, 8700, 600, "width")
    out = 2 * habits.spacing + habits.spacing // 2
    return Sketch(
        _bays(width + LONGER, habits),
        width,
        (draw.maybe(0.3, "gable end"), False),
        steps=(FrontStep(width - 2400, out),),
    )


def _lower_room(draw: Draw, habits: Habits) -> Sketch:
    """A gabled body, and a narrower room with a hip at its end, over which one of the gables goes on."""
    room = _roomy(2 * habits.setback + draw.between(600, 1500, 150, "room"), habits)
    width = room + draw.between(1500, 2400, 150, "wider")
    out = _bays(room // 2 + LONGER, habits)
    return Sketch(_bays(width + LONGER, habits), width, (True, True), steps=(FrontStep(room, out),))


def _round_wall(draw: Draw, habits: Habits) -> Sketch:
    """Two legs round the corner of a higher wall, each longer than either is deep, with a gable or a hip at its end."""
    depth, across = (draw.between(2400, 3600, 150, name) for name in ("depth", "across"))
    longest = 2 * max(depth, across) + LONGER
    wing = WingSketch(False, 0, across, _bays(longest, habits), draw.maybe(0.7, "gabled wing"))
    return Sketch(_bays(across + longest, habits), depth, (False, draw.maybe(0.7, "gabled")), (wing,), against="round")


def _comb(draw: Draw, habits: Habits) -> Sketch:
    """Three wings off one side: one flush with each end, one between."""
    width = _body(draw, habits)
    left = _at(_wing(draw, habits, width, "left", front=False, flush=True), 0)
    middle = _wing(draw, habits, width, "middle", front=False)
    start = left.width + LEAST_GAP
    middle = _at(middle, start + _half_off(start, habits))
    right = _wing(draw, habits, width, "right", front=False, flush=True)
    length = _bays(middle.at + middle.width + LEAST_GAP + right.width, habits)
    return Sketch(length, width, wings=(left, middle, _at(right, length - right.width)))


def _h(draw: Draw, habits: Habits) -> Sketch:
    """Two wings off each side, flush with the ends and face to face."""
    width = _body(draw, habits)
    left = _at(_wing(draw, habits, width, "left", front=False, flush=True), 0)
    right = _wing(draw, habits, width, "right", front=False, flush=True)
    length = _bays(max(width + LONGER, left.width + right.width + LEAST_GAP), habits)
    back = (left, _at(right, length - right.width))
    front = tuple(
        WingSketch(True, wing.at, wing.width, _out(draw, habits, wing.width, name), draw.maybe(0.5, name))
        for wing, name in zip(back, ("front left", "front right"), strict=True)
    )
    return Sketch(length, width, wings=(*back, *front))


def _porch(draw: Draw, habits: Habits) -> Sketch:
    """Part of the front is a beam: from half a bay off a truss, so that none comes down on the end of the wall."""
    plain = _hip(draw, habits)
    low = habits.setback + habits.spacing // 2 + draw.pick((0, 1), "porch") * habits.spacing
    high = low + draw.pick((4, 5), "porch wide") * habits.spacing
    return replace(plain, length=max(plain.length, low + high), porch=(low, high))


def _verandah(draw: Draw, habits: Habits) -> Sketch:
    """The whole front is a beam."""
    return replace(_hip(draw, habits), porch=(0, 0))


_ALL = (
    HouseShape("gable", _("A plain house with a gable at each end."), 1, 2, _gable),
    HouseShape("hip-and-gable", _("One end of the house has a hip. The other has a gable."), 2, 4, _hip_and_gable),
    HouseShape("hip", _("The house has a hip at each end."), 3, 5, _hip),
    HouseShape("lean-to", _("A low room lies along a higher wall, with a gable at each end."), 1, 2, _lean_to),
    HouseShape(
        "into-wall",
        _("One end of the house has a hip. At the other its ridge runs into a higher wall."),
        2,
        4,
        _into_wall,
    ),
    HouseShape("along-wall", _("The house lies along a higher wall. It has a hip at each end."), 3, 5, _along_wall),
    HouseShape("dutch-gable", _("A small gable stands above the hip end: a dutch gable."), 3, 5, _dutch_gable),
    HouseShape("porch", _("The house has a hip at each end. Part of its front is a porch under a beam."), 4, 5, _porch),
    HouseShape(
        "verandah", _("The house has a hip at each end. All of its front is a verandah on posts."), 4, 5, _verandah
    ),
    HouseShape("l", _("A wing runs off one end of the house. The plan is an L."), 5, 7, _one_flush, 1),
    HouseShape("dutch-l", _("The plan is an L. One end has a dutch gable."), 5, 7, _dutch_l, 1),
    HouseShape("t", _("A wing runs off one side of the house. The plan is a T."), 5, 7, _one_mid, 1),
    HouseShape("u", _("Two wings run off one side. The plan is a U."), 7, 10, _two_one_side, 2),
    HouseShape("z", _("One wing runs off each side, at opposite ends. The plan is a Z."), 7, 9, _two_across, 2),
    HouseShape("plus", _("A wing runs off each side, face to face. The plan is a plus."), 7, 8, _two_facing, 2),
    HouseShape("three-wings", _("Three wings run off the house, two from one side."), 9, 10, _three, 3),
    HouseShape(
        "step", _("Part of the front stands a little forward. The fascia runs straight past the step."), 4, 5, _forward
    ),
    HouseShape("staggered", _("The house steps back at one end. Both ridges run the same way."), 6, 8, _staggered, 1),
    HouseShape(
        "lower-room", _("A gable goes on over a lower roof. That roof ends at the gable face."), 4, 6, _lower_room
    ),
    HouseShape("round-wall", _("A low roof goes round the corner of a higher wall."), 5, 6, _round_wall, 1),
    HouseShape("comb", _("Three wings run off one side. The plan is a comb."), 9, 10, _comb, 3),
    HouseShape("h", _("Two wings run off each side, at the ends and face to face. The plan is an H."), 9, 10, _h, 4),
    HouseShape("four-wings", _("Four wings run off the house, two from each side."), 10, 10, _four, 4),
)
SHAPES: Mapping[str, HouseShape] = MappingProxyType({shape.name: shape for shape in _ALL})


def _body(draw: Draw, habits: Habits) -> int:
    least = max(6300, NARROWEST + LESS_THAN_BODY, 2 * habits.setback + 1200)
    return _roomy(draw.between(least, least + 2100, 60, "body"), habits)


def _wing(draw: Draw, habits: Habits, body: int, name: str, *, front: bool, flush: bool = False) -> WingSketch:
    """A wing still at 0 along the body: even half bays wide, or odd where it is flush with an end."""
    step = habits.spacing
    least = _bays(NARROWEST, habits) + (step // 2 if flush else 0)
    width = draw.between(least, body - LESS_THAN_BODY, step, name, "width")
    gable = width < 2 * habits.setback + 600 or draw.maybe(0.5, name, "gable")
    return WingSketch(front, 0, width, _out(draw, habits, width, name), gable)


def _out(draw: Draw, habits: Habits, width: int, name: str) -> int:
    """How far a wing runs out: far enough for a truss of full height, and half a bay over."""
    bays = -(-(width // 2 + 600) // habits.spacing)
    return (bays + draw.pick((0, 1, 2), name, "out")) * habits.spacing + habits.spacing // 2


def _roomy(width: int, habits: Habits) -> int:
    """A width in which the jacks that are counted from both corners don't meet hard beside each other."""
    over = width % (2 * habits.spacing)
    return width + CLOSING - over if 0 < over < CLOSING else width


def _at(wing: WingSketch, at: int) -> WingSketch:
    return WingSketch(wing.front, at, wing.width, wing.out, wing.gable)


def _bays(length: int, habits: Habits) -> int:
    """The next full number of bays."""
    return -(-length // habits.spacing) * habits.spacing


def _first_side(habits: Habits) -> int:
    return _bays(LEAST_GAP, habits) + habits.spacing // 2


def _half_off(start: int, habits: Habits) -> int:
    """What brings ``start`` on to the next half bay."""
    return (habits.spacing // 2 - start) % habits.spacing


def _gabled_ends(draw: Draw) -> tuple[bool, bool]:
    return draw.maybe(0.25, "gable left"), draw.maybe(0.25, "gable right")


def _odd(draw: Draw, habits: Habits, length: int) -> int:
    """A length that leaves a shorter last bay, on half of all houses."""
    if draw.maybe(0.5, "full bays"):
        return length
    return length + draw.between(CLOSING, habits.spacing - 10, 10, "closing")
