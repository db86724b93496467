"""Questions of what carries what: carriers, what hangs where, tails, extensions and how many there are of each."""

from __future__ import annotations

from collections.abc import Sequence

from trainer.layout import Member
from trainer.order import spot
from trainer.quiz.from_bank import pairs
from trainer.quiz.worked.family import QuestionChance, QuestionDraft, family, needs, number, one_of, some_of
from trainer.quiz.worked.subject import Subject, tags_of
from trainer.quiz.worked.wording import called, find, rows_of_tags
from trainer.rules import PRACTICE
from trainer.terms import KIND_NAMES, KIND_PLURALS, TrussKind, counted
from trainer.words import _, listed, ngettext

FULL_WIDTH: tuple[TrussKind, ...] = ("standard", "truncated", "truncated_girder", "girder", "gable", "half")


def _hung(member: Member) -> list[int]:
    """The ends (1, 2) of a truss that hang on another."""
    if member.kind == "saddle":
        return []
    return [n for n, end in enumerate(member.ends, 1) if not end.wall]


@family(
    topic="reading plans",
    difficulty=1,
    serves=("plan", "connections"),
    rules=("carried-before-carrier", "hip-before-truncated-girder"),
    why=_("What carries a truss goes up before it. Read the plan for it before you lift anything."),
    source=PRACTICE,
    safety=_("Never set a truss down on a carrier that is not braced and fixed."),
)
def who_carries(subject: Subject, draw: QuestionChance) -> QuestionDraft:
    """Which truss carries the hung end of another."""
    by_tag = subject.layout.by_tag
    found = [m for m in subject.layout.members if len(_hung(m)) == 1]
    truss = draw.pick(found, "truss")
    (end,) = _hung(truss)
    carrier = by_tag[truss.ends[end - 1].bears_on]
    crossed = [c.under for c in subject.layout.crossings if c.over == truss.tag and c.under != carrier.tag]
    wrong = [
        (called(by_tag[tag]), _("It passes over that one, and is fixed there, but does not hang on it."))
        for tag in dict.fromkeys(crossed)
    ]
    near = [
        m for m in subject.layout.members if m.wing == truss.wing and m.tag not in (truss.tag, carrier.tag, *crossed)
    ]
    near.sort(key=lambda m: min(_apart(truss, m)))
    likely = [m for m in near if m.kind in ("truncated_girder", "truncated", "hip", "standard", "girder")]
    wrong += [(called(m), _("Follow the truss on the plan. It does not end there.")) for m in likely[:4]]
    picked = draw.shuffled(wrong[:5], "wrong")[:3]
    text = _("{truss} runs {way}. Which truss carries its other end?").format(
        truss=called(truss), way=find(subject, truss)
    )
    needs(subject.walls_under(truss))
    working = (
        _("On the plan, follow {truss} from the wall to where it stops.").format(truss=truss.tag),
        _("There it meets {carrier}, and hangs on it.").format(carrier=called(carrier)),
    )
    return one_of(text, called(carrier), picked, working, (truss.tag, carrier.tag))


def _apart(a: Member, b: Member) -> tuple[float, ...]:
    return tuple(abs(p[0] - q[0]) + abs(p[1] - q[1]) for p in (a.start, a.finish) for q in (b.start, b.finish))


@family(
    topic="reading plans",
    difficulty=2,
    serves=("plan", "connections"),
    rules=("hanger-missing", "carried-before-carrier"),
    why=_("Each truss that hangs needs its bracket on the girder first. So list them before the girder is lifted."),
    source=PRACTICE,
)
def what_hangs(subject: Subject, draw: QuestionChance) -> QuestionDraft:
    """Which trusses hang on a girder."""
    by_tag = subject.layout.by_tag
    found = []
    for girder in subject.of_kind("girder", "truncated_girder"):
        hung = [by_tag[tag] for tag in subject.layout.carries[girder.tag] if by_tag[tag].kind != "saddle"]
        if hung:
            found.append((girder, hung))
    girder, hung = draw.pick(found, "girder")
    others = [m for m in subject.layout.members if m not in hung and m.tag != girder.tag and m.kind != "saddle"]
    others.sort(key=lambda m: min(_apart(girder, m)))
    wrong = [(m.tag, _("{truss} bears on {what}.").format(truss=m.tag, what=_bearings(m))) for m in others[:8]]
    right = draw.shuffled(tags_of(hung), "right")[: 2 + int(draw.chance("how many") * 2)]
    text = _("Which of these hang on {girder}?").format(girder=called(girder))
    working = (
        _("On the plan, walk along {girder} from end to end.").format(girder=girder.tag),
        _("These stop at it: {hung}.").format(hung=rows_of_tags(hung)),
    )
    return some_of(text, right, draw.shuffled(wrong, "wrong")[: 5 - len(right)], working, (girder.tag,))


def _bearings(member: Member) -> str:
    return listed([_bearing(end.bears_on) for end in member.ends])


def _bearing(bears_on: str) -> str:
    return bears_on.replace("plate ", _("wall ")).replace("ledger ", _("the ledger on wall "))


@family(
    topic="reading plans",
    difficulty=2,
    serves=("plan", "connections"),
    rules=("carried-before-carrier",),
    why=_("Load goes from truss to carrier, and from there to the walls. Every step of it must be finished in turn."),
    source=PRACTICE,
)
def match_carriers(subject: Subject, draw: QuestionChance) -> QuestionDraft:
    """Trusses matched to what carries their hung ends."""
    by_carrier: dict[str, list[Member]] = {}
    for member in subject.layout.members:
        if len(hung := _hung(member)) == 1:
            by_carrier.setdefault(member.ends[hung[0] - 1].bears_on, []).append(member)
    needs(len(by_carrier) >= 3)
    carriers = draw.shuffled(sorted(by_carrier), "carriers")[:4]
    matched = {}
    for carrier in carriers:
        truss = draw.pick(by_carrier[carrier], "truss", carrier)
        matched[called(truss)] = called(subject.layout.by_tag[carrier])
    working = tuple(
        _("{truss} hangs on {carrier}.").format(truss=truss, carrier=carrier) for truss, carrier in matched.items()
    )
    about = tuple(name.split()[-1] for name in matched)
    text = _("Match each truss to the one that carries its hung end.")
    return QuestionDraft(text, pairs(matched, draw.seed, f"{draw.house} {draw.family}"), working, (), about)


@family(
    topic="reading plans",
    difficulty=1,
    serves=("materials",),
    rules=("truss-missing", "truss-left-over"),
    why=_("The delivery is counted against the plan before a truss is lifted. At height a missing one stops the job."),
    source=PRACTICE,
)
def count_of_kind(subject: Subject, draw: QuestionChance) -> QuestionDraft:
    """How many trusses of a kind the plan shows."""
    counts = subject.layout.counts
    kinds: list[TrussKind] = sorted({m.kind for m in subject.layout.members if counts[m.kind] > 2})
    kind = draw.pick(kinds, "kind")
    members = subject.of_kind(kind)
    by_row: dict[str, list[Member]] = {}
    for member in members:
        by_row.setdefault(member.row, []).append(member)
    count = len(members)
    text = _("Count on the plan. How many {kind} has this house?").format(kind=KIND_PLURALS[kind])
    working = [
        _("{row}: {count}.").format(row=_row_name(row, those), count=len(those)) for row, those in by_row.items()
    ]
    if len(by_row) > 1:
        working.append(f"{' + '.join(str(len(those)) for those in by_row.values())} = {count}.")
    slips = [
        (count - 1.0, _("That is one short. Look at both ends of each row.")),
        (count + 1.0, _("That is one too many. Tick each one off as you count.")),
        (float(len(next(iter(by_row.values())))), _("That is one part of the house.")),
    ]
    slips += [
        (float(n), _("That is the number of another kind."))
        for other, n in subject.layout.counts.items()
        if other != kind
    ]
    return number(text, count, working, slips, tags_of(members), "pieces", tolerance=0)


def _row_name(row: str, those: Sequence[Member]) -> str:
    """A row as a learner finds it: a hip end by its wall, any other by its tags."""
    if " hip end " in row:
        return _("hip end at wall {wall}").format(wall=row.rsplit(" ", 1)[1])
    return rows_of_tags(those)


@family(
    topic="inspection",
    difficulty=1,
    serves=("materials",),
    rules=("truss-missing", "missing-truss-not-reported"),
    why=_("A count on the ground takes ten minutes. A truss found missing at height stops the crane."),
    source=PRACTICE,
)
def delivery_short(subject: Subject, draw: QuestionChance) -> QuestionDraft:
    """Which kind is short in a delivery."""
    counts = subject.layout.counts
    needs(len(counts) >= 3)
    kinds: list[TrussKind] = draw.shuffled(sorted({m.kind for m in subject.layout.members}), "kinds")[:4]
    short = draw.pick([kind for kind in kinds if counts[kind] > 1] or kinds, "short")
    missing = 1 + int(draw.chance("missing") * min(2, counts[short] - 1)) if counts[short] > 1 else 1
    lines = [_packed(kind, counts[kind] - (missing if kind == short else 0)) for kind in kinds]
    text = _("Count on the plan and compare. The packs hold: {packs}. Which kind is short?").format(
        packs=", ".join(lines)
    )
    wrong = [(KIND_NAMES[kind], _all_here(counts[kind])) for kind in kinds if kind != short]
    working = [_("{kind}: the plan shows {count}.").format(kind=KIND_NAMES[kind], count=counts[kind]) for kind in kinds]
    working.append(_("What is short: {packed}.").format(packed=_packed(short, missing)))
    return one_of(text, KIND_NAMES[short], wrong, working)


def _all_here(n: int) -> str:
    text = ngettext("The plan shows {n}, and {n} is here.", "The plan shows {n}, and {n} are here.", n)
    return text.format(n=n)


def _packed(kind: TrussKind, count: int) -> str:
    return counted(kind, count)


@family(
    topic="reading plans",
    difficulty=2,
    serves=("plan", "erecting"),
    rules=("end-for-end", "wrong-truss-for-place"),
    why=_("A tail makes the eave. Where a girder or another roof takes over, there is no eave and no tail."),
    source=PRACTICE,
    safety=_("A tail that is needed is never cut off, and a truss is never cut to fit."),
    hint=_("Which end lands on a plate, and which hangs on another truss?"),
)
def one_tail_only(subject: Subject, draw: QuestionChance) -> QuestionDraft:
    """Which of some trusses across a wing lack a tail at one end or both."""
    trusses = subject.of_kind("standard", "truncated", "truncated_girder", "girder")
    without = [m for m in trusses if any(end.tail == 0 for end in m.ends)]
    both = [m for m in trusses if all(end.tail > 0 for end in m.ends)]
    needs(without and both)
    near = sorted(both, key=lambda m: min(abs(spot(m) - spot(other)) for other in without))
    right = draw.shuffled(tags_of(without), "right")[: 1 + int(draw.chance("how many") * 3)]
    wrong = [(m.tag, _("{truss} reaches an eave at both ends.").format(truss=m.tag)) for m in near[:6]]
    text = _("Which of these trusses have no tail at one end, or at both?")
    working = [
        _("{truss} bears on {what}.").format(truss=called(m), what=_bearings(m))
        for m in (subject.layout.by_tag[tag] for tag in right)
    ]
    working.append(_("Where a girder or another part of the roof follows, there is no eave and so no tail."))
    return some_of(text, right, draw.shuffled(wrong, "wrong")[: 5 - len(right)], working, tuple(right))


@family(
    topic="order",
    difficulty=2,
    serves=("erecting",),
    rules=("end-for-end",),
    why=_("Ends are made for where they go. The wrong way round, a tail hits the girder and the eave stays bare."),
    source=PRACTICE,
    safety=_("Check which way round before you lift. A truss turned in the air can swing into people."),
    hint=_("A tail makes an eave. At which of its ends is there an eave?"),
)
def which_way_round(subject: Subject, draw: QuestionChance) -> QuestionDraft:
    """Where the end with the tail goes, of a truss with one tail."""
    found = []
    for m in subject.layout.members:
        if m.kind == "saddle":
            continue
        tailed = [e for e in m.ends if e.tail > 0]
        bare = [e for e in m.ends if e.tail == 0]
        if len(tailed) == 1 and len(bare) == 1 and tailed[0].bears_on != bare[0].bears_on:
            found.append((m, tailed[0], bare[0]))
    needs(found)
    full = [each for each in found if each[0].kind in FULL_WIDTH]
    truss, tailed_end, bare_end = draw.pick(full or found, "truss")
    text = _("{truss} has a tail at one end only. Where does the end with the tail go?").format(truss=called(truss))
    right = _("on {where}").format(where=_bearing(tailed_end.bears_on))
    other = subject.layout.by_tag.get(bare_end.bears_on)
    at_bare = called(other) if other else _bearing(bare_end.bears_on)
    wrong = [
        (_("on {where}").format(where=at_bare), _("No eave is there. The tail would be in the way.")),
        (_("either way, both ends fit"), _("Its ends differ. Only one way makes the eave.")),
        (_("on the end nearer the crane"), _("The plan decides, not the lift.")),
    ]
    working = (
        _("It bears on {a} and on {b}.").format(a=_bearing(tailed_end.bears_on), b=at_bare),
        _("There is an eave at {a} only. So the tail goes there.").format(a=_bearing(tailed_end.bears_on)),
    )
    return one_of(text, right, wrong, working, (truss.tag,))


@family(
    topic="fixing",
    difficulty=2,
    serves=("connections", "bracing"),
    why=_("Extensions fixed at every crossing hold the truncated trusses up straight. Left loose, the row can lean."),
    source=PRACTICE,
    safety=_("Until it is fixed at its crossings, an extension is propped or tied."),
)
def extension_over(subject: Subject, draw: QuestionChance) -> QuestionDraft:
    """Over which trusses an extension runs and is fixed."""
    over: dict[str, list[str]] = {}
    for crossing in subject.layout.crossings:
        if crossing.what == "extension" and crossing.bears:
            over.setdefault(crossing.over, []).append(crossing.under)
    tag = draw.pick(sorted(over, key=lambda t: (t.rstrip("0123456789"), len(t), t)), "truss")
    truss = subject.layout.by_tag[tag]
    row = [m for m in subject.layout.members if m.kind in ("truncated", "standard", "truncated_girder")]
    others = [m for m in row if m.tag not in over[tag] and m.wing == truss.wing and m.tag != tag]
    others.sort(key=lambda m: min(_apart(truss, m)))
    wrong = [
        (m.tag, _("It hangs on that one. A bracket holds it there."))
        if m.tag in truss.carried_by
        else (m.tag, _("Its extension stops before it gets there."))
        for m in others[:5]
    ]
    text = _("The extension of {truss} runs on past its girder. At which of these is it fixed on the way?").format(
        truss=called(truss)
    )
    right = draw.shuffled(over[tag], "right")[:3]
    working = (
        _("On the plan, follow the pale line of {truss} to its end.").format(truss=tag),
        _("It meets {under}.").format(under=rows_of_tags([subject.layout.by_tag[t] for t in over[tag]])),
    )
    return some_of(text, right, draw.shuffled(wrong, "wrong")[:3], working, (tag,))


@family(
    topic="fixing",
    difficulty=1,
    serves=("connections",),
    rules=("hanger-missing", "heavy-girder-bracket-missing", "tie-down-missing"),
    why=_("Each end has a connector sized for what it carries. Something like it is not good enough."),
    source=_("this job's own value; check the truss plan and the current standard"),
    safety=_("Where a bracket carries the truss, fit it before the truss is set down in it."),
)
def which_bracket(subject: Subject, draw: QuestionChance) -> QuestionDraft:
    """What fastens an end of a truss by this house's own schedule."""
    ends = [(m, n, end) for m in subject.layout.members if m.kind != "saddle" for n, end in enumerate(m.ends, 1)]
    by_fixing: dict[str, list[tuple[Member, str, str]]] = {}
    for m, _n, end in ends:
        carrier = subject.layout.by_tag.get(end.bears_on)
        where = called(carrier) if carrier else _bearing(end.bears_on)
        by_fixing.setdefault(end.fixing, []).append((m, where, _because(m, end.on_plate)))
    fixing = draw.pick(sorted(by_fixing), "fixing")
    truss, where, because = draw.pick(by_fixing[fixing], "end")
    text = _("By this house's schedule, what fastens {truss} on {where}?").format(truss=called(truss), where=where)
    on_plate = where.startswith(_bearing("plate "))
    reasons = {
        "framing anchor": _("That is for light ends on a plate."),
        "tie-down strap": _("That is for heavier ends on a plate."),
        "hanger": _("That holds a light truss on a carrier."),
        "heavy girder bracket": _("That holds one girder on another."),
        "nails alone": _("Skew nails alone pull out in the wind."),
    }
    wrong = [(name, why) for name, why in reasons.items() if name != fixing]
    working = (because, _("The schedule names for it: {fixing}.").format(fixing=fixing))
    shown = wrong if on_plate else wrong[::-1]
    return one_of(text, fixing, shown[:3], working, (truss.tag,))


def _because(member: Member, on_plate: bool) -> str:
    if on_plate:
        return _("This end of the {kind} stands on a top plate.").format(kind=KIND_NAMES[member.kind])
    return _("This end of the {kind} hangs on another truss.").format(kind=KIND_NAMES[member.kind])
