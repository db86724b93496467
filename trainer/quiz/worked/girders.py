"""Questions of set-out round girders: faces, lines, marks on girders, and squareness."""

from __future__ import annotations

import math

from trainer.layout import Member
from trainer.plan import Wall, taped
from trainer.quiz.worked.family import QuestionChance, QuestionDraft, family, number
from trainer.quiz.worked.subject import EXACT, Subject
from trainer.quiz.worked.wording import called, num
from trainer.rules import PRACTICE
from trainer.words import _, ngettext


def _plate_line(subject: Subject, girder: Member) -> float | None:
    """How far a girder's centre line lies from the line of the plates beside its opening; none where it is unclear."""
    across = 1 if girder.start[1] == girder.finish[1] else 0
    low, high = sorted((girder.start[1 - across], girder.finish[1 - across]))
    offsets = []
    for wall in subject.layout.house.plan.walls:
        if wall.a[across] != wall.b[across]:
            continue
        ends = sorted((wall.a[1 - across], wall.b[1 - across]))
        if ends[1] == low or ends[0] == high:
            offsets.append(abs(wall.a[across] - girder.start[across]))
    near = min(offsets, default=None)
    return near if near is not None and near < girder.width else None


MADE_OF = ((1, 45), (2, 35), (2, 45), (3, 35), (3, 45))
"""What girders are made of, as (plies, thickness of one in mm), whatever those of a house are."""


@family(
    topic="set-out",
    difficulty=2,
    serves=("set-out",),
    rules=("girder-off-plate-line",),
    why=_(
        "The girder takes the place of the missing wall. Its outside face lies in line with the outside of the plates."
    ),
    source=PRACTICE,
)
def girder_line(subject: Subject, draw: QuestionChance) -> QuestionDraft:
    """How far in from the plates' outside line a girder's centre line is."""
    found = [(g, line) for g in subject.of_kind("girder") if (line := _plate_line(subject, g)) is not None]
    found = [(g, line) for g, line in found if abs(line - g.width / 2) < EXACT]
    girder, _line = draw.pick(found, "girder")
    plies, thickness = draw.pick(MADE_OF, "made of")
    width = float(plies * thickness)
    line = width / 2
    plate = subject.layout.house.plan.plate_width
    text = _(
        "{girder} spans an opening. Say it is {thick}. "
        "How far is its middle from the line of the outside of the plates?"
    ).format(girder=called(girder), thick=_thick(plies, thickness))
    working = (
        _("Its outside face is on that line."),
        _("All plies together are {plies} × {thickness} = {width}.").format(
            plies=plies, thickness=thickness, width=num(width)
        ),
        _("Its middle is half of that in: {width} ÷ 2 = {line}.").format(width=num(width), line=num(line, 1)),
    )
    slips = (
        (width, _("That is the whole girder. The middle is half of it in.")),
        (thickness / 2, _("That is half of one ply.")),
        (plate / 2, _("That puts it over the middle of the plate. Its face is in line with the outside.")),
        (plate - width / 2, _("That lines it up with the inside of the plate.")),
        (plate + width / 2, _("That stands it inside the plates.")),
    )
    return number(text, line, working, slips, (girder.tag,), decimals=1)


def _thick(plies: int, thickness: int) -> str:
    text = ngettext("{n} ply of {thickness}", "{n} plies of {thickness}", plies)
    return text.format(n=plies, thickness=thickness)


@family(
    topic="set-out",
    difficulty=2,
    serves=("set-out",),
    rules=("setback-not-the-levels", "off-station", "mark-to-wrong-face"),
    why=_("You mark the face that you can see. The drawing may count to the middle, so work out which it is."),
    source=PRACTICE,
)
def face_of_girder(subject: Subject, draw: QuestionChance) -> QuestionDraft:
    """Where the near face of a truncated girder comes, from its station to the middle."""
    found = [(g, w) for g in subject.of_kind("truncated_girder") if (w := subject.end_wall(g)) is not None]
    girder, wall = draw.pick(found, "girder")
    plies, thickness = draw.pick(MADE_OF, "made of")
    width = float(plies * thickness)
    face = girder.station - width / 2
    text = _(
        "The middle of {girder} is {station} from the outside of wall {wall}. Say it is {thick}. "
        "How far from there is its face nearest to that wall?"
    ).format(girder=called(girder), station=num(girder.station, 1), wall=wall.name, thick=_thick(plies, thickness))
    working = (
        _("The girder is {plies} × {thickness} = {width} wide.").format(
            plies=plies, thickness=thickness, width=num(width)
        ),
        _("Half of it is {half}.").format(half=num(width / 2, 1)),
        _("{station} - {half} = {face}.").format(
            station=num(girder.station, 1), half=num(width / 2, 1), face=num(face, 1)
        ),
    )
    slips = (
        (girder.station, _("That is its middle.")),
        (girder.station + width / 2, _("That is its far face.")),
        (girder.station - width, _("That takes off the whole girder. Only half lies this side of its middle.")),
        (girder.station - thickness / 2, _("That takes off half of one ply.")),
    )
    return number(text, face, working, slips, (girder.tag,), decimals=1)


def _hung_from_wall(subject: Subject) -> list[tuple[Member, Member, Wall, float, float, float]]:
    """(truss, girder, wall, mark there, girder's start on the same tape, mark on the girder), where one tape serves."""
    found = []
    for truss in subject.of_kind("standard", "truncated", "truncated_girder"):
        plates = subject.walls_under(truss)
        hung = [n for n, end in enumerate(truss.ends, 1) if end.bears_on in subject.layout.by_tag]
        if len(plates) != 1 or len(hung) != 1:
            continue
        girder = subject.layout.by_tag[truss.ends[hung[0] - 1].bears_on]
        (end, wall) = plates[0]
        at = subject.tape(truss, end)[1]
        first, last = (taped(subject.layout.house.plan, wall, wall.run(p)) for p in (girder.start, girder.finish))
        from_start = next(h.at for h in subject.job.hung[girder.tag] if h.tag == truss.tag)
        on_girder = from_start if first < last else girder.span - from_start
        if abs(at - min(first, last) - on_girder) < EXACT:
            found.append((truss, girder, wall, at, min(first, last), on_girder))
    return found


@family(
    topic="set-out",
    difficulty=3,
    serves=("set-out", "connections"),
    rules=(
        "hanger-missing",
        "off-station",
        "heavy-girder-bracket-missing",
        "far-bearing-not-carried-across",
        "mark-off-station",
    ),
    why=_("A truss stands square when both its ends carry the same measure. So the mark is carried across."),
)  # fmt: skip
def mark_on_girder(subject: Subject, draw: QuestionChance) -> QuestionDraft:
    """Where along a girder the bracket goes, from the same truss's mark on the plate across from it."""
    found = [each for each in _hung_from_wall(subject) if each[4] > EXACT and abs(each[5] * 2 - each[1].span) > EXACT]
    truss, girder, wall, at, begins, on_girder = draw.pick(found, "truss")
    text = _(
        "On wall {wall} the tape shows {at} at {truss}. Its other end hangs on {girder}. "
        "On the same tape that girder begins at {begins}. How far from that end of it is the bracket?"
    ).format(wall=wall.name, at=num(at, 1), truss=called(truss), girder=called(girder), begins=num(begins, 1))
    working = (
        _("Carry the same measure across: {at} from {corner}.").format(at=num(at, 1), corner=subject.hooked_at(wall)),
        _("The girder begins at {begins}.").format(begins=num(begins, 1)),
        _("{at} - {begins} = {along}.").format(at=num(at, 1), begins=num(begins, 1), along=num(on_girder, 1)),
    )
    slips = (
        (at, _("That is the mark on the wall. The girder does not begin where the tape does.")),
        (girder.span - on_girder, _("That is measured from the girder's other end.")),
        (on_girder + subject.spacing, _("That is the next truss along.")),
        (at + begins, _("The start of the girder comes off. It is not added.")),
    )
    return number(text, on_girder, working, slips, (truss.tag, girder.tag), decimals=1)


@family(
    topic="set-out",
    difficulty=2,
    serves=("set-out", "site"),
    why=_("When the sides are right and both diagonals are alike, every corner is square. Then trusses stand true."),
)
def diagonal_for_square(subject: Subject, draw: QuestionChance) -> QuestionDraft:
    """The diagonal of a wing's rectangle, worked from its sides."""
    wing = draw.pick(subject.layout.wings, "wing")
    long_side, short_side = sorted((wing.rect[2] - wing.rect[0], wing.rect[3] - wing.rect[1]), reverse=True)
    diagonal = math.dist(wing.rect[:2], wing.rect[2:])
    text = _(
        "The rectangle under the roof of one wing is {a} by {b} over the plates. "
        "How long is each diagonal when it is square?"
    ).format(a=num(long_side), b=num(short_side))
    working = (
        _("Multiply each side by itself: {a} × {a} and {b} × {b}.").format(a=num(long_side), b=num(short_side)),
        _("Add the two, and take the square root."),
        _("√({a}² + {b}²) = {diagonal}.").format(a=num(long_side), b=num(short_side), diagonal=num(diagonal)),
    )
    slips = (
        (long_side + short_side, _("That adds the sides. Add their squares, then take the root.")),
        (math.sqrt(2) * long_side, _("That is the diagonal of a square on the long side.")),
        (math.sqrt(2) * short_side, _("That is the diagonal of a square on the short side.")),
        (math.sqrt(long_side**2 - short_side**2), _("That takes the squares from each other. Add them.")),
        ((long_side + short_side) / 2, _("That is the middle between the sides. The diagonal is the longest of all.")),
    )
    return number(text, diagonal, working, slips, tolerance=2)


@family(
    topic="terms",
    difficulty=1,
    serves=("site", "set-out"),
    why=_("Span runs from outside of plate to outside of plate. Check it before the trusses are lifted."),
    source=PRACTICE,
)
def span_over_plates(subject: Subject, draw: QuestionChance) -> QuestionDraft:
    """The span of a truss from the clear width between its plates."""
    trusses = [
        m for m in subject.of_kind("standard", "truncated", "truncated_girder") if len(subject.walls_under(m)) == 2
    ]
    truss = draw.pick(trusses, "truss")
    plate = subject.layout.house.plan.plate_width
    inside = truss.span - 2 * plate
    text = _(
        "Under {truss} you measure {inside} clear between the plates. The plates are {plate} wide. "
        "What is the span of the truss?"
    ).format(truss=called(truss), inside=num(inside, 1), plate=plate)
    working = (
        _("Span runs to the outside of both plates."),
        _("{inside} + 2 × {plate} = {span}.").format(inside=num(inside, 1), plate=plate, span=num(truss.span, 1)),
    )
    slips = (
        (inside, _("That is the clear width. The plates belong to the span.")),
        (inside + plate, _("That adds one plate. There is one at each end.")),
        (
            truss.span + 2 * subject.layout.house.roof.overhang,
            _("That runs to the ends of the tails. Span stops at the plates."),
        ),
        (inside - 2 * plate, _("The plates are added, not taken off.")),
    )
    return number(text, truss.span, working, slips, (truss.tag,), decimals=1)
