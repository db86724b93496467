"""Questions of length and area: top chords, valleys, ridges and the whole roof."""

from __future__ import annotations

import math

from trainer.quiz.worked.family import QuestionChance, QuestionDraft, family, needs, number
from trainer.quiz.worked.subject import EXACT, Subject, cosine
from trainer.quiz.worked.wording import called, degrees, num
from trainer.roof.model import Crease
from trainer.words import _

ROOT2 = math.sqrt(2)


@family(
    topic="reading plans",
    difficulty=2,
    serves=("materials",),
    why=_("The drawing shows level runs. Timber, battens and sheets follow the slope, which is longer."),
)
def top_chord_length(subject: Subject, draw: QuestionChance) -> QuestionDraft:
    """The length on the slope of a standard truss's top chord, from the end of its tail to the apex."""
    roof = subject.layout.house.roof
    found = []
    for truss in subject.of_kind("standard"):
        a, b = truss.top[0], truss.top[1]
        even = len(truss.top) == 3 and abs(b[0] - truss.span / 2) < EXACT
        if even and truss.ends[0].on_plate and truss.ends[0].tail == roof.overhang:
            found.append((truss, b[0] - a[0], math.dist(a, b)))
    truss, run, length = draw.pick(found, "truss")
    text = _(
        "{truss} has a span of {span}. The overhang is {overhang} and the pitch {pitch}. "
        "How long is one top chord, from the end of its tail to the apex?"
    ).format(truss=called(truss), span=num(truss.span, 1), overhang=roof.overhang, pitch=degrees(roof.pitch))
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
        (truss.span / 2 / cosine(subject), _("That leaves out the overhang.")),
        (run * cosine(subject), _("That makes the slope shorter than the run.")),
        (truss.span / 2 / cosine(subject) + roof.overhang, _("That adds the overhang level. The tail slopes too.")),
        (math.hypot(run * ROOT2, run * subject.slope), _("That is as long as a hip.")),
    )
    return number(text, length, working, slips, (truss.tag,), tolerance=2)


@family(
    topic="saddles",
    difficulty=3,
    serves=("materials",),
    why=_("A valley runs at 45 degrees in plan, like a hip. It rises as the roof does over a longer run."),
)
def valley_length(subject: Subject, draw: QuestionChance) -> QuestionDraft:
    """The length on the slope of a valley that starts at an inside corner."""
    found = []
    for valley in subject.layout.roof.valleys:
        for low, high in (valley, valley[::-1]):
            corner = subject.corner_at(low[:2])
            if corner and high[2] > low[2]:
                found.append((valley, corner, abs(high[0] - low[0]), high[2] - low[2]))
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
        (side * ROOT2 / cosine(subject), _("That uses the roof's pitch. A valley is flatter.")),
        (side / cosine(subject), _("That is a truss square to the wall.")),
        (side, _("That is its run along one wall.")),
    )
    return number(text, length, working, slips, tolerance=3)


def _length(crease: Crease) -> float:
    return math.dist(*crease)


@family(
    topic="reading plans",
    difficulty=2,
    serves=("materials",),
    why=_("A hip end takes half the span off the ridge. A gable end takes nothing."),
)
def ridge_length(subject: Subject, draw: QuestionChance) -> QuestionDraft:
    """The length of the ridge over a plain rectangle, between the outsides of the plates."""
    plan, ridges = subject.layout.house.plan, subject.layout.roof.ridges
    needs(len(plan.walls) == 4 and len(ridges) == 1 and not plan.against)
    wing = subject.layout.wings[0]
    length = _length(ridges[0])
    low = 0 if wing.axis == "x" else 1
    whole = wing.rect[low + 2] - wing.rect[low]
    ends = [w for w in plan.walls if w.inward[low]]
    hips = [w for w in ends if not w.gable]
    needs(len(ends) == 2 and abs(whole - length - len(hips) * wing.span / 2) <= EXACT)
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
    topic="reading plans",
    difficulty=2,
    serves=("materials",),
    why=_("Cover is ordered by the slope. With one pitch all over, one sum turns plan area into roof area."),
)
def roof_area(subject: Subject, draw: QuestionChance) -> QuestionDraft:
    """The whole roof's area from its plan area, eaves included."""
    roof = subject.layout.roof
    needs(not subject.layout.house.plan.dutch_gables, not roof.steps)  # there a strip is covered twice
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
        (plan * cosine(subject), _("That makes the roof smaller than its plan.")),
        (plan * (1 + subject.slope), _("That adds the rise. Divide by the cosine.")),
        (plan / cosine(subject) ** 2, _("Only one direction slopes. Divide by the cosine once.")),
        (plan * math.sqrt(1 + subject.slope**2 / 2), _("That is the hip's slope.")),
    )
    return number(text, roof.area_m2, working, slips, (), "m2", 1, tolerance=0.15)


@family(
    topic="reading plans",
    difficulty=1,
    serves=("materials",),
    why=_("The roof is larger than the plates by the overhang on every side. Forget one side and cover runs short."),
)
def plan_area(subject: Subject, draw: QuestionChance) -> QuestionDraft:
    """The plan area of the roof over a plain rectangle."""
    plan, overhang = subject.layout.house.plan, subject.layout.house.roof.overhang
    needs(len(plan.walls) == 4 and overhang and not plan.against and not plan.dutch_gables)
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
        (area / cosine(subject), _("That is the area on the slope.")),
    )
    return number(text, area, working, slips, (), "m2", 1, tolerance=0.1)
