"""The keys of the work screen: everything that the mouse can do."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TypeVar

import pygame

from trainer.board import bench as hand
from trainer.board.bench import BETWEEN
from trainer.board.scenes.desk import AT, LIST_KEY, Desk, Tab
from trainer.board.scenes.pointing import neighbour, next_catch, nudge
from trainer.board.scenes.righting import make_right
from trainer.board.scenes.slips import which_ends
from trainer.board.scenes.slips_more import FAULT_KINDS, LOAD_KINDS, WHATS, WHERES
from trainer.board.tools import ONE_STANDING, STAGE_TOOLS, TOOL_KEYS, Tool
from trainer.layout.bracing import KINDS
from trainer.site.fastening import CONNECTORS
from trainer.words import _

_TOOLS: dict[tuple[int, bool], Tool] = {
    (ord(key[-1].lower()), key.startswith("Shift ")): tool for tool, key in TOOL_KEYS.items()
}
"""The tool of each key, without Shift and with it; the code of a letter key is the letter itself."""
TAB_KEYS: dict[int, Tab] = {pygame.K_y: "yard", pygame.K_o: "roof", pygame.K_j: "sheet", pygame.K_d: "diary"}
T = TypeVar("T")
STEP, SMALL_STEP = 50.0, 1.0
"""How far an arrow moves what is in the hand, mm; the small step with Shift."""
_ARROWS = {pygame.K_LEFT: (-1, 0), pygame.K_RIGHT: (1, 0), pygame.K_UP: (0, 1), pygame.K_DOWN: (0, -1)}


def scene_key(work: Desk, event: pygame.event.Event) -> bool:
    """Take a key that the focused widget did not want."""
    if event.mod & pygame.KMOD_CTRL:
        return _ctrl_key(work, event)
    if event.mod & pygame.KMOD_ALT:
        return False
    tool = _TOOLS.get((event.key, bool(event.mod & pygame.KMOD_SHIFT)))
    if tool is not None:
        work.use(tool)
        _focus_list(work)
    elif event.key in TAB_KEYS:
        work.open_tab(TAB_KEYS[event.key])
        _focus_list(work)
    elif event.key == pygame.K_u:
        work.undo()
    elif event.key == pygame.K_h:
        work.hint()
    elif event.key == pygame.K_ESCAPE:
        _escape(work)
    elif event.key in {pygame.K_RETURN, pygame.K_KP_ENTER}:
        work.close_note() if work.noted else work.act()
    elif getattr(event, "unicode", "") and event.unicode in "0123456789":
        return _type_into(work, event)
    else:
        return _bench_key(work, event) or work.views.key(event) or work.views.zoom_key(event)
    return True


def _escape(work: Desk) -> None:
    if work.noted:
        work.close_note()
    elif work.views.drawing:
        work.views.stop_drawing()
    else:
        work.leave()


def _ctrl_key(work: Desk, event: pygame.event.Event) -> bool:
    if event.key == pygame.K_s:
        work.save()
    elif event.key == pygame.K_z:
        work.undo()
    elif event.key == pygame.K_r:
        make_right(work)
    elif event.key in {pygame.K_RETURN, pygame.K_KP_ENTER}:
        work.hand_over()
    elif pygame.K_1 <= event.key <= pygame.K_6:
        work.open_stage(list(STAGE_TOOLS)[event.key - pygame.K_1])
    else:
        return False
    return True


def _focus_list(work: Desk) -> None:
    """Put the focus on the list that a key has just opened."""
    work.settle(work.size)
    work.services.focus("diary/list" if work.tab == "diary" else LIST_KEY)


def _type_into(work: Desk, event: pygame.event.Event) -> bool:
    """Digits typed anywhere go to the measure of the slip."""
    if work.noted or work.tab in {"sheet", "diary"}:
        return False
    work.services.focus(AT)
    entry = next((w for w in work.roots["side"].walk() if w.key == AT), None)
    return entry is not None and work.ui.focus == AT and entry.on_key(work.ui, event)


def _bench_key(work: Desk, event: pygame.event.Event) -> bool:
    """The keys of the tool in the hand."""
    bench, site = work.bench, work.site
    if event.key == pygame.K_t:
        hand.turn(bench)
    elif event.key == pygame.K_l:
        hand.lie(bench)
    elif event.key == pygame.K_w:
        hand.next_wall(bench, site, -1 if event.mod & pygame.KMOD_SHIFT else 1)
    elif event.key == pygame.K_k:
        hand.hook(bench, (hand.tape_at(bench) + 1) % (3 if bench.tool == "mark" else 2))
    elif event.key == pygame.K_e:
        bench.end = (bench.end + 1) % len(which_ends(work))
    elif event.key == pygame.K_c:
        _next_choice(work)
    elif event.key == pygame.K_n:
        member = hand.member_in_hand(bench, site)
        if not next_catch(bench, site, work.pointer.drops(bench, site, member) if member else []):
            work.say(_("Nothing catches there."))
    else:
        return False
    work.refresh()
    return True


def _next_choice(work: Desk) -> None:
    """Go on to the next bracket, connector or kind of brace."""
    bench = work.bench
    if bench.tool == "fit":
        bench.part = _after(hand.PARTS, bench.part)
    elif bench.tool == "fix":
        bench.connector = _after(CONNECTORS, bench.connector)
    elif bench.tool == "brace":
        hand.brace_with(bench, _after(hand.BRACES, bench.brace))
    elif bench.tool == "restrain":
        bench.restraint = _after(KINDS, bench.restraint)
    elif bench.tool == "measure":
        bench.what = _after(WHATS, bench.what)
    elif bench.tool == "report":
        bench.fault = _after(FAULT_KINDS, bench.fault)
    elif bench.tool == "cut":
        bench.where = _after(WHERES, bench.where)
    elif bench.tool == "load":
        bench.load = _after(LOAD_KINDS, bench.load)
    elif bench.tool == "inspect":
        bench.accept = not bench.accept


def _after(options: Sequence[T], now: T) -> T:
    return options[(options.index(now) + 1) % len(options)]


def chooses(work: Desk) -> bool:
    """Whether the tool is aimed at one standing truss or several."""
    bench = work.bench
    if bench.tool == "measure":
        return bench.what != BETWEEN and not hand.aims_at_wall(bench)
    return bench.tool in ONE_STANDING or bench.tool in {"brace", "string", "cut", "report"}


def plan_key(work: Desk, event: pygame.event.Event) -> bool:
    """Take a key while the plan has the focus: arrows move what is aimed at, Enter does it."""
    if event.key in _ARROWS:
        across, up = _ARROWS[event.key]
        if chooses(work) or (work.bench.tool == "fit" and up):
            work.choose(neighbour(work.site, work.bench.truss, (across, up)))
        else:
            step = SMALL_STEP if event.mod & pygame.KMOD_SHIFT else STEP
            nudge(work.bench, work.site, across * step, up * step)
            work.refresh()
    elif event.key in {pygame.K_RETURN, pygame.K_KP_ENTER, pygame.K_SPACE}:
        if hand.between_points(work.bench):
            hand.put_tape(work.bench)
            if work.bench.tool == "restrain" and len(work.bench.tape) == 2:
                work.act()
            work.refresh()
        elif hand.picks(work.bench):
            if work.bench.truss in work.site.stood and hand.pick(work.bench, work.bench.truss):
                work.act()
            work.refresh()
        else:
            work.act()
    else:
        return False
    return True
