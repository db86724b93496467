"""The keys of the work screen: everything that the mouse can do."""

from __future__ import annotations

import pygame

from trainer.board import bench as hand
from trainer.board.bench import CONNECTORS, Tool
from trainer.board.scenes.desk import AT, LIST_KEY, Desk, Tab
from trainer.board.scenes.pointing import neighbour, next_catch, nudge
from trainer.site.fastening import BRACKETS
from trainer.words import _

TOOL_KEYS: dict[int, Tool] = {
    pygame.K_m: "mark", pygame.K_f: "fit", pygame.K_s: "stand", pygame.K_b: "brace", pygame.K_x: "fix",
    pygame.K_r: "remove",
}  # fmt: skip
TAB_KEYS: dict[int, Tab] = {pygame.K_y: "yard", pygame.K_o: "roof", pygame.K_j: "sheet", pygame.K_d: "diary"}
STEP, SMALL_STEP = 50.0, 1.0
"""How far an arrow moves what is in the hand, mm; the small step with Shift."""
_ARROWS = {pygame.K_LEFT: (-1, 0), pygame.K_RIGHT: (1, 0), pygame.K_UP: (0, 1), pygame.K_DOWN: (0, -1)}


def scene_key(work: Desk, event: pygame.event.Event) -> bool:
    """Take a key that the focused widget did not want."""
    if event.mod & pygame.KMOD_CTRL:
        return _ctrl_key(work, event)
    if event.mod & pygame.KMOD_ALT:
        return False
    if event.key in TOOL_KEYS:
        work.use(TOOL_KEYS[event.key])
        _focus_list(work)
    elif event.key in TAB_KEYS:
        work.open_tab(TAB_KEYS[event.key])
        _focus_list(work)
    elif event.key == pygame.K_u:
        work.undo()
    elif event.key == pygame.K_h:
        work.hint()
    elif event.key == pygame.K_ESCAPE:
        work.close_note() if work.noted else work.leave()
    elif event.key in {pygame.K_RETURN, pygame.K_KP_ENTER}:
        work.close_note() if work.noted else work.act()
    elif getattr(event, "unicode", "") and event.unicode in "0123456789":
        return _type_into(work, event)
    else:
        return _bench_key(work, event) or work.plan.zoom_key(event)
    return True


def _ctrl_key(work: Desk, event: pygame.event.Event) -> bool:
    if event.key == pygame.K_s:
        work.save()
    elif event.key == pygame.K_z:
        work.undo()
    elif event.key in {pygame.K_RETURN, pygame.K_KP_ENTER}:
        work.hand_over()
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
        bench.from_far = not bench.from_far
    elif event.key == pygame.K_e:
        bench.end = (bench.end + 1) % 3
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
        bench.part = BRACKETS[(BRACKETS.index(bench.part) + 1) % len(BRACKETS)]
    elif bench.tool == "fix":
        bench.connector = CONNECTORS[(CONNECTORS.index(bench.connector) + 1) % len(CONNECTORS)]
    elif bench.tool == "brace":
        hand.brace_with(bench, hand.BRACES[(hand.BRACES.index(bench.brace) + 1) % len(hand.BRACES)])


def plan_key(work: Desk, event: pygame.event.Event) -> bool:
    """Take a key while the plan has the focus: arrows move what is aimed at, Enter does it."""
    if event.key in _ARROWS:
        across, up = _ARROWS[event.key]
        if work.bench.tool in {"brace", "fix", "remove"} or (work.bench.tool == "fit" and up):
            work.choose(neighbour(work.site, work.bench.truss, (across, up)))
        else:
            step = SMALL_STEP if event.mod & pygame.KMOD_SHIFT else STEP
            nudge(work.bench, work.site, across * step, up * step)
            work.refresh()
    elif event.key in {pygame.K_RETURN, pygame.K_KP_ENTER, pygame.K_SPACE}:
        if work.bench.tool == "brace" and work.bench.brace == "batten":
            if work.bench.truss in work.site.stood and hand.pick(work.bench, work.bench.truss):
                work.act()
            work.refresh()
        else:
            work.act()
    else:
        return False
    return True
