"""``trainer make``: a new level, as hard as asked."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from trainer.cli.given import print_or_write, wrong_call
from trainer.cli.options import option, out_option, seed_option
from trainer.words import _

Seed = Annotated[int, seed_option("Decides the house: the same seed, the same.")]
Hard = Annotated[int, typer.Option("--difficulty", min=1, max=10, help="How hard it is, from 1 to 10.")]
OfShape = Annotated[str | None, option("--shape", "SHAPE", "Such as gable, hip, l, t, u or z.")]
Out = Annotated[Path | None, out_option("FILE", "Write the level to this file.")]


def make(seed: Seed, difficulty: Hard, shape: OfShape = None, output: Out = None) -> None:
    """Make a new level.

    The same seed gives the same file, byte for byte. All of it is invented, its job sheet too.
    """
    from trainer.generate import CannotMake, make_level
    from trainer.level import write_level

    try:
        level = make_level(seed, difficulty, shape)
    except CannotMake as reason:
        wrong_call(_("This can't be made: {reason}.").format(reason=reason))
    print_or_write(write_level(level), output, level.title)
