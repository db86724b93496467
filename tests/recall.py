"""Whether planted mistakes are found, alone and in pairs; run as a program it prints the table of all rules.

python tests/recall.py [--orders 20] [--rights 200] [--pairs 10] [LEVEL ...]
"""

import argparse
import difflib
from collections import Counter
from dataclasses import dataclass
from functools import cache
from itertools import takewhile

from attempts import LEVELS, layout_of, level_of, right

from trainer.rehearse import CannotOccur, mistakes, plant
from trainer.rules import judge
from trainer.session import Session, job_of
from trainer.site import Refused, act

FEW = 12
"""Edits of a planted diary that are few enough to be made in another one as well."""


@cache
def job(level, seed):
    return job_of(level_of(level), seed, layout=layout_of(level))


@cache
def planted(level, seed, name):
    """The mistake planted on this level, or None where it leaves no room for it."""
    try:
        return plant(job(level, seed), seed, name)
    except CannotOccur:
        return None


def forget():
    for kept in (job, right, played, planted):
        kept.cache_clear()


@cache
def played(level, seed):
    """A session in which the right diary was played."""
    return Session(level_of(level), seed, layout=layout_of(level)).replay(right(level, seed))


@dataclass(frozen=True)
class Judged:
    findings: list
    refused: list


def judged(level, seed, actions):
    """What a session finds and refuses; what is done as in the right diary is taken from there, and not done again."""
    done = played(level, seed)
    alike = sum(
        1 for _same in takewhile(lambda pair: pair[0] == pair[1], zip(actions, right(level, seed), strict=False))
    )
    before = done.moments[:alike]
    found = Judged([f for outcome, _site in before for f in outcome.findings], [])
    for _site in gone_on(before[-1][1] if before else done.first_site, actions[alike:], alike, found):
        pass
    return found


def gone_on(site, actions, number, found):
    """Do ``actions`` from the one with this number on, add to what is ``found``, and yield the site after each."""
    for index, action in enumerate(actions, number):
        result = act(site, index, action)
        if isinstance(result, Refused):
            found.refused.append((index, result.why))
        else:
            after, event = result
            found.findings.extend(judge(site, event, after))
            site = after
        yield site


def marked_down(level, seed):
    """What is found in a right diary, and what is refused there: nothing, if all is well."""
    done = played(level, seed)
    return [(f.rule, f.member, f.event) for f in done.findings] + list(done.refused)


def trouble(level, seed, name):
    """What is wrong with how one planted mistake is found, in words; '' if nothing, None if it can't occur here."""
    made = planted(level, seed, name)
    if made is None:
        return None
    done = judged(level, seed, made.actions)
    found = [(f.rule, f.member, f.event) for f in done.findings]
    about = f"{name} on {level}, seed {seed}, planted on {made.member} at {made.event}"
    if done.refused:
        return f"{about}: refused {done.refused}"
    if (name, made.member, made.event) not in found:
        return f"{about}: not found, but {found}"
    if len({f.cause or i for i, f in enumerate(done.findings)}) > 1:
        return f"{about}: found besides {found}"
    finding = next(f for f in done.findings if (f.rule, f.member, f.event) == (name, made.member, made.event))
    if not (finding.got and finding.want and finding.got != finding.want) or not all(
        said in finding.what for said in (finding.got, finding.want)
    ):
        return f"{about}: got {finding.got!r}, want {finding.want!r}"
    return ""


@dataclass(frozen=True)
class Edits:
    """What a planted diary changes of the right one: actions taken out, and actions put in after another (or first)."""

    out: tuple
    put_in: tuple

    @property
    def many(self):
        return len(self.out) + len(self.put_in) > FEW

    def tears_up(self, other):
        """Whether this takes out what the other is put in after: then that no longer comes where it is a mistake."""
        return any(after in self.out for after, _added in other.put_in)

    @property
    def moves(self):
        """Whether something is done, or braced, at another time: in another order that is no mistake, or mends one."""
        added = [action for _after, actions in self.put_in for action in actions]
        return any(action in self.out or action.do in ("brace", "restrain") for action in added)

    @property
    def tags(self):
        actions = [*self.out, *(action for _after, added in self.put_in for action in added)]
        return {
            tag
            for action in actions
            for tag in (
                *(getattr(action, name, None) or "" for name in ("tag", "on", "wall", "item")),
                *getattr(action, "tags", ()),
            )
            if tag
        }


def slid(base, actions, i, k, m, n):
    """The spans of an edit; where something is done, undone and done again, that is put in after it was done first."""
    while i == k < len(base) and n < len(actions) and actions[m] == base[i] == actions[n]:
        i, k, m, n = i + 1, k + 1, m + 1, n + 1
    return i, k, m, n


def edits(base, actions):
    """The edits that make ``actions`` of ``base``."""
    numbers = {action: i for i, action in enumerate(dict.fromkeys([*base, *actions]))}
    matcher = difflib.SequenceMatcher(None, [numbers[a] for a in base], [numbers[a] for a in actions], autojunk=False)
    out, put_in = [], []
    for what, *spans in matcher.get_opcodes():
        if what != "equal":
            i, k, m, n = slid(base, actions, *spans)
            out += base[i:k]
            if k - i == n - m:  # each done otherwise, in its own place
                put_in += [(was, (now,)) for was, now in zip(base[i:k], actions[m:n], strict=True)]
            elif n > m:
                put_in.append((base[i - 1] if i else None, tuple(actions[m:n])))
    return Edits(tuple(out), tuple(put_in))


GONE = object()


def with_edits(actions, made):
    """``actions`` with the same edits; None where an action to be changed is not there."""
    changed = [(action, None) for action in actions]
    for action in made.out:
        if (action, None) not in changed:
            return None
        changed[changed.index((action, None))] = (action, GONE)
    for after, added in made.put_in:
        at = next((i for i, (action, _gone) in enumerate(changed) if action == after), None)
        if at is None and after is not None:
            return None
        at = at + 1 if at is not None else 0
        changed[at:at] = [(action, None) for action in added]
    return [action for action, gone in changed if gone is None]


SEEN_BY_NEIGHBOURS = ("bay-left-too-wide",)
SEEN_AT_THE_FIRST = (
    "saddle-before-support", "saddle-over-crooked-truss", "carried-before-carrier", "hip-before-truncated-girder",
)  # fmt: skip
"""Found at the first truss that is set down on a carrier: another that is moved before it would be that one."""
SEEN_ON_THE_ROW = ("roof-braces-all-one-way",)
"""Seen where all braces of a row do their work: where one of them does not, a brace is missing, which is worse."""
SEEN_AT_ONCE = ("worked-on-after-a-fall",)
"""Found at the first work after a fall: a lift that is moved brings the fall, and that work, to another time."""


def seen_by(level, seed, name, made):
    """The trusses that show a planted mistake: its own, and those beside or under it that have a part in it."""
    tags = {made.member}
    if name in SEEN_BY_NEIGHBOURS:
        tags.update(tag for bay in job(level, seed).bays.get(made.member, ()) for tag in (bay.first, bay.second))
    if name in SEEN_AT_THE_FIRST:
        tags.update(layout_of(level).by_tag[made.member].carried_by)
    if name in SEEN_ON_THE_ROW:
        row = layout_of(level).by_tag[made.member].row
        tags.update(member.tag for member in layout_of(level).members if member.row == row)
    return tags


def pair(level, seed, one, other):
    """What is wrong with how two mistakes planted in one diary are found; None where they can't be planted together."""
    first, second = planted(level, seed, one), planted(level, seed, other)
    if first is None or second is None:
        return None
    base = right(level, seed)
    mine, others = edits(base, first.actions), edits(base, second.actions)
    if others.many:
        first, second, mine, others = second, first, others, mine
        one, other = other, one
    about = {*seen_by(level, seed, one, first), *mine.tags}
    if others.many or (mine.many and others.moves) or about & {*seen_by(level, seed, other, second), *others.tags}:
        return None
    moved = (one in SEEN_AT_ONCE and others.moves) or (other in SEEN_AT_ONCE and mine.moves)
    if moved or mine.tears_up(others) or others.tears_up(mine):
        return None
    both = with_edits(first.actions, others)
    if both is None or not all(made.actions[made.event] in both for made in (first, second)):
        return None
    done = judged(level, seed, both)
    if done.refused:
        return None
    found = Counter((f.rule, f.member, f.event) for f in done.findings)
    at_another = mine.many or mine.moves or others.moves  # what the next lift finds is then found at another lift
    missed = [
        (name, made.member)
        for name, made in ((one, first), (other, second))
        if not any(
            (rule, member) == (name, made.member) and (at_another or both[event] == made.actions[made.event])
            for rule, member, event in found
        )
    ]
    return f"{one} and {other} on {level}, seed {seed}: missed {missed} in {sorted(found)}" if missed else ""


def alone(level, seeds, names):
    """Yield (rule, what is wrong) for each mistake planted in each order of a level where it can occur."""
    for seed in seeds:
        yield from alone_in(level, seed, names)
        forget()


def alone_in(level, seed, names):
    for name in names:
        if (said := trouble(level, seed, name)) is not None:
            yield name, said


def in_pairs(level, seeds, names):
    """Yield what is wrong for each rule with another, a new one in each order, where both can be planted."""
    for seed in seeds:
        yield from pairs_in(level, seed, names)
        forget()


def pairs_in(level, seed, names):
    for k, name in enumerate(names):
        if (said := pair(level, seed, name, names[(k + 1 + seed) % len(names)])) is not None:
            yield said


def not_at_all(level, seeds):
    """Yield what is found in each right order of a level."""
    for seed in seeds:
        yield marked_down(level, seed)
        forget()


def main():
    asked = argparse.ArgumentParser()
    asked.add_argument("--orders", type=int, default=1)
    asked.add_argument("--rights", type=int, default=1)
    asked.add_argument("--pairs", type=int, default=1)
    asked.add_argument("levels", nargs="*")
    given = asked.parse_args()
    names = mistakes()
    on, planted_in, found, pairs, wrong, rights = Counter(), Counter(), Counter(), Counter(), [], 0
    for level in given.levels or LEVELS:
        here, both = [], []
        for seed in range(max(given.orders, given.pairs)):  # each mistake is planted once for both
            here += alone_in(level, seed, names) if seed < given.orders else ()
            both += pairs_in(level, seed, names) if seed < given.pairs else ()
            forget()
        on.update({name for name, _said in here})
        planted_in.update(name for name, _said in here)
        found.update(name for name, said in here if not said)
        pairs.update(made=len(both), found=both.count(""))
        down = list(not_at_all(level, range(given.rights)))
        rights += len(down)
        bad = [said for said in [*(said for _name, said in here), *both] if said]
        bad += [
            f"a right order of {level}, seed {seed}, is marked down: {said}" for seed, said in enumerate(down) if said
        ]
        wrong += bad
        counts = (
            f"planted {len(here)}, found {sum(not said for _name, said in here)}; "
            f"pairs {len(both)}, found {both.count('')}; "
            f"right orders {len(down)}, marked down {sum(map(bool, down))}"
        )
        print("\n".join([f"... {level}: {counts}", *bad]), flush=True)
    print(f"\n{'rule':34} levels  planted  found")
    for name in names:
        print(f"{name:34} {on[name]:6} {planted_in[name]:8} {found[name]:6}")
    print(f"\npairs: {pairs['found']} of {pairs['made']} found; right orders: {rights}, all judged")
    print(f"{len(wrong)} wrong")


if __name__ == "__main__":
    main()
