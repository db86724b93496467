"""Everything that can be done on the work screen, by name."""

from __future__ import annotations

from functools import partial

from trainer.board.command import Command
from trainer.board.scenes.building import Building
from trainer.board.scenes.work_keys import TAB_KEYS
from trainer.board.scenes.work_side import TAB_NAMES
from trainer.board.tools.registry import TOOLS
from trainer.terms import STAGE_NAMES, VERBS
from trainer.words import _


def commands_of(work: Building) -> list[Command]:
    """Return the commands of the work screen: what is needed most comes first."""
    found = [
        Command(_("Use a tool: {tool}").format(tool=VERBS[verb].name), tool.key, partial(work.use, verb))
        for verb, tool in TOOLS.items()
    ]
    found.append(Command(_("Do what the tool is aimed at"), "Enter", work.act))
    if work.practice:
        found += [Command(_("Undo"), "U", work.undo), Command(_("Hint"), "H", work.hint)]
    found += [
        Command(_("Show: {tab}").format(tab=TAB_NAMES[tab]), key, partial(work.open_tab, tab))
        for tab, key in TAB_KEYS.items()
    ]
    found += [
        Command(_("Stage: {stage}").format(stage=name), f"Ctrl {number}", partial(work.open_stage, stage))
        for number, (stage, name) in enumerate(STAGE_NAMES.items(), 1)
    ]
    found += [
        Command(_("Turn end for end"), "T", work.turn),
        *work.views.commands(),
        Command(_("Save the diary"), "Ctrl S", work.save),
        *([Command(_("Hand over"), "Ctrl Enter", work.hand_over)] if work.assignment.handed_over_by_hand else []),
        Command(_("Back to: {place}").format(place=work.assignment.back), "Esc", work.leave),
    ]
    return found
