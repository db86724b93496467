"""The keys of the work screen: everything that the mouse can do."""

from __future__ import annotations

import pygame

from trainer.board.scenes.building import Building, Tab
from trainer.board.scenes.note import go_on, read_last_found
from trainer.board.scenes.righting import make_right
from trainer.board.tools.panel import DO_IT, MEASURE
from trainer.board.tools.registry import STAGE_TOOLS, TOOLS
from trainer.board.widgets import Choice
from trainer.words import _

_TOOLS: dict[tuple[int, bool], str] = {
    (ord(tool.key[-1].lower()), tool.key.startswith("Shift ")): verb for verb, tool in TOOLS.items()
}
"""The tool of each key, without Shift and with it; the code of a letter key is the letter itself."""
TAB_KEYS: dict[Tab, str] = {"yard": "Y", "roof": "O", "sheet": "J", "diary": "D"}
_TABS: dict[int, Tab] = {ord(key.lower()): tab for tab, key in TAB_KEYS.items()}
LIST_KEY = "side/list"
"""Key of the list of trusses in the column."""
LAST_FOUND_KEY = "Ctrl D"
"""What shows again what was found last."""
STEP, SMALL_STEP = 50.0, 1.0
"""How far an arrow moves what is in the hand, mm; the small step with Shift."""
_ARROWS = {pygame.K_LEFT: (-1, 0), pygame.K_RIGHT: (1, 0), pygame.K_UP: (0, 1), pygame.K_DOWN: (0, -1)}
_ENTER = {pygame.K_RETURN, pygame.K_KP_ENTER}


def scene_key(work: Building, event: pygame.event.Event) -> bool:
    """Take a key that the focused widget did not want."""
    if event.mod & pygame.KMOD_CTRL:
        return _ctrl_key(work, event)
    if event.mod & pygame.KMOD_ALT:
        return False
    tool = _TOOLS.get((event.key, bool(event.mod & pygame.KMOD_SHIFT)))
    if tool is not None:
        take_up(work, tool)
    elif event.key in _TABS:
        work.open_tab(_TABS[event.key])
        _focus_list(work)
    elif event.key == pygame.K_u:
        work.undo()
    elif event.key == pygame.K_h:
        work.hint()
    elif event.key == pygame.K_ESCAPE:
        _escape(work)
    elif event.key in _ENTER:
        go_on(work) if work.noted else work.act()
    elif getattr(event, "unicode", "") and event.unicode in "0123456789":
        return _type_into(work, event)
    elif getattr(event, "unicode", "") == "-" and _type_into(work, event):
        return True  # a measure from the corner back; without one, it makes the plan smaller
    else:
        return _tool_key(work, event) or work.views.key(event) or work.views.zoom_key(event)
    return True


def take_up(work: Building, verb: str) -> None:
    """Take up a tool, and go to what it wants chosen, or to what does it."""
    work.use(verb)
    _focus_list(work)


def press_tool(work: Building, verb: str) -> None:
    """Take up the tool of a button; by keyboard, go on from there, so that the next Enter does it."""
    take_up(work, verb) if work.by_keyboard else work.use(verb)


def _escape(work: Building) -> None:
    if work.noted:
        work.close_note()
    elif work.views.drawing:
        work.views.stop_drawing()
    else:
        work.leave()


def _ctrl_key(work: Building, event: pygame.event.Event) -> bool:
    if event.key == pygame.K_s:
        work.save()
    elif event.key == pygame.K_z:
        work.undo()
    elif event.key == pygame.K_r:
        make_right(work)
    elif event.key == pygame.K_h:
        work.hint()
    elif event.key == pygame.K_d:
        read_last_found(work)
    elif event.key in _ENTER:
        work.hand_over()
    elif pygame.K_1 <= event.key <= pygame.K_6:
        work.open_stage(list(STAGE_TOOLS)[event.key - pygame.K_1])
    else:
        return False
    return True


def _focus_list(work: Building) -> None:
    """Put the focus on the list that a key has just opened, or on what does it where no list is wanted."""
    own = DO_IT if work.tool.of_site and work.tool.has_button else LIST_KEY
    work.focus_on("diary/list" if work.tab == "diary" else own)


def _type_into(work: Building, event: pygame.event.Event) -> bool:
    """What is typed anywhere goes to the measure of the panel, if there is one."""
    if work.noted or work.tab in {"sheet", "diary"}:
        return False
    work.services.focus(MEASURE)
    entry = next((w for w in work.roots["side"].walk() if w.key == MEASURE), None)
    return entry is not None and work.ui.focus == MEASURE and entry.on_key(work.ui, event)


def _tool_key(work: Building, event: pygame.event.Event) -> bool:
    """The keys of the tool in use: the letters that its choices name, and what is the same for all."""
    if event.key == pygame.K_t:
        work.turn()
        return True
    if event.key == pygame.K_n:
        if not work.tool.next_catch():
            work.say(_("Nothing catches there."))
        work.refresh()
        return True
    for widget in (each for control in work.tool.panel(work) for each in control.walk()):
        if isinstance(widget, Choice) and widget.shortcut and ord(widget.shortcut.lower()) == event.key:
            _step(work, widget, -1 if event.mod & pygame.KMOD_SHIFT else 1)
            return True
    if work.tool.letter(event.key):
        work.refresh()
        return True
    return False


def _step(work: Building, choice: Choice, by: int) -> None:
    """Step a choice; one that is scrolled out of sight is said."""
    shown = next((w for w in work.roots["side"].walk() if w.key == choice.key), None)
    choice.step(by)
    if shown is not None and not shown.visible_rect().contains(shown.rect):
        value = choice.options[(choice.index + by) % len(choice.options)]
        work.say(_("{choice}: {value}").format(choice=choice.name, value=value))


def plan_key(work: Building, event: pygame.event.Event) -> bool:
    """Take a key while the plan has the focus: arrows move what is aimed at, Enter does it."""
    if event.key in _ARROWS:
        work.tool.move(work, *_ARROWS[event.key], SMALL_STEP if event.mod & pygame.KMOD_SHIFT else STEP)
    elif event.key in _ENTER or event.key == pygame.K_SPACE:
        work.tool.enter(work)
    else:
        return False
    work.refresh()
    return True
