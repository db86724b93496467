"""Level to level file: whole in itself, its style's habits written in."""

from __future__ import annotations

from trainer.level.model import Level
from trainer.read import yaml_entry

HEAD = "# Invented for practice. Check a real job's truss plan and the current standard."


def write_level(level: Level) -> str:
    """Return the text of a level file that reads as ``level`` without any style; defaults are left out."""
    data = level.model_dump(mode="json", by_alias=True, exclude_defaults=True, exclude={"style"})
    return "\n".join([HEAD, *(line for key, value in data.items() for line in yaml_entry(key, value))]) + "\n"


def whole_text(level: Level, text: str) -> str:
    """Return the text to keep of a level read from ``text``: as it stands, or with its style's habits written in."""
    return write_level(level) if level.style else text
