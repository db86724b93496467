"""Edits made blindly to right diaries: each is found, with the right truss named, or leaves a sound roof.

Whether a roof is sound is for ``soundness.py`` to say, which read the trade brief on its own; this file
knows no rule. It also holds the other way round: what is found is not sound. Edits are sampled by seed, so
many as ``sizes.py`` says.
"""

import math
import random
import re
from dataclasses import replace
from functools import cache
from typing import get_args

import pytest
from attempts import LEVELS, SHIPPED, layout_of, level_of, right
from recall import judged, played
from shapely.geometry import LineString
from sizes import FULL, by_size, some
from soundness import faults, is_crooked

from trainer.session import Session, job_of
from trainer.site import (
    AnyAction,
    Brace,
    Conditions,
    Fit,
    Fix,
    HandOver,
    Mark,
    Remove,
    Restrain,
    Stand,
    act,
    shape,
    start,
)
from trainer.site.actions import (
    Check,
    Clear,
    Cut,
    Inspect,
    Load,
    Measure,
    Plan,
    Plumb,
    Report,
    Stop,
    String,
    Unbrace,
    Undo,
)

SAMPLE = by_size(2, 8, 0)
MOST = by_size(38, 1000, 1000)
"""No house with more trusses than this is tried: to read a large one a second time takes seconds."""
HOUSES = some([name for name in LEVELS if len(layout_of(name).members) <= MOST], 9)
ACTIONS = by_size(1600, 4000, 0)
"""Of a level where the sample would come to more than this, in actions judged, fewer edits are made."""
SHIFT = 60.0
LITTLE = 8.0
DELAYS = (1, 4, 25)
DANGERS = {
    "people in the exclusion zone": "exclusion zone", "pack on a half-braced row": "row", "gust forecast": "weather",
    "licence missing": "licence", "missing rail": "rail", "missing platform": "platform",
}  # fmt: skip
"""What a danger is of, where it is found under another name than its own."""


def edits(actions, draw):
    """Every blind edit of a diary: (name, actions touched, the diary after it)."""
    last = len(actions) - 1  # the hand-over stays
    for i, action in enumerate(actions[:last]):
        rest = [*actions[:i], *actions[i + 1 :]]
        yield f"drop {i}", [action], rest
        for name, changed in changes(action):
            yield f"{name} {i}", [action], [*actions[:i], changed, *actions[i + 1 :]]
        for steps in (*DELAYS, last):
            to = min(i + steps, last - 1)
            if to > i:
                yield f"delay {i} to {to}", [action], [*rest[:to], action, *rest[to:]]
        other = draw.randrange(last)
        if other != i:
            swapped = list(actions)
            swapped[i], swapped[other] = swapped[other], swapped[i]
            yield f"swap {i} and {other}", [action, actions[other]], swapped
    for i, action in enumerate(actions):
        if isinstance(action, Brace):
            off = Unbrace(kind=action.kind, tags=action.tags)
            yield f"unbrace after {i}", [action], [*actions[: i + 1], off, action, *actions[i + 1 :]]
            at = draw.randrange(i + 1, last + 1)
            yield f"unbrace {i} at {at}", list(actions[:at]), [*actions[:at], off, *actions[at:]]
    stands = [i for i, action in enumerate(actions) if isinstance(action, Stand)]
    for i in stands:
        yield later_whole(actions, i)
        for done in (Cut(tag=actions[i].tag, where="web"), Cut(tag=actions[i].tag, where="tail"), Load(what="battens")):
            yield f"{done.do} after {i}", [done], [*actions[: i + 1], done, *actions[i + 1 :]]
        told = [Report(fault="a fall"), Clear()]
        yield f"clear after {i}", [*told, actions[i]], [*actions[: i + 1], *told, *actions[i + 1 :]]
        undone = [Remove(tag=actions[i].tag), Undo()]
        yield f"undone {i}", [actions[i]], [*actions[: i + 1], *undone, *actions[i + 1 :]]
        early = draw.randrange(i, last)
        yield f"hand over at {early}", [HandOver(), *actions[early:last]], [*actions[:early], HandOver()]
        again = [Remove(tag=actions[i].tag), actions[i]]
        yield f"again {i}", [actions[i]], [*actions[: i + 1], *again, *actions[i + 1 :]]
        others = [j for j in stands if j != i and abs(length(actions[i]) - length(actions[j])) < 1]
        if others:
            yield mixed_up(actions, i, draw.choice(others))
            yield leaning_apart(
                actions, i, min(others, key=lambda j: math.dist(middle(actions[i]), middle(actions[j])))
            )


def later_whole(actions, i):
    """A truss left to the end with all that is done to it."""
    tag = actions[i].tag

    def about(action):
        return getattr(action, "tag", None) == tag or tag in getattr(action, "tags", ())

    late = [action for action in actions[i:] if about(action)]
    return f"leave {tag} to the end", late, [*(a for a in actions[:-1] if not about(a)), *late, actions[-1]]


def nearest(actions, i, others):
    return min(others, key=lambda j: math.dist(middle(actions[i]), middle(actions[j])))


def mixed_up(actions, i, j):
    """Two trusses of one length taken for each other, all along."""
    one, other = actions[i].tag, actions[j].tag
    names = {one: other, other: one}

    def renamed(action):
        if isinstance(action, Brace | Unbrace):
            return action.model_copy(update={"tags": tuple(names.get(tag, tag) for tag in action.tags)})
        if isinstance(action, Stand | Fix | Plumb):
            return action.model_copy(update={"tag": names.get(action.tag, action.tag)})
        return action

    return f"mix up {i} and {j}", [actions[i], actions[j]], [renamed(action) for action in actions]


def leaning_apart(actions, i, j):
    """Two neighbours moved away from each other, each by less than the tolerance."""
    (ax, ay), (bx, by) = middle(actions[i]), middle(actions[j])
    apart = math.dist((ax, ay), (bx, by))
    dx, dy = LITTLE * (bx - ax) / apart, LITTLE * (by - ay) / apart
    moved = list(actions)
    moved[i], moved[j] = shifted(actions[i], -dx, -dy), shifted(actions[j], dx, dy)
    return f"lean apart {i} and {j}", [actions[i], actions[j]], moved


def length(stand):
    return math.dist(stand.start, stand.finish)


def middle(stand):
    return ((stand.start[0] + stand.finish[0]) / 2, (stand.start[1] + stand.finish[1]) / 2)


def shifted(stand, dx, dy):
    (ax, ay), (bx, by) = stand.start, stand.finish
    return stand.model_copy(update={"start": (ax + dx, ay + dy), "finish": (bx + dx, by + dy)})


def changes(action):
    """One action done wrong."""
    yield from put_in_otherwise(action)
    match action:
        case Stand():
            (ax, ay), (bx, by) = action.start, action.finish
            long = max(abs(bx - ax), abs(by - ay))
            ux, uy = SHIFT * (bx - ax) / long, SHIFT * (by - ay) / long
            for name, (dx, dy) in {"shift along": (ux, uy), "shift across": (-uy, ux), "shift back": (uy, -ux)}.items():
                yield name, shifted(action, dx, dy)
            yield "skew", action.model_copy(update={"finish": (bx - uy / 2, by + ux / 2)})
            yield "turn", action.model_copy(update={"start": action.finish, "finish": action.start})
        case Fix():
            yield from weaker(action)
        case Fit():
            yield from fitted_otherwise(action)
        case Brace():
            yield "prop", action.model_copy(update={"kind": "prop", "every": None})
            if action.every is not None:
                yield "wider", action.model_copy(update={"every": round(action.every * 1.7)})
            if len(action.tags) > 1:
                yield "fewer", action.model_copy(update={"tags": action.tags[1:]})
        case Report() if action.wall:
            yield "other wall", action.model_copy(update={"wall": "A" if action.wall != "A" else "B"})
        case Report() if action.tag:
            other = "loose nailplate" if action.fault == "broken web" else "broken web"
            yield "other fault", action.model_copy(update={"fault": other})
        case Check():
            yield "report", Report(fault="bowed wall", wall="B")
            yield "measure", Measure(what="straight", wall="B")
        case Inspect():
            yield "other verdict", action.model_copy(update={"accept": not action.accept})
        case Mark():
            yield "far end", action.model_copy(update={"measured_from": 0.0})
            yield "shift", action.model_copy(update={"at": action.at + (SHIFT if action.at < SHIFT else -SHIFT)})


def weaker(fix):
    """A fixing with something else, or fewer, or at the wrong end."""
    if fix.end:
        yield "other end", fix.model_copy(update={"end": 3 - fix.end})
    if fix.count > 1:
        yield "one short", fix.model_copy(update={"count": fix.count - 1})
    with_ = "nails" if fix.with_ == "framing anchor" else "framing anchor"
    yield "nails", fix.model_copy(update={"with_": with_})


def fitted_otherwise(action):
    """Another part, or the part elsewhere; of a set, too far apart or too short."""
    if action.at is not None:
        yield "shift", action.model_copy(update={"at": action.at + (SHIFT if action.at < SHIFT else -SHIFT)})
    if action.every is not None:
        yield "wider", action.model_copy(update={"every": action.every * 1.7})
    if action.back is not None:
        yield "shorter", action.model_copy(update={"back": 100.0})
    other = {"hanger": "heavy girder bracket", "heavy girder bracket": "hanger"}
    yield "other part", action.model_copy(update={"part": other.get(action.part, "packer")})


def put_in_otherwise(action):
    """A piece of permanent bracing too short, at another angle, or to one side; nothing of any other action."""
    if not isinstance(action, Restrain):
        return
    (ax, ay), (bx, by) = action.start, action.finish
    dx, dy = (bx - ax) / 4, (by - ay) / 4
    yield "stops short", action.model_copy(update={"finish": (bx - dx, by - dy)})
    yield "starts short", action.model_copy(update={"start": (ax + dx, ay + dy)})
    if action.kind == "roof brace":
        yield "nearly along x", action.model_copy(update={"finish": (bx, by - 3.2 * dy)})
        yield "nearly along y", action.model_copy(update={"finish": (bx - 3.2 * dx, by)})
    else:
        aside = (0.0, 1300.0) if abs(dx) > abs(dy) else (1300.0, 0.0)
        moved = [(x + aside[0], y + aside[1]) for x, y in (action.start, action.finish)]
        yield "aside", action.model_copy(update={"start": moved[0], "finish": moved[1]})


def named(actions, layout):
    """The trusses that actions are about; a bracket is about its carrier and what hangs on it."""
    tags = set()
    for action in actions:
        match action:
            case Brace() | Unbrace():
                tags |= set(action.tags)
            case Fit():
                hung = [m.tag for m in layout.members if any(end.bears_on == action.on for end in m.ends)]
                tags |= {action.on, *hung, *layout.carries.get(action.on, ()), *beside(layout, action.on)}
            case Load():
                tags.add("roof")
            case String():
                tags |= {*beside(layout, action.start), *beside(layout, action.finish)}
            case Restrain():
                line = LineString([action.start, action.finish])
                over = {m.tag: m.row for m in layout.members if LineString([m.start, m.finish]).distance(line) <= SHIFT}
                # All of a row's braces together hold the whole row, and its verge is framed after them.
                tags |= {m.tag for m in layout.members if m.row in over.values()}
            case Stand() | Fix() | Cut() | Plumb() | Inspect():
                tags |= {action.tag, *beside(layout, action.tag)}
            case Mark():
                tags.add(action.on or action.wall)
            case Check():
                tags.add("pre-start")
            case Plan() | Stop():  # every lift of a kind; every lift there is
                tags |= {m.tag for m in layout.members if m.kind == getattr(action, "kind", m.kind)}
            case Report() | Measure():
                danger = getattr(action, "fault", "")
                tags |= {action.wall or "", f"wall {action.wall}", action.tag or "", DANGERS.get(danger, danger)}
                tags.add(f"post {action.at[0]:g}, {action.at[1]:g}" if action.at else "")
    return tags


def beside(layout, tag):
    """The trusses of its row: standing one lets go of another."""
    return layout.rows[layout.by_tag[tag].row] if tag in layout.by_tag else ()


def judge(name, seed, edited):
    """What is found in a diary, what is unsound in it, and what could not be done."""
    if any(isinstance(action, Undo) for action in edited):
        found, done, refused = undone(name, seed, edited)
    else:
        by_step = judged(name, seed, edited)
        no = {index for index, _why in by_step.refused}
        found, refused = by_step.findings, [edited[index] for index in sorted(no)]
        done = [action for index, action in enumerate(edited) if index not in no]
    return found, faults(layout_of(name), done, level_of(name), *truth(name, seed)), refused


def undone(name, seed, edited):
    """The same where something is undone: what is found, what was done in the end, and what could not be."""
    session = Session(level_of(name), seed, layout=layout_of(name)).replay(edited)
    done = []
    for outcome in session.outcomes:
        if isinstance(outcome.action, Undo) and outcome.event:
            done.pop()
        elif outcome.event:
            done.append(outcome.action)
    return list(session.findings), done, [outcome.action for outcome in session.outcomes if outcome.refused]


@cache
def truth(name, seed):
    """The trusses that this seed's site leaves out of the limits until they are straightened; those to be inspected."""
    layout, job = layout_of(name), job_of(level_of(name), seed, layout=layout_of(name))
    site = start(replace(job, conditions=Conditions()))
    for i, member in enumerate(layout.members):
        site, _event = act(site, i, Stand(tag=member.tag, start=member.start, finish=member.finish))
    shapes = {member: shape(site, member.tag) for member in layout.members}
    level = level_of(name)
    crooked = frozenset(m.tag for m, found in shapes.items() if is_crooked(m, found.lean, found.bow, level))
    return crooked, tuple(step.tag for step in job.order.steps if step.verb == "inspect")


def check(name, seed, what, touched, edited):
    findings, unsound, refused = judge(name, seed, edited)
    about = f"{name}, seed {seed}, {what}: {touched}"
    if unsound:
        assert findings, f"{about}: not found: {unsound[:3]}"
        words = {word for f in findings for word in (f.member, *re.findall(r"\w+", f.what))}
        about_those = named([*touched, *refused], layout_of(name))
        assert words & about_those, f"{about}: names others: {[(f.rule, f.what) for f in findings]}"
    else:
        assert not findings, f"{about}: sound, yet found: {[(f.rule, f.what) for f in findings]}"


@pytest.mark.parametrize("name", HOUSES)
def test_a_right_diary_is_sound_and_nothing_is_found(name):
    for seed in range(by_size(1, 4, 4) if name in SHIPPED else 1):
        assert judge(name, seed, right(name, seed)) == ([], [], [])


def test_every_verb_is_tried():
    tried = set()
    actions = right("lorikeet", 1)
    kept = set(map(id, actions))
    for _what, touched, edited in edits(actions, random.Random(1)):
        tried |= {action.do for action in touched} | {action.do for action in edited if id(action) not in kept}
    assert tried == {kind.model_fields["do"].default for kind in get_args(AnyAction)}


@pytest.mark.parametrize("name", HOUSES)
def test_no_mistake_slips_through(name):
    seed = LEVELS.index(name)
    actions = right(name, seed)
    count = sum(1 for _ in edits(actions, random.Random(seed)))
    few = SAMPLE if name in SHIPPED else min(SAMPLE, max(2, ACTIONS // len(actions)))
    chosen = range(count) if FULL else set(random.Random(name).sample(range(count), few))
    for number, (what, touched, edited) in enumerate(edits(actions, random.Random(seed))):
        if number in chosen:
            check(name, seed, what, touched, edited)
    played.cache_clear()
