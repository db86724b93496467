"""``trainer sheet``: a level's job on paper, as a PDF."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated, Literal

import typer

from trainer.cli.data import DataFolder
from trainer.cli.given import LevelName, given_layout, say, write_out, wrong_call
from trainer.cli.on_paper import light, type_files
from trainer.cli.open_level import open_level
from trainer.cli.options import out_option
from trainer.words import _

PaperSize = Annotated[Literal["A3", "A4"], typer.Option(help="Paper of the drawings: A3 or A4.")]


def sheet(
    level: LevelName,
    output: Annotated[Path, out_option("FILE", "The file to write: .pdf.")],
    paper: PaperSize = "A3",
    data: DataFolder = None,
) -> None:
    """Print a level's job: for the pin board, or to hand out.

    The layout drawing to scale, the schedule of trusses, the set-out wall by wall, the plan of bracing and tie-down,
    and the job sheet. What is too large for one sheet is split, with a key plan.
    """
    from trainer.report.sheet_pdf import sheet_pdf
    from trainer.report.write import on_white

    if output.suffix.lower() != ".pdf":
        wrong_call(_("{output}: the name must end in .pdf.").format(output=output))
    given = open_level(level, data)
    given_layout(given)
    write_out(output, sheet_pdf(given, paper, on_white(light()), *type_files()))
    say(_("Drawn: {output}").format(output=output))
