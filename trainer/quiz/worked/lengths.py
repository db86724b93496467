"""Questions of length and area: hips, jacks, creepers, top chords, valleys, ridges and the whole roof."""

from __future__ import annotations

import math
from itertools import pairwise

from trainer.layout import Member
from trainer.plan import Wall
from trainer.quiz.worked.family import Draft, Draw, family, number
from trainer.quiz.worked.subject import EXACT, Subject
from trainer.quiz.worked.telling import called, degrees, num
from trainer.roof.model import Crease
from trainer.words import _

ROOT2 = math.sqrt(2)


def slope_length(member: Member) -> float:
    """Length along the roof line of a truss that slopes one way, from its first point to its last, mm."""
    return sum(math.dist(a, b) for a, b in pairwise(member.top))


def _one_slope(member: Member) -> bool:
    return len(member.top) == 2


def _cos(subject: Subject) -> float:
    return math.cos(math.radians(subject.layout.house.roof.pitch))


def _corner_hips(subject: Subject) -> list[Member]:
    """Hips that start on the plates at a corner."""
    return [m for m in subject.of_kind("hip") if m.ends[0].on_plate and subject.corner_at(m.start) and _one_slope(m)]


@family(
    "hip-run",
    topic="reading plans",
    difficulty=2,
    serves=("materials", "set-out"),
    rules=("hip-before-truncated-girder",),
    why=_("A hip runs at 45 degrees in plan. It crosses a square, so it is the square's diagonal."),
)
def hip_run(subject: Subject, draw: Draw) -> Draft | None:
    """The plan length of a hip truss from the corner to the girder that carries it."""
    hips = [
        m for m in _corner_hips(subject) if abs(abs(m.finish[0] - m.start[0]) - abs(m.finish[1] - m.start[1])) < EXACT
    ]
    if not hips:
        return None
    hip = draw.pick(hips, "hip")
    side = abs(hip.finish[0] - hip.start[0])
    text = _(
        "{hip} runs from the outside corner of the plates to {girder}. In plan that is {side} in from each wall. "
        "How long is that run in plan?"
    ).format(hip=called(hip).capitalize(), girder=called(subject.layout.by_tag[hip.carried_by[-1]]), side=num(side, 1))
    working = (
        _("In plan the hip is the diagonal of a square with sides of {side}.").format(side=num(side, 1)),
        _("{side} × √2 = {run}.").format(side=num(side, 1), run=num(hip.span)),
    )
    rise = side * subject.slope
    slips = (
        (side, _("That is the run of a truss square to the wall.")),
        (2 * side, _("That adds the two sides. The hip cuts across.")),
        (math.hypot(hip.span, rise), _("That is the length on the slope. The run is level.")),
        (side / _cos(subject), _("That is a slope at the roof's own pitch.")),
        (hip.span + hip.ends[0].tail, _("That takes in the tail. The run asked for starts at the plate.")),
    )
    return number(text, hip.span, working, slips, (hip.tag,), tolerance=2)


@family(
    "hip-length",
    topic="reading plans",
    difficulty=3,
    serves=("materials",),
    why=_("The hip rises as high as the other trusses, over a longer run. So it is longer and flatter."),
)
def hip_length(subject: Subject, draw: Draw) -> Draft | None:
    """The length along the slope of a hip's top chord, tail and extension included."""
    hips = _corner_hips(subject)
    if not hips:
        return None
    hip = draw.pick(hips, "hip")
    (a, low), (b, high) = hip.top
    side, length = (b - a) / ROOT2, slope_length(hip)
    text = _(
        "The pitch is {pitch}. {hip} runs at 45 degrees, {side} along each wall, its tail and extension included. "
        "How long is its top chord on the slope?"
    ).format(pitch=degrees(subject.layout.house.roof.pitch), hip=called(hip).capitalize(), side=num(side, 1))
    working = (
        _("Its run in plan: {side} × √2 = {run}.").format(side=num(side, 1), run=num(b - a)),
        _("Its rise is that of a truss with a run of {side}: {side} × tan {pitch} = {rise}.").format(
            side=num(side, 1), pitch=degrees(subject.layout.house.roof.pitch), rise=num(high - low)
        ),
        _("√({run}² + {rise}²) = {length}.").format(run=num(b - a), rise=num(high - low), length=num(length)),
    )
    slips = (
        (b - a, _("That is the run in plan. The top chord slopes.")),
        ((b - a) / _cos(subject), _("That uses the roof's pitch. A hip is flatter.")),
        (side / _cos(subject), _("That is a top chord square to the wall.")),
        (side, _("That is the run along one wall.")),
    )
    return number(text, length, working, slips, (hip.tag,), tolerance=3)


@family(
    "hip-pitch",
    topic="reading plans",
    difficulty=3,
    serves=("materials",),
    why=_("The hip gains the same height over a run √2 times as long. So its angle is less than the roof's."),
)
def hip_pitch(subject: Subject, draw: Draw) -> Draft | None:
    """The angle at which a hip rises."""
    hips = [m for m in subject.of_kind("hip") if _one_slope(m)]
    if not hips:
        return None
    hip = draw.pick(hips, "hip")
    (a, low), (b, high) = hip.top
    pitch, angle = subject.layout.house.roof.pitch, math.degrees(math.atan2(high - low, b - a))
    text = _("The roof's pitch is {pitch}. At what angle does the top chord of {hip} rise, in degrees?").format(
        pitch=degrees(pitch), hip=called(hip)
    )
    working = (
        _("The roof rises {tan} for each 1 of level run.").format(tan=num(subject.slope, 3)),
        _("A hip runs √2 = 1.414 in the same time: {tan} ÷ 1.414 = {hip}.").format(
            tan=num(subject.slope, 3), hip=num((high - low) / (b - a), 3)
        ),
        _("The angle with that rise is {angle} degrees.").format(angle=num(angle, 1)),
    )
    slips = (
        (pitch, _("That is the roof's pitch. The hip is flatter.")),
        (pitch / 2, _("A hip is not half as steep. It runs √2 times as far.")),
        (
            math.degrees(math.atan(subject.slope * ROOT2)),
            _("That makes the hip steeper. Its run is longer, so it is flatter."),
        ),
        (45.0, _("That is the hip's angle in plan.")),
    )
    return number(text, angle, working, slips, (hip.tag,), "degrees", 1, tolerance=0.2)


@family(
    "hip-tail",
    topic="reading plans",
    difficulty=3,
    serves=("materials", "erecting"),
    rules=("end-for-end",),
    why=_("The eaves of both walls meet at the end of the hip's tail. So that tail is √2 times as long."),
)
def hip_tail(subject: Subject, draw: Draw) -> Draft | None:
    """The plan length of a hip's tail."""
    overhang = subject.layout.house.roof.overhang
    hips = [m for m in _corner_hips(subject) if m.ends[0].tail > 0 and abs(m.ends[0].tail - overhang * ROOT2) < 1]
    if not hips:
        return None
    hip = draw.pick(hips, "hip")
    tail = hip.ends[0].tail
    text = _(
        "The overhang is {overhang} on both walls. How long in plan is the tail of {hip}, from the corner outwards?"
    ).format(overhang=overhang, hip=called(hip))
    working = (
        _("The tail crosses a square with sides of {overhang}.").format(overhang=overhang),
        _("{overhang} × √2 = {tail}.").format(overhang=overhang, tail=num(tail)),
    )
    slips = (
        (float(overhang), _("That is the tail of a truss square to the wall.")),
        (2.0 * overhang, _("That adds both overhangs. The tail cuts across.")),
        (overhang / _cos(subject), _("That is a tail along the slope, square to the wall.")),
        (math.hypot(tail, overhang * subject.slope), _("That is along the slope. In plan it is shorter.")),
    )
    return number(text, tail, working, slips, (hip.tag,), tolerance=1)


@family(
    "jack-reach",
    topic="reading plans",
    difficulty=2,
    serves=("materials",),
    rules=("wrong-truss-for-place",),
    why=_("A jack's extension stops at the hip line. Nearer the corner that line comes sooner."),
)
def jack_reach(subject: Subject, draw: Draw) -> Draft | None:
    """How far in plan a jack reaches, tail and extension included."""
    found = []
    for jack in subject.of_kind("jack"):
        corner = _from_corner(subject, jack)
        if corner and _one_slope(jack) and abs(jack.top[-1][0] - corner[1]) < EXACT and corner[1] > jack.span + 1:
            found.append((jack, *corner))
    if not found:
        return None
    jack, wall, reach = draw.pick(found, "jack")
    overhang = jack.ends[0].tail
    whole = jack.top[-1][0] - jack.top[0][0]
    text = _(
        "{jack} is {reach} from the nearer corner of wall {wall}. Its extension runs on to the hip line. "
        "The overhang is {overhang}. How long is it in plan, from the end of its tail to the hip line?"
    ).format(jack=called(jack).capitalize(), reach=num(reach, 1), wall=wall.name, overhang=num(overhang))
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
        (whole / _cos(subject), _("That is along the slope. In plan it is shorter.")),
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
    "creeper-span",
    topic="reading plans",
    difficulty=1,
    serves=("materials", "set-out"),
    rules=("wrong-truss-for-place",),
    why=_("The hip runs at 45 degrees. So a creeper is as long in plan as it is far from the corner."),
)
def creeper_span(subject: Subject, draw: Draw) -> Draft | None:
    """The plan length of a creeper from the outside of the plate to the hip."""
    found = []
    for creeper in subject.of_kind("creeper"):
        corner = _from_corner(subject, creeper)
        if corner and abs(corner[1] - creeper.span) < EXACT:
            found.append((creeper, corner[0]))
    if not found:
        return None
    creeper, wall = draw.pick(found, "creeper")
    span = creeper.span
    hip = subject.layout.by_tag[creeper.carried_by[-1]]
    text = _(
        "{creeper} stands {span} along wall {wall} from the corner of {hip}. "
        "How long is it in plan, from the outside of the plate to the middle of the hip?"
    ).format(creeper=called(creeper).capitalize(), span=num(span, 1), wall=wall.name, hip=called(hip))
    working = (
        _("The hip leaves the corner at 45 degrees: for each millimetre along the wall, one millimetre in."),
        _("So the creeper is {span} long.").format(span=num(span, 1)),
    )
    slips = (
        (span * ROOT2, _("That is how far up the hip it meets it.")),
        (span / _cos(subject), _("That is its top chord along the slope.")),
        (span + subject.spacing, _("That is the next one from the corner.")),
        (span / ROOT2, _("That shortens it for 45 degrees. Square to the wall it needs no change.")),
        (span + creeper.ends[0].tail, _("That takes in the tail. It starts at the plate here.")),
    )
    return number(text, span, working, slips, (creeper.tag,), decimals=1)


@family(
    "creeper-step",
    topic="reading plans",
    difficulty=2,
    serves=("materials",),
    rules=("wrong-truss-for-place",),
    why=_("Creepers grow by the same step each time. A pack that does not is missing one, or has a stray."),
)
def creeper_step(subject: Subject, draw: Draw) -> Draft | None:
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
    if not pairs:
        return None
    short, long = draw.pick(pairs, "pair")
    step = slope_length(long) - slope_length(short)
    pitch = subject.layout.house.roof.pitch
    text = _(
        "The pitch is {pitch} and the spacing {spacing}. {short} and {long} stand one spacing apart. "
        "How much longer on the slope is the top chord of the longer one?"
    ).format(pitch=degrees(pitch), spacing=subject.spacing, short=called(short).capitalize(), long=called(long))
    working = (
        _("In plan they differ by the spacing, {spacing}.").format(spacing=subject.spacing),
        _("On the slope: {spacing} ÷ cos {pitch} = {step}.").format(
            spacing=subject.spacing, pitch=degrees(pitch), step=num(step)
        ),
    )
    spacing = float(subject.spacing)
    slips = (
        (spacing, _("That is the step in plan.")),
        (spacing * ROOT2, _("That is the step along the hip.")),
        (spacing * _cos(subject), _("That makes the slope shorter than the plan. It is longer.")),
        (spacing * subject.slope, _("That is how much higher the longer one reaches.")),
        (spacing * ROOT2 / _cos(subject), _("That mixes the hip into it. A creeper runs square to the wall.")),
    )
    return number(text, step, working, slips, (short.tag, long.tag), tolerance=1)


@family(
    "top-chord-length",
    topic="reading plans",
    difficulty=2,
    serves=("materials",),
    why=_("The drawing shows level runs. Timber, battens and sheets follow the slope, which is longer."),
)
def top_chord_length(subject: Subject, draw: Draw) -> Draft | None:
    """The length on the slope of a standard truss's top chord, from the end of its tail to the apex."""
    roof = subject.layout.house.roof
    found = []
    for truss in subject.of_kind("standard"):
        a, b = truss.top[0], truss.top[1]
        even = len(truss.top) == 3 and abs(b[0] - truss.span / 2) < EXACT
        if even and truss.ends[0].on_plate and truss.ends[0].tail == roof.overhang:
            found.append((truss, b[0] - a[0], math.dist(a, b)))
    if not found:
        return None
    truss, run, length = draw.pick(found, "truss")
    text = _(
        "{truss} has a span of {span}. The overhang is {overhang} and the pitch {pitch}. "
        "How long is one top chord, from the end of its tail to the apex?"
    ).format(
        truss=called(truss).capitalize(), span=num(truss.span, 1), overhang=roof.overhang, pitch=degrees(roof.pitch)
    )
    working = (
        _("Level run: {span} ÷ 2 + {overhang} = {run}.").format(
            span=num(truss.span, 1), overhang=roof.overhang, run=num(run, 1)
        ),
        _("On the slope: {run} ÷ cos {pitch} = {length}.").format(
            run=num(run, 1), pitch=degrees(roof.pitch), length=num(length)
        ),
    )
    slips = (
        (run, _("That is the level run.")),
        (truss.span / 2 / _cos(subject), _("That leaves out the overhang.")),
        (run * _cos(subject), _("That makes the slope shorter than the run.")),
        (truss.span / 2 / _cos(subject) + roof.overhang, _("That adds the overhang level. The tail slopes too.")),
        (math.hypot(run * ROOT2, run * subject.slope), _("That is as long as a hip.")),
    )
    return number(text, length, working, slips, (truss.tag,), tolerance=2)


@family(
    "valley-length",
    topic="saddles",
    difficulty=3,
    serves=("materials",),
    why=_("A valley runs at 45 degrees in plan, like a hip. It rises as the roof does over a longer run."),
)
def valley_length(subject: Subject, draw: Draw) -> Draft | None:
    """The length on the slope of a valley that starts at an inside corner."""
    found = []
    for valley in subject.layout.roof.valleys:
        for low, high in (valley, valley[::-1]):
            corner = subject.corner_at(low[:2])
            if corner and high[2] > low[2]:
                found.append((valley, corner, abs(high[0] - low[0]), high[2] - low[2]))
    if not found:
        return None
    valley, corner, side, rise = draw.pick(found, "valley")
    length = _length(valley)
    roof = subject.layout.house.roof
    text = _(
        "A valley starts at the inside corner of walls {a} and {b}. It runs in by {side} along both walls' lines. "
        "The pitch is {pitch}. How long is it on the slope, from the plates up?"
    ).format(a=corner[0].name, b=corner[1].name, side=num(side, 1), pitch=degrees(roof.pitch))
    working = (
        _("In plan: {side} × √2 = {run}.").format(side=num(side, 1), run=num(side * ROOT2)),
        _("It rises {side} × tan {pitch} = {rise}.").format(
            side=num(side, 1), pitch=degrees(roof.pitch), rise=num(rise)
        ),
        _("√({run}² + {rise}²) = {length}.").format(run=num(side * ROOT2), rise=num(rise), length=num(length)),
    )
    slips = (
        (side * ROOT2, _("That is its length in plan.")),
        (side * ROOT2 / _cos(subject), _("That uses the roof's pitch. A valley is flatter.")),
        (side / _cos(subject), _("That is a truss square to the wall.")),
        (side, _("That is its run along one wall.")),
    )
    return number(text, length, working, slips, tolerance=3)


def _length(crease: Crease) -> float:
    return math.dist(*crease)


@family(
    "ridge-length",
    topic="reading plans",
    difficulty=2,
    serves=("materials",),
    why=_("A hip end takes half the span off the ridge. A gable end takes nothing."),
)
def ridge_length(subject: Subject, draw: Draw) -> Draft | None:
    """The length of the ridge over a plain rectangle, between the outsides of the plates."""
    plan, ridges = subject.layout.house.plan, subject.layout.roof.ridges
    if len(plan.walls) != 4 or len(ridges) != 1:
        return None
    wing = subject.layout.wings[0]
    length = _length(ridges[0])
    low = 0 if wing.axis == "x" else 1
    whole = wing.rect[low + 2] - wing.rect[low]
    ends = [w for w in plan.walls if w.inward[low]]
    hips = [w for w in ends if not w.gable]
    if len(ends) != 2 or abs(whole - length - len(hips) * wing.span / 2) > EXACT:
        return None
    kinds = _("a hip at each end") if len(hips) == 2 else _("a hip at one end and a gable at the other")
    kinds = kinds if hips else _("a gable at each end")
    text = _(
        "The plates are {whole} by {span}. The roof has {kinds}. How long is the ridge, within the plates?"
    ).format(whole=num(whole), span=num(wing.span), kinds=kinds)
    working = (
        _("Each hip end takes half the span: {span} ÷ 2 = {half}.").format(
            span=num(wing.span), half=num(wing.span / 2, 1)
        ),
        _("{whole} - {count} × {half} = {length}.").format(
            whole=num(whole), count=len(hips), half=num(wing.span / 2, 1), length=num(length, 1)
        ),
    )
    setback = float(subject.layout.house.trusses.setback)
    slips = (
        (whole, _("That is the whole length. A hip takes off half the span.")),
        (whole - wing.span / 2, _("That takes off one hip end.")),
        (whole - wing.span, _("That takes off two hip ends.")),
        (whole - 2 * wing.span, _("That takes off the whole span at each end.")),
        (whole - max(len(hips), 1) * setback, _("That stops at the truncated girder. The hip runs on to the apex.")),
        (wing.span, _("That is the span.")),
    )
    return number(text, length, working, slips, decimals=1)


@family(
    "roof-area",
    topic="reading plans",
    difficulty=2,
    serves=("materials",),
    why=_("Cover is ordered by the slope. With one pitch all over, one sum turns plan area into roof area."),
)
def roof_area(subject: Subject, draw: Draw) -> Draft | None:
    """The whole roof's area from its plan area, eaves included."""
    roof = subject.layout.roof
    plan, pitch = roof.plan_area_m2, subject.layout.house.roof.pitch
    text = _(
        "In plan the roof covers {plan} m², eaves included. Every plane has a pitch of {pitch}. "
        "What is the area on the slope, in m²?"
    ).format(plan=num(plan, 2), pitch=degrees(pitch))
    working = (
        _("On the slope an area is its plan area divided by the cosine of the pitch."),
        _("{plan} ÷ cos {pitch} = {area} m².").format(
            plan=num(plan, 2), pitch=degrees(pitch), area=num(roof.area_m2, 1)
        ),
    )
    slips = (
        (plan, _("That is the plan area.")),
        (plan * _cos(subject), _("That makes the roof smaller than its plan.")),
        (plan * (1 + subject.slope), _("That adds the rise. Divide by the cosine.")),
        (plan / _cos(subject) ** 2, _("Only one direction slopes. Divide by the cosine once.")),
        (plan * math.sqrt(1 + subject.slope**2 / 2), _("That is the hip's slope.")),
    )
    return number(text, roof.area_m2, working, slips, (), "m2", 1, tolerance=0.15)


@family(
    "plan-area",
    topic="reading plans",
    difficulty=1,
    serves=("materials",),
    why=_("The roof is larger than the plates by the overhang on every side. Forget one side and cover runs short."),
)
def plan_area(subject: Subject, draw: Draw) -> Draft | None:
    """The plan area of the roof over a plain rectangle."""
    plan, overhang = subject.layout.house.plan, subject.layout.house.roof.overhang
    if len(plan.walls) != 4 or not overhang:
        return None
    x0, y0, x1, y1 = plan.bounds
    a, b = (value / 1000 for value in (x1 - x0, y1 - y0))
    over, area = overhang / 1000, subject.layout.roof.plan_area_m2
    text = _(
        "The plates are {a} m by {b} m over all. The overhang is {over} m on all four sides. "
        "What area does the roof cover in plan, in m²?"
    ).format(a=num(a, 3), b=num(b, 3), over=num(over, 3))
    working = (
        _("Each side grows by two overhangs: {a} + 2 × {over} = {wide}.").format(
            a=num(a, 3), over=num(over, 3), wide=num(a + 2 * over, 3)
        ),
        _("{b} + 2 × {over} = {deep}.").format(b=num(b, 3), over=num(over, 3), deep=num(b + 2 * over, 3)),
        _("{wide} × {deep} = {area} m².").format(
            wide=num(a + 2 * over, 3), deep=num(b + 2 * over, 3), area=num(area, 1)
        ),
    )
    slips = (
        (a * b, _("That leaves out the eaves.")),
        ((a + over) * (b + over), _("That adds one overhang to each side. There are two.")),
        (a * b + 4 * over**2, _("That adds four corners only.")),
        (a * b + 2 * over * (a + b), _("That leaves out the four corners.")),
        (area / _cos(subject), _("That is the area on the slope.")),
    )
    return number(text, area, working, slips, (), "m2", 1, tolerance=0.1)
