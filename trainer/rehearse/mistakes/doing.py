"""Things that should not be done at all, put into a right attempt; and what came wrong and was not reported."""

from __future__ import annotations

from collections.abc import Iterator, Sequence, Set
from typing import Literal

from trainer.chance import pick, shuffled
from trainer.order import TIED, Step
from trainer.rehearse.mistakes.planting import Planted, Plantings, RightAttempt, needs
from trainer.site import AnyAction, Brace, Job, Stand, act, row_of, standing_in_row, ties_stripped
from trainer.site.actions import Cut, Load, Report, Unbrace
from trainer.site.batten_rows import longest_stretch
from trainer.words import _

DAMAGE = ("broken web", "loose nailplate")
TIMBERS: tuple[Literal["top chord", "bottom chord", "web"], ...] = ("top chord", "bottom chord", "web")
LOADS: tuple[Literal["battens", "sheets", "tiles", "packs"], ...] = ("battens", "sheets", "tiles", "packs")


@needs(_("a truss that is stood"))
def truss_cut(job: Job, seed: int) -> Plantings:
    """A truss that stands is cut through a chord or a web."""
    for i, tag in _after_stands(job, seed, "cut"):
        where = pick(TIMBERS, seed, "where", tag)
        yield _with(job, seed, i + 1, [Cut(tag=tag, where=where)], tag)


@needs(_("a truss with a tail"))
def tail_cut(job: Job, seed: int) -> Plantings:
    """A truss with a tail has it cut off."""
    for i, tag in _after_stands(job, seed, "tail"):
        if any(end.tail for end in job.layout.by_tag[tag].ends):
            yield _with(job, seed, i + 1, [Cut(tag=tag, where="tail")], tag)


@needs(_("a truss that is stood"))
def loaded_before_hand_over(job: Job, seed: int) -> Plantings:
    """Something is put on the roof while it goes up."""
    for i, tag in _after_stands(job, seed, "load"):
        what = pick(LOADS, seed, "what", tag)
        yield _with(job, seed, i + 1, [Load(what=what)], "roof")


@needs(_("a truss that a batten alone holds"))
def bracing_taken_too_early(job: Job, seed: int) -> Plantings:
    """A batten that alone holds a truss is taken off and put back, before a roof brace is in its row."""
    attempt = RightAttempt.drawn(job, seed)
    braced: set[str] = set()
    battens = []
    for i, (step, action) in enumerate(zip(attempt.steps, attempt.actions, strict=True)):
        if step.verb == "restrain" and job.restraint(step.tag).kind == "roof brace":
            braced.add(job.restraint(step.tag).row)
        elif isinstance(action, Brace) and _is_batten(step, action) and _tips_in(job, step.tag, braced):
            battens.append((i, step.tag, action))
    for i, tag, put_on in shuffled(battens, seed, "taken too early"):
        yield _with(job, seed, i + 1, [Unbrace(kind=put_on.kind, tags=put_on.tags), put_on], tag)


def _is_batten(step: Step, action: Brace) -> bool:
    """Whether a batten ties a truss as it goes up."""
    return step.verb == "tie" and action.kind == "batten"


def _tips_in(job: Job, tag: str, braced: Set[str]) -> bool:
    """Whether a truss tips, in a row that is not among those ``braced`` for good."""
    member = job.layout.by_tag[tag]
    return member.kind in TIED and member.row not in braced


@needs(_("trusses wide enough for several rows of battens"))
def top_chord_battens_too_far_apart(job: Job, seed: int) -> Plantings:
    """The rows of one batten are put twice as far apart as the level allows."""
    wide = 2 * job.bracing.batten_rows
    attempt = RightAttempt.drawn(job, seed)
    acts = enumerate(zip(attempt.steps, attempt.actions, strict=True))
    battens = [(i, a) for i, (step, a) in acts if isinstance(a, Brace) and _is_batten(step, a)]
    for i, put_on in shuffled(battens, seed, "too far apart"):
        over = [job.layout.by_tag[tag] for tag in put_on.tags]
        if max(longest_stretch(member, wide) for member in over) > job.bracing.batten_rows:
            changed = put_on.model_copy(update={"every": wide})
            stood = [a.tag for a in attempt.actions[:i] if isinstance(a, Stand) and a.tag in put_on.tags]
            yield Planted([*attempt.actions[:i], changed, *attempt.actions[i + 1 :]], stood[-1], i)


@needs(_("a truss that comes damaged"))
def damaged_truss_stood(job: Job, seed: int) -> Plantings:
    """A truss that came damaged is not reported."""
    yield from _not_reported(job, seed, DAMAGE)


@needs(_("a truss with an unwanted tail"))
def tail_where_none_belongs(job: Job, seed: int) -> Plantings:
    """A truss that came with an unwanted tail is not reported."""
    yield from _not_reported(job, seed, ("unwanted tail",))


def _after_stands(job: Job, seed: int, what: str) -> Iterator[tuple[int, str]]:
    """The stands of an attempt: (index, tag)."""
    steps = RightAttempt.drawn(job, seed).steps
    yield from shuffled([(i, step.tag) for i, step in enumerate(steps) if step.verb == "stand"], seed, what)


def _with(job: Job, seed: int, at: int, added: Sequence[AnyAction], member: str) -> Planted:
    actions = RightAttempt.drawn(job, seed).actions
    return Planted([*actions[:at], *added, *actions[at:]], member, at)


@needs(_("two trusses that roof braces hold, tied along their tops"))
def top_chord_ties_stripped(job: Job, seed: int) -> Plantings:
    """Just before the hand-over the tie between two trusses that roof braces hold is taken off."""
    attempt = RightAttempt.drawn(job, seed)
    site, event = attempt.sites[-2], len(attempt.actions) - 1
    for piece in shuffled([p for p in site.bracing if p.kind == "batten"], seed, "stripped"):
        off = Unbrace(kind="batten", tags=piece.tags, every=piece.every)
        result = act(site, event, off)
        if isinstance(result, tuple) and not result[1].let_go and (pairs := list(ties_stripped(result[0]))):
            row = standing_in_row(site, row_of(site, pairs[0][0]))
            first = next(tag for tag in row if any(tag in pair for pair in pairs))
            actions = [*attempt.actions[:-1], off, attempt.actions[-1]]
            yield Planted(actions, first, event + 1, strikes=False)


def _not_reported(job: Job, seed: int, flaws: Sequence[str]) -> Plantings:
    attempt = RightAttempt.drawn(job, seed)
    for flaw in shuffled([flaw for flaw in job.conditions.flaws if flaw.what in flaws], seed, "not reported"):
        pairs = [
            (step, action)
            for step, action in zip(attempt.steps, attempt.actions, strict=True)
            if not (isinstance(action, Report) and flaw.is_called(action.fault, action.wall, action.tag))
        ]
        event = next(i for i, (step, _) in enumerate(pairs) if (step.verb, step.tag) == ("stand", flaw.tag))
        yield Planted([action for _, action in pairs], flaw.tag, event)
