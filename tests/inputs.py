"""How often a mouse or a keyboard is pressed for a whole right build, with routine done in one go and without.

``PYTHONPATH=. python tests/inputs.py [LEVEL ...]`` builds each level on the board to 100, and prints what was pressed:
each press of the mouse, each notch of its wheel, each key. Beside it stands the same with every act done singly.
"""

import math
import os
import sys
from collections.abc import Callable, Iterator

os.environ.setdefault("SDL_VIDEODRIVER", "dummy")

import pygame
from attempts import LEVELS
from board_person import ByKeyboard, ByMouse, Person, filled, piece_of, pulled, which

from trainer.board.aim import LIES_NAMES, Aim, aims_of, bears_on_a_wall, foot
from trainer.board.library import read_entry
from trainer.board.scenes.result import ResultScreen
from trainer.board.scenes.work_frame import stage_label
from trainer.board.tools.fit import WHOLE
from trainer.board.tools.hand import FIRST_CORNER, OTHER_CORNER, yard
from trainer.board.tools.panel import DO_IT
from trainer.board.tools.plan import SLUNG_NAMES
from trainer.board.tools.registry import STAGE_TOOLS, TOOLS, stage_of
from trainer.board.tools.unbrace import lengths_of
from trainer.board.widgets import Choice, Node
from trainer.plan import Point
from trainer.rules.judge import judge
from trainer.session.hands import (
    bracket_places,
    brackets_along,
    fix_along,
    hold_it,
    run_on,
    straighten_along,
    strike_alike,
)
from trainer.session.hints import Hint, hints
from trainer.session.runs import go_round, parts_alike, stand_run, straps_alike
from trainer.shipped import find_level
from trainer.site import AnyAction, Fit, Fix, HandOver, Mark, Refused, Restrain, Site, Stand, act
from trainer.site.actions import Check, Measure, Plan, Plumb, Unbrace
from trainer.site.fastening import BRACKETS
from trainer.site.job import Hung
from trainer.site.load_path import SLOTTED
from trainer.site.marking import READ
from trainer.site.placing import same_both_ways
from trainer.site.query import row_of
from trainer.site.uplift import wanted
from trainer.terms import READINGS, VERBS, thing

Acts = tuple[AnyAction, ...]
NEAR = 5.0
"""As near to a measure as is good enough, mm: nobody marks to the half millimetre."""
CLOSE = 0.8
"""As near to a station as a single mark has to be aimed, as a share of the level's tolerance."""
ORDER = (
    "check", "report", "plan", "mark", "join", "seat", "stand", "fit", "trim", "tie", "fix", "prop", "cross", "bridge",
    "slot", "string", "plumb", "frame", "restrain", "read", "inspect", "load", "strike", "hand_over",
)  # fmt: skip
"""What a carpenter who could do several things does first."""


class Counted(Person):
    """Counts what is pressed. What shows is looked at once, until something happens."""

    pressed = 0
    notches = 0
    _seen: Node | None = None

    def __init__(self, size: tuple[int, int]) -> None:
        super().__init__(size)
        handle = self.app.handle

        def handled(event: pygame.event.Event) -> None:
            self._seen = None
            handle(event)

        self.app.handle = handled  # type: ignore[method-assign]

    def pass_time(self, ms: int) -> None:
        self._seen = None
        super().pass_time(ms)

    def wait(self, frames: int = 1, ms: int = 50) -> None:
        self._seen = None
        super().wait(frames, ms)

    def tree(self) -> Node:
        if self._seen is None:
            self._seen = super().tree()
        return self._seen

    def _press_key(self, name: str, ctrl: bool, shift: bool, alt: bool) -> None:
        self.pressed += 1
        super()._press_key(name, ctrl, shift, alt)

    def press(self, pos: tuple[int, int], button: int = 1) -> None:
        self.pressed += 1
        super().press(pos, button)

    def wheel(self, pos: tuple[int, int], amount: int) -> None:
        self.pressed += abs(amount)
        self.notches += abs(amount)
        super().wheel(pos, amount)

    def click_row(self, listing: str, row: str) -> None:
        """Press on a row; one that is out of sight is come to by a press on the bar beside the list."""
        node = self.see("list", listing)
        found = next(child for child in node.children if child.key == row)
        if not node.rect.top <= found.rect.centery < node.rect.bottom:
            top, whole = node.children[0].rect.top, node.children[-1].rect.bottom - node.children[0].rect.top
            bar = max(28, node.rect.height**2 / whole)
            part = (found.rect.centery - top - node.rect.height / 2) / (whole - node.rect.height)
            y = node.rect.top + max(0.0, min(1.0, part)) * (node.rect.height - bar) + bar / 2
            self.click((node.rect.right - 3, round(y)))
        super().click_row(listing, row)

    def press_until(self, key: str, choice: str, wanted: str) -> None:
        """Step a choice by its key, back with Shift where that is shorter."""
        steps, forward = self._steps(choice, wanted)
        self.key(key, times=steps, shift=not forward)
        super().press_until(key, choice, wanted)

    def _steps(self, choice: str, wanted: str) -> tuple[int, bool]:
        """How many steps of a choice it is to a value the shorter way round, and whether that is forward."""
        now = self.see("choice", choice).value
        widgets = (w for region in self.app.scene.roots.values() for w in region.walk())
        options = next(w.options for w in widgets if isinstance(w, Choice) and w.name == choice)
        steps = (options.index(wanted) - options.index(now)) % len(options)
        forward = steps <= len(options) / 2
        return (steps if forward else len(options) - steps), forward

    def choose_by_mouse(self, choice: str, wanted: str) -> None:
        """Step a choice the shorter way round."""
        steps, forward = self._steps(choice, wanted)
        for _ in range(steps):
            box = self.see("choice", choice).rect
            self.click((box.right - 12 if forward else box.left + 12, box.bottom - 12))


class Foreman:
    """Chooses right acts by what would be right now; with hands, as much in one go as goes on being right."""

    def __init__(self, person: Person, *, hands: bool) -> None:
        self.person = person
        self.hands = hands

    @property
    def site(self) -> Site:
        return self.person.work.site

    def next(self) -> Acts:
        """Return the actions of the next act."""
        ready = hints(self.site)
        assert ready, "nothing is left to do, and it is not handed over"
        if ready[0].urgent:
            return self._most(ready[0].action)
        fitting = self.hands and self.person.work.tool.verb == "fit"
        if fitting and (more := self._brackets()):
            return more
        hint = min(ready, key=self._cost)
        if isinstance(hint.action, Mark) and self.hands:
            on = hint.action.on
            return self._marks([h.action for h in ready if isinstance(h.action, Mark) and h.action.on == on])
        if isinstance(hint.action, Plan):
            plan = hint.action
            alike = [h.action for h in ready if isinstance(h.action, Plan)]
            return tuple(p for p in alike if (p.by, p.people, p.slung) == (plan.by, plan.people, plan.slung))
        if isinstance(hint.action, Fit) and hint.action.part in BRACKETS and self.hands and (more := self._brackets()):
            return more
        return self._most(hint.action)

    def _brackets(self) -> Acts:
        """First a bracket for a place on a standing carrier at which more hang than at others, or something heavier;
        then one at every mark, and again where trusses meet at every mark.
        """
        single = self.site.job.hung
        along: Acts = ()
        for on, stood in self.site.stood.items():
            hung = single.get(stood.place or "", ())
            missing = [one for one in hung if self._many(hung, one) > self._fitted(on, one)]
            least = min((self._many(hung, one) for one in hung), default=0)
            marks = bracket_places(self.site, on)
            for one in missing:
                marked = any(abs(one.at - at) <= NEAR for at in marks)
                if one.part != BRACKETS[0] or not marked or self._many(hung, one) - least > self._fitted(on, one):
                    return (Fit(part=one.part, on=on, at=one.at),)
            run = brackets_along(self.site, BRACKETS[0], on)
            useful = all(any(abs((fit.at or 0) - one.at) <= NEAR for one in missing) for fit in run)
            if not along and useful and len(run) > 1 and self._right(run):
                along = run
        return along

    @staticmethod
    def _many(hung: tuple[Hung, ...], one: Hung) -> int:
        return sum(abs(one.at - other.at) <= NEAR and one.part == other.part for other in hung)

    def _fitted(self, on: str, one: Hung) -> int:
        near = (part for part in self.site.fitted.get(on, ()) if part.at is not None and part.part == one.part)
        return sum(abs((part.at or 0) - one.at) <= 2 * NEAR for part in near)

    def _cost(self, hint: Hint) -> tuple[object, ...]:
        action, verb, work = hint.action, hint.step.verb, self.person.work
        first = ORDER.index(verb) if verb in ORDER else 0
        on = getattr(action, "on", None)
        if verb in {"mark", "fit", "trim", "bridge"} and on in self.site.layout.by_tag:
            first = ORDER.index("stand") + 0.5 if on in self.site.stood else ORDER.index("hand_over") - 0.5
            first -= 0.1 * (verb == "mark")
        if verb in {"seat", "join"}:
            first = ORDER.index("stand") + (0.55 if on in self.site.stood else 0.6)
        if isinstance(action, Mark):
            held = work.tools["mark"].on
            return (first, held not in {action.wall, action.on}, action.wall or action.on or "", action.at)
        if isinstance(action, Stand):
            many = self._most(action)
            other_way = (len(many) > 1) != work.tools["stand"].in_one_go
            least = sum(isinstance(act, Stand) for act in many)
            waiting = yard(self.site)
            held = next((tag for tag in (work.hand.truss, work.tools["stand"].following) if tag in waiting), waiting[0])
            here, other = waiting.index(held), action.tag != held
            kinds = [self.site.layout.by_tag[tag].kind for tag in (waiting[here], action.tag)]
            return (first, other_way, -least, other, kinds[0] != kinds[1], waiting.index(action.tag))
        what = getattr(action, "what", "") or getattr(action, "part", "") or getattr(action, "kind", "")
        return (first, action.do != work.tool.verb, str(what), str(on))

    def _most(self, action: AnyAction) -> Acts:
        """As much of an action's routine as stays right all along."""
        if not self.hands:
            return (action,)
        routine: Acts = ()
        site = self.site
        if isinstance(action, Restrain):
            routine = straps_alike(site, action)
            if self._braces_off(routine) - self._braces_off((action,)):
                return (action,)
        elif isinstance(action, Unbrace):
            routine = strike_alike(site, action)
        elif isinstance(action, Measure):
            routine = go_round(site, action)
        elif isinstance(action, Stand):
            plates = self._on_plates(action.tag) or {("framing anchor", 1)}
            crossings = site.job.crossings.get(action.tag, ())
            plates |= {wanted(site.job, crossing.over, crossing) for crossing in crossings}
            ((with_, count), *other) = sorted(plates)
            alone = count != 1 or other
            run = () if alone else stand_run(site, action, with_)
            stood = [act.tag for act in run if isinstance(act, Stand)]
            if len(stood) > 1 and all(self._on_plates(tag) <= {(with_, count)} for tag in stood) and self._right(run):
                return run
            routine = () if alone else hold_it(site, action, with_)
        elif isinstance(action, Fix):
            routine = fix_along(site, action)
            if not all(self._wanted(fix) for fix in routine if isinstance(fix, Fix)):
                return (action,)
        elif isinstance(action, Fit) and action.at is not None and action.part in BRACKETS:
            routine = brackets_along(site, action.part, action.on)
        elif isinstance(action, Fit) and action.part in WHOLE:
            routine = parts_alike(site, action)
        elif isinstance(action, Plumb) and any(
            row_of(site, first) == row_of(site, action.tag) for first, _last in site.strings
        ):
            routine = straighten_along(site, action.tag)
        return routine if len(routine) > 1 and self._right(routine) else (action,)

    def _on_plates(self, tag: str) -> set[tuple[str, int]]:
        """What the ends of a truss on plates take, and how many of it; of a saddle, what both its ends do."""
        member = self.site.layout.by_tag[tag]
        ends = (n for n in (1, 2) if member.ends[n - 1].on_plate or member.kind == "saddle")
        return {wanted(self.site.job, tag, n) for n in ends}

    def _wanted(self, fix: Fix) -> bool:
        """Whether an end takes just this connector; of crossings that is not asked."""
        stood = self.site.stood[fix.tag]
        if fix.end is None or stood.place is None:
            return True
        return wanted(self.site.job, stood.place, stood.own_end(fix.end)) == (fix.with_, fix.count)

    def _braces_off(self, actions: Acts) -> set[tuple[str, str]]:
        """What would be found of roof braces that are in, at a hand-over after some more."""
        site = self.site
        for action in actions:
            result = act(site, site.done, action)
            site = site if isinstance(result, Refused) else result[0]
        over = act(site, site.done, HandOver())
        assert not isinstance(over, Refused)
        found = judge(site, over[1], over[0])
        return {(f.rule, f.member) for f in found if f.rule.startswith("roof-brace") and f.rule != "roof-brace-missing"}

    def _right(self, actions: Acts) -> bool:
        site = self.site
        for action in actions:
            result = act(site, site.done, action)
            if isinstance(result, Refused) or judge(site, result[1], result[0]):
                return False
            site = result[0]
        return True

    def _marks(self, wanted: list[Mark]) -> Acts:
        """Single marks first, then the tape run on over all others: that way it stops where it should."""
        tool = self.person.work.tools["mark"]
        places: dict[str, list[Mark]] = {}
        for mark in wanted:
            places.setdefault(mark.wall or mark.on or "", []).append(mark)
        order = sorted(places, key=lambda where: where != tool.on)
        runs = {where: self._longest_run(where, places[where]) for where in order}
        singles = [mark for where in order for mark in places[where] if mark.at in runs[where][1]]
        if singles and (not tool.in_one_go or not any(runs[where][0] for where in order)):
            return (min(singles, key=lambda mark: (mark.wall or mark.on) != tool.on),)
        return next(runs[where][0] for where in order if runs[where][0])

    def _longest_run(self, where: str, marks: list[Mark]) -> tuple[Acts, list[float]]:
        """The longest run of the tape that makes wanted marks alone, if any; and the marks to be made singly first."""
        on_wall, every = marks[0].wall is not None, self.site.layout.house.trusses.spacing
        left = sorted({mark.at for mark in marks})
        hooked = on_wall and self.person.work.hand.hooked_on(where) == OTHER_CORNER
        best: Acts = ()
        in_runs: set[float] = set()
        stoppers: set[float] = set()
        for start in left:
            for back in (False, True) if on_wall else (False,):
                run = run_on(self.site, where, start, every, back, from_last=False)
                there = [next((at for at in left if abs(at - mark.at) <= NEAR), None) for mark in run]
                good = there.index(None) if None in there else len(there)
                if good < 3:
                    continue
                way = -1 if back else 1
                if good < len(run):
                    last, over = run[good - 1].at, run[good].at
                    between = [at for at in left if 10 < (at - last) * way <= (over - last) * way + NEAR]
                    if between:
                        stoppers.add(min(between, key=lambda at: abs(at - last)))
                    else:
                        good -= 1  # the last of it is made first, for the run to stop at
                        stopper = there[good]
                        if good < 3 or stopper is None:
                            continue
                        stoppers.add(stopper)
                elif good > len(best) or (good == len(best) and back == hooked):
                    best = run
                in_runs |= {at for at in there[:good] if at is not None}
        return best, sorted({at for at in left if at not in in_runs} | stoppers)


def how_much(acts: Acts) -> int:
    """Which of what may be done at a time this is: one act, all of it in one go, or a run of trusses."""
    return 2 if sum(isinstance(act, Stand) for act in acts) > 1 else int(len(acts) > 1)


class QuickMouse(ByMouse):
    """The mouse in a hand that presses nothing it need not, and looks where it aims before it presses."""

    def do_all(self, acts: Acts) -> None:
        self.acts = acts
        getattr(self, f"_{acts[0].do}")(acts[0])

    @property
    def many(self) -> bool:
        return len(self.acts) > 1

    @property
    def _tool(self) -> object:
        return self.person.work.tool

    def take_up(self, tool: str) -> None:
        work = self.person.work
        listed = bool(TOOLS[tool].list_name) and work.tab != "own"
        if (work.tool.verb != tool or work.tab in {"sheet", "diary"}) and TOOLS[tool] not in STAGE_TOOLS[work.stage]:
            self.person.click_on("tab", stage_label(stage_of(tool)))
        if work.tool.verb != tool or work.tab in {"sheet", "diary"} or listed:
            (node,) = [n for n in self.person.tree().all("button", VERBS[tool].name) if n.key == f"tool/{tool}"]
            self.person.click(node.rect.center)

    def go_on(self) -> None:
        """Choose how much is done in one go, where that is offered."""
        tool, first = self.person.work.tool, self.acts[0]
        if isinstance(first, Stand) and self.many and tool.go > 1:
            with_ = next((fix.with_ for fix in self.acts if isinstance(fix, Fix)), tool.with_)
            if stand_run(self.person.work.site, first, with_) == self.acts:
                return  # it is a run of one
        if isinstance(first, Unbrace) and tool.go and strike_alike(self.person.work.site, first) == self.acts:
            return
        whole = isinstance(first, Fit) and first.part in WHOLE and tool.go
        if isinstance(first, Fit) and whole and parts_alike(self.person.work.site, first) == self.acts:
            return
        if tool.routine is not None and self.person.sees("choice", "In one go"):
            self.person.choose_by_mouse("In one go", tool.how_much[how_much(self.acts)])

    def open_tab(self, name: str) -> None:
        """Open a part of the column, where another is open."""
        if self.person.work.tab != name.lower():
            self.person.open_tab(name)

    def aim(
        self, place: Callable[[], Point | None] | Point, good: Callable[[], bool], by: tuple[Point, ...] = ()
    ) -> None:
        """Move to a place, ``by`` others if any, nearer by the wheel until what is aimed at is meant; then press."""
        for _ in range(30):
            spot = place if isinstance(place, tuple) else place()
            assert spot is not None
            pos = self.person.plan.to_window(spot)
            if not self.person.plan.rect.inflate(-6, -6).collidepoint(pos):
                self.person.click_on("button", "Whole house")
                continue
            self._come(pos, by)
            if good():
                self.person.click(pos)
                return
            self.person.wheel(pos, 1)
        aimed = f"{self.person.work.tool.aimed_at}, {self.person.plan.camera.mm_per_px:.2f} mm a pixel"
        raise AssertionError(f"{self.acts[0]} could not be aimed at: {aimed}")

    def near(self, usual: float = NEAR) -> float:
        """As near as a place has to be aimed at, mm: looked at as closely as can be, what catches there will do."""
        closest = self.person.plan.camera.mm_per_px < 1.0
        most = CLOSE * self.person.work.site.job.station_tolerance
        return most if closest else min(usual, most)

    def _come(self, pos: tuple[int, int], by: tuple[Point, ...] = ()) -> None:
        """Bring the mouse to a place of the window: from a little off it, or by other places of the plan."""
        self.person.move((pos[0] + 40, pos[1] + 40))
        for spot in by:
            self.person.move(self.person.plan.to_window(spot))
        self.person.move(pos)

    def _could(self, place: Point, good: Callable[[], bool], by: tuple[Point, ...] = ()) -> bool:
        """Whether a press on a place means what is wanted, as near as one looks now."""
        pos = self.person.plan.to_window(place)
        if not self.person.plan.rect.inflate(-6, -6).collidepoint(pos):
            return True
        self._come(pos, by)
        return good()

    def _on_truss(self, tag: str, runs: tuple[float, ...] = (0.5, 0.35, 0.65, 0.2, 0.8)) -> None:
        for part in runs:
            stood = self.person.work.site.stood[tag]
            spot = _between(stood.start, stood.finish, part)
            pos = self.person.plan.to_window(spot)
            if self.person.plan.rect.inflate(-6, -6).collidepoint(pos):
                self.person.move((pos[0] + 40, pos[1] + 40))
                self.person.move(pos)
                if self.person.work.hovered == tag:
                    self.person.click(pos)
                    return
        self.aim(self._free_spot(tag, runs), lambda: self.person.work.hovered == tag)

    def _mark(self, action: Mark) -> None:
        self.take_up("mark")
        self.go_on()
        work = self.person.work
        tool = work.tools["mark"]
        if action.wall:
            wall = work.site.layout.house.plan.by_name[action.wall]
            length, place = wall.length, wall.at(action.at)
            along = (wall.a, wall.b)
        else:
            stood = work.site.stood[str(action.on)]
            length, along = math.dist(stood.start, stood.finish), (stood.start, stood.finish)
            place = _between(*along, action.at / length)
        inside = min(max(action.at / length, 0.0), 1.0)
        by = tuple(_between(*along, 0.5 + (inside - 0.5) * part) for part in (0.0, 0.5, 0.9))
        if self.many:
            back = self.acts[1].at < action.at  # type: ignore[union-attr]
            wanted = OTHER_CORNER if back else FIRST_CORNER
            while work.hand.hooked_on(str(action.wall)) != wanted:
                if tool.on != action.wall:  # the tape is hooked on the wall that is chosen
                    self._wall(str(action.wall))
                    continue
                node = self.person.see("choice", "Tape from")
                self.person.click((node.rect.right - 12, node.rect.bottom - 12))
        where = action.wall or action.on

        def good() -> bool:
            near = self.near(NEAR / 2) if self.many else self.near()
            return bool(tool.on == where and abs(tool.at - action.at) <= near)

        if not self._could(place, lambda: tool.on == where, by):
            if action.wall:
                self._wall(action.wall)
            else:
                self.open_tab("Roof")
                self.person.click_row("Roof so far", str(action.on))
        self.aim(place, good, by)

    def _wall(self, name: str) -> None:
        """Choose a wall by its name, even where it shows already."""
        names = [wall.name for wall in self.person.work.site.layout.house.plan.walls]
        tool = self.person.work.tools["mark"]
        if tool.on == name:
            self.person.choose_by_mouse("Wall", names[names.index(name) - 1])
        self.person.choose_by_mouse("Wall", name)

    def _fit(self, action: Fit) -> None:
        self.take_up("fit")
        self.person.choose_by_mouse("Part", thing(action.part))
        self.go_on()
        work = self.person.work
        if action.on in work.site.layout.ledgers:
            place = work.site.layout.house.plan.by_name[work.site.layout.ledgers[action.on]].at(action.at or 0)
            self.aim(place, lambda: work.tool.on == action.on and abs(work.tool.at - (action.at or 0)) <= NEAR)
            return
        standing = action.on in work.site.stood
        if standing and (self.many or action.part in WHOLE):
            self._on_truss(action.on)
            return
        if standing and action.at is None:
            if self.person.sees("choice", "Where"):
                self.person.choose_by_mouse("Where", "on it as a whole")
            if action.every is not None:
                self.person.step_by_mouse("One every", action.every)
            if action.back is not None:
                if work.tool.on != action.on:  # the entry stops at the trusses behind that gable
                    self.open_tab("Roof")
                    self.person.click_row("Roof so far", action.on)
                self.person.step_up_by_mouse("Run back", action.back - 1)
            self._on_truss(action.on)
            return
        if not standing and action.at is not None:
            self._fit_waiting(action, action.at)
            return
        if not standing:
            super()._fit(action)
            return
        stood = work.site.stood[action.on]
        place = _between(stood.start, stood.finish, action.at / math.dist(stood.start, stood.finish))

        def good() -> bool:
            near = self.near() + READ  # a mark comes within so much of where it is aimed
            return bool(work.tool.on == action.on and abs(work.tool.at - (action.at or 0)) <= near)

        if not self._could(place, good):
            self.open_tab("Roof")
            self.person.click_row("Roof so far", action.on)
        self.aim(place, good)

    def _fit_waiting(self, action: Fit, at: float) -> None:
        """Fit a part at a place of a truss that waits."""
        tool = self.person.work.tools["fit"]
        if tool.on != action.on:
            self.open_tab("Yard")
            self.person.click_row("Yard", action.on)
        self.person.choose_by_mouse("Where", "at a place")
        for _ in range(60):
            if abs((now := tool.at) - at) <= NEAR:
                break
            box = self.person.see("entry", "From its end 1").rect
            self.person.click((box.right - (12 if now < at else 36), box.bottom - 12))
        assert abs(tool.at - at) <= NEAR, f"{action} could not be set by mouse: {tool.at}"
        self.person.click_on("button", "Fit it")

    def _stand(self, action: Stand) -> None:
        person, work = self.person, self.person.work
        self.take_up("stand")
        if work.hand.truss != action.tag:
            self.open_tab("Yard")
            person.click_row("Yard", action.tag)
        self.go_on()
        if self.many and person.sees("choice", "Ends on plates with"):
            with_ = next((fix.with_ for fix in self.acts if isinstance(fix, Fix) and fix.with_ not in BRACKETS), None)
            if with_:
                person.choose_by_mouse("Ends on plates with", thing(with_))
        member, plan = work.site.layout.by_tag[action.tag], work.site.layout.house.plan
        ways = [(action.start, action.finish)]
        if same_both_ways(member):
            ways.append((action.finish, action.start))
        aims = [aim for start, finish in ways for aim in aims_of(plan, member, start, finish)]
        wall_end = bears_on_a_wall(member)

        def cost(aim: Aim) -> tuple[bool, ...]:
            held = work.hand.aim
            past = wall_end and not 0 <= aim.at <= plan.by_name[aim.wall].length
            return (wall_end and bool(aim.off), past, not wall_end and aim.wall != held.wall, aim.lies != held.lies,
                    aim.turned != held.turned)  # fmt: skip

        def meant() -> bool:
            wanted = work.tool.actions()
            if isinstance(wanted, str) or not isinstance(wanted[0], Stand):
                return False
            got = wanted[0]
            near = self.near() + READ
            return any(math.dist(got.start, a) <= near and math.dist(got.finish, b) <= near for a, b in ways)

        aim = min(aims, key=cost)
        if LIES_NAMES[aim.lies] != person.see("choice", "It lies").value:
            person.choose_by_mouse("It lies", LIES_NAMES[aim.lies])
        if work.hand.aim.turned != aim.turned:
            person.click(person.plan.rect.center, button=3)
        middle = _between(action.start, action.finish, 0.5)
        self.aim(foot(plan, aim) if wall_end else middle, meant)

    def _fix(self, action: Fix) -> None:
        person, work = self.person, self.person.work
        self.take_up("fix")
        self.go_on()
        person.choose_by_mouse("With", thing(action.with_))
        person.choose_by_mouse("Nail holes", filled(action))
        person.step_by_mouse("How many", action.count)
        slotted = action.at is not None and action.with_ == SLOTTED
        if slotted and action.at and self._could(action.at, lambda: work.hovered == action.tag):
            self.aim(action.at, lambda: work.hovered == action.tag)
            return
        if action.at is not None:
            self.open_tab("Roof")
            person.click_row("Roof so far", action.tag)
            person.choose_by_mouse("Which", which(work, action))
            person.click_on("button", "Fix it")
            return
        if work.tool.where > 2:
            person.choose_by_mouse("Which", "end 1")
        self._on_truss(action.tag, (0.12, 0.2, 0.3, 0.4) if action.end == 1 else (0.88, 0.8, 0.7, 0.6))

    def _unbrace(self, action: Unbrace) -> None:
        tool = self.person.work.tools["unbrace"]
        self.take_up("unbrace")
        if tool.row != piece_of(self.person.work, action):
            number = int(piece_of(self.person.work, action))
            strut = next(strut for piece, strut in lengths_of(self.person.work.site) if piece == number)
            self.aim(_between(strut.a[:2], strut.b[:2], 0.5), lambda: True)
        if tool.row != piece_of(self.person.work, action):
            self.person.click_row("Bracing", piece_of(self.person.work, action))
        self.go_on()
        self.person.click_on("button", "Take it off")

    def _restrain(self, action: Restrain) -> None:
        self.take_up("restrain")
        self.person.choose_by_mouse("Kind", thing(action.kind))
        self.go_on()
        if action.kind == "roof brace":
            self.person.choose_by_mouse("Strap pulled", pulled(action))
        for place in (action.start, action.finish):
            self.aim(place, lambda place=place: math.dist(self.person.work.hand.point, place) <= 2 * NEAR)

    def _plumb(self, action: Plumb) -> None:
        self.take_up("plumb")
        self.go_on()
        self._on_truss(action.tag)

    def _check(self, action: Check) -> None:
        self.take_up("check")
        self.person.click_row("Places", action.item)

    def _measure(self, action: Measure) -> None:
        self.take_up("measure")
        self.person.choose_by_mouse("What", READINGS[action.what])
        self.go_on()
        if action.tag:
            self._on_truss(action.tag)
        else:
            super()._measure(action)

    def _plan(self, action: Plan) -> None:
        person = self.person
        self.take_up("plan")
        for plan in self.acts:
            person.click_row("Lift plan", plan.kind)  # type: ignore[union-attr]
        person.choose_by_mouse("By", thing(action.by))
        if action.slung:
            person.choose_by_mouse("Slung by", SLUNG_NAMES[action.slung])
        person.step_by_mouse("People", action.people)
        person.click(next(node for node in person.tree().walk() if node.key == DO_IT).rect.center)


class QuickKeys(ByKeyboard):
    """The keys, with routine in one go."""

    def do_all(self, acts: Acts) -> None:
        self.acts = acts
        first = acts[0]
        tool = self.person.work.tools[first.do] if first.do in TOOLS else None
        many = len(acts) > 1 and tool is not None and tool.routine is not None
        if tool is not None and tool.routine is not None and tool.go != how_much(acts):
            self.person.key(tool.key[-1].lower(), shift=tool.key.startswith("Shift"))
            self._ready(first)
            self.person.key("v", times=(how_much(acts) - tool.go) % len(tool.how_much))
        if many or len(acts) == 1:
            self._go(first)
        else:
            for each in acts:
                getattr(self, f"_{each.do}")(each)

    def _restrain(self, action: Restrain) -> None:
        """Type the four measures one after the other: figures go to the first, and Enter in the last puts it in."""
        person = self.person
        if person.work.tool.verb != "restrain":
            person.key("z")
        person.press_until("c", "Kind", thing(action.kind))
        if action.kind == "roof brace":
            person.press_until("e", "Strap pulled", pulled(action))
        first, *others = (*action.start, *action.finish)
        person.type(first)
        for number in others:
            person.key("tab")
            person.type(number)
        person.key("enter")

    def _stand(self, action: Stand) -> None:
        """Type the measure alone where the other is right: Enter there stands it."""
        person = self.person
        if person.work.tool.verb != "stand" or person.focused.name != "Yard":
            person.key("s")
        aim = self.lifted(action)
        person.press_until("l", "It lies", LIES_NAMES[aim.lies])
        if person.work.hand.aim.turned != aim.turned:
            person.key("t")
        person.type(self.on_tape(aim.wall, aim.at))
        if aim.off or person.see("entry", "In from it").value != "0 mm":
            person.key("tab")
            person.type(aim.off)
        person.key("enter")

    def got_ready(self, action: Stand) -> None:
        """Choose what its ends on plates are fixed with, where that is done in one go."""
        with_ = next((fix.with_ for fix in self.acts if isinstance(fix, Fix) and fix.with_ not in BRACKETS), None)
        if with_ and self.person.sees("choice", "Ends on plates with"):
            self.person.press_until("c", "Ends on plates with", thing(with_))

    def _ready(self, action: AnyAction) -> None:
        """Choose what the choice of going on belongs to: a bracket, a truss in the hand."""
        if isinstance(action, Fit) and action.on in self.person.work.site.layout.ledgers:
            self.person.press_until("c", "Part", thing(action.part))
            self.person.press_until("l", "On", action.on)
        elif isinstance(action, Fit):
            self._choose(action.on)
            self.person.press_until("c", "Part", thing(action.part))
        if isinstance(action, Stand):
            self.person.arrow_to(action.tag, "Yard")

    def _go(self, action: AnyAction) -> None:
        if isinstance(action, Mark) and len(self.acts) > 1:
            back = self.acts[1].at < action.at  # type: ignore[union-attr]
            self.person.key("m")
            if action.wall:
                self.person.press_until("w", "Wall", action.wall)
            else:
                self._choose(str(action.on))
            hand = self.person.work.hand
            while hand.hooked_on(str(action.wall)) != (OTHER_CORNER if back else FIRST_CORNER):
                self.person.key("k")
            length = hand.length_of(str(action.wall)) if back else 0.0
            self.person.type(abs(action.at - length))
            self.person.key("enter")
        else:
            getattr(self, f"_{action.do}")(action)


def _between(a: Point, b: Point, part: float) -> Point:
    return (a[0] + (b[0] - a[0]) * part, a[1] + (b[1] - a[1]) * part)


def built(level: str, player: type[QuickMouse | QuickKeys], *, hands: bool, seed: int = 1) -> int:
    """Build a level to its end; return how often something was pressed for it, from its first act to hand-over.

    One that is kept for assessment is assessed.
    """
    person = Counted((1920, 1080))
    person.app.services.seed = lambda: seed
    entry = read_entry(find_level(level))
    person.app.navigator.work(entry, "assessment" if entry.level.lesson.unseen else "practice")
    person.wait(3)
    if hands:
        person.app.services.comfort.remember(fewer_presses=True)
    foreman, player_ = Foreman(person, hands=hands), player(person)
    person.pressed = 0
    for _ in range(3 * len(foreman.site.job.order.steps)):
        acts = foreman.next()
        before = person.work.session.outcomes
        player_.do_all(acts)
        if isinstance(person.app.scene, ResultScreen):
            break
        assert not person.work.noted, f"{level}, {acts}: {[f.what for f in person.work.noted]}"
        done = person.work.session.outcomes[len(before) :]
        refused = any(outcome.refused for outcome in done)
        assert done and not refused, f"{level}: {acts[0]} was not done: {person.status}"
    scene = person.app.scene
    assert isinstance(scene, ResultScreen), f"{level} was not handed over: the last act was {acts}"
    assert scene.findings == () and scene.mark.score == 100, scene.findings
    return person.pressed


def lines(levels: list[str]) -> Iterator[str]:
    """Yield a line for each level."""
    yield f"{'level':18} {'mouse':>6} {'singly':>7} {'keys':>6} {'singly':>7}"
    for level in levels:
        figures: list[str] = []
        for player in (QuickMouse, QuickKeys):
            for hands in (True, False):
                try:
                    figures.append(str(built(level, player, hands=hands)))
                except (AssertionError, LookupError, ValueError) as error:
                    figures.append("-")
                    print(f"{level} {player.__name__} {hands}: {error}", file=sys.stderr)
        yield f"{level:18} {figures[0]:>6} {figures[1]:>7} {figures[2]:>6} {figures[3]:>7}"


if __name__ == "__main__":
    for line in lines(sys.argv[1:] or list(LEVELS)):
        print(line, flush=True)
