"""``trainer film``: how a house goes up, as a page that plays in any browser."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

from trainer.cli.data import DataFolder
from trainer.cli.given import LevelName, given_layout, say, write_out, wrong_call
from trainer.cli.on_paper import light, type_files
from trainer.cli.open_level import open_level
from trainer.cli.options import out_option, seed_option
from trainer.words import _

Out = Annotated[Path, out_option("FILE", "The page to write: .html.")]
Seed = Annotated[int, seed_option("Decides where the work begins.")]


def film(level: LevelName, output: Out, seed: Seed = 1, data: DataFolder = None) -> None:
    """Write a film of how a level's house is built.

    It goes up in a right order in 60 to 90 seconds of movement, with captions, and stops three times to ask what comes
    next. The page is one file that plays in any browser, also on a phone, without a network.
    """
    from trainer.film import film_of
    from trainer.report.film_page import film_page
    from trainer.report.write import on_white

    if output.suffix.lower() != ".html":
        wrong_call(_("{output}: the name must end in {formats}.").format(output=output, formats=".html"))
    given = open_level(level, data)
    made = film_of(given, seed, given_layout(given))
    write_out(output, film_page(made, on_white(light()), type_files()).encode("utf-8"))
    text = _("Wrote {output}: {seconds} seconds of movement.")
    say(text.format(output=output, seconds=round(made.length_ms / 1000)))
