"""Questions of a hip end: how long hips, jacks and creepers are, and how a hip rises."""

from __future__ import annotations

import math
from itertools import pairwise

from trainer.layout import Member
from trainer.plan import Wall
from trainer.quiz.worked.family import QuestionChance, QuestionDraft, family, number
from trainer.quiz.worked.subject import EXACT, Subject, cosine
from trainer.quiz.worked.wording import called, degrees, num
from trainer.words import _

ROOT2 = math.sqrt(2)
SETBACKS, PITCHES, OVERHANGS = (1200, 1500, 1800, 2100, 2400), (15, 20, 22.5, 25, 30), (300, 450, 600, 750, 900)
SPACINGS = (450, 600, 750, 900, 1200)
"""What else a house may have than its own, so that one answer does not do for most houses."""


def slope_length(member: Member) -> float:
    """Length along the roof line of a truss that slopes one way, from its first point to its last, mm."""
    return sum(math.dist(a, b) for a, b in pairwise(member.top))


def _one_slope(member: Member) -> bool:
    return len(member.top) == 2


def _corner_hips(subject: Subject) -> list[Member]:
    """Hips that start on the plates at a corner."""
    return [m for m in subject.of_kind("hip") if m.ends[0].on_plate and subject.corner_at(m.start) and _one_slope(m)]


@family(
    topic="reading plans",
    difficulty=2,
    serves=("materials", "set-out"),
    rules=("hip-before-truncated-girder",),
    why=_("A hip runs at 45 degrees in plan. It crosses a square, so it is the square's diagonal."),
)
def hip_run(subject: Subject, draw: QuestionChance) -> QuestionDraft:
    """The plan length of a hip truss from the corner to the girder that carries it."""
    hips = [
        m for m in _corner_hips(subject) if abs(abs(m.finish[0] - m.start[0]) - abs(m.finish[1] - m.start[1])) < EXACT
    ]
    hip = draw.pick(hips, "hip")
    side = draw.pick(SETBACKS, "side")
    run = side * ROOT2
    text = _(
        "{hip} runs from the outside corner of the plates to {girder}. Say that is {side} in from each wall. "
        "How long is that run in plan?"
    ).format(hip=called(hip), girder=called(subject.layout.by_tag[hip.carried_by[-1]]), side=num(side, 1))
    working = (
        _("In plan the hip is the diagonal of a square with sides of {side}.").format(side=num(side, 1)),
        _("{side} × √2 = {run}.").format(side=num(side, 1), run=num(run)),
    )
    rise = side * subject.slope
    slips = (
        (side, _("That is the run of a truss square to the wall.")),
        (2 * side, _("That adds the two sides. The hip cuts across.")),
        (math.hypot(run, rise), _("That is the length on the slope. The run is level.")),
        (side / cosine(subject), _("That is a slope at the roof's own pitch.")),
        (run + hip.ends[0].tail, _("That takes in the tail. The run asked for starts at the plate.")),
    )
    return number(text, run, working, slips, (hip.tag,), tolerance=2)


@family(
    topic="reading plans",
    difficulty=3,
    serves=("materials",),
    why=_("The hip rises as high as the other trusses, over a longer run. So it is longer and flatter."),
)
def hip_length(subject: Subject, draw: QuestionChance) -> QuestionDraft:
    """The length along the slope of a hip's top chord, tail and extension included."""
    hips = _corner_hips(subject)
    hip = draw.pick(hips, "hip")
    (a, low), (b, high) = hip.top
    side, length = (b - a) / ROOT2, slope_length(hip)
    text = _(
        "The pitch is {pitch}. {hip} runs at 45 degrees, {side} along each wall, its tail and extension included. "
        "How long is its top chord on the slope?"
    ).format(pitch=degrees(subject.layout.house.roof.pitch), hip=called(hip), side=num(side, 1))
    working = (
        _("Its run in plan: {side} × √2 = {run}.").format(side=num(side, 1), run=num(b - a)),
        _("Its rise is that of a truss with a run of {side}: {side} × tan {pitch} = {rise}.").format(
            side=num(side, 1), pitch=degrees(subject.layout.house.roof.pitch), rise=num(high - low)
        ),
        _("√({run}² + {rise}²) = {length}.").format(run=num(b - a), rise=num(high - low), length=num(length)),
    )
    slips = (
        (b - a, _("That is the run in plan. The top chord slopes.")),
        ((b - a) / cosine(subject), _("That uses the roof's pitch. A hip is flatter.")),
        (side / cosine(subject), _("That is a top chord square to the wall.")),
        (side, _("That is the run along one wall.")),
    )
    return number(text, length, working, slips, (hip.tag,), tolerance=3)


@family(
    topic="reading plans",
    difficulty=3,
    serves=("materials",),
    why=_("The hip gains the same height over a run √2 times as long. So its angle is less than the roof's."),
)
def hip_pitch(subject: Subject, draw: QuestionChance) -> QuestionDraft:
    """The angle at which a hip rises."""
    hips = [m for m in subject.of_kind("hip") if _one_slope(m)]
    hip = draw.pick(hips, "hip")
    pitch = draw.pick(PITCHES, "pitch")
    slope = math.tan(math.radians(pitch))
    angle = math.degrees(math.atan(slope / ROOT2))
    text = _("Say the roof's pitch were {pitch}. At what angle would the top chord of {hip} rise, in degrees?").format(
        pitch=degrees(pitch), hip=called(hip)
    )
    working = (
        _("The roof rises {tan} for each 1 of level run.").format(tan=num(slope, 3)),
        _("A hip runs √2 = 1.414 in the same time: {tan} ÷ 1.414 = {hip}.").format(
            tan=num(slope, 3), hip=num(slope / ROOT2, 3)
        ),
        _("The angle with that rise is {angle} degrees.").format(angle=num(angle, 1)),
    )
    slips = (
        (pitch, _("That is the roof's pitch. The hip is flatter.")),
        (pitch / 2, _("A hip is not half as steep. It runs √2 times as far.")),
        (
            math.degrees(math.atan(slope * ROOT2)),
            _("That makes the hip steeper. Its run is longer, so it is flatter."),
        ),
        (45.0, _("That is the hip's angle in plan.")),
    )
    return number(text, angle, working, slips, (hip.tag,), "degrees", 1, tolerance=0.2)


@family(
    topic="reading plans",
    difficulty=3,
    serves=("materials", "erecting"),
    rules=("end-for-end",),
    why=_("The eaves of both walls meet at the end of the hip's tail. So that tail is √2 times as long."),
)
def hip_tail(subject: Subject, draw: QuestionChance) -> QuestionDraft:
    """The plan length of a hip's tail."""
    overhang = subject.layout.house.roof.overhang
    hips = [m for m in _corner_hips(subject) if m.ends[0].tail > 0 and abs(m.ends[0].tail - overhang * ROOT2) < 1]
    hip = draw.pick(hips, "hip")
    overhang = draw.pick(OVERHANGS, "overhang")
    tail = overhang * ROOT2
    text = _(
        "Say the overhang is {overhang} on both walls. How long in plan is the tail of {hip}, from the corner outwards?"
    ).format(overhang=overhang, hip=called(hip))
    working = (
        _("The tail crosses a square with sides of {overhang}.").format(overhang=overhang),
        _("{overhang} × √2 = {tail}.").format(overhang=overhang, tail=num(tail, 1)),
    )
    slips = (
        (float(overhang), _("That is the tail of a truss square to the wall.")),
        (2.0 * overhang, _("That adds both overhangs. The tail cuts across.")),
        (overhang / cosine(subject), _("That is a tail along the slope, square to the wall.")),
        (math.hypot(tail, overhang * subject.slope), _("That is along the slope. In plan it is shorter.")),
    )
    return number(text, tail, working, slips, (hip.tag,), decimals=1, tolerance=1)


@family(
    topic="reading plans",
    difficulty=2,
    serves=("materials",),
    rules=("wrong-truss-for-place",),
    why=_("A jack's extension stops at the hip line. Nearer the corner that line comes sooner."),
)
def jack_reach(subject: Subject, draw: QuestionChance) -> QuestionDraft:
    """How far in plan a jack reaches, tail and extension included."""
    found = []
    for jack in subject.of_kind("jack"):
        corner = _from_corner(subject, jack)
        if corner and _one_slope(jack) and abs(jack.top[-1][0] - corner[1]) < EXACT and corner[1] > jack.span + 1:
            found.append((jack, *corner))
    jack, wall, reach = draw.pick(found, "jack")
    overhang = jack.ends[0].tail
    whole = jack.top[-1][0] - jack.top[0][0]
    text = _(
        "{jack} is {reach} from the nearer corner of wall {wall}. Its extension runs on to the hip line. "
        "The overhang is {overhang}. How long is it in plan, from the end of its tail to the hip line?"
    ).format(jack=called(jack), reach=num(reach, 1), wall=wall.name, overhang=num(overhang))
    working = (
        _("The hip runs at 45 degrees. So the hip line is as far in as the jack is from the corner: {reach}.").format(
            reach=num(reach, 1)
        ),
        _("With the tail: {reach} + {overhang} = {whole}.").format(
            reach=num(reach, 1), overhang=num(overhang), whole=num(whole, 1)
        ),
    )
    slips = (
        (reach, _("That leaves out the tail.")),
        (jack.span + overhang, _("That stops at the girder. The extension runs on.")),
        (jack.span, _("That is from the plate to the girder only.")),
        (whole / cosine(subject), _("That is along the slope. In plan it is shorter.")),
        (reach * ROOT2 + overhang, _("That is along the hip. The jack runs square to the wall.")),
    )
    return number(text, whole, working, slips, (jack.tag,), decimals=1)


def _from_corner(subject: Subject, member: Member) -> tuple[Wall, float] | None:
    """The wall under a truss, and how far along it the truss is from the nearer corner."""
    plates = subject.walls_under(member)
    if len(plates) != 1:
        return None
    end, wall = plates[0]
    at = subject.tape(member, end)[1]
    return wall, min(at, wall.length - at)


@family(
    topic="reading plans",
    difficulty=1,
    serves=("materials", "set-out"),
    rules=("wrong-truss-for-place",),
    why=_("The hip runs at 45 degrees. So a creeper is as long in plan as it is far from the corner."),
)
def creeper_span(subject: Subject, draw: QuestionChance) -> QuestionDraft:
    """The plan length of a creeper from the outside of the plate to the hip."""
    found = []
    for creeper in subject.of_kind("creeper"):
        corner = _from_corner(subject, creeper)
        if corner and abs(corner[1] - creeper.span) < EXACT:
            found.append((creeper, corner[0]))
    creeper, wall = draw.pick(found, "creeper")
    span = creeper.span
    hip = subject.layout.by_tag[creeper.carried_by[-1]]
    text = _(
        "{creeper} stands {span} along wall {wall} from the corner of {hip}. "
        "How long is it in plan, from the outside of the plate to the middle of the hip?"
    ).format(creeper=called(creeper), span=num(span, 1), wall=wall.name, hip=called(hip))
    working = (
        _("The hip leaves the corner at 45 degrees: for each millimetre along the wall, one millimetre in."),
        _("So the creeper is {span} long.").format(span=num(span, 1)),
    )
    slips = (
        (span * ROOT2, _("That is how far up the hip it meets it.")),
        (span / cosine(subject), _("That is its top chord along the slope.")),
        (span + subject.spacing, _("That is the next one from the corner.")),
        (span / ROOT2, _("That shortens it for 45 degrees. Square to the wall it needs no change.")),
        (span + creeper.ends[0].tail, _("That takes in the tail. It starts at the plate here.")),
    )
    return number(text, span, working, slips, (creeper.tag,), decimals=1)


@family(
    topic="reading plans",
    difficulty=2,
    serves=("materials",),
    rules=("wrong-truss-for-place",),
    why=_("Creepers grow by the same step each time. A pack that does not is missing one, or has a stray."),
)
def creeper_step(subject: Subject, draw: QuestionChance) -> QuestionDraft:
    """How much longer on the slope one creeper is than the next."""
    by_side: dict[tuple[str, str], list[Member]] = {}
    for creeper in subject.of_kind("creeper"):
        if creeper.ends[0].on_plate and _one_slope(creeper):
            by_side.setdefault((creeper.ends[0].bears_on, creeper.carried_by[-1]), []).append(creeper)
    pairs = []
    for side in by_side.values():
        side.sort(key=lambda m: m.span)
        pairs += [
            (a, b)
            for a, b in pairwise(side)
            if abs(b.span - a.span - subject.spacing) < EXACT and a.ends[0].tail == b.ends[0].tail
        ]
    short, long = draw.pick(pairs, "pair")
    pitch, at = subject.layout.house.roof.pitch, draw.pick(SPACINGS, "spacing")
    step = at / cosine(subject)
    text = _(
        "The pitch is {pitch}. Say the spacing is {spacing}. {short} and {long} stand one spacing apart. "
        "How much longer on the slope is the top chord of the longer one?"
    ).format(pitch=degrees(pitch), spacing=at, short=called(short), long=called(long))
    working = (
        _("In plan they differ by the spacing, {spacing}.").format(spacing=at),
        _("On the slope: {spacing} ÷ cos {pitch} = {step}.").format(spacing=at, pitch=degrees(pitch), step=num(step)),
    )
    spacing = float(at)
    slips = (
        (spacing, _("That is the step in plan.")),
        (spacing * ROOT2, _("That is the step along the hip.")),
        (spacing * cosine(subject), _("That makes the slope shorter than the plan. It is longer.")),
        (spacing * subject.slope, _("That is how much higher the longer one reaches.")),
        (spacing * ROOT2 / cosine(subject), _("That mixes the hip into it. A creeper runs square to the wall.")),
    )
    return number(text, step, working, slips, (short.tag, long.tag), tolerance=1)
