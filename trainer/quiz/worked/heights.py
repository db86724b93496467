"""Questions of height: how high the roof line is over a truss, and how flat tops shrink."""

from __future__ import annotations

import math

from trainer.layout import Member
from trainer.quiz.worked.family import QuestionChance, QuestionDraft, family, needs, number, one_of
from trainer.quiz.worked.subject import EXACT, Subject
from trainer.quiz.worked.wording import called, degrees, mm, num
from trainer.rules import PRACTICE
from trainer.words import _


def flat_of(member: Member) -> tuple[float, float, float] | None:
    """(run in from the first plate, length, height) of a truss's flat top, mm; none where it has none."""
    for (a, low), (b, high) in zip(member.top, member.top[1:], strict=False):
        if abs(high - low) < EXACT and b - a > EXACT:
            return a, b - a, low
    return None


def _rise(subject: Subject, run: float) -> str:
    pitch = degrees(subject.layout.house.roof.pitch)
    return _("{run} × tan {pitch} = {rise}").format(run=num(run, 1), pitch=pitch, rise=num(run * subject.slope))


def _plain_run(subject: Subject, member: Member, run: float, z: float) -> bool:
    """Whether the roof rises evenly from a truss's plate to ``run``, so that its height follows from that alone."""
    house = subject.layout.house
    return member.ends[0].on_plate and abs(house.roof.heel + run * subject.slope - z) < EXACT


@family(
    topic="reading plans",
    difficulty=2,
    serves=("materials", "erecting"),
    rules=("wrong-truss-for-place",),
    why=_("Each truncated truss is higher than the one before. Knowing its height, you know that the tag is right."),
)
def truncated_height(subject: Subject, draw: QuestionChance) -> QuestionDraft:
    """The height of the roof line over a truncated truss or girder."""
    found = [
        (m, flat)
        for m in subject.of_kind("truncated", "truncated_girder")
        if (flat := flat_of(m)) and _plain_run(subject, m, flat[0], flat[2]) and abs(flat[0] - m.station) < EXACT
    ]
    truss, (run, _length, z) = draw.pick(found, "truss")
    return _height(subject, truss, run, z, _("at station {run}").format(run=num(run, 1)), truss.span / 2)


@family(
    topic="reading plans",
    difficulty=2,
    serves=("materials", "erecting"),
    rules=("wrong-truss-for-place",),
    why=_("All standard trusses of a wing reach the same height. That is why one string line can check them all."),
)
def apex_height(subject: Subject, draw: QuestionChance) -> QuestionDraft:
    """The height of the roof line at the apex of a standard truss."""
    found = []
    for truss in subject.of_kind("standard"):
        run, z = max(truss.top, key=lambda point: point[1])
        if abs(run - truss.span / 2) < EXACT and _plain_run(subject, truss, run, z):
            found.append((truss, run, z))
    truss, run, z = draw.pick(found, "truss")
    return _height(subject, truss, run, z, _("with a span of {span}").format(span=num(truss.span, 1)), run)


def _height(subject: Subject, truss: Member, run: float, z: float, where: str, half: float) -> QuestionDraft:
    roof = subject.layout.house.roof
    text = _(
        "The pitch is {pitch} and the heel {heel}. {truss} stands {where}. "
        "How high above the plate is the roof line at its top?"
    ).format(pitch=degrees(roof.pitch), heel=roof.heel, truss=called(truss), where=where)
    if truss.kind == "standard":
        text = _(
            "The pitch is {pitch} and the heel {heel}. {truss} has a span of {span}. "
            "How high above the plate is the roof line at its apex?"
        ).format(pitch=degrees(roof.pitch), heel=roof.heel, truss=called(truss), span=num(truss.span, 1))
    steps = [_("The roof line has run in level by {run}.").format(run=num(run, 1))]
    if truss.kind == "standard":
        steps = [_("Half the span: {span} ÷ 2 = {run}.").format(span=num(truss.span, 1), run=num(run, 1))]
    steps.append(_("It rises by {rise}.").format(rise=_rise(subject, run)))
    if roof.heel:
        steps.append(
            _("With the heel: {rise} + {heel} = {z}.").format(rise=num(z - roof.heel), heel=roof.heel, z=num(z))
        )
    slips = (
        (z - roof.heel, _("That leaves out the heel.")),
        (
            roof.heel + run / math.cos(math.radians(roof.pitch)) * subject.slope,
            _("That takes the slope for the level run."),
        ),
        (roof.heel + run * subject.slope / math.sqrt(2), _("That is the hip's pitch. This truss has the roof's own.")),
        (
            roof.heel + (run + roof.overhang) * subject.slope,
            _("That starts at the end of the tail. Start at the plate."),
        ),
        (roof.heel + half * subject.slope, _("That is the height at the apex of the wing.")),
        (roof.heel + run * math.sin(math.radians(roof.pitch)), _("That uses the sine. A level run takes the tangent.")),
    )
    return number(text, z, steps, slips, (truss.tag,), tolerance=1)


@family(
    topic="reading plans",
    difficulty=2,
    serves=("materials",),
    rules=("wrong-truss-for-place",),
    why=_("The flat gets shorter on both sides at once. So it shrinks by two spacings from truss to truss."),
)
def flat_top_length(subject: Subject, draw: QuestionChance) -> QuestionDraft:
    """The length of a truncated truss's flat top."""
    found = [
        (m, flat)
        for m in subject.of_kind("truncated", "truncated_girder")
        if (flat := flat_of(m))
        and m.ends[0].on_plate
        and m.ends[1].on_plate
        and abs(flat[0] - m.station) < EXACT
        and abs(flat[1] - m.span + 2 * m.station) < EXACT
    ]
    truss, (run, length, _z) = draw.pick(found, "truss")
    text = _("{truss} stands at station {station} and has a span of {span}. How long is its flat top?").format(
        truss=called(truss), station=num(run, 1), span=num(truss.span, 1)
    )
    working = (
        _("Each slope takes up as much of the span as the station: {run}.").format(run=num(run, 1)),
        _("{span} - 2 × {run} = {length}.").format(span=num(truss.span, 1), run=num(run, 1), length=num(length, 1)),
    )
    slips = (
        (truss.span - run, _("That takes off one slope. There is one on each side.")),
        (truss.span / 2 - run, _("That is half of the flat top.")),
        (2 * run, _("That is what the two slopes take up.")),
        (
            truss.span - 2 * run / math.cos(math.radians(subject.layout.house.roof.pitch)),
            _("That takes the slope for the level run."),
        ),
        (length - 2 * subject.spacing, _("That is the next truss along.")),
    )
    return number(text, length, working, slips, (truss.tag,), decimals=1)


@family(
    topic="reading plans",
    difficulty=2,
    serves=("materials", "erecting"),
    rules=("wrong-truss-for-place", "truss-left-over"),
    why=_("Truncated trusses look alike in the pack. The flat top tells them apart."),
)
def which_truncated(subject: Subject, draw: QuestionChance) -> QuestionDraft:
    """At which station a truss with a certain flat top belongs."""
    girders = subject.of_kind("truncated_girder")
    girder = draw.pick(girders, "girder")
    flats: dict[float, tuple[float, str]] = {}
    for tag in subject.layout.rows[girder.row]:
        member = subject.layout.by_tag[tag]
        if member.kind in ("truncated", "truncated_girder") and (flat := flat_of(member)):
            flats.setdefault(round(flat[1], 1), (member.station, member.tag))
    stations = {station for station, _tag in flats.values()}
    needs(len(flats) >= 3 and len(stations) == len(flats))
    length = draw.pick(sorted(flats), "flat")
    station, tag = flats[length]
    span = next(w.span for w in subject.layout.wings if w.id == girder.wing)
    text = _(
        "One wing's span is {span}. A truncated truss for it has a flat top {length} long. "
        "At which station does it belong?"
    ).format(length=num(length, 1), span=num(span))
    wrong = [
        (mm(other), _("There the flat top is {flat} long.").format(flat=num(flat, 1)))
        for flat, (other, _tag) in flats.items()
        if flat != length
    ]
    working = (
        _("What the flat leaves of the span: {span} - {length} = {rest}.").format(
            span=num(span), length=num(length, 1), rest=num(span - length, 1)
        ),
        _("Half of it on each side: {rest} ÷ 2 = {station}.").format(
            rest=num(span - length, 1), station=num(station, 1)
        ),
    )
    needs(abs((span - length) / 2 - station) <= EXACT)
    return one_of(text, mm(station), draw.shuffled(wrong, "others")[:3], working, (tag,))


@family(
    topic="reading plans",
    difficulty=2,
    serves=("materials", "erecting"),
    why=_("The tail runs on at the same pitch. So the eave line hangs as far down as the overhang asks."),
)
def eave_drop(subject: Subject, draw: QuestionChance) -> QuestionDraft:
    """How far the roof line falls from the plate's outside face to the end of the tail."""
    roof = subject.layout.house.roof
    found = [
        m for m in subject.of_kind("standard", "truncated", "jack", "creeper") if m.ends[0].tail == roof.overhang > 0
    ]
    truss = draw.pick(found, "truss")
    drop = roof.heel - truss.top[0][1]
    text = _(
        "The pitch is {pitch} and the overhang {overhang}. "
        "From the plate's outside face to its end, how far does the tail of {truss} fall?"
    ).format(pitch=degrees(roof.pitch), overhang=roof.overhang, truss=called(truss))
    working = (_("The overhang is level, so: {rise}.").format(rise=_rise(subject, roof.overhang)),)
    cos = math.cos(math.radians(roof.pitch))
    slips = (
        (roof.overhang / cos * subject.slope, _("That takes the slope for the level overhang.")),
        (roof.overhang * math.sin(math.radians(roof.pitch)), _("That takes the overhang for a length on the slope.")),
        (roof.overhang * subject.slope / math.sqrt(2), _("That is the hip's pitch.")),
        (abs(roof.heel - roof.overhang * subject.slope), _("That is how far its end is from the plate's level.")),
        (float(roof.overhang), _("That is the overhang itself, which is level.")),
    )
    return number(text, drop, working, slips, (truss.tag,), tolerance=1)


@family(
    topic="gables and verges",
    difficulty=3,
    serves=("materials", "erecting"),
    rules=("wrong-truss-for-place",),
    why=_("Outriggers pass over the gable truss to carry the verge. So it is made lower by their depth."),
    source=PRACTICE,
)
def gable_truss_lower(subject: Subject, draw: QuestionChance) -> QuestionDraft:
    """By how much a gable truss lies under the roof line, measured plumb."""
    depth = draw.pick((70, 90, 120, 140, 190), "depth")
    found = []
    for gable in subject.of_kind("gable"):
        mates = [m for m in subject.of_kind("standard") if m.row == gable.row]
        if mates:
            drop = max(z for _run, z in mates[0].top) - max(z for _run, z in gable.top)
            if drop > 1:
                found.append((gable, drop))
    gable, _drop = draw.pick(found, "gable")
    pitch = subject.layout.house.roof.pitch
    drop = depth / math.cos(math.radians(pitch))
    text = _(
        "Say outriggers {depth} deep lie on {gable}, square to the slope. The pitch is {pitch}. "
        "How much lower is this truss than the roof line, measured plumb?"
    ).format(depth=depth, gable=called(gable), pitch=degrees(pitch))
    cos = math.cos(math.radians(pitch))
    working = (
        _("The depth is square to the slope. Plumb it is longer."),
        _("{depth} ÷ cos {pitch} = {drop}.").format(depth=depth, pitch=degrees(pitch), drop=num(drop, 1)),
    )
    slips = (
        (float(depth), _("That is the depth square to the slope. Plumb it is longer.")),
        (depth * cos, _("That makes it shorter. Plumb, a sloping timber is deeper.")),
        (depth * subject.slope, _("That uses the tangent. Divide by the cosine.")),
        (float(subject.layout.house.trusses.thickness), _("That is the thickness of a truss.")),
        (depth * 2.0, _("Outriggers lie over the truss once, not twice.")),
    )
    return number(text, drop, working, slips, (gable.tag,), decimals=1, tolerance=0.6)
