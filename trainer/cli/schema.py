"""``trainer schema``: the descriptions of level files and house styles for editors."""

from __future__ import annotations

import json
from typing import Annotated

import typer

from trainer.cli.given import show


def schema(
    style: Annotated[bool, typer.Option("--style", help="Print the schema of house styles instead.")] = False,
) -> None:
    """Print the JSON Schema of level files.

    An editor that is given it completes and checks level files as they are written.
    """
    from trainer.level import level_schema, style_schema

    show(json.dumps(style_schema() if style else level_schema(), indent=2, ensure_ascii=False))
