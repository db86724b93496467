"""Text size, colours and movement: a small question over any screen."""

from __future__ import annotations

from trainer.board.look import SCALES, THEMES
from trainer.board.services import Services
from trainer.board.widgets import Button, Choice, Column, Scroll, Widget, dialog
from trainer.words import _

THEME_NAMES = {"light": _("Paper"), "dark": _("Slate"), "contrast": _("High contrast")}


def comfort_dialog(services: Services) -> None:
    """Ask for text size, colours and movement; what is chosen shows at once, and is remembered."""
    services.ask(lambda: _comfort(services))


def _comfort(services: Services) -> Widget:
    settings, remember = services.comfort.settings, services.comfort.remember
    size = Choice(
        _("Text size"), [f"{round(scale * 100)} %" for scale in SCALES], SCALES.index(settings.scale),
        lambda i: remember(scale=SCALES[i]), shortcut="Ctrl + −",
    )  # fmt: skip
    theme = Choice(
        _("Colours"), [THEME_NAMES[t] for t in THEMES], THEMES.index(settings.theme),
        lambda i: remember(theme=THEMES[i]), shortcut="Ctrl T",
    )  # fmt: skip
    motion = Choice(
        _("Movement"), [_("things may move by themselves"), _("nothing moves by itself")], int(settings.still),
        lambda i: remember(still=bool(i)),
    )  # fmt: skip
    presses = Choice(
        _("Routine in one go"), [_("after three done well by hand"), _("always: fewer presses")],
        int(settings.fewer_presses), lambda i: remember(fewer_presses=bool(i)),
    )  # fmt: skip
    guided = Choice(
        _("On a house that is new to you"), [_("offer its film, and ask questions"), _("neither film nor questions")],
        int(not settings.guided), lambda i: remember(guided=not i),
    )  # fmt: skip
    full = Button(_("Full screen, or a window again"), services.full_screen, shortcut="F11")
    done = Button(_("Done"), services.close, kind="primary")
    choices = Scroll(Column([size, theme, motion, presses, guided, full], gap=14), _("Text and colours"))
    return dialog(_("Text and colours"), [choices, done], gap=14)
