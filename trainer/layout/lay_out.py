"""From a house to its layout: wings apart, girders first, then each body, then the saddles; tags last."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Generator
from dataclasses import dataclass, field
from itertools import combinations, pairwise
from typing import TypeVar, cast

from trainer.layout.bodies import Body
from trainer.layout.changes import Moves, changed
from trainer.layout.draft import Draft, DraftCrossing, LooseRafter
from trainer.layout.dutch import dutch_parts, end_of
from trainer.layout.girder_ends import clear_of_hips
from trainer.layout.ground import DraftGround, NoBearing, girder_draft
from trainer.layout.halves import kept_half
from trainer.layout.model import TAG_LETTERS, Crossing, End, House, Layout, LayoutRefused, Member, Part, Refusal, Wing
from trainer.layout.over_flats import over_flats
from trainer.layout.parts import gable_parts
from trainer.layout.rows import RowBuilder
from trainer.layout.run_on import RunOn, trusses_along
from trainer.layout.saddles import SaddleBuilder
from trainer.layout.wings import Opening, Wings, take_apart
from trainer.plan import Point, roof_parts
from trainer.plan.points import half, to_half
from trainer.roof import distance
from trainer.roof.narrow import too_short
from trainer.words import _

T = TypeVar("T")
SAME = 0.5
"""Places that differ by no more are the same, mm."""
MOST_AT_ONCE = 60
"""About so many trusses are drafted in one step."""


def lay_out(house: House) -> Layout:
    """Work out the reference layout of a house whose plan has passed ``plan_faults``.

    :raises LayoutRefused: with every reason found, where the rules can't lay the plan out.
    """
    return all_steps(lay_out_in_steps(house))


def all_steps(steps: Generator[None, None, T]) -> T:
    """Take every step at once; return what comes of them."""
    while True:
        try:
            next(steps)
        except StopIteration as done:
            return cast(T, done.value)


def lay_out_in_steps(house: House) -> Generator[None, None, Layout]:
    """Do the same a step at a time, none of them long, for who has something else to do in between."""
    wings = take_apart(house.roof_plan, house.trusses.setback)
    if wings.refusals:
        raise LayoutRefused(wings.refusals)

    if short := too_short(house.roof_plan, house.roof.overhang):
        raise LayoutRefused((_too_short(short),))

    def draft(moves: Moves) -> Generator[None, None, Layout]:
        drafting = _Drafting(house, wings, moves)
        try:
            yield from drafting.run()
        except NoBearing as missing:
            raise LayoutRefused((missing.refusal,)) from None
        return drafting.layout()

    laid_out = changed(house, draft) if house.changes else draft({})
    return (yield from laid_out)


class _BesideGable(NoBearing):
    """Raised where the trusses of a roof's parts would get in each other's way; becomes a refusal."""

    def __init__(self, at: Point, why: str) -> None:
        super().__init__(at)
        self.refusal = Refusal(_("a gable that goes on over the house"), at, why)


def _too_short(at: Point) -> Refusal:
    return Refusal(
        _("beside a gable that goes on over the house"),
        at,
        _("A wall is shorter here than its overhang. Make it longer than that, or let the gable be an eave."),
    )


@dataclass
class _Drafting:
    """One house being laid out."""

    house: House
    wings: Wings
    moves: Moves
    drafts: list[Draft] = field(default_factory=list)
    crossings: list[DraftCrossing] = field(default_factory=list)
    trimmers: list[Part] = field(default_factory=list)
    rafters: list[LooseRafter] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.ground = DraftGround(self.house)
        self.shown = self.wings.used
        self.ids = {wing: f"W{i + 1}" for i, wing in enumerate(self.shown)}
        self.rows = [self._row(body) for body in self.wings.bodies]

    def _row(self, body: Body) -> RowBuilder:
        wing = self.ids[body.left_of]
        same = [other for other in self.wings.bodies if other.left_of == body.left_of]
        name = wing if len(same) == 1 else f"{wing}.{same.index(body) + 1}"
        return RowBuilder(self.ground, self.wings, body, wing, name, 10.0 * (same.index(body) + 1), self._moved(name))

    def _moved(self, row: str) -> dict[float, float]:
        return {at: station for (name, at), station in self.moves.items() if name == row}

    def run(self) -> Generator[None, None, None]:
        """Draft every truss, in steps: the girders first, since the rest may hang on them."""
        for opening in self.wings.openings:
            wing = self.ids[opening.wing]
            line = opening.at + opening.inward * self.ground.girder_width / 2
            girder = girder_draft(self.ground, opening, wing, self._station(opening, line))
            self.ground.girders.append((opening, girder))
            self.drafts.append(girder)
        since = 0
        for row in self.rows:
            self.drafts += row.draft()
            self.crossings += row.crossings
            if len(self.drafts) - since >= MOST_AT_ONCE:
                since = len(self.drafts)
                yield
        yield
        self._clear_girder_ends()
        for index, (opening, _girder) in enumerate(self.ground.girders):
            self._saddles(index, opening)
        yield
        self._run_on()
        parted = len(roof_parts(self.house.roof_plan)) > 1
        thorough = parted or any(opening.bitten for opening in self.wings.openings)
        if thorough or any(len(row.same) > 1 for row in self.rows):
            self.rafters += over_flats(self.ground, self.drafts, self.rafters, thorough=thorough)
        self._check_carried()
        self._check_girders()
        if parted:
            self._check_under_roof()
            self._check_apart()
        yield

    def _clear_girder_ends(self) -> None:
        hips = [hip for row in self.rows for end in row.hip_ends for hip in end.hips]
        for _opening, girder in self.ground.girders:
            clear_of_hips(girder, hips, self.house.trusses.thickness, self.house.plan.plate_width)

    def _check_girders(self) -> None:
        """Refuse a layout in which two girders would stand in each other, neither carrying the other."""
        for (one, a), (other, b) in combinations(self.ground.girders, 2):
            if one.along == other.along or a in b.carriers or b in a.carriers:
                continue
            spans = zip(self._timber(a), self._timber(b), strict=True)
            shared = [min(p[1], q[1]) - max(p[0], q[0]) for p, q in spans]
            if min(shared) > SAME:
                raise NoBearing(a.ends[0].at if one.along == "x" else b.ends[0].at)

    def _check_under_roof(self) -> None:
        """Refuse a layout in which a truss would stand up through the roof of another part, beyond a gable's face."""
        for draft in self.drafts:
            (ax, ay), (bx, by) = (end.at for end in draft.ends)
            span = math.dist((ax, ay), (bx, by))
            for run, z in draft.top:
                x, y = ax + (bx - ax) * run / span, ay + (by - ay) * run / span
                off = draft.plies * self.house.trusses.thickness / 2
                whole = max(
                    distance(self.house.roof_plan, x + a, y + b) for a in (-off, 0, off) for b in (-off, 0, off)
                )
                if z > self.ground.height(whole) + SAME:
                    why = _(
                        "A truss would stand up through the roof here. Let the gable be an eave, or draw two houses."
                    )
                    raise _BesideGable((x, y), why)

    def _check_apart(self) -> None:
        """Refuse a layout in which two trusses side by side would stand in each other."""
        for low in (0, 1):
            along = [d for d in self.drafts if d.ends[0].at[low] == d.ends[1].at[low] and d.kind != "saddle"]
            along.sort(key=lambda draft: draft.ends[0].at[low])
            for one, other in pairwise(along):
                gap = other.ends[0].at[low] - one.ends[0].at[low]
                near = gap < (one.plies + other.plies) * self.house.trusses.thickness / 2 - SAME
                (a, b), (c, d) = (sorted(end.at[1 - low] for end in draft.ends) for draft in (one, other))
                if near and min(b, d) - max(a, c) > SAME:
                    why = _("Two trusses would stand in each other here. Move a wall of this part a little.")
                    raise _BesideGable(other.ends[0].at, why)

    def _timber(self, girder: Draft) -> tuple[tuple[float, float], ...]:
        """From where to where a girder goes along x, and along y."""
        half = self.ground.girder_width / 2
        ranges = zip(girder.ends[0].at, girder.ends[1].at, strict=True)
        return tuple((min(a, b), max(a, b)) if a != b else (a - half, a + half) for a, b in ranges)

    def _check_carried(self) -> None:
        """Refuse a layout in which something would hang past the end of what carries it."""
        for draft in self.drafts:
            for end in draft.ends:
                if end.carrier is not None and draft.kind != "saddle" and not _reaches(end.carrier, end.at):
                    raise NoBearing(end.at)

    def _station(self, opening: Opening, line: float) -> float:
        """Station of a line across an opening's wing."""
        for row in self.rows:
            if row.body in (*opening.throughs, opening.other) and row.body.wing == opening.wing:
                return row.station(line)
        first = opening.wing.rect[0 if opening.across == "x" else 1]
        reach = opening.wing.reach(opening.across, line)
        return reach if reach < math.inf else abs(line - first)

    def _saddles(self, index: int, opening: Opening) -> None:
        if opening.round_corner:
            return
        sides = [(opening.under, opening.inward)] if opening.under else []
        if opening.other.wing != opening.wing:
            sides.append(((opening.other,), -opening.inward))
        for bodies, away in sides:
            row = next(row for row in self.rows if row.body == bodies[0])
            rows = {row.row for row in self.rows if row.body in bodies}
            builder = SaddleBuilder(
                self.ground,
                self.wings.rects,
                opening,
                bodies,
                away,
                [d for d in self.drafts if d.kind == "girder" or d.row.split(" hip end ")[0] in rows],
                self.ids[opening.wing],
                f"opening {index + 1} saddles over {row.row}",
                self._station(opening, opening.at),
                100.0 + index,
                trimmers_before=len(self.trimmers),
            )
            self.drafts += builder.draft()
            self.crossings += builder.crossings
            self.trimmers += builder.parts

    def _run_on(self) -> None:
        """Let extensions run on over what lies past their own row, and put rafters where they can't."""
        known = {(id(c.over), id(c.under)) for c in self.crossings}
        known |= {(b, a) for a, b in known}
        for end in (end for row in self.rows for end in row.hip_ends):
            run_on = RunOn(self.ground, end, trusses_along(self.drafts, end))
            self.crossings += run_on.crossings(known)
            self.rafters += [*end.loose, *run_on.rafters()]

    def layout(self) -> Layout:
        """Give the drafts their tags, and put the layout together."""
        order = {wing: i for i, wing in enumerate(self.ids.values())}
        self.drafts.sort(key=lambda d: (order[d.wing], d.sort))
        numbers: Counter[str] = Counter()
        for draft in self.drafts:
            letters = TAG_LETTERS[kept_half(draft)]
            numbers[letters] += 1
            draft.tag = f"{letters}{numbers[letters]}"
        members = tuple(self._member(draft) for draft in self.drafts)
        crossings = tuple(Crossing(c.over.tag, c.under.tag, to_half(c.at), c.what, c.bears) for c in self.crossings)
        parts = [
            *self._gable_parts(members), *self._dutch_parts(members), *self._trimmer_parts(members),
            *self._rafter_parts(),
        ]  # fmt: skip
        wings = tuple(
            Wing(self.ids[w], w.rect, w.axis, w.width, tuple(b.rect for b in self.wings.bodies if b.left_of == w))
            for w in self.shown
        )
        return Layout(self.house, wings, members, tuple(parts), crossings)

    def _member(self, draft: Draft) -> Member:
        kind, fixings = kept_half(draft), self.house.fixings
        ends = tuple(
            End(
                to_half(end.at),
                end.bears_on,
                half(end.tail),
                fixings.of(kind, on_plate=bool(end.wall) and not end.ledger),
            )
            for end in draft.ends
        )
        return Member(
            draft.tag,
            kind,
            draft.wing,
            draft.row or draft.tag,
            half(draft.station),
            draft.plies,
            self.house.trusses.thickness,
            (ends[0], ends[1]),
            draft.top,
            tuple(carrier.tag for carrier in draft.carriers),
            draft.legs,
            draft.kind if kind == "half" else None,
        )

    def _gable_parts(self, members: tuple[Member, ...]) -> list[Part]:
        parts: list[Part] = []
        for member in members:
            if member.kind != "gable":
                continue
            row = next(row for row in self.rows if row.row == member.row)
            along = 0 if row.body.axis == "x" else 1
            gables = [i for i in (0, 1) if row.kinds[i] == "gable"]
            low_end = not min(gables, key=lambda i: abs(member.start[along] - row.u[i]))
            way = -1 if low_end else 1
            mates = [m for m in members if m.row == member.row]
            parts += gable_parts(self.ground, member, mates, (way, 0) if along == 0 else (0, way))
        return parts

    def _dutch_parts(self, members: tuple[Member, ...]) -> list[Part]:
        ends = ((girder, end_of(self.house, girder)) for girder in members)
        return [part for girder, end in ends if end for part in dutch_parts(self.house, girder, end)]

    def _rafter_parts(self) -> list[Part]:
        return [Part("loose rafter", r.on.tag, to_half(r.start), to_half(r.finish)) for r in self.rafters]

    def _trimmer_parts(self, members: tuple[Member, ...]) -> list[Part]:
        owners = {end.bears_on: m.tag for m in reversed(members) for end in m.ends}
        return [
            Part(t.part, owners.get(t.name, ""), to_half(t.start), to_half(t.finish), t.name) for t in self.trimmers
        ]


def _reaches(carrier: Draft, at: Point) -> bool:
    """Whether a place lies on a truss's centre line, between its ends."""
    return all(
        min(a, b) - 1.0 <= here <= max(a, b) + 1.0
        for a, b, here in zip(carrier.ends[0].at, carrier.ends[1].at, at, strict=True)
    )
