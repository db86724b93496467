"""``trainer schema``: the level file's description for editors."""

from __future__ import annotations

import json

import typer


def schema() -> None:
    """Print the JSON Schema of level files.

    An editor that is given it completes and checks level files as they are written.
    """
    from trainer.level import level_schema  # noqa: PLC0415

    typer.echo(json.dumps(level_schema(), indent=2, ensure_ascii=False))
