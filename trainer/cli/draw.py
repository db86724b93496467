"""``trainer draw``: the layout drawing of a level as a file."""

from __future__ import annotations

import os
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from trainer.cli.data import DataFolder
from trainer.cli.given import LevelName, given_layout, say, write_out, writing, wrong_call
from trainer.cli.open_level import open_level
from trainer.cli.options import out_option
from trainer.words import _

if TYPE_CHECKING:
    from trainer.picture import Palette

FORMATS = (".svg", ".png", ".dxf")


def draw(
    level: LevelName,
    output: Annotated[Path, out_option("FILE", "The file to write: .svg, .png or .dxf.")],
    theme: Annotated[str, typer.Option(help="Colours: light, dark or contrast.")] = "light",
    data: DataFolder = None,
) -> None:
    """Draw a level's layout to a file.

    Plates, trusses with their tags, ridge, hip and valley lines, and running measures along the walls. An .svg is in
    millimetres on the plan, at 1 to 50 on paper; a .dxf is in millimetres for drafting programs, and has no theme.
    """
    from trainer.picture import to_svg
    from trainer.picture.sheet import layout_sheet
    from trainer.report.dxf import to_dxf

    if output.suffix.lower() not in FORMATS:
        wrong_call(_("{output}: the name must end in {formats}.").format(output=output, formats=", ".join(FORMATS)))
    palette = _palette(theme)
    given = open_level(level, data)
    layout, title = given_layout(given), f"{given.id.capitalize()}: {given.title}"
    if output.suffix.lower() == ".dxf":
        write_out(output, to_dxf(layout, title).encode("utf-8"))
        say(_("Drawn: {output}").format(output=output))
        return
    sheet = layout_sheet(layout, title)
    if output.suffix.lower() == ".svg":
        write_out(output, to_svg(sheet, palette).encode("utf-8"))
    else:
        # pygame would greet on standard output when it is first imported.
        os.environ.setdefault("PYGAME_HIDE_SUPPORT_PROMPT", "1")
        from trainer.board.paint import save_png

        with writing(output):
            save_png(sheet, output, palette=palette)
    say(_("Drawn: {output}").format(output=output))


def _palette(theme: str) -> Palette:
    from trainer.read import did_you_mean
    from trainer.shipped.colours import palettes

    themes = palettes()
    if theme not in themes:
        guess = did_you_mean(theme, themes)
        wrong_call(
            " ".join(
                filter(
                    None,
                    (
                        _("There is no theme '{theme}';").format(theme=theme),
                        guess,
                        _("themes: {themes}.").format(themes=", ".join(themes)),
                    ),
                )
            )
        )
    return themes[theme]
