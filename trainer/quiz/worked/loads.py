"""Questions of load and hold: the roof that a bearing carries, the uplift on it, and what holds it down; limits too."""

from __future__ import annotations

import math

from trainer.layout import Member
from trainer.order import spot
from trainer.quiz.worked.family import QuestionChance, QuestionDraft, family, needs, number, one_of
from trainer.quiz.worked.subject import Subject
from trainer.quiz.worked.wording import called, num
from trainer.rules import LEVEL, PRACTICE
from trainer.site import pressure
from trainer.words import _, ngettext

FORMULA = _(
    "the formula of TAFE and timber-framing guides; pressure and capacities are this job's own, invented values"
)
SAFETY = _("Tie-down is designed by licensed people. Follow the drawings, and fix every connector they show.")


def _plain_trusses(subject: Subject) -> list[tuple[Member, float, float]]:
    """(truss, width of roof that it carries, level length of roof over one half) of trusses in an even row."""
    found = []
    crossed = {c.under for c in subject.layout.crossings} | {c.over for c in subject.layout.crossings}
    for row in subject.layout.rows.values():
        members = sorted((subject.layout.by_tag[tag] for tag in row), key=spot)
        for before, truss, after in zip(members, members[1:], members[2:], strict=False):
            if truss.kind != "standard" or truss.tag in crossed or len(subject.walls_under(truss)) != 2:
                continue
            width = (spot(after) - spot(before)) / 2
            reach = truss.span / 2 + truss.ends[0].tail
            load = subject.load[truss.tag]
            if truss.ends[0].tail == truss.ends[1].tail and abs(load.direct_m2 - 2 * width * reach / 1e6) < 1e-6:
                found.append((truss, width, reach))
    return found


@family(
    topic="fixing",
    difficulty=2,
    serves=("connections",),
    rules=("tie-down-missing",),
    why=_("The wind lifts what a bearing holds down. So first you find how much roof that is."),
    source=PRACTICE,
)
def roof_on_bearing(subject: Subject, draw: QuestionChance) -> QuestionDraft:
    """The plan area of roof that one bearing of a standard truss holds."""
    plain = _plain_trusses(subject)
    truss, width, reach = draw.pick(plain, "truss")
    area = subject.load[truss.tag].ends_m2[0]
    tail = truss.ends[0].tail
    text = _(
        "{truss} has a span of {span} and a tail of {tail} at each end. Half a bay on each side makes {width}. "
        "How much roof in plan does each of its bearings hold, in m²?"
    ).format(truss=called(truss), span=num(truss.span, 1), tail=num(tail), width=num(width, 1))
    w, r = width / 1000, reach / 1000
    working = (
        _("Half the span and the tail: {half} + {tail} = {reach}.").format(
            half=num(truss.span / 2, 1), tail=num(tail), reach=num(reach, 1)
        ),
        _("In metres: {width} × {reach} = {area} m².").format(width=num(w, 4), reach=num(r, 4), area=num(area, 2)),
    )
    slips = (
        (2 * area, _("That is the whole truss. Each bearing takes half.")),
        (w * truss.span / 2000, _("That leaves out the eave.")),
        (w * (truss.span + tail) / 1000, _("That is the whole span. Each bearing takes half.")),
        (2 * w * r, _("That takes two bays. Half a bay on each side makes one.")),
        (w * r / 2, _("That takes half a bay. There is half a bay on each side.")),
        (
            area / math.cos(math.radians(subject.layout.house.roof.pitch)),
            _("That is along the slope. Plan area counts."),
        ),
    )
    return number(text, area, working, slips, (truss.tag,), "m2", 2, tolerance=0.02)


def _bearings(subject: Subject) -> list[tuple[Member, int, float]]:
    """(truss, end, m² of roof in plan that reaches it) for ends on plates that hold something worth a question."""
    return [
        (m, n, area)
        for m in subject.layout.members
        for n, area in enumerate(subject.load[m.tag].ends_m2, 1)
        if m.ends[n - 1].on_plate and area >= 0.3
    ]


@family(
    topic="fixing",
    difficulty=2,
    serves=("connections",),
    rules=("tie-down-missing", "tie-down-too-light"),
    why=_(
        "Net uplift is the wind's lift less 0.9 of the roof's own weight. A net pressure has that taken off already. "
        "Each bearing gets its share."
    ),
    source=FORMULA,
    safety=SAFETY,
)
def uplift_at_bearing(subject: Subject, draw: QuestionChance) -> QuestionDraft:
    """The net uplift on a bearing from the area it holds."""
    ends = _bearings(subject) if subject.level.tie_down.net_pressure else []
    truss, end, area = draw.pick(ends, "bearing")
    per_m2 = pressure(subject.job, truss.tag, end)
    shown = round(area, 2)
    uplift = per_m2 * shown
    text = _(
        "The bearing of {truss} on wall {wall} holds {area} m² of roof in plan. Net uplift here is {pressure} kPa. "
        "How many kN does the wind lift at it?"
    ).format(
        truss=called(truss), wall=truss.ends[end - 1].bears_on.removeprefix("plate "), area=num(shown, 2),
        pressure=num(per_m2, 3),
    )  # fmt: skip
    working = (
        _("1 kPa is 1 kN on each m²."),
        _("{pressure} × {area} = {uplift} kN.").format(
            pressure=num(per_m2, 3), area=num(shown, 2), uplift=num(uplift, 2)
        ),
    )
    slips = (
        (shown, _("That is the area. Multiply it by the pressure.")),
        (shown / per_m2, _("That divides. Pressure times area gives force.")),
        (uplift / math.cos(math.radians(subject.layout.house.roof.pitch)), _("Plan area counts, not the slope.")),
        (uplift / 2, _("The area given is already that of one bearing.")),
        (2 * uplift, _("That is two bearings like this one.")),
    )
    return number(text, uplift, working, slips, (truss.tag,), "kN", 2, tolerance=0.02)


@family(
    topic="fixing",
    difficulty=3,
    serves=("connections",),
    rules=("tie-down-missing", "tie-down-too-light"),
    why=_("A connector must hold at least what the wind lifts. If none does, the designer is asked."),
    source=FORMULA,
    safety=SAFETY,
)
def which_holds(subject: Subject, draw: QuestionChance) -> QuestionDraft:
    """The lightest connector on the house's schedule that holds an uplift."""
    tie_down = subject.level.tie_down
    ends = _bearings(subject)
    light, heavy = tie_down.capacity.framing_anchor, tie_down.capacity.tie_down_strap
    needs(ends and light < heavy)
    truss, end, _area = draw.pick(ends, "bearing")
    least, most = draw.pick(((0.3 * light, light), (light, heavy), (heavy, 1.4 * heavy)), "answer")
    uplift = round(least + (0.1 + 0.8 * draw.chance("uplift")) * (most - least), 2)
    needs(min(abs(uplift - light), abs(uplift - heavy)) >= 0.02)
    anchor, strap = _("one framing anchor"), _("one tie-down strap")
    ask, weight = _("neither of them: ask the designer"), _("nothing: the roof's weight holds it down")
    right = anchor if uplift <= light else strap if uplift <= heavy else ask
    text = _(
        "Say the wind lifts {uplift} kN at {truss} on wall {wall}. A framing anchor holds {light} kN here, "
        "a tie-down strap {heavy} kN. What is the lightest that is enough?"
    ).format(
        uplift=num(uplift, 2), truss=called(truss), wall=truss.ends[end - 1].bears_on.removeprefix("plate "),
        light=num(light, 2), heavy=num(heavy, 2),
    )  # fmt: skip
    too_weak = _("It holds {holds} kN. That is less than {uplift} kN.")
    wrong = [
        (anchor, too_weak.format(holds=num(light, 2), uplift=num(uplift, 2))),
        (strap, too_weak.format(holds=num(heavy, 2), uplift=num(uplift, 2))),
        (ask, _("One on the schedule holds it.")),
        (weight, _("In net uplift the roof's weight is taken off already. Never take it off twice.")),
    ]
    if uplift <= heavy:
        wrong[1] = (strap, _("It is enough, but the lighter one is too."))
    working = [
        _("A framing anchor: {light} kN. A tie-down strap: {heavy} kN.").format(
            light=num(light, 2), heavy=num(heavy, 2)
        )
    ]
    working.append(
        _("The lightest with {uplift} kN or more: {right}.").format(uplift=num(uplift, 2), right=right)
        if right != ask
        else _("Both are less than {uplift} kN.").format(uplift=num(uplift, 2))
    )
    return one_of(text, right, wrong, working, (truss.tag,))


@family(
    topic="tolerances",
    difficulty=2,
    serves=("erecting",),
    rules=("out-of-plumb",),
    why=_("A truss that leans carries its load beside its bearing. The row then wants to fold over."),
    source=LEVEL,
)
def plumb_limit(subject: Subject, draw: QuestionChance) -> QuestionDraft:
    """How far out of plumb a truss may be."""
    trusses = subject.of_kind("standard", "gable")
    truss = draw.pick(trusses, "truss")
    height = round(max(z for _run, z in truss.top))
    plumb = subject.level.tolerances.plumb
    return _limit(
        _(
            "{truss} is {size} high. Here a truss may lean by height ÷ {ratio}, and by {cap} at most. "
            "How far may it lean?"
        ),
        truss, height, plumb.ratio, plumb.cap, plumb.limit(height), subject.level.tolerances.bow.ratio,
    )  # fmt: skip


@family(
    topic="tolerances",
    difficulty=2,
    serves=("erecting",),
    rules=("truss-bowed",),
    why=_("A bowed chord bends further under load. Straighten it before the bracing locks it in."),
    source=LEVEL,
)
def bow_limit(subject: Subject, draw: QuestionChance) -> QuestionDraft:
    """How far a truss may be bowed along its length."""
    trusses = subject.of_kind("standard", "truncated", "girder", "gable", "truncated_girder")
    truss = draw.pick(trusses, "truss")
    bow = subject.level.tolerances.bow
    return _limit(
        _(
            "{truss} is {size} long between its bearings. Here a bow of length ÷ {ratio} will do, "
            "and of {cap} at most. How far may it be bowed?"
        ),
        truss, round(truss.span), bow.ratio, bow.cap, bow.limit(truss.span), subject.level.tolerances.plumb.ratio,
    )  # fmt: skip


def _limit(text: str, truss: Member, size: int, ratio: int, cap: int, limit: float, other_ratio: int) -> QuestionDraft:
    share = size / ratio
    working = (
        _("{size} ÷ {ratio} = {share}.").format(size=size, ratio=ratio, share=num(share, 1)),
        _("The lesser of {share} and {cap} is {limit}.").format(share=num(share, 1), cap=cap, limit=num(limit, 1)),
    )
    slips = (
        (share, _("That forgets the cap. Take the lesser of the two.")),
        (float(cap), _("That is the cap. Take the lesser of the two.")),
        (size / other_ratio, _("That is the ratio for another check.")),
        (limit * 2, _("It may be out one way or the other, not both together.")),
        (limit / 2, _("The whole limit counts to each side.")),
    )
    asked = text.format(truss=called(truss), size=size, ratio=ratio, cap=cap)
    return number(asked, limit, working, slips, (truss.tag,), decimals=1, tolerance=0.6)


@family(
    topic="bracing",
    difficulty=2,
    serves=("restraint", "materials"),
    rules=("bottom-chord-ties-too-far-apart", "tie-end-loose"),
    why=_("A long bottom chord bends sideways. Ties across it cut it into short lengths."),
    source=LEVEL,
)
def tie_rows(subject: Subject, draw: QuestionChance) -> QuestionDraft:
    """How many rows of bottom-chord ties a span needs."""
    wings = [w for w in subject.layout.wings if w.bodies]
    wing = draw.pick(wings, "wing")
    gap = draw.pick((subject.level.bracing.bottom_chord_ties, 3000, 2400, 1800, 1500), "gap")
    gaps = math.ceil(wing.span / gap - 1e-9)
    rows = gaps - 1
    needs(rows)
    text = _(
        "The span of one wing is {span}. Say gaps between bottom-chord ties are {gap} at most, walls included. "
        "How many rows of ties does it need at least?"
    ).format(span=num(wing.span), gap=gap)
    working = (
        ngettext(
            "{span} ÷ {gap} = {share}, so {n} gap is needed.", "{span} ÷ {gap} = {share}, so {n} gaps are needed.", gaps
        ).format(span=num(wing.span), gap=gap, share=num(wing.span / gap, 2), n=gaps),
        ngettext(
            "Between {n} gap there is one row fewer: {rows}.", "Between {n} gaps there is one row fewer: {rows}.", gaps
        ).format(n=gaps, rows=rows),
    )
    slips = (
        (gaps + 0.0, _("That is the number of gaps. The walls close the outer two.")),
        (gaps + 1.0, _("That counts the two walls as rows.")),
        (rows - 1.0, _("Then a gap is wider than allowed.")),
    )
    return number(text, rows, working, slips, (), "pieces", tolerance=0)


@family(
    topic="bracing",
    difficulty=3,
    serves=("bracing",),
    rules=(
        "roof-brace-at-wrong-angle",
        "roof-brace-missing",
        "roof-brace-not-tied-down",
        "roof-brace-broken",
        "end-brace-missing",
    ),
    why=_(
        "Too much in line with the trusses, a brace hardly pulls along the row. "
        "Too much along the row, it gets long and stretches."
    ),
    source=LEVEL,
    hint=_("Along the row it runs bays × spacing. Compare that with how far it goes across."),
)
def brace_angle(subject: Subject, draw: QuestionChance) -> QuestionDraft:
    """Over how many bays a steel brace may run from the plate to the apex."""
    limits = subject.level.bracing.steel_brace_angle
    found = []
    for row in subject.layout.rows.values():
        trusses = (subject.layout.by_tag[tag] for tag in row)
        standards = [m for m in trusses if m.kind == "standard" and len(subject.walls_under(m)) == 2]
        if len(standards) >= 4:
            found.append(standards)
    standards = draw.pick(found, "row")
    across, spacing = standards[0].span / 2, subject.spacing
    angles = {bays: math.degrees(math.atan2(bays * spacing, across)) for bays in range(1, max(40, len(standards)))}
    fits = [n for n in range(1, len(standards)) if limits.least + 1 <= angles[n] <= limits.most - 1]
    low = [bays for bays, angle in angles.items() if angle < limits.least - 1]
    high = [bays for bays, angle in angles.items() if angle > limits.most + 1]
    needs(fits and low and high)
    right = draw.pick(fits, "right")
    wrong_ones = [low[-1], low[len(low) // 2], high[0], high[min(len(high) - 1, 3)]]
    text = _(
        "A steel brace runs from the plate to the apex, {across} across in plan. Bays are {spacing}. "
        "It must lie {least} to {most} degrees from the trusses, seen from above. Over how many bays may it run?"
    ).format(across=num(across, 1), spacing=spacing, least=limits.least, most=limits.most)
    wrong = [
        (_bays(n), _("That gives {angle} degrees.").format(angle=num(angles[n]))) for n in dict.fromkeys(wrong_ones)
    ]
    working = (
        _("Along the row it runs {bays} × {spacing} = {run}.").format(bays=right, spacing=spacing, run=right * spacing),
        _("Along {run} and across {across}: that is {angle} degrees from the trusses.").format(
            run=right * spacing, across=num(across, 1), angle=num(angles[right])
        ),
        _("At 45 degrees it would run {across} along the row too.").format(across=num(across, 1)),
    )
    return one_of(text, _bays(right), draw.shuffled(wrong, "wrong")[:3], working, tuple(m.tag for m in standards[:1]))


def _bays(count: int) -> str:
    return ngettext("{n} bay", "{n} bays", count).format(n=count)
