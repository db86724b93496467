"""``trainer cutout``: a level's house as a card model, as a PDF."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

from trainer.cli.data import DataFolder
from trainer.cli.given import LevelName, faulty, given_layout, say, write_out, wrong_call
from trainer.cli.on_paper import light, type_files
from trainer.cli.open_level import open_level
from trainer.cli.options import option, out_option
from trainer.cli.sheet import PaperSize
from trainer.words import _

Scale = Annotated[
    int | None,
    option("--scale", "N", "1 to N; if left out, the largest of 20, 25, 50 and 100 that fits.", min=10, max=200),
]


def cutout(
    level: LevelName,
    output: Annotated[Path, out_option("FILE", "The file to write: .pdf.")],
    scale: Scale = None,
    paper: PaperSize = "A4",
    data: DataFolder = None,
) -> None:
    """Make a card model of a level's house, to cut out and build.

    The plate plan to glue on a board, every truss with its webs, tabs and slots, the order to build it in, and a
    ruler to check the printer by.
    """
    from trainer.report.cutout_pdf import NoRoomError, cutout_pdf
    from trainer.report.write import on_white

    if output.suffix.lower() != ".pdf":
        wrong_call(_("{output}: the name must end in .pdf.").format(output=output))
    given = open_level(level, data)
    given_layout(given)
    try:
        made, at = cutout_pdf(given, scale, paper, on_white(light()), *type_files())
    except NoRoomError as large:
        faulty(str(large))
    write_out(output, made)
    say(_("Drawn: {output}, at 1:{scale}").format(output=output, scale=at))
