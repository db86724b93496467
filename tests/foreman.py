"""What a foreman sees at each lift: whether every truss that stands is held. A model of its own.

It knows the layout as ``trainer layout --json`` prints it and the lines of a diary, and nothing else of the trainer: no
rule, no order, no state of a site. What *held* is, is read from the trade brief, "Order of work" (common practice, no
source); its sentences are quoted beside what follows from them.

What a diary never does counts as others' work: where nobody braces, tops are taken as tied; where nobody fixes, ends
as fixed.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

TIPS = ("standard", "truncated", "truncated_girder", "girder", "gable", "half")
HANGS_OUT = ("hip", "jack", "creeper")
TYING = ("batten", "steel brace", "diagonal")
BAY = 1250.0
"""The widest bay that a house has, and half a thickness, mm: further off, nothing is one bay away."""
NEAR = 150.0
"""A fixing this near a crossing is that crossing's, mm."""
TALL = 900.0
"""A saddle higher than this is tied at its apex, mm."""
Spot = tuple[float, float]


@dataclass(frozen=True)
class Free:
    """At action ``event`` the truss ``tag`` was free, for want of what ``why`` says."""

    event: int
    tag: str
    why: str


class Foreman:
    """Walks along a diary and keeps what stands, what is fixed and what is braced."""

    def __init__(self, layout: dict[str, Any], actions: list[dict[str, Any]]) -> None:
        self.by_tag = {member["tag"]: member for member in layout["members"]}
        self.crossings = layout["crossings"]
        self.actions = actions
        verbs = {action["do"] for action in actions}
        self.tops_given, self.ends_given = "brace" not in verbs, "fix" not in verbs
        self.standing: set[str] = set()
        self.ends: set[tuple[str, int]] = set()
        self.spots: dict[str, list[Spot]] = {}
        self.seated: set[str] = set()
        self.pieces: list[tuple[str, frozenset[str]]] = []
        self.roof_braces: list[tuple[Spot, Spot]] = []
        self.beside = {tag: self._beside(member) for tag, member in self.by_tag.items() if member["kind"] in TIPS}

    def free(self) -> Iterator[Free]:
        """Yield what is free "at every lift", and at hand-over, when all is let go."""
        for event, action in enumerate(self.actions):
            if action["do"] in ("stand", "hand_over"):
                held = self.held()
                yield from (Free(event, tag, self.wants(tag, held)) for tag in sorted(self.standing - held))
            self._do(action)

    # what is done

    def _do(self, action: dict[str, Any]) -> None:
        how = getattr(self, f"_{action['do']}", None)
        if how:
            how(action)

    def _stand(self, action: dict[str, Any]) -> None:
        self.standing.add(action["tag"])

    def _remove(self, action: dict[str, Any]) -> None:
        gone = action["tag"]
        self.standing.discard(gone)
        self.ends = {(tag, end) for tag, end in self.ends if tag != gone}
        self.spots.pop(gone, None)
        left = [(kind, tags - {gone}) for kind, tags in self.pieces]
        self.pieces = [(kind, tags) for kind, tags in left if len(tags) > (kind in TYING)]

    def _fix(self, action: dict[str, Any]) -> None:
        if "end" in action:
            self.ends.add((action["tag"], action["end"]))
        else:
            self.spots.setdefault(action["tag"], []).append(tuple(action["at"]))

    def _fit(self, action: dict[str, Any]) -> None:
        if action["part"] == "batten":
            self.seated.add(action["on"])

    def _brace(self, action: dict[str, Any]) -> None:
        # "No bracing to a beam": what is fixed to one holds nothing.
        self.pieces.append(("to a beam" if action.get("to") else action["kind"], frozenset(action["tags"])))

    def _unbrace(self, action: dict[str, Any]) -> None:
        piece = ("to a beam" if action.get("to") else action["kind"], frozenset(action["tags"]))
        if piece in self.pieces:
            self.pieces.remove(piece)

    def _restrain(self, action: dict[str, Any]) -> None:
        if action["kind"] == "roof brace":
            self.roof_braces.append((tuple(action["from"]), tuple(action["to"])))

    # what is held

    def held(self) -> set[str]:
        """All that is held: from what is solid on, as far as it reaches."""
        held: set[str] = set()
        for_good = self.braced_rows()
        while more := {tag for tag in self.standing - held if self._holds(tag, held, for_good)}:
            held |= more
        return held

    def _holds(self, tag: str, held: set[str], for_good: set[str]) -> bool:
        member = self.by_tag[tag]
        if not self.both_ends(tag):
            return False
        if member["kind"] in TIPS:
            return self.tops_given or member["row"] in for_good or self.top_tied(tag, held)
        if member["kind"] in HANGS_OUT:
            return not self.hangs_free(tag, held)
        return not self.loose_crossings(tag) and (not self.tall(tag) or self.apex_tied(tag, held))

    def wants(self, tag: str, held: set[str]) -> str:
        """What keeps a truss from being held, in a word."""
        if not self.both_ends(tag):
            return "end"
        kind = self.by_tag[tag]["kind"]
        if kind in TIPS:
            return "top"
        if kind in HANGS_OUT:
            return "extension"
        return "crossing" if self.loose_crossings(tag) else "apex"

    def both_ends(self, tag: str) -> bool:
        """ "With both ends fixed (one connector each will do)"."""
        return self.ends_given or {(tag, 1), (tag, 2)} <= self.ends

    def top_tied(self, tag: str, held: set[str]) -> bool:
        """ "Its top tied to something solid or to what is held"; "a truss with no held neighbour one bay away … is
        braced to something solid"."""
        if self.braced_solid(tag) or self.hip_end_done(tag):
            return True
        return bool(self.beside[tag] & held) and self.tied_to(tag, held)

    def braced_solid(self, tag: str) -> bool:
        return any(kind in ("solid", "wall tie") and tag in tags for kind, tags in self.pieces)

    def tied_to(self, tag: str, others: set[str]) -> bool:
        return any(kind in TYING and tag in tags and tags & others - {tag} for kind, tags in self.pieces)

    def hip_end_done(self, tag: str) -> bool:
        """ "Something solid (… a finished hip end)": all that hangs out from a truncated girder stands, fixed.

        A truncated truss is part of it where each extension of that hip end is fixed that runs over it, and the girder
        of a dutch gable where each is fixed to its waling plate.
        """
        if self.by_tag[tag]["kind"] == "truncated_girder":
            return self.all_hung_out(tag)
        if "truncated" not in _makes(self.by_tag[tag]) and not _stands_in_row(self.by_tag[tag]):
            return False
        over = [c for c in self.crossings if c["under"] == tag and c["what"] == "extension"]
        for girder in (m["tag"] for m in self.by_tag.values() if "truncated_girder" in _makes(m) or _stands_in_row(m)):
            own = [c for c in over if c["over"] in self.hung_out(girder)]
            if own and self.all_hung_out(girder) and (self.ends_given or all(self.fixed_at(c) for c in own)):
                return True
        return False

    def all_hung_out(self, girder: str) -> bool:
        end = self.hung_out(girder)
        return bool(end) and all(other in self.standing and self.both_ends(other) for other in end)

    def hung_out(self, tag: str) -> list[str]:
        """The hips, jacks and creepers of a truncated girder's hip end."""
        rows = {m["row"] for m in self.by_tag.values() if m["kind"] == "hip" and tag in m["carried_by"]}
        return [m["tag"] for m in self.by_tag.values() if m["kind"] in HANGS_OUT and m["row"] in rows]

    def hangs_free(self, tag: str, held: set[str]) -> bool:
        """ "Until the truncated trusses under it stand, it is propped or tied"."""
        under = [c for c in self.crossings if c["over"] == tag and c["what"] == "extension"]
        truncated = {c["under"] for c in under if "truncated" in _makes(self.by_tag[c["under"]])}
        if truncated <= self.standing or self.tops_given or self.tied_to(tag, held):
            return False
        if any(kind in ("prop", "solid") and tag in tags for kind, tags in self.pieces):
            return False
        return not any(c["under"] in self.standing and self.fixed_at(c) for c in under)

    def loose_crossings(self, tag: str) -> bool:
        """ "A saddle fixed at every crossing": its ends are fixed, and its batten ties it to every truss between."""
        member = self.by_tag[tag]
        between = [
            c
            for c in self.crossings
            if c["over"] == tag and min(math.dist(c["at"], member[end]) for end in ("from", "to")) > NEAR
        ]
        return not self.ends_given and tag not in self.seated and not all(self.fixed_at(c) for c in between)

    def fixed_at(self, crossing: dict[str, Any]) -> bool:
        both = (crossing["over"], crossing["under"])
        return any(math.dist(spot, crossing["at"]) <= NEAR for tag in both for spot in self.spots.get(tag, ()))

    def tall(self, tag: str) -> bool:
        """ "Where it is over 900 high"."""
        heights = [z for _, z in self.by_tag[tag]["top"]]
        return not self.tops_given and max(heights) - min(heights) > TALL

    def apex_tied(self, tag: str, held: set[str]) -> bool:
        """ "Tied at its apex to the girder or the saddle before"; a brace to something solid holds it as well."""
        carriers = {other for other in held if self.by_tag[other]["kind"] in ("girder", "saddle")}
        return self.braced_solid(tag) or self.tied_to(tag, carriers)

    def braced_rows(self) -> set[str]:
        """Rows whose permanent bracing is in: every full-height truss stands, crossed on every slope."""
        rows: dict[str, list[dict[str, Any]]] = {}
        for member in self.by_tag.values():
            if "standard" in _makes(member):
                rows.setdefault(member["row"], []).append(member)
        return {
            row
            for row, members in rows.items()
            if self.roof_braces and all(m["tag"] in self.standing and self.crossed(m) for m in members)
        }

    def crossed(self, member: dict[str, Any]) -> bool:
        """Whether roof braces cross a truss on each of its slopes."""
        apex = max(member["top"], key=lambda spot: spot[1])[0]
        length = math.dist(member["from"], member["to"])
        runs = [run for piece in self.roof_braces if (run := _meets(member, piece)) is not None]
        slopes = [(-NEAR, apex + NEAR), (apex - NEAR, length + NEAR)][: 1 if member["kind"] == "half" else 2]
        return all(any(low <= run <= high for run in runs) for low, high in slopes)

    def _beside(self, member: dict[str, Any]) -> set[str]:
        """The places one bay away: parallel, alongside, with no other in between."""
        line, low, high, along = _lie(member)
        found: list[tuple[float, str]] = []
        for other in self.by_tag.values():
            if other["kind"] in TIPS and other["tag"] != member["tag"]:
                there, other_low, other_high, other_along = _lie(other)
                if along == other_along and min(high, other_high) > max(low, other_low) and abs(there - line) <= BAY:
                    found.append((there - line, other["tag"]))
        return {
            tag
            for off, tag in found
            if not any(off * o > 0 and abs(o) < abs(off) and self._between(member, t, tag) for o, t in found)
        }

    def _between(self, member: dict[str, Any], tag: str, far: str) -> bool:
        """Whether the truss ``tag`` lies alongside both, so that it comes between them."""
        spans = [_lie(m)[1:3] for m in (member, self.by_tag[tag], self.by_tag[far])]
        return min(high for _, high in spans) > max(low for low, _ in spans)


def _makes(member: dict[str, Any]) -> tuple[str, str]:
    """Its kind, and of a half truss what it is half of."""
    return member["kind"], member.get("half_of", "")


def _stands_in_row(member: dict[str, Any]) -> bool:
    """Whether it is a dutch gable's girder: an opening's has a row of its own."""
    return bool(member["kind"] == "girder" and member["row"] != member["tag"])


def _lie(member: dict[str, Any]) -> tuple[float, float, float, int]:
    """(where its line lies, from, to along it, the axis that it runs along) of a truss that runs square."""
    (ax, ay), (bx, by) = member["from"], member["to"]
    if ax == bx:
        return ax, min(ay, by), max(ay, by), 1
    return ay, min(ax, bx), max(ax, bx), 0


def _meets(member: dict[str, Any], piece: tuple[Spot, Spot]) -> float | None:
    """How far from a truss's ``from`` a line in plan crosses it, mm; none where it does not."""
    line, _low, _high, along = _lie(member)
    (ax, ay), (bx, by) = ((p[1 - along], p[along]) for p in piece)
    if ax == bx or not min(ax, bx) - NEAR <= line <= max(ax, bx) + NEAR:
        return None
    at = ay + (by - ay) * (line - ax) / (bx - ax)
    start, finish = member["from"][along], member["to"][along]
    return (at - start) * (1 if finish > start else -1)
