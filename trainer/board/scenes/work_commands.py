"""Everything that can be done on the work screen, by name."""

from __future__ import annotations

from functools import partial

from trainer.board.command import Command
from trainer.board.scenes.desk import TAB_NAMES, Desk, Tab
from trainer.board.tools import TOOL_KEYS, TOOLS
from trainer.terms import STAGE_NAMES, VERBS
from trainer.words import _

_TAB_KEYS: dict[Tab, str] = {"yard": "Y", "roof": "O", "sheet": "J", "diary": "D"}


def commands_of(work: Desk) -> list[Command]:
    """Return the commands of the work screen: what is needed most comes first."""
    found = [
        Command(_("Use a tool: {tool}").format(tool=VERBS[tool].name), TOOL_KEYS[tool], partial(work.use, tool))
        for tool in TOOLS
    ]
    found.append(Command(_("Do what the tool is aimed at"), "Enter", work.act))
    if work.practice:
        found += [Command(_("Undo"), "U", work.undo), Command(_("Hint"), "H", work.hint)]
    found += [
        Command(_("Show: {tab}").format(tab=TAB_NAMES[tab]), key, partial(work.open_tab, tab))
        for tab, key in _TAB_KEYS.items()
    ]
    found += [
        Command(_("Stage: {stage}").format(stage=name), f"Ctrl {number}", partial(work.open_stage, stage))
        for number, (stage, name) in enumerate(STAGE_NAMES.items(), 1)
    ]
    found += [
        Command(_("Turn end for end"), "T", work.turn),
        *work.views.commands(),
        Command(_("Save the diary"), "Ctrl S", work.save),
        *([Command(_("Hand over"), "Ctrl Enter", work.hand_over)] if work.kept.handed_over_by_hand else []),
        Command(_("Back to: {place}").format(place=work.kept.back), "Esc", work.leave),
    ]
    return found
