"""``trainer`` by itself: opens the board, or says why it can't and what to use instead."""

from __future__ import annotations

from pathlib import Path

import typer

from trainer.words import _

INSTEAD = _("""\
These two commands do the same job without one: a right diary of the work, and its judgement.

  trainer rehearse wren --seed 1 -o wren-diary.yaml
  trainer grade wren wren-diary.yaml""")


def board(data: Path | None) -> None:
    """Open the board; without a screen, say which commands do the same. ``data`` is the folder for what it keeps."""
    from trainer.board import NoDisplay, run

    try:
        run(data=data)
    except NoDisplay as none:
        typer.echo(f"{none}\n{INSTEAD}")
