"""What the board remembers of how somebody likes it: a small file in the data folder."""

from __future__ import annotations

import json
from dataclasses import asdict, dataclass, fields, replace
from pathlib import Path
from typing import Any

from trainer.board.look import SCALES, THEMES

FILE = "settings.json"
_MOST_BYTES = 10_000


@dataclass(frozen=True, slots=True)
class Settings:
    """``scale`` is the text size as a part of the usual one; ``still``: nothing moves by itself; ``shown``: the first
    start is over; ``first_stands``: the first truss was stood in its lesson; ``fewer_presses``: routine may be done in
    one go from the first house on; ``guided``: on a house that is new to somebody its film is offered first, and
    questions come while it is built; ``house`` is the id of the one that was last begun or saved.
    """

    theme: str = THEMES[0]
    scale: float = SCALES[0]
    still: bool = False
    shown: bool = False
    first_stands: bool = False
    fewer_presses: bool = False
    guided: bool = True
    house: str = ""


def read_settings(folder: Path | None) -> Settings:
    """Return what is remembered; where that is nothing, or damaged, the usual."""
    if folder is None:
        return Settings(shown=True)
    try:
        with (folder / FILE).open("rb") as file:
            found = json.loads(file.read(_MOST_BYTES))
    except (OSError, ValueError, RecursionError):
        return Settings()
    return _sound(found) if isinstance(found, dict) else Settings()


def _sound(found: dict[str, Any]) -> Settings:
    """Return what can be used of what was read."""
    usual = Settings()
    valid = {f.name: found[f.name] for f in fields(usual) if type(found.get(f.name)) is type(getattr(usual, f.name))}
    settings = replace(usual, **valid)
    if settings.theme not in THEMES:
        settings = replace(settings, theme=usual.theme)
    return settings if settings.scale in SCALES else replace(settings, scale=usual.scale)


def write_settings(folder: Path | None, settings: Settings) -> None:
    """Remember settings, whole or not at all; what can't be written is only forgotten."""
    if folder is None:
        return
    new = folder / f".{FILE}.new"
    try:
        folder.mkdir(parents=True, exist_ok=True)
        new.write_text(json.dumps(asdict(settings), indent=1) + "\n", encoding="utf-8", newline="\n")
        new.replace(folder / FILE)
    except OSError:
        return
