"""Questions about what makes a roof one piece: tops in line, extensions fixed, plies joined, chords tied."""

from __future__ import annotations

import math

from trainer.layout.model import Crossing
from trainer.order import spot
from trainer.quiz.from_bank import in_order
from trainer.quiz.question import Slip, SpotFault
from trainer.quiz.worked.family import QuestionChance, QuestionDraft, family, number
from trainer.quiz.worked.subject import Subject
from trainer.quiz.worked.wording import called, rows_of_tags
from trainer.rules import PRACTICE
from trainer.rules.rule import LEVEL
from trainer.words import _, listed, ngettext

FEWEST, MOST = 4, 7
CLEAR = 100.0
"""A saddle that ends nearer than this to a truss does not clearly cross it, mm."""


@family(
    topic="tolerances",
    difficulty=2,
    serves=("erecting",),
    rules=("apex-off-line", "no-string-line"),
    why=_("Tails in line don't put tops in line, for plates are rarely dead straight. The string shows the tops."),
    source=LEVEL,
)
def tops_along_a_string(subject: Subject, draw: QuestionChance) -> QuestionDraft:
    """Which top is further off the string than this house allows."""
    rows = []
    for tags in subject.layout.rows.values():
        standing = sorted((m for m in map(subject.layout.by_tag.__getitem__, tags) if m.kind == "standard"), key=spot)
        if len(standing) >= FEWEST + 2:
            rows.append(standing)
    row = draw.pick(rows, "row")
    inner = row[1:-1]
    first = int(draw.chance("from") * (len(inner) - FEWEST + 1))
    shown = inner[first : first + MOST]
    limit = subject.level.tolerances.apex
    wrong = int(draw.chance("wrong") * len(shown))
    off = [int(draw.chance("off", member.tag) * (limit + 1)) for member in shown]
    off[wrong] = limit + 2 + int(draw.chance("out") * 12)
    ways = [_("left"), _("right")]
    lines = tuple(
        _("{tag}: {off} to the {way} of the string").format(
            tag=called(member), off=by, way=ways[draw.chance("way", member.tag) < 0.5]
        )
        for member, by in zip(shown, off, strict=True)
    )
    text = _("A string runs from the top of {a} to the top of {b}. A top may be {limit} off it. Which truss is out?")
    working = (
        _("{tag} is {off} off. That is more than {limit}.").format(tag=shown[wrong].tag, off=off[wrong], limit=limit),
        _("All the others are within {limit}, to one side or the other.").format(limit=limit),
    )
    slips = tuple(Slip(line, _("That is within what this house allows.")) for n, line in enumerate(lines) if n != wrong)
    asked = text.format(a=row[0].tag, b=row[-1].tag, limit=limit)
    return QuestionDraft(asked, SpotFault(lines, wrong), working, slips, (shown[wrong].tag,))


@family(
    topic="fixing",
    difficulty=2,
    serves=("connections", "erecting"),
    rules=("extension-not-fixed", "extension-not-propped"),
    why=_(
        "An extension holds the trusses under it, and they hold it. Left loose, trusses below have leaned and failed."
    ),
    source=_("a failure told in Timber Trader News, 11 October 2015, seen once"),
)
def crossings_to_fix(subject: Subject, draw: QuestionChance) -> QuestionDraft:
    """At how many trusses an extension has to be fixed."""
    extensions = [c for c in subject.layout.crossings if c.what == "extension"]
    # In a short wing extensions run on over its own saddles, which stand later: not asked about.
    over_saddles = {c.over for c in extensions if subject.layout.by_tag[c.under].kind == "saddle"}
    # Tips that only meet are fixed once for both: not asked about either.
    met = {tag for c in extensions if not c.bears for tag in (c.over, c.under)}
    over = sorted({c.over for c in extensions} - over_saddles - met)
    truss = subject.layout.by_tag[draw.pick(over, "truss")]
    under = [c.under for c in subject.layout.crossings if c.over == truss.tag and c.what == "extension"]
    text = _("The extension of {truss} runs on past its carrier. At how many other trusses is it fixed?")
    working = (
        _("On the plan it meets {under}.").format(under=listed(under)),
        _("Each of them is a crossing to fix: {count}.").format(count=len(under)),
    )
    slips = (
        (len(under) - 1.0, _("The last one counts too: there the extension ends.")),
        (len(under) + 1.0, _("Its own carrier is not a crossing. It is fixed there as an end.")),
        (len(under) + 2.0, _("Its two ends are not crossings.")),
        (1.0, _("One fixing at the tip leaves the others loose.")),
    )
    return number(text.format(truss=called(truss)), len(under), working, slips, (truss.tag,), "pieces", tolerance=0)


@family(
    topic="order",
    difficulty=2,
    serves=("erecting", "connections"),
    rules=("carried-before-carrier", "hanger-missing", "heavy-girder-bracket-missing", "plies-not-joined"),
    why=_("Plies share a load only once they are joined. So all of this is done before anything hangs there."),
    safety=_("Nothing is set down on a girder that is not joined, braced and fixed."),
    source=PRACTICE,
)
def girder_comes_first(subject: Subject, draw: QuestionChance) -> QuestionDraft:
    """What is done to a girder of several plies, in order, before the first truss hangs on it."""
    girders = [
        m
        for m in subject.of_kind("girder", "truncated_girder")
        if m.plies > 1 and subject.layout.carries[m.tag] and not m.is_dutch  # that one has a waling plate as well
    ]
    girder = draw.pick(girders, "girder")
    hung = [m for tag in subject.layout.carries[girder.tag] if (m := subject.layout.by_tag[tag]).kind != "saddle"]
    carried = draw.pick(hung, "carried")
    steps = (
        ngettext("Join the {n} ply of {girder}", "Join the {n} plies of {girder}", girder.plies).format(
            n=girder.plies, girder=girder.tag
        ),
        _("Stand {girder}").format(girder=girder.tag),
        _("Brace {girder} to something solid, and fix both its ends").format(girder=girder.tag),
        _("Set {carried} down in its bracket on {girder}").format(carried=carried.tag, girder=girder.tag),
        _("Fasten {carried} in its bracket").format(carried=carried.tag),
    )
    working = (
        _("Plies are joined on the ground, where all of them can be reached."),
        _("{girder} stands and is held before {carried} hangs on it.").format(girder=girder.tag, carried=carried.tag),
    )
    text = _("Put these in order for {girder} and {carried}.").format(girder=girder.tag, carried=called(carried))
    return QuestionDraft(
        text, in_order(steps, draw.seed, f"{girder.tag} {carried.tag}"), working, (), (girder.tag, carried.tag)
    )


@family(
    topic="saddles",
    difficulty=3,
    serves=("restraint",),
    rules=("saddle-over-crooked-truss", "top-chords-not-tied-under-saddles"),
    why=_("No battens of the roof cover reach the chords under saddles. Without ties they can bend sideways."),
    source=PRACTICE,
)
def tied_under_saddles(subject: Subject, draw: QuestionChance) -> QuestionDraft:
    """How many saddles cross one truss, so that its top chord needs ties there."""
    by_tag = subject.layout.by_tag
    over: dict[str, list[Crossing]] = {}
    for crossing in subject.layout.crossings:
        if crossing.what == "saddle":
            over.setdefault(crossing.under, []).append(crossing)
    # Where a saddle ends on a truss, one could argue whether it crosses it.
    clear = {
        tag: crossings
        for tag, crossings in over.items()
        if by_tag[tag].kind not in ("jack", "hip")  # nor whether one does that lies over an extension
        and all(min(math.dist(c.at, end.at) for end in by_tag[c.over].ends) > CLEAR for c in crossings)
    }
    truss = by_tag[draw.pick(sorted(clear), "truss")]
    crossing_it = [c.over for c in clear[truss.tag]]
    wing = [m for m in subject.of_kind("saddle") if m.wing == by_tag[crossing_it[0]].wing]
    count = len(crossing_it)
    text = _("Where saddles lie over {truss}, its top chord needs ties. How many saddles cross it?")
    working = (
        _("On the plan these cross it: {saddles}.").format(saddles=rows_of_tags([by_tag[t] for t in crossing_it])),
    )
    slips = (
        (float(len(wing)), _("That is all the saddles of the wing. Not all reach this truss.")),
        (count - 1.0, _("That leaves one out.")),
        (count + 1.0, _("That is one too many. Follow each saddle to its end.")),
        (float(count * 2), _("A saddle crosses a truss once.")),
    )
    return number(text.format(truss=called(truss)), count, working, slips, (truss.tag,), "pieces", tolerance=0)
