"""Questions of inside corners without a valley: a gable that goes on over a lower roof, and a half girder."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from trainer.layout import Member
from trainer.plan import PlatePlan, Wall, roof_parts, round_corners, taped
from trainer.quiz.worked.family import QuestionChance, QuestionDraft, family, number, one_of, some_of
from trainer.quiz.worked.subject import EXACT, Subject
from trainer.quiz.worked.wording import called, degrees, num
from trainer.rules import PRACTICE
from trainer.words import _, listed

MM2_PER_M2 = 1_000_000
ENOUGH = 4
"""So many trusses that do not hang on a half girder stand beside those that do."""


@dataclass(frozen=True, slots=True)
class _GableFace:
    """A gable whose own wall is ``wall``, spanning ``span`` mm; it goes on over a roof ``lower`` mm wide there.

    ``beside`` is how far the gable reaches past the lower roof on either side, ``gable`` the truss that stands there.
    """

    wall: Wall
    span: int
    lower: int
    beside: tuple[int, int]
    gable: Member

    @property
    def level_area(self) -> float:
        """The face's area where the slope is 1, mm²: the gable's, less what is beside and under the lower roof."""
        return self.span**2 / 4 - sum(run**2 for run in self.beside) / 2 - self.lower**2 / 4


def _faces(subject: Subject) -> Iterator[_GableFace]:
    plan = subject.layout.house.roof_plan
    parts = roof_parts(plan)
    for part in parts:
        for whole in (wall for wall in part.walls if wall.gable):
            own = [wall for wall in plan.walls if wall.gable and whole.holds(wall)]
            under = [found for other in parts if other is not part for found in _under(other, whole)]
            trusses = [m for m in subject.of_kind("gable") if _stands_at(m, whole, subject.spacing)]
            if len(own) != 1 or len(under) != 1 or len(trusses) != 1:
                continue
            start, stop = under[0]
            span = round(whole.length)
            face = _GableFace(own[0], span, stop - start, (start, span - stop), trusses[0])
            if _drawn(subject, whole, face):
                yield face


def _under(part: PlatePlan, whole: Wall) -> Iterator[tuple[int, int]]:
    """From where to where along a gable's line a part ends under it, mm."""
    for step in (wall for wall in part.walls if wall.step and whole.along == (-wall.along[0], -wall.along[1])):
        start, stop = round(whole.run(step.b)), round(whole.run(step.a))
        if whole.at(start) == step.b and 0 <= start < stop <= whole.length:
            yield start, stop


def _stands_at(member: Member, whole: Wall, near: float) -> bool:
    """Whether a gable truss stands just inside a gable's line, from end to end of it."""
    (x, y), (nx, ny) = whole.a, whole.inward
    off = [(px - x) * nx + (py - y) * ny for px, py in (member.start, member.finish)]
    return 0 < off[0] < near and abs(off[0] - off[1]) < EXACT and member.span == whole.length


def _drawn(subject: Subject, whole: Wall, face: _GableFace) -> bool:
    """Whether it is the only face on its line, and as large as where both roofs have their full height there."""
    low = 0 if whole.inward[0] else 1
    there = [ring for ring in subject.layout.roof.steps if all(place[low] == whole.a[low] for place in ring)]
    if len(there) != 1 or max(face.beside) * 2 > face.span:
        return False
    places = [(place[1 - low], place[2]) for place in (*there[0], there[0][0])]
    twice = sum(a * z - b * y for (a, y), (b, z) in pairwise(places))
    return abs(abs(twice) / 2 - face.level_area * subject.slope) < 1


@family(
    topic="gables and verges",
    difficulty=3,
    serves=("materials", "plan"),
    why=_("The face is framed and clad like a wall. So its area is ordered with the walls, not with the roof."),
)
def gable_face_area(subject: Subject, draw: QuestionChance) -> QuestionDraft:
    """The area of the face that a gable leaves over a lower roof."""
    face = draw.pick(list(_faces(subject)), "face")
    pitch, slope = subject.layout.house.roof.pitch, subject.slope
    beside = [run for run in face.beside if run]
    whole, under = face.span**2 / 4 * slope / MM2_PER_M2, face.lower**2 / 4 * slope / MM2_PER_M2
    sides = sum(run**2 for run in beside) / 2 * slope / MM2_PER_M2
    area = whole - sides - under
    text = _(
        "The gable at wall {wall} goes on over a lower roof. It spans {span}. The lower roof spans {lower} and ends "
        "at the gable face. Both have a pitch of {pitch}, the same heel and level plates. "
        "Past the lower roof the gable goes on {beside}. How large is the face over the lower roof, in m²?"
    ).format(
        wall=face.wall.name, span=face.span, lower=face.lower, pitch=degrees(pitch),
        beside=listed([num(run) for run in beside]),
    )  # fmt: skip
    working = (
        _("Over its plates the whole gable has span × span ÷ 4 × tan {pitch} = {area} m².").format(
            pitch=degrees(pitch), area=num(whole, 3)
        ),
        _("Beside the lower roof lies run × run ÷ 2 × tan {pitch} = {area} m².").format(
            pitch=degrees(pitch), area=num(sides, 3)
        ),
        _("Under the lower roof lies its span × span ÷ 4 × tan {pitch} = {area} m².").format(
            pitch=degrees(pitch), area=num(under, 3)
        ),
        _("{whole} - {sides} - {under} = {area} m².").format(
            whole=num(whole, 3), sides=num(sides, 3), under=num(under, 3), area=num(area, 2)
        ),
    )
    slips = (
        (whole, _("That is the whole gable. Much of it lies beside and under the lower roof.")),
        (whole - under, _("That counts the part beside the lower roof too.")),
        (whole - sides, _("That counts what the lower roof hides.")),
        (2 * area, _("A triangle has half the area of the box round it.")),
        (area + sides / 2, _("That takes off only half of what lies beside the lower roof.")),
    )
    return number(text, area, working, slips, (face.gable.tag,), "m2", 2, tolerance=0.02)


@family(
    topic="gables and verges",
    difficulty=2,
    serves=("plan", "erecting"),
    why=_("Flashing and cladding run down from the higher ridge to the lower one. Scaffold is set out from it too."),
)
def ridge_over_ridge(subject: Subject, draw: QuestionChance) -> QuestionDraft:
    """How far the ridge of a gable is over that of the lower roof that ends at its face."""
    face = draw.pick(list(_faces(subject)), "face")
    pitch, slope = subject.layout.house.roof.pitch, subject.slope
    runs = (face.span - face.lower) / 2
    text = _(
        "A gable spans {span}. At its face ends a lower roof, which spans {lower}. Both have a pitch of {pitch}, the "
        "same heel and level plates. How far is the ridge of the gable above the lower ridge?"
    ).format(span=face.span, lower=face.lower, pitch=degrees(pitch))
    working = (
        _("Each ridge stands over half its span: {a} and {b}.").format(
            a=num(face.span / 2, 1), b=num(face.lower / 2, 1)
        ),
        _("({a} - {b}) × tan {pitch} = {high}.").format(
            a=num(face.span / 2, 1), b=num(face.lower / 2, 1), pitch=degrees(pitch), high=num(runs * slope)
        ),
    )
    slips = (
        (2 * runs * slope, _("That takes the whole spans. A ridge stands over half of one.")),
        (runs, _("That is the level run between them.")),
        (face.span / 2 * slope, _("That is the higher ridge over the heel.")),
        (face.lower / 2 * slope, _("That is the lower ridge over the heel.")),
    )
    return number(text, runs * slope, working, slips, (face.gable.tag,), tolerance=1)


@family(
    topic="gables and verges",
    difficulty=2,
    serves=("plan", "erecting"),
    rules=("outriggers-missing",),
    why=_("A verge needs open air below it. Over the lower roof the gable is clad as a wall, and flashed."),
    source=PRACTICE,
)
def where_the_verge_ends(subject: Subject, draw: QuestionChance) -> QuestionDraft:
    """Where the verge of a gable ends that goes on over a lower roof."""
    overhang = subject.layout.house.roof.overhang
    face = draw.pick([face for face in _faces(subject) if overhang], "face")
    text = _("The gable at wall {wall} goes on over a lower roof. Where does its verge end?").format(
        wall=face.wall.name
    )
    right = _("At the inside corner, where wall {wall} ends").format(wall=face.wall.name)
    wrong = [
        (_("At its ridge"), _("The gable's own wall can end before its ridge, or past it. Look for the wall's end.")),
        (_("At the lower roof's ridge"), _("There the gable stands over the lower roof. Its face is flush.")),
        (
            _("At the far plate, {span} along").format(span=face.span),
            _("The truss goes on so far. Over the lower roof its face is flush."),
        ),
        (_("At the far end of the lower roof"), _("The verge runs along the gable, not along the lower roof.")),
    ]
    working = (
        _("Wall {wall} is {length} long. So far the gable stands over its own wall, with a verge.").format(
            wall=face.wall.name, length=num(face.wall.length)
        ),
        _("From there on the lower roof runs up to the gable face."),
    )
    return one_of(text, right, draw.shuffled(wrong, "wrong")[:3], working, (face.gable.tag,))


@family(
    topic="gables and verges",
    difficulty=2,
    serves=("plan", "erecting"),
    rules=("wrong-truss-for-place",),
    why=_("The gable truss spans the whole house. Its studs carry the cladding of the face over the lower roof."),
    source=PRACTICE,
)
def stands_under_the_face(subject: Subject, draw: QuestionChance) -> QuestionDraft:
    """Which truss stands under the face of a gable that goes on over a lower roof."""
    face = draw.pick(list(_faces(subject)), "face")
    gable = face.gable
    beside = [m for m in subject.layout.members if m.row == gable.row and m.kind == "standard"]
    before = [(off, called(m)) for m in beside if (off := _off(face.wall, m)) is not None and off > 0]
    others = [m for m in subject.of_kind("standard") if m.row != gable.row]
    beyond = [(-off, called(m)) for m in others if (off := _off(face.wall, m)) is not None and off < 0]
    wrong = [(min(before)[1], _("It is the next truss of the higher roof. It stands in from the face."))]
    wrong += [(name, _("It is the lower roof's. Its top is below the face.")) for _far, name in sorted(beyond)[:1]]
    wrong += [(called(m), _("That gable closes another end.")) for m in subject.of_kind("gable") if m is not gable][:1]
    text = _("The gable at wall {wall} goes on over a lower roof. Which truss stands under its face?")
    working = (
        _("The face is part of a gable, {span} wide.").format(span=face.span),
        _("{gable} stands there, from wall to wall.").format(gable=called(gable)),
    )
    return one_of(text.format(wall=face.wall.name), called(gable), wrong, working, (gable.tag,))


def _off(wall: Wall, member: Member) -> float | None:
    """How far in from a wall's line a truss stands that runs along it, mm; None where it does not run along it."""
    (x, y), (nx, ny) = wall.a, wall.inward
    off = [(px - x) * nx + (py - y) * ny for px, py in (member.start, member.finish)]
    return off[0] if abs(off[0] - off[1]) < EXACT else None


def _half_girders(subject: Subject) -> Iterator[tuple[Member, Wall, float]]:
    """(half girder, the higher wall whose line it runs on, where that line meets the tape on its plate's wall)."""
    plan = subject.layout.house.roof_plan
    for turn in round_corners(plan):
        across = 0 if turn.along == "y" else 1
        for girder in subject.of_kind("girder"):
            low, high = sorted((girder.start[1 - across], girder.finish[1 - across]))
            beside = abs(girder.start[across] - turn.at) < girder.width
            if not (beside and abs(low - turn.start) < EXACT and abs(high - turn.stop) < EXACT):
                continue
            corner = turn.stop if turn.at_stop else turn.start
            at = (turn.at, corner) if across == 0 else (corner, turn.at)
            wall = next(w for w in plan.walls if w.against and at in (w.a, w.b) and w.a[across] == w.b[across])
            plate = next(w for _end, w in subject.walls_under(girder) if not w.against)
            foot = turn.start if turn.at_stop else turn.stop
            line = (turn.at, foot) if across == 0 else (foot, turn.at)
            yield girder, wall, taped(subject.layout.house.plan, plate, plate.run(line))


@family(
    topic="reading plans",
    difficulty=2,
    serves=("plan", "connections"),
    rules=("carried-before-carrier",),
    why=_("At the corner the higher wall ends. The half girder takes the ends that have no ledger to hang on."),
    safety=_("Nothing is landed on a half girder before both its ends are fixed."),
    source=PRACTICE,
)
def hangs_on_the_half_girder(subject: Subject, draw: QuestionChance) -> QuestionDraft:
    """Which trusses hang on the half girder at the corner of a higher wall."""
    girder, wall, _at = draw.pick(list(_half_girders(subject)), "girder")
    hung = [subject.layout.by_tag[tag] for tag in sorted(subject.layout.carries[girder.tag])]
    others = [m for m in subject.of_kind("half", "gable", "jack") if m not in hung]
    wrong = [(called(m), _not_hung(m)) for m in draw.shuffled(others, "wrong")[:ENOUGH]]
    text = _("{girder} runs from the corner at the end of wall {wall} to a plate. Which of these hang on it?")
    tags = [m.tag for m in draw.shuffled(hung, "right")[:ENOUGH]]
    working = (
        _("Past the end of wall {wall} there is no ledger.").format(wall=wall.name),
        _("On the plan these run up to {girder}: {tags}.").format(girder=girder.tag, tags=listed(sorted(tags))),
    )
    asked = text.format(girder=called(girder), wall=wall.name)
    return some_of(asked, [called(subject.layout.by_tag[t]) for t in tags], wrong, working, (girder.tag, *tags))


def _not_hung(member: Member) -> str:
    if member.kind == "jack":
        return _("It hangs on the truncated girder.")
    return _("It runs from its plate to a ledger on a higher wall.")


@family(
    topic="set-out",
    difficulty=2,
    serves=("set-out", "erecting"),
    rules=("girder-off-plate-line", "off-station"),
    why=_("The trusses that hang on it end in line with the ledger. So its near face is in line with that wall."),
    source=PRACTICE,
)
def half_girder_mark(subject: Subject, draw: QuestionChance) -> QuestionDraft:
    """Where the centre of a half girder is on the plate across from the corner."""
    girder, wall, corner = draw.pick(list(_half_girders(subject)), "girder")
    end, plate = next((end, w) for end, w in subject.walls_under(girder) if not w.against)
    at = subject.tape(girder, end)[1]
    one = girder.width / girder.plies
    text = _(
        "{girder} has {plies} plies of {thick}. One face is in line with wall {wall}, and the girder stands beyond it. "
        "The tape on wall {plate} shows {corner} at that line. What does it show at the centre of {tag}?"
    ).format(
        girder=called(girder), plies=girder.plies, thick=num(one), wall=wall.name, plate=plate.name,
        corner=num(corner, 1), tag=girder.tag,
    )  # fmt: skip
    text += " " + (_("It is farther along the tape.") if at > corner else _("It is nearer the start of the tape."))
    half, sign = girder.width / 2, "+" if at > corner else "-"
    working = (
        _("Half of the girder is {plies} × {thick} ÷ 2 = {half}.").format(
            plies=girder.plies, thick=num(one), half=num(half, 1)
        ),
        _("{corner} {sign} {half} = {at}.").format(corner=num(corner, 1), sign=sign, half=num(half, 1), at=num(at, 1)),
    )
    slips = (
        (corner, _("That is the face. The mark is to the centre.")),
        (2 * corner - at, _("That puts the girder on the other side of the line.")),
        (corner + 2 * (at - corner), _("That is its far face.")),
        (plate.length - at, _("That is measured from the other end.")),
    )
    return number(text, at, working, slips, (girder.tag,), tolerance=0.5, decimals=1)
