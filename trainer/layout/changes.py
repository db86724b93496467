"""What a teacher fixes by hand: stations and fixings where a fabricator's drawing differs from the rules here.

A truss that is moved is drafted again where it then stands, so that its shape, what it hangs on and what it
carries follow. What would not be a right layout any more is refused.
"""

from __future__ import annotations

from collections.abc import Callable, Generator, Iterator, Mapping
from dataclasses import dataclass, replace

from trainer.layout.bays import bays
from trainer.layout.model import BRACKETS, CONNECTORS, Change, End, House, Layout, LayoutRefused, Member, Refusal
from trainer.terms import TrussKind
from trainer.words import _

Moves = Mapping[tuple[str, float], float]
"""For a row and a place along it (mm on the plan's axis), the station that the truss there is to have, mm."""
MOVED: frozenset[TrussKind] = frozenset({"standard", "truncated", "half"})
SAME = 0.5
"""Measures that differ by no more are the same, mm."""


def changed(house: House, draft: Callable[[Moves], Generator[None, None, Layout]]) -> Generator[None, None, Layout]:
    """Return the layout that the steps of ``draft`` give with the changes of a house.

    :raises LayoutRefused: with every change that can't be made.
    """
    plain = yield from draft({})
    refusals = [refusal for i, change in enumerate(house.changes) for refusal in _impossible(plain, i, change)]
    if refusals:
        raise LayoutRefused(tuple(refusals))
    moved = [(i, change) for i, change in enumerate(house.changes) if change.station is not None]
    layout = yield from draft({_place(plain.by_tag[change.truss]): change.station or 0.0 for _i, change in moved})
    refusals = [refusal for i, change in moved for refusal in _Judged(plain, layout, i, change).faults()]
    if refusals:
        raise LayoutRefused(tuple(refusals))
    return replace(layout, members=tuple(_fastened(member, house.changes) for member in layout.members))


def _place(member: Member) -> tuple[str, float]:
    (ax, ay), (bx, _by) = member.start, member.finish
    return member.row, ax if ax == bx else ay


def _impossible(plain: Layout, index: int, change: Change) -> Iterator[Refusal]:
    """What is wrong with a change before it is tried."""
    member = plain.by_tag.get(change.truss)
    if member is None:
        why = _("There is no truss of that tag on this house. Take the tag from the layout without this block.")
        yield Refusal(change.truss, plain.house.plan.outline[0], why, index)
        return
    if change.station is not None and member.kind not in MOVED:
        why = _("Only standard and truncated trusses can be moved. The others stand where the roof has them.")
        yield Refusal(change.truss, member.start, why, index)
    for end, fixing in zip(member.ends, change.fixings, strict=True):
        known = CONNECTORS if end.on_plate or member.kind == "saddle" else BRACKETS
        if fixing is not None and fixing not in known:
            why = _("{fixing} does not fit this end. Take {known}.")
            known_words = _(" or ").join(known)
            yield Refusal(change.truss, end.at, why.format(fixing=fixing, known=known_words), index)


@dataclass(frozen=True, slots=True)
class _Judged:
    """One truss that was moved: where it stands in the ``layout``, beside where it stood in the ``plain`` one."""

    plain: Layout
    layout: Layout
    index: int
    change: Change

    def faults(self) -> Iterator[Refusal]:
        """What is no longer right about it."""
        before, after = self.plain.by_tag[self.change.truss], self.layout.by_tag.get(self.change.truss)
        if after is None or not self._where_wanted(before, after):
            yield self._refused(before, _("It would pass its neighbour. Keep it between the trusses on either side."))
        elif not _like(before, after):
            yield self._refused(
                after, _("The roof there is of another height, or its ends come down on something else.")
            )
        else:
            yield from self._gaps(after)

    def _where_wanted(self, before: Member, after: Member) -> bool:
        """Whether the truss of this tag is the one that was moved, and not a neighbour that it passed."""
        (row, was), (now_row, now) = _place(before), _place(after)
        wanted = abs((self.change.station or 0.0) - before.station)
        return row == now_row and abs(abs(now - was) - wanted) <= SAME

    def _gaps(self, after: Member) -> Iterator[Refusal]:
        kept = {(bay.first, bay.second, bay.axis): bay.gap for bay in bays(self.layout)[after.tag]}
        for bay in dict.fromkeys((b.first, b.second, b.axis) for b in bays(self.plain)[after.tag]):
            first, second = (self.layout.by_tag[tag] for tag in bay[:2])
            if bay not in kept:
                why = _("It would leave more than the spacing between {first} and {second}, or pass one of them.")
                yield self._refused(after, why.format(first=first.tag, second=second.tag))
            elif kept[bay] < (first.width + second.width) / 2:
                why = _("{first} and {second} would stand inside each other.")
                yield self._refused(after, why.format(first=first.tag, second=second.tag))

    def _refused(self, member: Member, why: str) -> Refusal:
        return Refusal(self.change.truss, member.start, why, self.index)


def _like(before: Member, after: Member) -> bool:
    """Whether a truss is still of its kind: as high where that is full height, flat where it is truncated."""
    same_bearings = [end.bears_on for end in before.ends] == [end.bears_on for end in after.ends]
    high = max(z for _run, z in before.top), max(z for _run, z in after.top)
    as_high = abs(high[0] - high[1]) <= SAME
    return same_bearings and len(before.top) == len(after.top) and (as_high or before.flat_topped)


def _fastened(member: Member, changes: tuple[Change, ...]) -> Member:
    for change in changes:
        if change.truss == member.tag:
            first, last = (_with(end, fixing) for end, fixing in zip(member.ends, change.fixings, strict=True))
            member = replace(member, ends=(first, last))
    return member


def _with(end: End, fixing: str | None) -> End:
    return end if fixing is None else replace(end, fixing=fixing)
