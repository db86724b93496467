"""Keeps the diary: each action as it is done, so that closing the window loses nothing, and whole when asked."""

from __future__ import annotations

import json
from pathlib import Path

from trainer.session import Outcome


class Keeper:
    """Writes one attempt's actions to a file of the data folder; without a folder it keeps nothing.

    One line a time, flushed: what was written before a crash stays readable.
    """

    def __init__(self, folder: Path | None, name: str) -> None:
        self.folder = folder / "diaries" if folder is not None else None
        self.name = name
        self.trouble = ""

    def note(self, outcome: Outcome) -> None:
        """Add an action to the running file; what goes wrong is kept in words, never raised."""
        if self.folder is None:
            return
        line = json.dumps(outcome.action.model_dump(mode="json", by_alias=True, exclude_none=True))
        try:
            self.folder.mkdir(parents=True, exist_ok=True)
            with (self.folder / f"{self.name}.part").open("a", encoding="utf-8", newline="\n") as file:
                file.write(f"- {line}\n")
        except OSError as error:
            self.trouble = str(error.strerror or error)

    def save(self, text: str) -> Path:
        """Write the whole diary; raises OSError where it can't, and RuntimeError where there is no folder."""
        if self.folder is None:
            raise RuntimeError("no folder to save to")
        self.folder.mkdir(parents=True, exist_ok=True)
        path = self.folder / f"{self.name}.yaml"
        new = path.with_suffix(".new")
        new.write_text(text, encoding="utf-8", newline="\n")
        new.replace(path)
        return path
