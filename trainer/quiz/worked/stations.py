"""Questions of set-out along a wall: stations, running marks, bays, and how many trusses fit between."""

from __future__ import annotations

from itertools import groupby, pairwise

from trainer.layout import Member
from trainer.order import spot
from trainer.plan import Wall
from trainer.quiz.worked.family import QuestionChance, QuestionDraft, family, needs, number, some_of
from trainer.quiz.worked.subject import EXACT, Subject
from trainer.quiz.worked.wording import bay_sum, called, mm, num
from trainer.words import _, ngettext

CREEP = 3
"""How far each bay is out in the mistake of measuring bay by bay, mm."""
MOST_RUNS = 3
"""Runs of like bays that a question names, at most."""
LONGEST_ROW = 14
"""Bays that a question counts, at most."""


@family(
    topic="set-out",
    difficulty=1,
    serves=("set-out",),
    rules=("off-station", "setback-not-the-levels", "station-not-marked"),
    why=_("Every station is measured from the outside of the end wall. So no mark leans on the one before it."),
)
def station_of_truss(subject: Subject, draw: QuestionChance) -> QuestionDraft:
    """The station of a truss so many bays on from its hip end's truncated girder."""
    found: list[tuple[Member, Member, int, Wall]] = []
    for girder in subject.of_kind("truncated_girder"):
        wall = subject.end_wall(girder)
        row = [subject.layout.by_tag[tag] for tag in subject.layout.rows[girder.row]]
        for truss in row:
            bays = (truss.station - girder.station) / subject.spacing
            apart = abs(spot(truss) - spot(girder))
            whole = abs(bays - round(bays)) < 1e-9 and abs(apart - (truss.station - girder.station)) < EXACT
            if wall and whole and 1 <= round(bays) <= LONGEST_ROW and truss.kind in ("truncated", "standard"):
                found.append((girder, truss, round(bays), wall))
    girder, truss, bays, wall = draw.pick(found, "truss")
    first, spacing = girder.station, subject.spacing
    text = _(
        "{girder} stands at station {first}, measured from wall {wall}. Trusses follow every {spacing}. "
        "{truss} is {bays} bays further in. At which station does it stand?"
    ).format(
        girder=called(girder), first=num(first, 1), wall=wall.name, spacing=spacing, truss=called(truss), bays=bays
    )
    working = (
        _("Start at the truncated girder: {first}.").format(first=num(first, 1)),
        _("Add the bays: {bays} × {spacing} = {sum}.").format(bays=bays, spacing=spacing, sum=bays * spacing),
        _("{first} + {sum} = {station}.").format(
            first=num(first, 1), sum=bays * spacing, station=num(truss.station, 1)
        ),
    )
    slips = (
        (truss.station + spacing, _("That is one bay too many. Count the gaps, not the trusses.")),
        (truss.station - spacing, _("That is one bay too few. Count the gaps, not the trusses.")),
        (bays * float(spacing), _("That leaves out the station of the truncated girder.")),
        (truss.station + bays * CREEP, _("That adds up bays that are each a few millimetres too long.")),
    )
    return number(text, truss.station, working, slips, (girder.tag, truss.tag), decimals=1)


def _long_runs(subject: Subject) -> list[tuple[Wall, list[tuple[float, Member]]]]:
    """Walls with three marks or more, and their marks."""
    found = []
    for wall in subject.layout.house.plan.walls:
        marks = subject.tapes(wall)
        kept = [marks[0]] if marks else []
        kept += [b for a, b in pairwise(marks) if b[0] - a[0] > EXACT]
        if len(kept) >= 3:
            found.append((wall, kept))
    return found


@family(
    topic="set-out",
    difficulty=1,
    serves=("set-out",),
    rules=("off-station", "mark-off-station", "station-not-marked", "measured-bay-by-bay"),
    why=_("A tape hooked on once gives every mark alone. Measured bay by bay, small errors add up."),
)
def running_mark(subject: Subject, draw: QuestionChance) -> QuestionDraft:
    """What the tape shows at a truss, from a mark near its start and the bays between."""
    runs = _long_runs(subject)
    wall, marks = draw.pick(runs, "wall")
    last = 2 + int(draw.chance("how far") * min(len(marks) - 2, LONGEST_ROW))
    between = [mark for mark, _member in marks[: last + 1]]
    while len(_runs(between)) > MOST_RUNS:
        between.pop()
    last = len(between) - 1
    (first_at, first), (at, truss) = marks[0], marks[last]
    needs(all(abs(mark * 2 - round(mark * 2)) <= EXACT for mark in between))
    text = _(
        "The tape on wall {wall} is hooked at {corner}. It shows {first_at} at {first}. "
        "Then come {bays}, up to {truss}. What does the tape show there?"
    ).format(
        wall=wall.name,
        corner=subject.hooked_at(wall),
        first_at=num(first_at, 1),
        first=called(first),
        bays=_bays_in_words(between),
        truss=called(truss),
    )
    working = (
        _("The tape stays hooked on, so the bays are added to the first mark."),
        _("{sum}.").format(sum=bay_sum(between)),
    )
    slips = (
        (at - first_at, _("That leaves out the first mark.")),
        (at + subject.spacing, _("That is one bay too many.")),
        (at - subject.spacing, _("That is one bay too few.")),
        (at + CREEP * last, _("That is what bay by bay can give, with each bay a few millimetres too long.")),
        (wall.length - at, _("That is measured from the other end of the wall.")),
    )
    return number(text, at, working, slips, (first.tag, truss.tag), decimals=1)


def _runs(marks: list[float]) -> list[tuple[float, int]]:
    """Bays alike, one after another: (bay, how many)."""
    bays = [round(b - a, 1) for a, b in pairwise(marks)]
    return [(bay, len(list(run))) for bay, run in groupby(bays)]


def _bays_in_words(marks: list[float]) -> str:
    parts = [
        ngettext("{n} bay of {bay}", "{n} bays of {bay}", count).format(n=count, bay=num(bay, 1))
        for bay, count in _runs(marks)
    ]
    return _(", then ").join(parts)


@family(
    topic="set-out",
    difficulty=2,
    serves=("set-out",),
    rules=("off-station",),
    why=_("Marks taken from two ends meet badly in the middle. Know which end the drawing runs from."),
)
def tape_from_other_end(subject: Subject, draw: QuestionChance) -> QuestionDraft:
    """A mark read from the far end of a wall."""
    runs = _long_runs(subject)
    wall, marks = draw.pick(runs, "wall")
    at, truss = draw.pick(marks, "truss")
    far = wall.length - at
    text = _(
        "Wall {wall} is {length} long. From {corner}, {truss} is marked at {at}. "
        "Today your tape is hooked at its other end. What must it show at the same mark?"
    ).format(
        wall=wall.name, length=num(wall.length), corner=subject.hooked_at(wall), truss=called(truss), at=num(at, 1)
    )
    working = (
        _("The whole wall is {length}.").format(length=num(wall.length)),
        _("{length} - {at} = {far}.").format(length=num(wall.length), at=num(at, 1), far=num(far, 1)),
    )
    slips = (
        (at, _("That is read from the first end.")),
        (far + subject.spacing, _("That is one spacing too much.")),
        (far - subject.spacing, _("That is one spacing too little.")),
        (far + truss.width, _("The mark runs to the middle of the truss from both ends. Take no thickness off.")),
    )
    return number(text, far, working, slips, (truss.tag,), decimals=1)


@family(
    topic="set-out",
    difficulty=2,
    serves=("set-out",),
    rules=("spacing-too-wide", "off-station"),
    why=_("Full bays suit battens and linings. One shorter bay takes up what is left, so no gap is too wide."),
)
def closing_bay(subject: Subject, draw: QuestionChance) -> QuestionDraft:
    """The one shorter bay between two truncated girders, or how a run of full bays ends."""
    found = []
    for wall, marks in _long_runs(subject):
        for (first_at, first), (last_at, last) in ((a, b) for i, a in enumerate(marks) for b in marks[i + 2 :]):
            inside = [at for at, _member in marks if first_at <= at <= last_at]
            bays = [b - a for a, b in pairwise(inside)]
            short = [bay for bay in bays if bay < subject.spacing - 1]
            full = sum(abs(bay - subject.spacing) < EXACT for bay in bays)
            if first.kind == last.kind == "truncated_girder" and len(short) == 1 and full == len(bays) - 1:
                found.append((wall, first_at, first, last_at, last, full, short[0]))
    wall, first_at, first, _last_at, last, full, _short = draw.pick(found, "row")
    short_bay = float(draw.pick(range(subject.spacing // 2, subject.spacing, 30), "short bay"))
    last_at = first_at + full * subject.spacing + short_bay
    length, spacing = last_at - first_at, subject.spacing
    text = _(
        "Say the tape on wall {wall} shows {first_at} at {first} and {last_at} at {last}. "
        "Between them are full bays of {spacing} and one shorter bay. How wide is the shorter bay?"
    ).format(
        wall=wall.name, first_at=num(first_at, 1), first=called(first), last_at=num(last_at, 1), last=called(last),
        spacing=spacing,
    )  # fmt: skip
    working = (
        _("From one to the other: {last_at} - {first_at} = {length}.").format(
            last_at=num(last_at, 1), first_at=num(first_at, 1), length=num(length, 1)
        ),
        ngettext(
            "{n} full bay fits in: {n} × {spacing} = {sum}.", "{n} full bays fit in: {n} × {spacing} = {sum}.", full
        ).format(n=full, spacing=spacing, sum=full * spacing),
        _("{length} - {sum} = {short}.").format(length=num(length, 1), sum=full * spacing, short=num(short_bay, 1)),
    )
    slips = (
        (float(spacing), _("That is a full bay.")),
        (spacing - short_bay, _("That is how much the bay is short of a full one.")),
        (short_bay / 2, _("What is left stays in one bay. It is not shared between the two ends.")),
        (short_bay + spacing, _("That is more than a full bay. No gap may be wider than the spacing.")),
        (length / (full + 1), _("That makes all bays alike. Full bays come first, and one closes the row.")),
    )
    return number(text, short_bay, working, slips, (first.tag, last.tag), decimals=1)


@family(
    topic="set-out",
    difficulty=2,
    serves=("materials", "set-out"),
    rules=("truss-missing", "spacing-too-wide"),
    why=_("Between two trusses there is one truss fewer than there are bays. Miscount, and one is short or left over."),
)
def trusses_between(subject: Subject, draw: QuestionChance) -> QuestionDraft:
    """How many trusses stand between two marks on a wall."""
    found = []
    for wall, marks in _long_runs(subject):
        for i, (a, first) in enumerate(marks):
            for b, last in marks[i + 3 : i + LONGEST_ROW]:
                inside = [at for at, _member in marks if a <= at <= b]
                bays = [q - p for p, q in pairwise(inside)]
                if first.row == last.row and all(abs(bay - subject.spacing) < EXACT for bay in bays):
                    found.append((wall, a, first, b, last, len(bays)))
    wall, a, first, b, last, bays_count = draw.pick(found, "pair")
    text = _(
        "On wall {wall}, {first} stands at {a} and {last} at {b}. All bays between are {spacing}. "
        "How many trusses stand between these two?"
    ).format(wall=wall.name, first=called(first), a=num(a, 1), last=called(last), b=num(b, 1), spacing=subject.spacing)
    working = (
        _("{b} - {a} = {length}.").format(b=num(b, 1), a=num(a, 1), length=num(b - a, 1)),
        ngettext("{length} ÷ {spacing} = {n} bay.", "{length} ÷ {spacing} = {n} bays.", bays_count).format(
            length=num(b - a, 1), spacing=subject.spacing, n=bays_count
        ),
        _("One truss fewer than bays stands between: {count}.").format(count=bays_count - 1),
    )
    slips = (
        (bays_count + 0.0, _("That is the number of bays.")),
        (bays_count + 1.0, _("That counts the two trusses at the ends too.")),
        (bays_count - 2.0, _("That takes both ends off the number of bays. Only one comes off.")),
    )
    return number(text, bays_count - 1, working, slips, (first.tag, last.tag), "pieces", tolerance=0)


@family(
    topic="inspection",
    difficulty=1,
    serves=("erecting", "site"),
    rules=("spacing-too-wide",),
    why=_("Two trusses can each be a little out and leave one gap too wide. So the gap itself is measured."),
)
def gap_as_stood(subject: Subject, draw: QuestionChance) -> QuestionDraft:
    """The gap between two neighbours that were stood a little off."""
    pairs = [
        (wall, a, b)
        for wall, marks in _long_runs(subject)
        for a, b in pairwise(marks)
        if abs(b[0] - a[0] - subject.spacing) < EXACT and a[0] == round(a[0])
    ]
    wall, (a_at, first), (b_at, second) = draw.pick(pairs, "pair")
    tolerance = subject.level.tolerances.station
    left, right = (1 + int(draw.chance(side) * max(tolerance, 2)) for side in ("left", "right"))
    got_a, got_b = a_at - left, b_at + right
    gap = got_b - got_a
    text = _(
        "On wall {wall} you find {first} at {a} and {second} at {b}. The spacing is {spacing}. "
        "How wide is the gap between their middles?"
    ).format(
        wall=wall.name, first=called(first), a=num(got_a), second=called(second), b=num(got_b), spacing=subject.spacing
    )
    working = (
        _("{b} - {a} = {gap}.").format(b=num(got_b), a=num(got_a), gap=num(gap)),
        _("That is {more} more than the spacing of {spacing}.").format(more=left + right, spacing=subject.spacing),
    )
    slips = (
        (float(subject.spacing), _("That is the spacing on the plan, not the gap as they stand.")),
        (subject.spacing - left - right + 0.0, _("They stand apart from each other, so the gap grows.")),
        (gap + first.width, _("The gap runs from middle to middle. Leave the thickness out.")),
        (gap - first.width, _("That is the clear space between them. The gap runs from middle to middle.")),
    )
    return number(text, gap, working, slips, (first.tag, second.tag))


@family(
    topic="tolerances",
    difficulty=1,
    serves=("erecting", "set-out"),
    rules=("off-station", "mark-off-station"),
    why=_("The tolerance counts both ways from the mark. Past it, the truss is moved before anything is fixed to it."),
    source=_("this job's own value; check the truss plan and the current standard"),
)
def within_tolerance(subject: Subject, draw: QuestionChance) -> QuestionDraft:
    """Which readings at a mark are near enough."""
    marks = [(w, at, m) for w, run in _long_runs(subject) for at, m in run if abs(at - round(at)) < EXACT]
    wall, at, truss = draw.pick(marks, "mark")
    near = round(subject.job.station_tolerance)
    over, under = near + 1 + int(draw.chance("over") * near), near + 1 + int(draw.chance("under") * 4)
    offs = (int(draw.chance("in") * near), -near, over, -under)
    text = _(
        "{truss} is marked at {at} on wall {wall}. This house allows {near} either way. "
        "The truss may stand at which of these?"
    ).format(truss=called(truss), at=num(at), wall=wall.name, near=near)
    right = [mm(at + off) for off in offs if abs(off) <= near]
    wrong = [
        (mm(at + off), _("That is {off} off, and {near} is allowed.").format(off=abs(off), near=near))
        for off in offs
        if abs(off) > near
    ]
    working = (
        _("The least is {at} - {near} = {least}.").format(at=num(at), near=near, least=num(at - near)),
        _("The most is {at} + {near} = {most}.").format(at=num(at), near=near, most=num(at + near)),
        _("What lies between, or on the line, will do."),
    )
    return some_of(text, right, wrong, working, (truss.tag,))
