"""What has to be done before the first lift: read from the trade brief a second time, beside ``soundness.py``.

Knows a level's site block and what was done, and neither the rules nor the site's own state. Common practice, no
source, unless one is named.
"""

from dataclasses import dataclass, field

from soundness_beams import under

from trainer.layout import Layout
from trainer.layout.marks import mark_run
from trainer.level import Level
from trainer.order import marks_end

ON_THE_TAPE = {
    "straight": "bowed wall",
    "level": "plate out of level",
    "length": "wrong length",
    "diagonals": "out of square",
}
BY_EYE = {
    "wall not braced": {"walls braced"},
    "studs missing": {"studs under girders", "walls braced"},
    "service line": {"power lines", "exclusion zone"},
    "open stair void": {"falls inside", "edge protection"},
    "missing rail": {"edge protection"},
    "missing platform": {"edge protection"},
    "people in the exclusion zone": {"exclusion zone"},
    "gust forecast": {"weather"},
    "sling at the apex": {"lifting plan", "delivery"},
    "licence missing": {"lifting plan", "method statement"},
    "pack on a half-braced row": set(),
    "post brace taken off": set(),
    "beam not bolted down": {"beams and posts", "walls braced"},
    "beam propped": {"beams and posts", "walls braced"},
    "post not braced": {"beams and posts", "walls braced"},
    "post not tied down": {"beams and posts", "walls braced"},
}
FOR_IT = 150
"""A mark this near a station, mm, is meant for it."""
AT_FIRST_LIFT = ("pack landed badly", "missing truss", "out of square")


@dataclass
class Start:
    """The pre-start of one level as it goes on."""

    level: Level
    layout: Layout
    marks: dict[str, list[float]] = field(default_factory=dict)
    checked: set[str] = field(default_factory=set)
    measured: set[tuple[str, str]] = field(default_factory=set)
    lifted: bool = False
    cleared: bool = False

    def __post_init__(self):
        site, most = self.level.site, self.level.tolerances.plates
        self.wrong = [(w.fault, w.wall) for w in site.walls if not w.by or abs(w.by) > most]
        self.wrong += [(t.fault, t.truss) for t in site.delivery]
        self.known: dict[str, set[float]] = {}
        self.other = {t.truss: t.other for t in site.delivery if t.other}

    def check(self, item):
        self.checked.add(item)

    def measure(self, action):
        self.cleared = self.cleared or action.what == "clearance"
        if action.wall:
            self.measured.add((ON_THE_TAPE[action.what], action.wall))
            if action.what == "straight":
                self.measured.add(("bowed beam", action.wall))

    def report(self, action):
        """A fault reported is put right; one that is not there, and was not looked for, costs others their time."""
        names = {action.wall, action.tag}
        right = [
            (fault, of)
            for fault, of in self.wrong
            if fault == action.fault and (of in names or self.other.get(of, "-") in names or fault == "out of square")
        ]
        self.wrong = [wrong for wrong in self.wrong if wrong not in right]
        if not right and not self.looked(action.fault, action.wall):
            yield f"{action.fault} reported of {action.wall or action.tag}, which it is not"

    def looked(self, fault, wall):
        if fault in (*ON_THE_TAPE.values(), "bowed beam"):
            return any(what == fault and (of == wall or fault == "out of square") for what, of in self.measured)
        if fault == "service line" and self.cleared:
            return True
        places = BY_EYE.get(fault, {"delivery"})
        return bool(places & self.checked) or not places & set(self.level.site.checks)

    def mark(self, action):
        """ "Stations marked on the plates, and on girders for what hangs there"."""
        where = action.wall or action.on
        near = min(self.stations(where), key=lambda run: abs(run - action.at), default=None)
        tolerance, made = self.level.tolerances.station, self.marks.setdefault(where, [])
        meant = near is not None and tolerance < abs(near - action.at) <= FOR_IT
        if meant and not any(abs(at - near) <= tolerance for at in made):
            yield f"mark on {where} at {action.at:g} is not at {near:g}"
        made.append(action.at)

    def stations(self, where):
        if where not in self.known:
            self.known[where] = {
                mark_run(self.layout, member, end)
                for member in self.layout.members
                for end in (1, 2)
                if marks_end(member, end)
                and member.ends[end - 1].bears_on in (where, f"plate {where}", f"ledger {where}")
            }
        return self.known[where]

    def unmarked(self, place):
        """A truss goes to its mark; one that has none was stood by eye. A mark is for the station nearest to it."""
        for end in (1, 2):
            if "set-out" in self.level.lesson.stages and marks_end(place, end):
                where, run = place.ends[end - 1].bears_on.split()[-1], mark_run(self.layout, place, end)
                made = [at for at in self.marks.get(where, ()) if abs(at - run) <= FOR_IT]
                if not any(min(self.stations(where), key=lambda station: abs(station - at)) == run for at in made):
                    yield f"{place.tag} not marked on {where}"

    def stand(self, tag, place, fitted):
        """ "Pre-start before anything is lifted"; "walls that won't take the roof"; "a damaged or missing truss"."""
        if not self.lifted and "pre-start" in self.level.lesson.stages:
            yield from (f"lifted before {item}" for item in self.level.site.checks if item not in self.checked)
            yield from (f"lifted with {what} of {of}" for what, of in self.wrong if what in AT_FIRST_LIFT)
        self.lifted = True
        if place:
            yield from self.unmarked(place)
        there = place or self.layout.by_tag[tag]
        walls = {end.bears_on.split()[-1] for end in there.ends} | {self.layout.at_wall.get(there.tag)}
        beams = {under(self.level, end) for end in there.ends}
        for what, of in self.wrong:
            if what == "bowed beam" and of in beams:
                yield f"{tag} on a beam of wall {of} that is bowed"
            if of in walls and what in ("bowed wall", "plate out of level", "wrong length", "wall not braced"):
                yield f"{tag} on wall {of}: {what}"
            if of in walls and what == "ledger on brick veneer":
                yield f"{tag} hung on wall {of}: {what}"
            if of in walls and what == "studs missing" and (self.heavy(tag) or not self.carries_girder(of)):
                yield f"{tag} on wall {of} without studs"
            if of == self.piece(tag) and what in ("broken web", "loose nailplate", "unwanted tail"):
                yield f"{tag} stood with a {what}"
            if of == self.piece(tag) and what == "loose brackets" and not fitted(of):
                yield f"{tag} stood with its brackets loose"

    def piece(self, tag):
        """The truss that really wears a tag."""
        for one, other in self.other.items():
            if ("swapped tag", one) in self.wrong and tag in (one, other):
                return other if tag == one else one
        return tag

    def heavy(self, tag):
        return self.layout.by_tag[tag].kind in ("girder", "truncated_girder")

    def carries_girder(self, wall):
        return any(
            self.heavy(m.tag) and any(end.bears_on == f"plate {wall}" for end in m.ends) for m in self.layout.members
        )
