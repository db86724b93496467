"""Questions about what holds a roof still for good: brackets at internal walls, ties on long webs, roof braces."""

from __future__ import annotations

from itertools import pairwise

from trainer.layout.inner_walls import inner_walls, wall_spots
from trainer.layout.row_lines import row_lines
from trainer.layout.webs import webs
from trainer.quiz.worked.family import QuestionChance, QuestionDraft, family, needs, number, one_of
from trainer.quiz.worked.subject import Subject
from trainer.quiz.worked.wording import called, num
from trainer.rules import PRACTICE
from trainer.rules.rule import LEVEL
from trainer.words import _, listed

CLEAR_OF_LIMIT = 60.0
"""Webs whose lengths differ by no more than this have no limit between them, mm."""
LEAST_ANGLE = 30
"""Degrees of a roof brace to the trusses that the two below are worked out for."""
V_FROM, CROSS_FROM = 1.16, 0.58
"""How many times half the span a row is at least that takes a V or a cross: twice and once the tangent of 30°."""
CLEAR = 50.0
"""Rows nearer than this to one of those are not asked about, mm."""


@family(
    topic="fixing",
    difficulty=1,
    serves=("internal walls", "connections"),
    rules=("slotted-bracket-missing", "fixed-hard-to-internal-wall"),
    why=_("A truss must be free to sag a little. The slot steadies the wall and lets the truss move up and down."),
    safety=_("Do not pack a truss down on an inside wall. Its timbers are not made to be held up there."),
    source=PRACTICE,
)
def over_an_inside_wall(subject: Subject, draw: QuestionChance) -> QuestionDraft:
    """What fastens a truss to an internal wall that it passes over."""
    spots = [spot for spot in wall_spots(subject.layout) if not spot.trimmer]
    spot = draw.pick(spots, "spot")
    truss, wall = subject.layout.by_tag[spot.tag], inner_walls(subject.layout)[spot.wall]
    way = (_("left and right"), _("up and down"))[wall.along]
    slot, tight = _("slotted bracket, free to move"), _("the schedule's connector, nailed tight")
    both = [
        (
            _("nails through the bottom chord"),
            _("Nails alone are no connector, and that is no place for them."),
        ),
        (_("packer driven in tight"), _("A packer holds nothing down, and lifts the truss where it is weak.")),
    ]
    outside = [(end, over) for end, over in subject.walls_under(truss)]
    if outside and draw.chance("outside") < 0.5:
        _end, over = draw.pick(outside, "which end")
        asked = _("{truss} ends on outside wall {wall}, which carries it. What goes there?").format(
            truss=called(truss), wall=over.name
        )
        wrong = [(slot, _("A slot is for a wall that carries nothing. Here the wind must be held.")), *both]
        working = (
            _("The outside wall carries {tag}, and the wind lifts it there.").format(tag=truss.tag),
            _("So its end is held down, by what the schedule has for it."),
        )
        return one_of(asked, tight, wrong, working, (truss.tag,))
    asked = _(
        "{truss} passes over an inside wall that runs {way} on the plan. It never carries a truss. What goes there?"
    ).format(truss=called(truss), way=way)
    wrong = [(tight, _("That holds the truss hard to the wall. It can't sag freely any more.")), *both]
    working = (
        _("The wall inside takes no load from {tag}.").format(tag=truss.tag),
        _("A slotted bracket holds the wall's top upright, with a gap under the truss."),
    )
    return one_of(asked, slot, wrong, working, (truss.tag,))


@family(
    topic="bracing",
    difficulty=2,
    serves=("restraint", "materials"),
    rules=("long-web-not-tied", "tie-end-loose"),
    why=_("A long thin web that is pushed bows out sideways. A tie at its middle makes it stiff."),
    source=LEVEL,
)
def long_webs(subject: Subject, draw: QuestionChance) -> QuestionDraft:
    """How many webs of a truss are so long that they are tied at their middles."""
    trusses = [
        (member, sorted(round(web.length) for web in webs(member, subject.layout.house).webs))
        for member in subject.of_kind("standard")
    ]
    truss, lengths = draw.pick([(member, found) for member, found in trusses if len(found) > 1], "truss")
    steps = [lengths[0] - 200, *lengths, lengths[-1] + 200]
    limits = [round((a + b) / 20) * 10 for a, b in pairwise(steps) if b - a > CLEAR_OF_LIMIT]
    limit = draw.pick(limits, "limit")
    count = sum(length > limit for length in lengths)
    text = _(
        "The webs of {truss} are {lengths} long. Say webs over {limit} are tied at their middles. How many are that?"
    )
    over = [num(length) for length in lengths if length > limit]
    working = (
        _("Longer than {limit}: {over}.").format(limit=limit, over=listed(over) or _("none of them")),
        _("That makes {count} of {all}.").format(count=count, all=len(lengths)),
    )
    slips = (
        (float(len(lengths)), _("That is all of them. The short ones need no tie.")),
        (count - 1.0, _("That leaves one out.")),
        (count + 1.0, _("One of those is short enough.")),
        (float(len(lengths) - count), _("Those are the short ones.")),
    )
    asked = text.format(truss=called(truss), lengths=listed([num(length) for length in lengths]), limit=limit)
    return number(asked, count, working, slips, (truss.tag,), "pieces", tolerance=0)


@family(
    topic="bracing",
    difficulty=3,
    serves=("bracing", "plan"),
    rules=("roof-braces-all-one-way", "roof-brace-missing"),
    why=_("A strap only pulls. Both ways on each slope, one of them pulls whichever way the wind blows."),
    safety=_("Leave the temporary bracing on until roof braces run both ways."),
    source=PRACTICE,
)
def v_or_cross(subject: Subject, draw: QuestionChance) -> QuestionDraft:
    """What roof braces make on each slope of a row, by how long it is from apex to apex."""
    needs(subject.level.bracing.steel_brace_angle.least == LEAST_ANGLE)
    rows = []
    for lines in row_lines(subject.layout):
        standards = lines.of_kind("standard")
        if len(standards) > 1:
            length = lines.u(standards[-1]) - lines.u(standards[0])
            if all(abs(length - times * lines.half) > CLEAR for times in (V_FROM, CROSS_FROM)):
                rows.append((standards[0], standards[-1], length, lines.half))
    first, last, _length, half = draw.pick(rows, "row")
    least, most = draw.pick(((0.3, CROSS_FROM), (CROSS_FROM, V_FROM), (V_FROM, 2.5)), "what fits")
    length = round((least + (0.15 + 0.7 * draw.chance("length")) * (most - least)) * half / 10) * 10.0
    text = _(
        "Half the span of {first} is {half}. Another house has a row of such trusses, {length} long from the first top "
        "to the last. Two roof braces one after the other make a V. It needs a row {v} times half the span long. Two "
        "over the same trusses make a cross. It needs {cross} times. What goes on each slope?"
    ).format(first=called(first), length=num(length, 1), half=num(half, 1), v=V_FROM, cross=CROSS_FROM)
    v, cross, sheet = _("a V, or more than one"), _("one cross of two braces"), _("what the job sheet says")
    right = v if length > V_FROM * half else cross if length > CROSS_FROM * half else sheet
    wrong = [
        (v, _("The row is too short for that. The braces would lie too near the trusses' line.")),
        (
            cross,
            _("The row is too short for that.")
            if right == sheet
            else _("Over so long a row it lies too much along it."),
        ),
        (sheet, _("That is for a row too short for a cross. This one is longer.")),
        (_("braces that all lean one way"), _("They all go slack together when the wind turns.")),
    ]
    working = (
        _("A cross fits from {cross} × {half} = {least}.").format(
            cross=CROSS_FROM, half=num(half, 1), least=num(CROSS_FROM * half, 0)
        ),
        _("A V fits from {v} × {half} = {least}.").format(v=V_FROM, half=num(half, 1), least=num(V_FROM * half, 0)),
        _("The row is {length}: {right}.").format(length=num(length, 1), right=right),
    )
    return one_of(text, right, [each for each in wrong if each[0] != right], working, (first.tag, last.tag))
