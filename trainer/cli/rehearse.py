"""``trainer rehearse``: a right diary drawn at random, or one with a mistake planted."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

from trainer.cli.data import DataFolder
from trainer.cli.given import LevelName, faulty, given_layout, print_or_write, wrong_call
from trainer.cli.open_level import open_level
from trainer.cli.options import option, out_option, seed_option
from trainer.words import ngettext

Seed = Annotated[int, seed_option("Decides the order drawn; the diary's seed too.")]
Mistake = Annotated[str | None, option("--mistake", "RULE", "Plant this one mistake.")]
Out = Annotated[Path | None, out_option("DIARY", "Write the diary to this file.")]


def rehearse(
    level: LevelName, seed: Seed, mistake: Mistake = None, output: Out = None, data: DataFolder = None
) -> None:
    """Print a right diary for a level.

    Its order is drawn at random: it keeps all that must and should come first, and is free otherwise. With
    --mistake, the same with that one mistake in it.
    """
    from trainer.rehearse import CannotOccur, UnknownMistake, rehearse
    from trainer.site import write_diary

    given = open_level(level, data)
    try:
        diary = rehearse(given, seed, mistake, given_layout(given))
    except UnknownMistake as unknown:
        wrong_call(str(unknown))
    except CannotOccur as reason:
        faulty(str(reason))
    n = len(diary.actions)
    print_or_write(write_diary(diary), output, ngettext("{n} action", "{n} actions", n).format(n=n))
