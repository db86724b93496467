"""The list of keys."""

from __future__ import annotations

from collections.abc import Callable

from trainer.board.services import Services
from trainer.board.tools.registry import TOOLS, stage_of
from trainer.board.widgets import Button, Flow, Paragraph, Prose, Scroll, Widget, dialog
from trainer.terms import STAGE_NAMES, STAGES, VERBS, Stage
from trainer.words import _


def tools_of(stage: Stage) -> tuple[str, str]:
    """Return the keys of the tools that are at home in a stage, and their names."""
    verbs = [verb for verb in TOOLS if stage_of(verb) == stage]
    names = ", ".join(VERBS[verb].name for verb in verbs)
    return ", ".join(TOOLS[verb].key for verb in verbs), f"{STAGE_NAMES[stage]}: {names}"


KEYS: tuple[tuple[str, tuple[tuple[str, str], ...]], ...] = (
    (
        _("Everywhere"),
        (
            ("Tab, Shift Tab", _("go to the next thing, or back")),
            ("F6", _("go to the next part of the window")),
            ("Enter, Space", _("press, take or put down")),
            (_("Arrows"), _("go through a list or a choice; nudge a measure")),
            ("←, →, Home, End", _("move in what you type; with Shift mark a part of it, with Ctrl A all")),
            ("Page Up, Page Down", _("scroll a text")),
            ("Esc", _("close, or leave this house")),
            ("Ctrl +, Ctrl −", _("larger or smaller text")),
            ("Ctrl T", _("other colours")),
            ("F1, F2", _("this list; text and colours")),
            ("F8", _("trade words in pictures; or press on a word with dots under it")),
            ("Ctrl H", _("a hint, at work in practice and in a quiz")),
            ("Ctrl F", _("all that can be done here; some letters of a name find it")),
            ("F11", _("full screen")),
            ("F12", _("read aloud what the screen says, or stop reading")),
        ),
    ),
    (
        _("The plan"),
        (
            ("], [, 0", _("nearer, farther, the whole house")),
            ("+, −", _("nearer, farther as well; − begins a measure where the tool takes one")),
            (_("Ctrl and arrows"), _("move the plan")),
            (_("Wheel, drag"), _("zoom and move by mouse")),
            (_("Arrows"), _("move what is in your hand; with Shift in small steps")),
            ("N", _("go to the next place that catches: a mark, a corner, a face")),
        ),
    ),
    (
        _("Other ways to look"),
        (
            ("F3, F4, F5, F7", _("plan, angled view, section, one truss")),
            ("F9", _("the layout drawing: tag and station of every truss")),
            ("F10", _("a magnifying glass over the plan: every tag under it")),
            (_("Arrows, drag"), _("turn the angled view; move the line of a section")),
            (_("Ctrl and arrows, right drag"), _("move what is shown")),
            (_("Press"), _("choose a truss in the angled view")),
        ),
    ),
    (
        _("The work"),
        (
            *(tools_of(stage) for stage in STAGES),
            ("Ctrl 1 … 6", _("the tools of another stage")),
            ("W, L, T", _("other wall, lie the other way, turn end for end")),
            (_("Digits, −"), _("type a measure in millimetres, then Enter")),
            ("E", _("other end of the truss")),
            ("Y, O, J, D", _("yard, roof so far, job sheet, diary")),
            ("U", _("undo, in practice")),
            ("Ctrl R", _("make right what was just found, in practice")),
            ("H", _("a hint as well, in practice; each press says more, the fourth takes up the tool for it")),
            ("Ctrl S", _("save the diary")),
            ("Ctrl Enter", _("hand over")),
        ),
    ),
    (
        _("Looking back"),
        (
            (_("Arrows on the line"), _("an action on or back; Page Up and Page Down ten")),
            ("Home, End", _("before the first action, after the last")),
        ),
    ),
    (
        _("The drawing table"),
        (
            ("P", _("type how the walls run, such as 12000 right, 7200 up; then Enter")),
            (_("Arrows, Enter"), _("move the cross, and press there; with Shift ten times as far")),
            ("C", _("close the outline")),
            ("F", _("go to the measures of the chosen wall; N there goes to those of the next one")),
            ("N", _("choose the next wall; an arrow square to it then draws it in or out")),
            (_("Drag a diamond"), _("move an end of the beam on the chosen wall")),
            ("1 … 5", _("let the chosen wall be an eave, a gable, and so on")),
            ("W, G", _("what the mouse does; what places snap to")),
            ("M, R", _("mirror the house; turn it a quarter")),
            ("Delete", _("take the chosen wall out, or the last corner")),
            ("V", _("sheet, angled view or section, where there is room for one")),
            ("Ctrl Z, Ctrl Y", _("take back, without end; do again")),
            ("Ctrl S", _("save the house")),
        ),
    ),
    (
        _("The quiz"),
        (
            (_("A to T"), _("choose, or leave again where several may be right")),
            ("Enter", _("answer, then go on; Ctrl Enter where several may be right")),
            ("Alt ↑, Alt ↓", _("move a step up or down in the order")),
            ("R", _("show me on the roof")),
        ),
    ),
)


def help_dialog(
    services: Services, find: Callable[[], None], words: Callable[[], None], looks: Callable[[], None]
) -> Widget:
    """Return the list of keys as a question that only wants closing, or leads on to what helps on every screen."""
    blocks = []
    for heading, keys in KEYS:
        blocks.append(Paragraph(heading, "heading", space=6))
        blocks += [Paragraph(f"**{key}** – {what}", space=3) for key, what in keys]
    scroll = Scroll(Prose(blocks), _("Keys"))
    close = Button(_("Close"), services.close, kind="primary", shortcut="Esc")
    links = Flow(
        [
            Button(_("What can be done here"), find, shortcut="Ctrl F"),
            Button(_("Trade words"), words, shortcut="F8"),
            Button(_("Text and colours"), looks, shortcut="F2"),
        ],
        gap=8, key="help/ways",
    )  # fmt: skip
    return dialog(_("Keys"), [links, scroll, close], style="title", first=close.key)
