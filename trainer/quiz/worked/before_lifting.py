"""Questions about what comes before the first lift: the checks, the walls, the load, and marks that add up."""

from __future__ import annotations

from trainer.quiz.question import Pairs
from trainer.quiz.worked.family import QuestionChance, QuestionDraft, family, needs, number, one_of, some_of
from trainer.quiz.worked.subject import Subject
from trainer.quiz.worked.wording import called, num
from trainer.rules import PRACTICE
from trainer.rules.rule import LEVEL
from trainer.terms import thing
from trainer.words import _, listed

LATER = (
    _("the string line along the tops"),
    _("the saddles over their girder"),
    _("the outriggers over the gable truss"),
    _("the permanent ties along the bottom chords"),
    _("the battens for the roof cover"),
    _("the fascia along the eaves"),
)
"""What comes after the trusses stand, or later still."""
READINGS = {
    "straight": _("A string along wall {wall} stands {got} off the plate in the middle."),
    "level": _("The plate of wall {wall} is {got} higher at one end than at the other."),
    "diagonals": _("From wall {wall}, one diagonal of the plates is {got} longer than the other."),
}
"""How a wall is measured, and what it shows."""


@family(
    topic="safety",
    difficulty=1,
    serves=("site", "safety"),
    rules=("check-left-undone",),
    why=_("What can hurt someone is found on the ground. Once trusses hang in the air it is too late."),
    safety=_("Nothing is lifted until every item is checked, and what was found is put right."),
    source=PRACTICE,
    hint=_("Which of them can be done while every truss still lies on the ground?"),
)
def before_the_first_lift(subject: Subject, draw: QuestionChance) -> QuestionDraft:
    """Which items this house's list has before anything is lifted."""
    checks = draw.shuffled(subject.level.site.checks, "checks")[:3]
    named = [thing(item) for item in checks]
    later = draw.shuffled(LATER, "later")[:2]
    working = (
        _("On this job's list: {checks}.").format(checks=listed(named)),
        _("What stands or hangs on the trusses comes after them."),
    )
    wrong = [(text, _("That comes once trusses stand.")) for text in later]
    return some_of(_("Which of these are checked before the first truss is lifted here?"), named, wrong, working)


@family(
    topic="inspection",
    difficulty=2,
    serves=("site", "set-out"),
    rules=("plate-out-of-true", "report-without-looking"),
    why=_("Trusses follow the plate. What is out below can't be put right from above."),
    safety=_("Straighten walls from the floor or a platform, never from the plate."),
    source=LEVEL,
)
def plate_reading(subject: Subject, draw: QuestionChance) -> QuestionDraft:
    """Whether a reading of a wall is near enough here, and what is done."""
    limit = subject.level.tolerances.plates
    wall = draw.pick(subject.layout.house.plan.walls, "wall")
    template = READINGS[draw.pick(tuple(READINGS), "reading")]
    bad = draw.chance("bad") < 0.5
    got = limit + 2 + int(draw.chance("by") * 18) if bad else int(draw.chance("by") * (limit + 1))
    text = template.format(wall=wall.name, got=got) + " " + _("Up to {limit} will do here. What do you do?")
    go_on, report = _("Go on: it is near enough"), _("Report it, and wait until it is right")
    pack, plane = _("Go on, and pack each truss to suit"), _("Plane the plate until it looks right")
    compare = _("{got} is more than {limit}.") if bad else _("{got} is no more than {limit}.")
    shift = _("Packing each truss by eye makes a new fault for every old one.")
    own = _("The wall's builder puts it right. Timber taken off is not put back.")
    wrong = [
        (go_on, _("It is out by more than this house allows.")) if bad
        else (report, _("It is within what this house allows. Others would stop for nothing.")),
        (pack, shift), (plane, own),
    ]  # fmt: skip
    working = (compare.format(got=got, limit=limit), _("This house's own limit for its plates counts."))
    return one_of(text.format(limit=limit), report if bad else go_on, wrong, working)


@family(
    topic="set-out",
    difficulty=2,
    serves=("set-out",),
    rules=("measured-bay-by-bay", "mark-off-station"),
    why=_("Measured from mark to mark, each small error is carried on. From one end, none is."),
    source=PRACTICE,
)
def adding_up(subject: Subject, draw: QuestionChance) -> QuestionDraft:
    """How far out a mark is that was measured bay by bay."""
    rows = [(wall, tapes) for wall in subject.layout.house.plan.walls if len(tapes := subject.tapes(wall)) >= 6]
    wall, tapes = draw.pick(rows, "wall")
    bays = 4 + int(draw.chance("bays") * (len(tapes) - 4))
    each = 2 + int(draw.chance("each") * 3)
    out = bays * each
    text = _(
        "On wall {wall} each mark is measured from the one before. Every bay comes out {each} too long. "
        "How far out is the mark after {bays} bays?"
    ).format(wall=wall.name, each=each, bays=bays)
    working = (
        _("Each bay adds its own {each}.").format(each=each),
        f"{bays} × {each} = {out}.",
    )
    slips = (
        (float(each), _("That is one bay's error. All of them add up.")),
        (float(out - each), _("That leaves one bay out.")),
        (float(out + each), _("That counts one bay too many.")),
        (float(out * 2), _("The error goes one way only. It is not counted twice.")),
        (float(subject.spacing), _("That is the spacing, not the error.")),
    )
    return number(text, out, working, slips, tuple(member.tag for _at, member in tapes[bays - 1 : bays]))


@family(
    topic="inspection",
    difficulty=2,
    serves=("site", "connections"),
    rules=("studs-missing-under-girder",),
    why=_("A girder brings much of the roof down on one spot. Studs right under it take that load to the floor."),
    safety=_("No girder is set down until its studs are in."),
    source=PRACTICE,
)
def studs_under(subject: Subject, draw: QuestionChance) -> QuestionDraft:
    """Where along a wall a girder comes down, so that studs must stand under it."""
    ends = [
        (member, end, wall)
        for member in subject.of_kind("girder", "truncated_girder")
        for end, wall in subject.walls_under(member)
        if subject.walls_under(member)
    ]
    girder, end, wall = draw.pick(ends, "end")
    at = subject.tape(girder, end)[1]
    needs(0 < at < wall.length)
    text = _("{girder} bears on wall {wall}. How far from {corner} must studs stand under it?")
    working = (
        _("On the plan {girder} meets wall {wall} at {at}.").format(girder=girder.tag, wall=wall.name, at=num(at, 1)),
        _("Its load comes down there, so the studs stand there too."),
    )
    slips = (
        (wall.length - at, _("That is from the wall's other corner.")),
        (at + subject.spacing, _("That is one spacing too far.")),
        (at - subject.spacing, _("That is one spacing short.")),
        (wall.length / 2, _("That is the middle of the wall. The girder is not there.")),
    )
    near = subject.job.station_tolerance
    asked = text.format(girder=called(girder), wall=wall.name, corner=subject.hooked_at(wall))
    return number(asked, at, working, slips, (girder.tag,), decimals=1, tolerance=near)


@family(
    topic="inspection",
    difficulty=1,
    serves=("materials", "site"),
    rules=(
        "missing-truss-not-reported", "damaged-truss-stood", "tail-where-none-belongs", "brackets-left-loose",
        "pack-landed-badly", "unbraced-wall-loaded",
    ),
    why=_("A report that names the fault gets the right people to put it right. Do it before anything is lifted."),
    safety=_("Nobody mends a truss on site without the fabricator's written detail."),
    source=PRACTICE,
)  # fmt: skip
def name_the_fault(subject: Subject, draw: QuestionChance) -> QuestionDraft:
    """Match what is seen on the load and the walls to what it is called in a report."""
    members = draw.shuffled(subject.layout.members, "trusses")
    walls = draw.shuffled(subject.layout.house.plan.walls, "walls")
    tailless = [m for m in members if m.kind != "saddle" and any(not end.on_plate for end in m.ends)]
    by_tag = subject.layout.by_tag
    carriers = [m for m in members if any(by_tag[tag].kind != "saddle" for tag in subject.layout.carries[m.tag])]
    seen = [
        (_("{tag} is on the layout, but in no pack").format(tag=members[0].tag), _("missing truss")),
        (_("A timber inside {tag} is cracked through").format(tag=members[1].tag), _("broken web")),
        (_("A steel plate of {tag} has lifted off the timber").format(tag=members[2].tag), _("loose nailplate")),
        (_("Wall {wall} sways when you push it").format(wall=walls[0].name), _("wall not braced")),
        (_("A pack lies on the middle of wall {wall}").format(wall=walls[1].name), _("pack landed badly")),
    ]
    if tailless:
        at = _("{tag} has a tail on the end that hangs").format(tag=tailless[0].tag)
        seen.append((at, _("unwanted tail")))
    if carriers:
        seen.append((_("Hangers for {tag} lie in a bag").format(tag=carriers[0].tag), _("loose brackets")))
    chosen = draw.shuffled(seen, "seen")[:4]
    others = draw.shuffled([word for _seen, word in chosen], "words")
    right = tuple(others.index(word) for _seen, word in chosen)
    working = tuple(f"{left}: {word}." for left, word in chosen)
    return QuestionDraft(
        _("Match what you see to what you report."), Pairs(tuple(left for left, _w in chosen), tuple(others), right),
        working,
    )  # fmt: skip
