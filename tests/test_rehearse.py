"""Rehearsals: right orders that are never marked down, free in all that the order leaves free, and mistakes planted."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import combinations, pairwise

import pytest
from attempts import SHIPPED, attempt, layout_of, level_of
from plans import house_like_plan
from recall import job as shared_job
from recall import judged
from sizes import by_size, some

from trainer import session
from trainer.layout import House, Layout, LayoutRefused, TrussSpec, lay_out
from trainer.layout.webs import webs
from trainer.order import TIED, Order, Step, order_of
from trainer.rehearse import CannotOccur, UnknownMistake, mistakes, plant, rehearse
from trainer.rehearse.playing import actions_of
from trainer.rehearse.sequence import right_sequence
from trainer.roof import RoofSpec
from trainer.rules import all_rules, judge
from trainer.site import Conditions, Job, Refused, Stand, act, shape, start, uplift, write_diary
from trainer.terms import STAGES

RIGHT_ORDERS = by_size(1, 4, 20)
HOUSES = by_size(3, 10, 14)
EVERY = by_size(54, 1, 1)
"""On each level every so many of the mistakes are planted, from another one on."""
ORDERS = by_size(1, 1, 5)
"""Mistakes are planted in so many orders, which they share."""
TIPS_OVER = ("standard", "girder", "truncated_girder", "truncated", "gable")


def job_of(level: str, seed: int) -> Job:
    return session.job_of(level_of(level), seed, layout=layout_of(level))


@pytest.mark.parametrize("level", some(SHIPPED, 4, 26))
def test_right_orders_are_never_marked_down(level: str) -> None:
    """Every level, rehearsed in 20 random right orders, grades with no finding, habit included."""
    orders = set()
    for seed in range(RIGHT_ORDERS):
        diary = rehearse(level_of(level), seed, layout=layout_of(level))
        done = attempt(level, diary.actions, seed=seed)
        assert (done.findings, done.refused) == ((), ())
        assert done.site.handed_over
        assert set(done.site.at_place) == set(layout_of(level).by_tag)
        orders.add(tuple(a.tag for a in diary.actions if isinstance(a, Stand)))
    assert len(orders) == RIGHT_ORDERS


def test_right_orders_of_generated_houses_are_never_marked_down() -> None:
    judged = 0
    for seed in range(HOUSES):
        spec = TrussSpec(spacing=(600, 900, 450)[seed % 3], setback=(1800, 2400, 1200)[seed % 3])
        try:
            layout = lay_out(House(house_like_plan(seed), RoofSpec(22.5, 600, 90), spec))
        except LayoutRefused:
            continue
        job = Job(layout)
        site = start(job)
        for index, action in enumerate(actions_of(job, right_sequence(layout, job.order, seed), seed)):
            result = act(site, index, action)
            assert not isinstance(result, Refused)
            after, event = result
            assert judge(site, event, after) == ()
            site = after
        judged += 1
    assert judged > HOUSES / 2


def test_where_only_the_inspection_is_left_a_truss_is_measured_before_its_verdict() -> None:
    whole = level_of("wren")
    level = whole.model_copy(update={"lesson": whole.lesson.model_copy(update={"stages": ("hand-over",)})})
    for seed in (1, 2):
        actions = [action for action in rehearse(level, seed).actions if action.do in ("measure", "inspect")]
        verdicts = [(n, action.tag) for n, action in enumerate(actions) if action.do == "inspect"]
        assert verdicts
        for n, tag in verdicts:
            assert not any(action.do == "measure" and action.tag == tag for action in actions[n:])


def test_the_same_seed_gives_the_same_diary_to_the_byte() -> None:
    twice = [write_diary(rehearse(level_of("wren"), 11, layout=layout_of("wren"))) for _ in range(2)]
    assert twice[0] == twice[1]
    assert "seed: 11\n" in twice[0]
    assert twice[0] != write_diary(rehearse(level_of("wren"), 12, layout=layout_of("wren")))


def test_stages_that_count_as_done_are_not_rehearsed() -> None:
    layout = layout_of("wren")
    order = order_of(layout, frozenset({"stand", "brace"}))
    job = Job(layout, stages=frozenset({"stand", "brace"}))
    actions = actions_of(job, right_sequence(layout, order, 5), 5)
    assert {action.do for action in actions} == {"stand", "string", "plumb", "brace", "unbrace", "hand_over"}
    assert {action.kind for action in actions if action.do == "unbrace"} == {"prop"}  # no bracing here is for good


@pytest.mark.parametrize(("level", "first_seed"), some([("fantail", 0), ("wren", 1000)], 1))
def test_whatever_the_order_leaves_free_comes_both_ways_round(level: str, first_seed: int) -> None:
    """The contract: over 200 draws every pair that the order leaves free appears both ways round."""
    layout = layout_of(level)
    order = job_of(level, 0).order
    bit = {step: 1 << i for i, step in enumerate(order.steps)}
    came_before = dict.fromkeys(order.steps, 0)
    for seed in range(first_seed, first_seed + 200):
        gone = 0
        for step in right_sequence(layout, order, seed):
            came_before[step] |= gone
            gone |= bit[step]
    must_come_before = forced(layout, order, bit)
    everything = sum(bit.values())
    for step in order.steps:
        forced_after = sum(bit[other] for other in order.steps if must_come_before[other] & bit[step])
        free = everything & ~must_come_before[step] & ~forced_after & ~bit[step]
        assert came_before[step] & free == free, f"never before {step}: {names(order, free & ~came_before[step])}"
        assert not came_before[step] & forced_after


def forced(layout: Layout, order: Order, bit: dict[Step, int]) -> dict[Step, int]:
    """All that must or should come before each step, by the edges, and by holding a truss before the next is lifted."""
    before = dict.fromkeys(order.steps, 0)
    for step, into in order.into.items():
        for edge in into:
            before[step] |= bit[edge.first]
    stands = [Step("stand", member.tag) for member in layout.members]
    held_by = {step: sum(bit[hold] for hold in holds(layout, step.tag)) for step in stands}
    changed = True
    while changed:
        changed = False
        for step in order.steps:
            known = before[step]
            for other in order.steps:
                if known & bit[other]:
                    known |= before[other]
            if step.verb == "stand":
                for other in stands:
                    if other != step and known & bit[other]:
                        known |= held_by[other]
            changed = changed or known != before[step]
            before[step] = known
    return before


def holds(layout: Layout, tag: str) -> list[Step]:
    """What holds a truss: its top tied where it tips, both ends fixed, and a free extension propped.

    Trade brief, "Order of work" (common practice, no source). A saddle over 900 high is tied at its apex. A hip's
    extension hangs free until the truncated trusses under it stand.
    """
    member = layout.by_tag[tag]
    tall = member.kind == "saddle" and max(z for _, z in member.top) - min(z for _, z in member.top) > 900
    tie = [Step("tie", tag)] if member.kind in TIPS_OVER or tall else []
    free = [c for c in layout.crossings if c.over == tag and layout.by_tag[c.under].kind == "truncated"]
    prop = [Step("prop", tag)] if member.kind == "hip" and free else []
    return [*tie, Step("fix", tag, 1), Step("fix", tag, 2), *prop]


def names(order: Order, bits: int) -> list[Step]:
    return [step for i, step in enumerate(order.steps) if bits >> i & 1][:5]


@pytest.mark.parametrize("level", ["currawong", "lorikeet"])
def test_at_every_lift_all_that_stands_is_held_in_every_draw(level: str) -> None:
    layout = layout_of(level)
    order = order_of(layout, frozenset(STAGES))
    for seed in range(12):
        steps = right_sequence(layout, order, seed)
        turn = {step: i for i, step in enumerate(steps)}
        lifts = [step for step in steps if step.verb == "stand"]
        for this, following in pairwise(lifts):
            assert max(turn[hold] for hold in holds(layout, this.tag)) < turn[following]


def test_every_rule_has_its_mistake() -> None:
    assert set(mistakes()) == {rule.name for rule in all_rules()}


def crooked(job: Job, way: str) -> bool:
    """Whether a truss of the house leans, or is bowed, by more than the brief's limits as it is stood."""
    site = start(replace(job, conditions=Conditions()))
    for i, member in enumerate(job.layout.members):
        result = act(site, i, Stand(tag=member.tag, start=member.start, finish=member.finish))
        assert not isinstance(result, Refused)
        site = result[0]
        found, high = shape(site, member.tag), max(z for _, z in member.top)
        out = abs(found.lean) > min(high / 50, 50) if way == "lean" else abs(found.bow) > min(member.span / 200, 50)
        if out and member.kind in TIPS_OVER:
            return True
    return False


def occurs(name: str, job: Job) -> bool:
    """Whether a mistake can occur on a house, by what the house has and what is wrong with its site."""
    layout, flaws = job.layout, {flaw.what for flaw in job.conditions.flaws}
    kinds = {member.kind for member in layout.members}
    ends = [end for m in layout.members if m.kind != "saddle" for end in m.ends]
    hung = {end.fixing for end in ends if end.bears_on in layout.by_tag}
    under_saddles = {layout.by_tag[tag].kind for m in layout.members if m.kind == "saddle" for tag in m.carried_by}
    # What stands at a higher wall is tied to that, and not to the truss beside it.
    tied = any(m.kind in TIPS_OVER and m.tag not in layout.at_wall for m in layout.members)
    dutch = any(member.is_dutch for member in layout.members)
    needs = {
        "setback-not-the-levels": "truncated_girder" in kinds,
        "girder-off-plate-line": any(m.kind == "girder" and not m.is_dutch for m in layout.members),
        "far-bearing-not-carried-across": bool({"girder", "truncated_girder"} & kinds),
        "end-for-end": bool(hung),
        "carried-before-carrier": bool(hung),
        "hip-before-truncated-girder": {"hip", "truncated_girder"} <= kinds,
        "saddle-before-support": "saddle" in kinds,
        **dict.fromkeys(("dutch-girder-off-station", "waling-plate-missing", "verge-ladder-missing"), dutch),
        "wall-tie-missing": bool(layout.house.plan.against),
        "ledger-not-on-studs": "ledger on brick veneer" in flaws,
        # The first of the only row is the dutch gable's girder. Next comes what hangs on it: too early for that is
        # carried-before-carrier.
        **dict.fromkeys(
            ("row-with-nothing-solid", "worked-on-after-a-fall"),
            not (dutch and len({m.row for m in layout.members if m.kind in TIED}) == 1),
        ),
        "hanger-missing": any(end.fixing == "hanger" for end in ends),
        "plies-not-joined": any(member.plies > 1 for member in layout.members),
        "saddle-without-batten": "saddle" in kinds,
        "saddle-without-trimmer": any(part.part == "trimmer" for part in layout.parts),
        "extension-not-fixed": any(crossing.what == "extension" for crossing in layout.crossings),
        "extension-not-propped": any(
            layout.by_tag[c.over].kind == "hip" and layout.by_tag[c.under].flat_topped for c in layout.crossings
        ),
        "slotted-bracket-missing": bool(layout.house.plan.internal_walls),
        "fixed-hard-to-internal-wall": bool(layout.house.plan.internal_walls),
        **dict.fromkeys(
            (
                "outriggers-missing",
                "outriggers-too-far-apart",
                "outriggers-not-far-enough-back",
                "outriggers-end-between-trusses",
                "verge-rafters-missing",
                "verge-before-row-straight",
            ),
            "gable" in kinds and layout.house.roof.overhang > 0,
        ),
        "gable-studs-missing": "gable" in kinds,
        "tie-down-too-light": any(
            uplift(job, m.tag, i) > job.tie_down.capacity.of(end.fixing)
            for m in layout.members
            for i, end in enumerate(m.ends, 1)
            if end.on_plate
        ),
        "let-go-half-fixed": "fix" in job.stages,
        "heavy-girder-bracket-missing": any(end.fixing == "heavy girder bracket" for end in ends),
        "saddle-over-crooked-truss": bool(under_saddles & set(TIPS_OVER)),
        **dict.fromkeys(("bracing-taken-too-early", "top-chord-ties-stripped"), tied),
        "no-string-line": False,  # these want a plate that stays bowed
        "apex-off-line": False,
        "truss-left-over": mistakable(layout),
        "braced-to-beam": bool(layout.house.plan.beams),
        "row-left-unsafe-overnight": job.conditions.day is not None,
        "out-of-plumb": crooked(job, "lean"),
        "braced-while-crooked": crooked(job, "lean") or crooked(job, "bow"),
        "truss-bowed": crooked(job, "bow"),
        **needs_plan(job),
    }
    return needs.get(name, True) and needs_flaw(name, flaws)


def mistakable(layout: Layout) -> bool:
    """Whether two unlike trusses have one length and like ends, and one of them is no end of a string line."""
    alike = ("standard", "truncated", "gable", "half")
    free = [m for m in layout.members if m.kind in alike and not layout.carries[m.tag]]
    rows: dict[str, list[str]] = {}
    for member in layout.members:
        if member.kind == "standard":
            rows.setdefault(member.row, []).append(member.tag)
    # The ends of a string; of two alone, each is needed by the roof braces.
    lined_up = {tag for tags in rows.values() if len(tags) > 1 for tag in (tags[0], tags[-1])}
    spare = {m.tag for m in layout.members if m.full_height} - lined_up
    return any(
        a.span == b.span
        and [(e.on_plate, e.tail) for e in a.ends] == [(e.on_plate, e.tail) for e in b.ends]
        and round(max(z for _, z in a.top)) != round(max(z for _, z in b.top))
        and {a.tag, b.tag} & spare
        for a, b in combinations(free, 2)
    )


def needs_plan(job: Job) -> dict[str, bool]:
    """What can only go wrong where lifts are planned, or where it is asked how the roof is loaded."""
    limits, lifts = job.conditions.lifting, job.lifts.values()
    return {
        "lift-not-planned": limits is not None,
        "too-few-to-lift": limits is not None,
        "too-heavy-by-hand": limits is not None and not all(lift.by_hand(limits) for lift in lifts),
        "slings-not-spread": limits is not None and any(lift.length > limits.spread_over for lift in lifts),
        "slung-at-apex": limits is not None or any(flaw.what == "sling at the apex" for flaw in job.conditions.flaws),
        "roof-loaded-unevenly": job.conditions.loading,
        "loading-not-agreed": job.conditions.loading,
    }


def needs_bracing(name: str, level: str) -> bool:
    """What can only go wrong where there is such bracing to be put in: rows, webs and saddles long enough for it."""
    layout, asked = layout_of(level), level_of(level).bracing
    standards = [m for m in layout.members if m.full_height]
    rows = [m.row for m in standards]
    long_webs = [m.row for m in standards if any(w.length > asked.web_ties_over for w in webs(m, layout.house).webs)]
    if name == "roof-braces-all-one-way":
        return any(long_enough(layout, row) for row in rows)
    if name.startswith("roof-brace") or name in ("braced-while-crooked", "strap-pulled-too-hard"):
        return any(rows.count(row) > 1 for row in rows)
    return {
        "long-web-not-tied": any(long_webs.count(row) > 1 for row in rows),
        "top-chords-not-tied-under-saddles": any(
            layout.by_tag[tag].kind in TIPS_OVER for m in layout.members if m.kind == "saddle" for tag in m.carried_by
        ),
        "bottom-chord-ties-too-far-apart": any(m.span > asked.bottom_chord_ties for m in standards),
        "tie-end-loose": bool(long_webs) or any(m.span > asked.bottom_chord_ties for m in standards),
        "end-brace-missing": "end brace" in asked.permanent,
        # A row along the ridge is enough on short slopes.
        "top-chord-battens-too-far-apart": any(m.span / 2 > asked.top_chord_ties for m in standards),
    }.get(name, True)


def long_enough(layout: Layout, row: str) -> bool:
    """Whether a cross of braces fits: from apex to apex 0.58 of half the span (common practice)."""
    standards = [m for m in layout.members if m.full_height and m.row == row]
    apexes = [((m.start[0] + m.finish[0]) / 2, (m.start[1] + m.finish[1]) / 2) for m in standards]
    return math.dist(min(apexes), max(apexes)) >= 0.58 * standards[0].span / 2


def needs_flaw(name: str, flaws: set[str]) -> bool:
    """What can only go wrong where the site is found with such a fault."""
    of = {
        "damaged-truss-stood": {"broken web", "loose nailplate"},
        "tail-where-none-belongs": {"unwanted tail"},
        "unbraced-wall-loaded": {"wall not braced"},
        "studs-missing-under-girder": {"studs missing"},
        "plate-out-of-true": {"bowed wall", "plate out of level", "wrong length", "out of square", "bowed beam"},
        "pack-landed-badly": {"pack landed badly", "pack on a lintel"},
        "service-line-in-reach": {"service line"},
        "stair-void-open": {"open stair void"},
        "edge-left-open": {"missing rail", "missing platform"},
        "people-under-the-lift": {"people in the exclusion zone"},
        "forecast-not-heeded": {"gust forecast"},
        "lifted-without-licence": {"licence missing"},
        "lifted-in-gust": {"gust at noon"},
        "stopped-unsecured": {"gust at noon"},
        "pack-left-on-row": {"pack on a half-braced row"},
        "beam-not-bolted-down": {"beam not bolted down"},
        "beam-propped": {"beam propped"},
        "post-not-braced": {"post not braced"},
        "post-not-tied-down": {"post not tied down"},
        "post-brace-taken-off": {"post brace taken off"},
        "missing-truss-not-reported": {"missing truss"},
        "brackets-left-loose": {"loose brackets"},
    }
    return name not in of or bool(of[name] & flaws)


@pytest.mark.parametrize("level", some(SHIPPED, 6))
def test_every_planted_mistake_is_found_where_it_can_occur_and_nothing_else(level: str) -> None:
    first = SHIPPED.index(level) % EVERY
    for number, name in enumerate(mistakes()[first::EVERY]):
        seed = number % ORDERS
        job = shared_job(level, seed)
        if not (occurs(name, job) and needs_bracing(name, level)):
            with pytest.raises(CannotOccur, match=name):
                plant(job, seed, name)
            continue
        planted = plant(job, seed, name)
        done = judged(level, seed, planted.actions)
        found = {(f.rule, f.member, f.event) for f in done.findings}
        assert (name, planted.member, planted.event) in found, f"{name} {planted.member} at {planted.event}: {found}"
        assert not done.refused
        causes = {finding.cause or index for index, finding in enumerate(done.findings)}
        assert len(causes) == 1, f"{name} with seed {seed}: {found}"


def test_a_mistake_can_be_planted_in_different_places() -> None:
    members = {plant(job_of("wren", seed), seed, "off-station").member for seed in range(6)}
    assert len(members) > 2


def test_an_unknown_mistake_is_told() -> None:
    with pytest.raises(UnknownMistake, match="did you mean 'hanger-missing'"):
        plant(job_of("shed", 0), 0, "hanger-mising")
