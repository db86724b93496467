"""Questions of saddles and gables: widths, counts, what lies under them, and how a verge is carried."""

from __future__ import annotations

import math

from trainer.layout import Member
from trainer.order import spot
from trainer.quiz.worked.family import QuestionChance, QuestionDraft, family, needs, number, some_of
from trainer.quiz.worked.subject import EXACT, Subject
from trainer.quiz.worked.wording import called, num, rows_of_tags
from trainer.rules import PRACTICE
from trainer.words import _, ngettext


def saddle_rows(subject: Subject) -> list[tuple[float, list[Member]]]:
    """(width of the opening, saddles from the plate line inwards) for each row, where they shrink evenly."""
    found = []
    for tags in subject.layout.rows.values():
        saddles = [subject.layout.by_tag[tag] for tag in tags]
        if saddles[0].kind != "saddle":
            continue
        saddles.sort(key=lambda m: -m.span)
        opening = saddles[0].span + 2 * subject.spacing
        wing = next(w for w in subject.layout.wings if w.id == saddles[0].wing)
        even = all(abs(m.span - opening + 2 * (k + 1) * subject.spacing) < EXACT for k, m in enumerate(saddles))
        if even and abs(opening - wing.span) < EXACT:
            found.append((opening, saddles))
    return found


@family(
    topic="saddles",
    difficulty=2,
    serves=("materials", "erecting"),
    rules=("wrong-truss-for-place",),
    why=_("Both valleys run at 45 degrees. So each saddle is shorter by the same step at both ends."),
)
def saddle_base(subject: Subject, draw: QuestionChance) -> QuestionDraft:
    """The base of a saddle so many spacings in from the opening."""
    rows = saddle_rows(subject)
    opening, saddles = draw.pick(rows, "row")
    place = int(draw.chance("saddle") * len(saddles))
    saddle, inward = saddles[place], (place + 1) * float(subject.spacing)
    text = _(
        "The opening is {opening} wide over the plates. {saddle} lies {inward} in from the plates' line. "
        "How wide is its base?"
    ).format(opening=num(opening), saddle=called(saddle), inward=num(inward))
    working = (
        _("Each valley comes in by as much as the saddle is in: {inward}.").format(inward=num(inward)),
        _("{opening} - 2 × {inward} = {base}.").format(
            opening=num(opening), inward=num(inward), base=num(saddle.span, 1)
        ),
    )
    cos = math.cos(math.radians(subject.layout.house.roof.pitch))
    slips = (
        (opening - inward, _("That takes off one side. Both ends come in.")),
        (opening - 2 * (inward - subject.spacing), _("That is the saddle before it.")),
        (opening - 2 * (inward + subject.spacing), _("That is the saddle after it.")),
        (opening - 2 * inward / cos, _("That takes the slope for the plan.")),
        (opening - 2 * inward * math.sqrt(2), _("That goes along the valley. Square to the opening is less.")),
        (saddle.span / 2, _("That is half of the base.")),
    )
    return number(text, saddle.span, working, slips, (saddle.tag,), decimals=1)


@family(
    topic="saddles",
    difficulty=2,
    serves=("materials",),
    rules=("truss-missing",),
    why=_("Saddles follow until no base is left. Count them before the packs go up."),
)
def saddle_count(subject: Subject, draw: QuestionChance) -> QuestionDraft:
    """How many saddles an opening asks for."""
    rows = saddle_rows(subject)
    smallest = subject.layout.house.trusses.smallest_saddle
    rows = [(w, row) for w, row in rows if w - 2 * (len(row) + 1) * subject.spacing <= smallest]
    opening, saddles = draw.pick(rows, "row")
    spacing = subject.spacing
    limit = _("while any base is left") if not smallest else _("while the base is over {least}").format(least=smallest)
    text = _(
        "An opening is {opening} wide. Saddles lie every {spacing} in from its line, {limit}. How many are there?"
    ).format(opening=num(opening), spacing=spacing, limit=limit)
    bases = [num(m.span, 1) for m in saddles]
    after = opening - 2 * (len(saddles) + 1) * spacing
    working = (
        _("Each is 2 × {spacing} = {step} shorter than the last.").format(spacing=spacing, step=2 * spacing),
        _("Their bases: {bases}.").format(bases=", ".join(bases)),
        _("The next would be {after}, so it stops there.").format(after=num(after, 1) if after > 0 else _("nothing")),
    )
    count = len(saddles)
    slips = (
        (count + 1.0, _("That counts one with no base, or the girder.")),
        (count - 1.0, _("That leaves one out. Count on to the smallest base.")),
        (opening // spacing + 0.0, _("That takes one spacing off the width each time. Each saddle loses two.")),
        (2.0 * count, _("That counts both valleys. One saddle reaches from one to the other.")),
    )
    return number(text, count, working, slips, tuple(m.tag for m in saddles), "pieces", tolerance=0)


@family(
    topic="saddles",
    difficulty=2,
    serves=("erecting", "connections"),
    rules=("saddle-before-support", "saddle-without-batten", "saddle-without-trimmer"),
    why=_("Every truss under a saddle takes some of its load. All of them must be straight, braced and fixed first."),
    source=PRACTICE,
    safety=_("Nobody stands on a truss that is not braced and fixed, also to place a saddle."),
)
def saddle_under(subject: Subject, draw: QuestionChance) -> QuestionDraft:
    """Which trusses must be finished before a saddle is set down."""
    saddles = [m for m in subject.of_kind("saddle") if m.carried_by]
    saddle = draw.pick(saddles, "saddle")
    under = [subject.layout.by_tag[tag] for tag in saddle.carried_by]
    body_rows = {m.row for m in under if m.kind in ("standard", "truncated", "truncated_girder")}
    beside = [m for m in subject.layout.members if m.row in body_rows and m not in under]
    beside.sort(key=lambda m: min(abs(spot(m) - spot(other)) for other in under if other.row == m.row))
    wrong = [(m.tag, _("The saddle does not lie over {tag}.").format(tag=m.tag)) for m in beside[:6]]
    right = draw.shuffled(saddle.carried_by, "shown")[:3]
    text = _("Which of these must be braced and fixed before {saddle} is set down on them?").format(
        saddle=called(saddle)
    )
    working = (
        _("On the plan, follow the saddle from one end to the other."),
        _("It lies on {under}.").format(under=rows_of_tags(under)),
    )
    return some_of(text, right, draw.shuffled(wrong, "beside")[:3], working, (saddle.tag,))


@family(
    topic="gables and verges",
    difficulty=2,
    serves=("set-out", "erecting"),
    rules=("off-station",),
    why=_("The gable truss stands where the drawing says, in or over the plate. Cladding and packing depend on it."),
    source=PRACTICE,
)
def gable_truss_place(subject: Subject, draw: QuestionChance) -> QuestionDraft:
    """How far the middle of a gable truss is from the outside of its end wall."""
    habits, plate = subject.layout.house.trusses, draw.pick((70, 90, 120, 140), "plate")
    thick = draw.pick((35, 45), "thick")
    gables = [(m, *at) for m in subject.of_kind("gable") if (at := subject.gable_wall(m))]
    gable, wall, _inset = draw.pick(gables, "gable")
    inside = habits.gable_stands == "inside plate"
    how = _("against the inside of the plate") if inside else _("flush with the outside of the plate")
    text = _(
        "Say {gable} is {thickness} thick. Its outer face stands {how}. The plate is {plate} wide. "
        "How far is its middle from the outside of wall {wall}?"
    ).format(gable=called(gable), thickness=thick, how=how, plate=plate, wall=wall.name)
    half = thick / 2
    inset = (plate if inside else 0) + half
    working = (
        _("Its outer face is {face} in from the outside.").format(face=plate if inside else 0),
        _("Half its thickness is {half}.").format(half=num(half, 1)),
        _("{face} + {half} = {station}.").format(face=plate if inside else 0, half=num(half, 1), station=num(inset, 1)),
    )
    slips = (
        (half, _("That stands it flush with the outside.")) if inside else (plate + half, _("That stands it inside.")),
        (float(plate), _("That is the inside face of the plate.")),
        (plate + thick, _("That is its inner face.")),
        (plate - half, _("That stands it over the plate, flush with the inside.")),
        (plate / 2, _("That is the middle of the plate.")),
    )
    return number(text, inset, working, slips, (gable.tag,), decimals=1)


def _outriggers(subject: Subject) -> list[tuple[Member, float, int]]:
    """(gable truss, its span, its outriggers) where they stand at full spacings, or close in the middle."""
    found = []
    for gable in subject.of_kind("gable"):
        count = sum(part.part == "outrigger" and part.on == gable.tag for part in subject.layout.parts)
        if count:
            found.append((gable, gable.span, count))
    return found


@family(
    topic="gables and verges",
    difficulty=3,
    serves=("materials",),
    why=_("The verge is carried from both eaves up to the apex. The two sides are set out alike."),
    source=PRACTICE,
)
def outrigger_count(subject: Subject, draw: QuestionChance) -> QuestionDraft:
    """How many outriggers cross a gable truss."""
    found = []
    for gable, span, count in _outriggers(subject):
        a_side = math.floor(span / 2 / subject.spacing) + 1
        shared = span / 2 % subject.spacing < EXACT
        if count == 2 * a_side - shared:
            found.append((gable, span, count, a_side, shared))
    gable, span, count, a_side, shared = draw.pick(found, "gable")
    text = _(
        "{gable} has a span of {span}. Outriggers cross it every {spacing}, from each plate up to the middle. "
        "How many are there?"
    ).format(gable=called(gable), span=num(span, 1), spacing=subject.spacing)
    steps = math.floor(span / 2 / subject.spacing)
    working = [
        _("On one side: {spacings}, so {outriggers}.").format(
            spacings=ngettext("{n} full spacing", "{n} full spacings", steps).format(n=steps),
            outriggers=ngettext("{n} outrigger", "{n} outriggers", a_side).format(n=a_side),
        ),
        _("Both sides: 2 × {count} = {both}.").format(count=a_side, both=2 * a_side),
    ]
    if shared:
        working.append(_("The one in the middle serves both sides: {count}.").format(count=count))
    slips = (
        (2.0 * steps, _("That counts the gaps. There is one more outrigger than gaps on each side.")),
        (a_side + 0.0, _("That is one side only.")),
        (count + 1.0, _("That is one too many.")),
        (count - 2.0, _("That leaves out the ones over the plates.")),
    )
    return number(text, count, working, slips, (gable.tag,), "pieces", tolerance=0)


@family(
    topic="gables and verges",
    difficulty=2,
    serves=("materials", "erecting"),
    why=_("It runs in at least as far as it stands out, to a truss. With less inside, the verge tips it up."),
    source=PRACTICE,
    safety=_("Nobody leans on a verge before its outriggers are fixed at their inner ends."),
)
def outrigger_length(subject: Subject, draw: QuestionChance) -> QuestionDraft:
    """How long an outrigger is from the verge back to the truss that is far enough in."""
    overhang = subject.layout.house.roof.overhang
    found = []
    for gable in subject.of_kind("gable"):
        at = subject.gable_wall(gable)
        part = next((p for p in subject.layout.parts if p.part == "outrigger" and p.on == gable.tag), None)
        if at and part:
            wall, inset = at
            across = 0 if wall.inward[0] else 1
            back = abs(part.finish[across] - wall.a[across])
            mates = [
                m for m in subject.layout.members if m.row == gable.row and abs(spot(m) - part.finish[across]) < EXACT
            ]
            if mates:
                found.append((gable, mates[0], wall, inset, back, math.dist(part.start, part.finish)))
    gable, mate, wall, inset, back, length = draw.pick(found, "gable")
    needs(abs(back + overhang - length) <= EXACT)
    overhang = draw.pick((overhang, overhang - 50, overhang - 100, overhang - 150), "overhang")
    length = back + overhang
    text = _(
        "Say the verge overhangs wall {wall} by {overhang}. {mate} is {back} in from the outside of that wall, and its "
        "outriggers end there. How long is an outrigger from the edge of the verge to the middle of that truss?"
    ).format(wall=wall.name, overhang=overhang, mate=called(mate), back=num(back, 1))
    working = (
        _("Outside the wall: {overhang}. Inside it: {back}.").format(overhang=overhang, back=num(back, 1)),
        _("{overhang} + {back} = {length}.").format(overhang=overhang, back=num(back, 1), length=num(length, 1)),
    )
    slips = (
        (back, _("That leaves out the overhang.")),
        (float(overhang), _("That stops at the wall. It must run back to a truss.")),
        (overhang + inset, _("That stops at the gable truss. It must be held further back.")),
        (length / math.cos(math.radians(subject.layout.house.roof.pitch)), _("Outriggers run level along the ridge.")),
        (2.0 * overhang, _("That is the overhang twice. It must reach the middle of a truss.")),
    )
    return number(text, length, working, slips, (gable.tag, mate.tag), decimals=1)
