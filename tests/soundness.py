"""Whether a roof was built soundly, in a good order, and is complete: read from the trade brief a second time.

Knows the layout and what was done, and neither the rules, the precedence graph nor the site's own state, so
that it can say whether they missed something. The sentences of the brief are quoted beside what follows
from them; they are common practice, no source, unless a source is named there.
"""

import math
from dataclasses import dataclass, field
from itertools import combinations, pairwise

from soundness_bracing import Battens, Permanent
from soundness_dangers import Dangers
from soundness_days import Nights, Strings
from soundness_links import Links
from soundness_start import Start
from soundness_verge import Verge

from trainer.layout import Layout
from trainer.layout.model import Member
from trainer.site import AnyAction

NEAR = 10.0
"""The usual tolerance on stations, mm; a level may have its own."""
MEANT = 200.0
"""A truss this near a place is meant for it, mm."""
TALL = 900
"""A saddle higher than this is tied at its apex, mm."""
TIES = ("batten", "steel brace", "diagonal")
SOLID = ("solid", "wall tie")
TIPS_OVER = ("standard", "girder", "truncated_girder", "truncated", "gable", "half")
ACROSS_A_WING = (*TIPS_OVER, "saddle")
ENOUGH = {
    "framing anchor": {"framing anchor", "tie-down strap"},
    "tie-down strap": {"tie-down strap"},
    "hanger": {"hanger"},
    "heavy girder bracket": {"heavy girder bracket"},
}


def _in_a_row(member):
    """Whether it is a dutch gable's girder, which stands in the row of its wing: an opening's has a row of its own."""
    return member.kind == "girder" and member.row != member.tag


@dataclass
class Build:
    """A roof as it goes up; ``faults`` are sentences."""

    layout: Layout
    start: Start | None = None
    permanent: Permanent | None = None
    stood: dict[str, tuple] = field(default_factory=dict)
    bracing: list[tuple[str, tuple[str, ...]]] = field(default_factory=list)
    untied: set[tuple[str, str]] = field(default_factory=set)
    fixed: dict[tuple[str, int], set[str]] = field(default_factory=dict)
    filled: set[tuple[str, int]] = field(default_factory=set)
    brackets: dict[str, list[tuple[str, float]]] = field(default_factory=dict)
    last: str | None = None
    faults: list[str] = field(default_factory=list)
    crooked: frozenset[str] = frozenset()
    straightened: set[str] = field(default_factory=set)
    inspected: dict[str, bool] = field(default_factory=dict)
    read: set[tuple[str, str]] = field(default_factory=set)
    to_inspect: tuple[str, ...] = ()
    handed_over: bool = False

    def __post_init__(self):
        self.place_of: dict[str, tuple[Member, bool]] = {}
        self.in_place: dict[str, str] = {}
        self.between: dict[tuple[str, str], bool] = {}
        self.verge = Verge(self.start.level, self.layout) if self.start else None
        self.battens = Battens(self.start.level, self.layout) if self.start else None
        self.strings = Strings(self.start.level, self.layout) if self.start else None
        self.dangers = Dangers(self.start.level, self.layout) if self.start else None
        self.nights = Nights(self.start.level, self.layout) if self.start else None
        self.links = Links(self.layout, self.in_place, self.start.level if self.start else None)

    # what is done

    def do(self, action: AnyAction) -> None:
        getattr(self, f"do_{action.do}")(action)

    def do_check(self, action):
        if self.start:
            self.start.check(action.item)

    def do_measure(self, action):
        self.read.add((action.what, action.tag))
        if self.start:
            self.start.measure(action)

    def do_report(self, action):
        if self.start and not self.dangers.report(action):
            self.faults += self.start.report(action)

    def do_plan(self, action):
        if self.dangers:
            self.dangers.planned[action.kind] = action

    def do_stop(self, _action):
        """When lifting stops, for a gust or to ask, hands leave the truss stood last."""
        if self.last is not None and (self.last not in self.held() or self.loose_ends(self.last)):
            self.faults.append(f"stopped with {self.last} loose")
        if self.dangers:
            self.dangers.stop()

    def do_string(self, action):
        """ "Sighting along plates known to be straight is as good": it matters over a bowed plate alone."""
        if self.strings:
            self.strings.string(action.start, action.finish)

    def do_plumb(self, action):
        """ "A truss is not plumbed through" its permanent bracing."""
        if self.permanent and self.permanent.locked(action.tag):
            return
        self.straightened.add(action.tag)
        if self.strings and action.tag in self.place_of:
            self.strings.plumb(action.tag, self.place_of[action.tag][0])

    def do_inspect(self, action):
        """ "An inspection the learner carries out (choose, measure, accept or reject)"."""
        tag, place = action.tag, self.place_of.get(action.tag, (None, False))[0]
        fixed = not self.asked("fix") or all(self.fixed.get((tag, end)) for end in (1, 2))
        sound = self.straight(tag) and place is not None and fixed
        if sound != action.accept:
            self.fault(f"{tag} given the wrong verdict")
        if action.accept and not {("plumb", tag), ("bow", tag)} <= self.read:
            self.fault(f"{tag} accepted by eye")
        self.inspected[tag] = action.accept

    def do_restrain(self, action):
        if self.permanent:
            self.faults += self.permanent.restrain(action, self)

    def do_mark(self, action):
        if self.start:
            self.faults += self.start.mark(action)

    def do_fit(self, action):
        self.links.fit(action)
        if self.verge:
            self.faults += self.verge.fit(action, self)
        if action.at is not None:
            self.brackets.setdefault(action.on, []).append((action.part, action.at))

    def do_brace(self, action):
        if action.to == "beam":
            self.fault(f"{action.tags[0]} braced to a beam")
        self.bracing.append(("to a beam" if action.to else action.kind, action.tags))
        if self.battens:
            self.faults += self.battens.brace(action)

    def do_unbrace(self, action):
        """ "Temporary bracing stays until the permanent bracing that replaces it is in"."""
        held = self.held()
        if action.kind == "roof brace":
            if self.permanent:
                self.permanent.released(action.tags)
        else:
            piece = ("to a beam" if action.to else action.kind, action.tags)
            self.bracing.remove(piece if piece in self.bracing else ("to a beam", action.tags))
            if action.kind in ("batten", "steel brace"):
                self.untied |= {(a, b) for a, b in combinations(action.tags, 2) if self.a_bay(a, b)}
            if self.battens:
                self.battens.unbrace(action)
        for tag in held - self.held():
            self.fault(f"{tag} lost its bracing")
        for tag in action.tags:
            if action.kind == "solid" and not any(k == "solid" and tag in tags for k, tags in self.bracing):
                self.girder_free(tag)
        for tag in action.tags:
            if tag in self.place_of:
                self.faults += self.links.free_extension(self.place_of[tag][0], self.bracing)

    def do_clear(self, _action):
        """Nothing fell that was not at fault before."""

    def do_cut(self, action):
        """ "No cut, notch or hole inside the tails, ever"; tails are trimmed "afterwards"."""
        self.fault(f"{action.tag} cut")

    def do_load(self, action):
        """ "No load on the roof before hand-over"."""
        if action.pattern and self.dangers:
            self.dangers.pattern = action.pattern
        else:
            self.fault(f"loaded with {action.what}")

    def do_fix(self, action):
        self.faults += self.links.fix(action)
        if action.end:
            self.fixed.setdefault((action.tag, action.end), set()).add(action.with_)
            if action.nails != "half":
                self.filled.add((action.tag, action.end))

    def do_stand(self, action):
        place, flipped = self.find_place(action.tag, action.start, action.finish)
        if self.nights and self.nights.falls_before(action.tag):
            self.faults += self.nights.unsafe(self)
            self.let_go_last()
        self.let_go_last()
        if self.start:
            self.faults += self.start.stand(action.tag, place, self.all_fitted)
            self.faults += self.dangers.stand(action.tag, place)
        if place is None:
            self.fault(f"{action.tag} stands nowhere")
        else:
            self.check_piece(action, place, flipped)
            self.check_carriers(place)
            self.faults += self.links.set_down(place)
            self.check_order(place)
            self.faults += self.strings.stand(place, self.in_place) if self.strings else ()
            self.place_of[action.tag] = (place, flipped)
            self.in_place[place.tag] = action.tag
        self.stood[action.tag] = (action.start, action.finish)
        self.last = action.tag

    def do_remove(self, action):
        """Here only what stood right is taken down: work that is "done again"."""
        self.fault(f"{action.tag} taken down again")
        place, _flipped = self.place_of.pop(action.tag)
        del self.in_place[place.tag], self.stood[action.tag]
        self.straightened.discard(action.tag)
        if self.permanent:
            self.permanent.taken_down(action.tag)
        self.last = None if self.last == action.tag else self.last

    def do_hand_over(self, _action):
        self.handed_over = True
        self.let_go_last()
        self.left_inside()
        self.stripped()
        self.faults += self.dangers.hand_over() if self.dangers else ()
        for member in self.layout.members:
            if member.tag in self.in_place:
                if self.asked("fix"):
                    self.check_fixings(member)
            else:
                self.fault(f"no truss in the place of {member.tag}")
        for tag in self.to_inspect:
            if tag in self.stood and tag not in self.inspected:
                self.fault(f"{tag} not inspected")
        for tag in self.stood:
            if not self.straight(tag):
                self.fault(f"{tag} handed over crooked")
        self.check_gaps()
        self.faults += self.links.hand_over()
        if self.permanent:
            self.faults += self.permanent.hand_over(self)
        if self.verge:
            self.faults += self.verge.hand_over(self)

    @property
    def near(self):
        return self.start.level.tolerances.station if self.start else NEAR

    def asked(self, stage="", advice=""):
        """Whether the level leaves this stage to the learner, and gives this advice on the order."""
        if self.start is None:
            return True
        level = self.start.level
        return (not stage or stage in level.lesson.stages) and (not advice or advice in level.order_advice)

    # what must hold

    def fault(self, text):
        self.faults.append(text)

    def find_place(self, tag, start, finish):
        """The free place nearest to where a truss is set; its own or a like one's where two are as near."""
        found = []
        for member in self.layout.members:
            if member.tag in self.in_place:
                continue
            for flipped, (a, b) in enumerate(((start, finish), (finish, start))):
                out = max(math.dist(a, member.start), math.dist(b, member.finish))
                if out <= MEANT:
                    found.append((round(out), not same_make(member, self.layout.by_tag[tag]), flipped, member.tag))
        if not found:
            return None, False
        _out, _unlike, flipped, place = min(found)
        return self.layout.by_tag[place], bool(flipped)

    def check_piece(self, action, place, flipped):
        """Every truss "stands on its station, the right way round"."""
        member = self.layout.by_tag[self.start.piece(action.tag) if self.start else action.tag]
        if not same_make(member, place):
            self.fault(f"{action.tag} is not the piece for the place of {place.tag}")
        elif flipped and not alike_from_both_ends(member):
            self.fault(f"{action.tag} is end for end")
        a, b = (action.finish, action.start) if flipped else (action.start, action.finish)
        ux, uy = place.direction
        for at, wanted in ((a, place.start), (b, place.finish)):
            dx, dy = at[0] - wanted[0], at[1] - wanted[1]
            if max(abs(dx * ux + dy * uy), abs(dy * ux - dx * uy)) > self.near:
                self.fault(f"{action.tag} is off its station")

    def check_carriers(self, place):
        """ "A carrier stands, is braced, has its bracket fitted and is fixed before what it carries is set down"; for
        saddles, "only over trusses that are … braced and fixed"."""
        held = self.held()
        for carrier in place.carried_by:
            truss = self.in_place.get(carrier)
            if truss is None:
                self.fault(f"{place.tag} before its carrier {carrier}")
            elif truss not in held:
                self.fault(f"{place.tag} on {carrier}, which is not braced")
            elif not all(self.fixed.get((truss, end)) for end in (1, 2)):
                self.fault(f"{place.tag} on {carrier}, which is not fixed")
            elif place.kind == "saddle" and not self.straight(truss):
                self.fault(f"{place.tag} on {carrier}, which is not straight")
        for end in (1, 2):
            if not self.has_bracket(place, end):
                self.fault(f"{place.tag} without its bracket")

    def all_fitted(self, carrier):
        return all(
            self.has_bracket(self.layout.by_tag[tag], end)
            for tag in self.layout.carries[carrier]
            for end in (1, 2)
            if self.layout.by_tag[tag].ends[end - 1].bears_on == carrier
        )

    def straight(self, tag):
        """A truss "within limits need not be plumbed"; hands bring any other within them."""
        place = self.place_of.get(tag, (None, False))[0]
        if self.strings and not self.strings.in_line(tag, place):
            return False
        return tag not in self.crooked or tag in self.straightened or self.layout.by_tag[tag].kind not in TIPS_OVER

    def has_bracket(self, place, end):
        """Brackets at one spot of a carrier serve as many hung ends as there are of them."""
        here = place.ends[end - 1]
        if here.bears_on.startswith("ledger "):
            wall = self.layout.house.plan.by_name[here.bears_on.split()[1]]
            run = math.dist(wall.a, here.at)
            parts = self.brackets.get(here.bears_on, ())
            return any(part == here.fixing and abs(at - run) <= self.near for part, at in parts)
        if place.kind == "saddle" or here.bears_on not in self.layout.by_tag:
            return True
        carrier = self.layout.by_tag[here.bears_on]
        run = along(carrier, here.at)
        parts = self.brackets.get(carrier.tag, ())
        there = sum(part == here.fixing and abs(at - run) <= self.near for part, at in parts)
        used = 0
        for tag in self.in_place:
            other = self.layout.by_tag[tag]
            if tag == place.tag or other.kind == "saddle":
                continue
            used += sum(
                e.bears_on == carrier.tag and e.fixing == here.fixing and abs(along(carrier, e.at) - run) <= self.near
                for e in other.ends
            )
        return there > used

    def held(self, hip_ends=True):
        """What is "tied to what is held": solid, tied to it, or fixed at both ends to what is held."""
        held = {tag for kind, tags in self.bracing if kind in SOLID for tag in tags if tag in self.stood}
        held |= self.permanent.held(self) if self.permanent else set()
        held |= set(self.hip_ends_done()) if hip_ends and self.asked("brace") else set()
        ties = [tags for kind, tags in self.bracing if kind in TIES]
        grew = True
        while grew:
            size = len(held)
            for tags in ties:
                for tag in tags:
                    if tag in self.stood and tag not in held and self.layout.by_tag[tag].kind in TIPS_OVER:
                        held |= {tag} if any(o in held and self.a_bay(tag, o) for o in tags if o != tag) else set()
            for tag in self.stood:
                if tag not in held and self.layout.by_tag[tag].kind not in TIPS_OVER and self.held_by_ends(tag, held):
                    held.add(tag)
            grew = len(held) > size
        return held

    def hip_ends_done(self):
        """ "Something solid (… a finished hip end)": its truncated girder, and what all its extensions are fixed to.

        A dutch gable's girder is held where they are all fixed to its waling plate.
        """
        members = self.layout.members
        for girder in (m for m in members if m.kind == "truncated_girder" or _in_a_row(m)):
            rows = {m.row for m in members if m.kind == "hip" and girder.tag in m.carried_by}
            end = [m.tag for m in members if m.kind in ("hip", "jack", "creeper") and m.row in rows]
            if not end or any(o not in self.in_place or self.loose_ends(self.in_place[o]) for o in end):
                continue
            over = [c for c in self.links.extensions() if c.over in end]
            loose = {c.under for c in over if self.asked("fix") and not self.links.joints[c.over, c.under]}
            crossed = {c.under for c in over if self.layout.by_tag[c.under].kind == "truncated"} - loose
            own = () if girder.kind == "girder" and girder.tag in loose else (girder.tag,)
            yield from (self.in_place[place] for place in (*own, *crossed) if place in self.in_place)

    def held_by_ends(self, tag, held):
        """Fixed at both ends, on what is held; "a saddle … tied at its apex … where it is over 900 high"."""
        place, _flipped = self.place_of.get(tag, (self.layout.by_tag[tag], False))
        if self.loose_ends(tag) or any(self.in_place.get(carrier) not in held for carrier in place.carried_by):
            return False
        heights = [z for _run, z in self.layout.by_tag[tag].top]
        if place.kind != "saddle" or not self.asked("brace") or max(heights) - min(heights) <= TALL:
            return True
        ties = [tags for kind, tags in self.bracing if kind in TIES and tag in tags]
        return any(o in held and self.a_bay(tag, o) for tags in ties for o in tags if o != tag)

    def loose_ends(self, tag):
        return [end for end in (1, 2) if self.asked("fix") and not self.fixed.get((tag, end))]

    def a_bay(self, tag, other):
        """ "One bay away": side by side, no further apart than neighbours stand, give or take half as much."""
        if tag not in self.stood or other not in self.stood:
            return False
        (ax, ay), (bx, by) = self.stood[tag]
        (cx, cy), (dx, dy) = self.stood[other]
        along = math.dist((ax, ay), (bx, by))
        off = [abs((bx - ax) * (y - ay) - (by - ay) * (x - ax)) / along for x, y in ((cx, cy), (dx, dy))]
        near = (
            max(off) - min(off) < 0.2 * math.dist((cx, cy), (dx, dy))
            and sum(off) / 2 <= 1.5 * self.layout.house.trusses.spacing
        )
        return near and not self.one_between(tag, other)

    def one_between(self, tag, other):
        """Whether the finished house has a truss between these two places, alongside both of them."""
        one, two = (self.place_of.get(t, (None, False))[0] for t in (tag, other))
        if one is None or two is None or {one.kind, two.kind} - set(TIPS_OVER):
            return False
        if (one.tag, two.tag) not in self.between:
            self.between[one.tag, two.tag] = self.stands_between(one, two)
        return self.between[one.tag, two.tag]

    def stands_between(self, one, two):
        across = 0 if abs(one.start[0] - one.finish[0]) < 1 else 1

        def lies(member):
            return sorted((member.start[1 - across], member.finish[1 - across]))

        (low, high), (a, b) = sorted((one.start[across], two.start[across])), zip(lies(one), lies(two), strict=True)
        start, finish = max(a), min(b)
        return any(
            low + 1 < m.start[across] < high - 1
            and abs(m.start[across] - m.finish[across]) < 1
            and min(lies(m)[1], finish) > max(lies(m)[0], start)
            for m in self.layout.members
            if m.kind in TIPS_OVER
        )

    def girder_free(self, tag):
        """ "For a girder its plies joined, both ends fixed, its brackets filled, and its top chord tied into the
        permanently braced row that it stands beside"."""
        place, _flipped = self.place_of.get(tag, (self.layout.by_tag[tag], False))
        if place.kind != "girder" or not self.asked("brace"):
            return
        for_good = self.permanent.held(self) if self.permanent else set()
        ties = [tags for kind, tags in self.bracing if kind in TIES and tag in tags]
        tied = any(o in for_good and self.a_bay(tag, o) for tags in ties for o in tags if o != tag)
        held = tied or tag in set(self.hip_ends_done())
        if not held or not self.finished(place, tag):
            self.fault(f"{tag} lost its bracing before it was finished")

    def finished(self, place, tag):
        hung = [o for o in self.layout.carries[place.tag] if self.layout.by_tag[o].kind != "saddle"]
        filled = all(o in self.in_place and not self.loose_ends(self.in_place[o]) for o in hung)
        joined = not self.asked("fix") or not list(self.links.unjoined(place.tag))
        return joined and filled and not self.loose_ends(tag)

    def left_inside(self):
        """ "Then braces to floor, walls and ground, and props, come out before hand-over"."""
        if not self.asked("brace"):
            return
        for_good = self.permanent.held(self) if self.permanent else set()
        rest = [(kind, tags) for kind, tags in self.bracing if kind not in ("solid", "prop")]
        whole, self.bracing = self.bracing, rest
        tops = self.held(hip_ends=False)  # "for a row its permanent bracing" is what its braces wait for
        self.bracing = whole
        for kind, tags in whole:
            for tag in tags:
                place, _flipped = self.place_of.get(tag, (self.layout.by_tag[tag], False))
                if kind == "prop" and tag in self.place_of and not list(self.links.free_extension(place, rest)):
                    self.fault(f"a prop left under {tag}")
                if kind == "solid" and (tag in tops or any(self.a_bay(tag, o) for o in tops if o != tag)):
                    beside = tag in tops or place.kind == "girder" or place.kind in ("saddle",) or tag in for_good
                    # "The permanently braced row that it stands beside": a stub wing has none.
                    in_row = any(self.a_bay(tag, o) for o in for_good if o != tag)
                    if beside and (place.kind != "girder" or (in_row and self.finished(place, tag))):
                        self.fault(f"a brace left inside at {tag}")

    def stripped(self):
        """ "Temporary ties along top chords stay until battens replace them"."""
        ties = [set(tags) for kind, tags in self.bracing if kind in TIES]
        for pair in sorted(self.untied):
            tips = all(self.layout.by_tag[tag].kind in TIPS_OVER for tag in pair)
            if tips and self.a_bay(*pair) and not any(set(pair) <= tags for tags in ties):
                self.fault(f"{pair[0]} and {pair[1]} stripped of their tie")

    def let_go_last(self):
        """ "At every lift, every truss that stands is held": its top, and both ends, by one connector each at least."""
        tag, self.last = self.last, None
        if tag is None:
            return
        if tag not in self.held():
            self.fault(f"{tag} let go loose")
        elif self.at_higher_wall(tag) and not any(kind == "wall tie" and tag in tags for kind, tags in self.bracing):
            self.fault(f"{tag} let go not tied to the wall")
        if tag in self.place_of and not self.handed_over:
            self.faults += self.links.free_extension(self.place_of[tag][0], self.bracing)
        for end in self.loose_ends(tag):
            self.fault(f"{tag} left with end {end} not fixed")

    def at_higher_wall(self, tag):
        """ "Each top tied to the wall before it is let go"; "the last truss's face against the wall and tied to it"."""
        place, _flipped = self.place_of.get(tag, (self.layout.by_tag[tag], False))
        if not self.asked("brace") or place.kind not in TIPS_OVER:
            return False
        walls = [wall for wall in self.layout.house.plan.walls if wall.against]
        hung = any(end.bears_on == f"ledger {wall.name}" for end in place.ends for wall in walls)
        ends = [
            (wall.inward, at[0] - wall.a[0], at[1] - wall.a[1]) for wall in walls for at in (place.start, place.finish)
        ]
        off = [abs(x * inward[0] + y * inward[1]) for inward, x, y in ends]
        return hung or any(a == b == place.width / 2 for a, b in zip(off[::2], off[1::2], strict=True))

    def check_order(self, place):
        """The sentences under "Should", each within one wing."""
        members = self.layout.members
        # "Girders first"
        if place.kind != "girder" and self.asked(advice="girders first"):
            self.want_up(place, [m for m in members if m.kind == "girder" and m.wing == place.wing])
        row = place.row.split(" hip end ")[0]
        in_row = [m for m in members if m.row == row]
        # "finish a hip end (truncated trusses, then jacks and creepers)"; "a centre jack early" is not marked
        if place.kind in ("jack", "creeper") and not self.centre_jack(place):
            self.want_up(place, self.truncated_of(place.row))
        full = sorted((m for m in in_row if m.kind == "standard" or m.is_dutch), key=spot)
        outermost = {m.tag: m for m in (full[:1] + full[-1:])}
        if place.full_height:
            # "before the middle"
            for end in {m.row for m in members if m.row.startswith(f"{row} hip end ")}:
                self.want_up(place, [m for m in members if m.row == end] + self.truncated_of(end))
            # "from apex to apex of the outermost full-height trusses before the ones between"
            if place.kind == "standard" and place.tag not in outermost and self.asked(advice="outermost first"):
                self.want_up(place, outermost.values())

    def centre_jack(self, place):
        """A jack that hangs at the middle of its truncated girder."""
        carriers = [self.layout.by_tag[tag] for tag in place.carried_by] if place.kind == "jack" else []
        middles = [((c.start[0] + c.finish[0]) / 2, (c.start[1] + c.finish[1]) / 2) for c in carriers]
        return any(math.dist(end.at, middle) <= 1 for end in place.ends for middle in middles)

    def truncated_of(self, hip_end):
        """The truncated girder of a hip end, and the truncated trusses nearer to it than to another."""
        row = hip_end.split(" hip end ")[0]
        girders = [m for m in self.layout.members if m.row == row and m.kind == "truncated_girder"]
        ours = {c for m in self.layout.members if m.row == hip_end and m.kind == "hip" for c in m.carried_by}
        found = [g for g in girders if g.tag in ours]
        for member in self.layout.members:
            if member.row == row and member.flat_topped and found:
                nearest = min(girders, key=lambda g: (abs(spot(g) - spot(member)), g.tag))
                found += [member] if nearest.tag in ours else []
        return found

    def want_up(self, place, earlier):
        for member in earlier:
            if member.tag not in self.in_place:
                self.fault(f"{place.tag} before {member.tag}")

    def check_fixings(self, place):
        """ "Carried trusses fastened, tie-down at every bearing"."""
        truss, flipped = self.in_place[place.tag], self.place_of[self.in_place[place.tag]][1]
        for end in (1, 2):
            own = 3 - end if flipped else end
            wanted = ENOUGH[place.ends[end - 1].fixing]
            if not self.fixed.get((truss, own), set()) & wanted:
                self.fault(f"{truss} not fastened at end {own}")
            elif (truss, own) not in self.filled:
                self.fault(f"{truss} half nailed at end {own}")
            self.faults += self.links.light(place, end, own)

    def check_gaps(self):
        """No "gap is ever more than the spacing", along one plate or one girder, and along a wing."""
        lines: dict[tuple[str, ...], dict[str, int]] = {}
        for member in self.layout.members:
            if member.kind in ACROSS_A_WING:
                lines.setdefault((member.wing, "across", str(runs_along(member))), {})[member.tag] = 1
            if member.kind not in ("hip", "saddle", "girder"):
                for end in (1, 2):
                    lines.setdefault((member.ends[end - 1].bears_on, str(runs_along(member))), {})[member.tag] = end
        for line, ends_on_it in lines.items():
            self.check_line(line, ends_on_it)

    def check_line(self, line, ends_on_it):
        spacing = self.layout.house.trusses.spacing
        places = sorted((self.layout.by_tag[tag] for tag in ends_on_it), key=spot)
        for one, other in pairwise(places):
            to_face = to_girder_face(one, other)
            if spot(other) - spot(one) + to_face > spacing:
                continue  # no neighbours: a court or a wing of its own lies between
            here = [self.end_of(place, ends_on_it[place.tag]) for place in (one, other)]
            if None not in here and abs(here[1] - here[0]) + to_face > spacing + self.near:
                self.fault(f"gap from {one.tag} to {other.tag} on {line[0]}")

    def end_of(self, place, end):
        """How far along its row the end of a place's truss stands, if one does."""
        truss = self.in_place.get(place.tag)
        if truss is None:
            return None
        flipped = self.place_of[truss][1]
        return self.stood[truss][(2 - end) if flipped else (end - 1)][runs_along(place)]


def to_girder_face(one, other):
    """What a gap to a girder's outside face, which is on the plate line, is more than to its centre line."""
    girders = [m for m in (one, other) if m.kind == "girder"]
    if not girders:
        return 0.0
    inside = "saddle" in (one.kind, other.kind)
    return girders[0].plies * girders[0].thickness / 2 * (1 if inside else -1)


def runs_along(member):
    """The coordinate that tells the trusses of a row apart: 0 for x, 1 for y."""
    return 0 if member.start[0] == member.finish[0] else 1


def spot(member):
    """Where a truss that runs straight across stands along its row."""
    return member.start[runs_along(member)]


def along(carrier, at):
    (x, y), (ux, uy) = carrier.start, carrier.direction
    return (at[0] - x) * ux + (at[1] - y) * uy


def shape(member):
    return [round(value) for point in member.top for value in point]


def ends(member):
    return [(end.on_plate, round(end.tail)) for end in member.ends]


def same_make(a, b):
    """The same piece: as long, as thick, the same roof line and the same ends."""
    return (a.kind, a.plies, shape(a), ends(a)) == (b.kind, b.plies, shape(b), ends(b))


def alike_from_both_ends(member):
    mirrored = [round(value) for run, z in reversed(member.top) for value in (member.span - run, z)]
    return ends(member) == ends(member)[::-1] and all(
        abs(p - q) <= 1 for p, q in zip(shape(member), mirrored, strict=True)
    )


def is_crooked(member, lean, bow, level):
    """Whether a truss stands out of the limits: "lesser of height/50 and 50", "lesser of length/200 and 50".

    A level, or its style, may have numbers of its own.
    """
    upright, straight = level.tolerances.plumb, level.tolerances.bow
    height = max(z for _, z in member.top)
    out = abs(lean) > min(height / upright.ratio, upright.cap)
    return out or abs(bow) > min(member.span / straight.ratio, straight.cap)


def faults(layout, actions, level=None, crooked=frozenset(), to_inspect=()):
    """Every fault of building, in order, as sentences; ``actions`` are those that could be done.

    With ``level``, what it asks for before the first lift, and of permanent bracing, is looked at too. ``crooked``
    are the trusses that stand out of the limits until someone straightens them; ``to_inspect`` those that the job
    sheet names.
    """
    start, permanent = (Start(level, layout), Permanent(level, layout)) if level else (None, None)
    build = Build(layout, start, permanent, crooked=crooked, to_inspect=to_inspect)
    for action in actions:
        build.do(action)
    return build.faults
