"""Text size and colours: a small question over any screen."""

from __future__ import annotations

from trainer.board.look import SCALES, THEMES
from trainer.board.services import Services
from trainer.board.widgets import Button, Choice, Column, Label, Pad, Widget
from trainer.words import _

THEME_NAMES = {"light": _("Paper"), "dark": _("Slate"), "contrast": _("High contrast")}


def comfort_dialog(services: Services) -> None:
    """Ask for text size and colours; what is chosen shows at once."""
    services.ask(lambda: _comfort(services))


def _comfort(services: Services) -> Widget:
    look = services.look
    sizes = [f"{round(scale * 100)} %" for scale in SCALES]
    size = Choice(
        _("Text size"),
        sizes,
        SCALES.index(look.scale),
        lambda i: services.set_look(look.theme, SCALES[i]),
        shortcut="Ctrl + −",
    )
    theme = Choice(
        _("Colours"), [THEME_NAMES[t] for t in THEMES], THEMES.index(look.theme),
        lambda i: services.set_look(THEMES[i], look.scale), shortcut="Ctrl T",
    )  # fmt: skip
    done = Button(_("Done"), services.close, kind="primary")
    return Pad(
        Column([Label(_("Text and colours"), "heading", role="heading"), size, theme, done], gap=14),
        pad=24, name=_("Text and colours"), key="dialog",
    )  # fmt: skip
