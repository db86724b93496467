"""Keeps the diary as a file: each action as it is done, so that closing the window loses nothing."""

from __future__ import annotations

from pathlib import Path

from trainer.session import Outcome
from trainer.site.diary import Diary, write_diary


class Keeper:
    """Writes one attempt to a diary file of the data folder; without a folder it keeps nothing.

    A line is added for each action and closed at once: after a crash the file is still a diary, up to there.
    """

    def __init__(self, folder: Path | None, name: str, level: str, seed: int) -> None:
        self.path = folder / "diaries" / f"{name}.yaml" if folder is not None else None
        self._start = Diary(level=level, seed=seed, actions=())
        self._begun = False
        self.trouble = ""

    def note(self, outcome: Outcome) -> None:
        """Add an action to the file; what goes wrong is kept in words and doesn't stop the work."""
        if self.path is None:
            return
        text = write_diary(self._start.model_copy(update={"actions": (outcome.action,)}))
        head, line = text.rstrip("\n").rsplit("\n", 1)
        try:
            self.path.parent.mkdir(parents=True, exist_ok=True)
            with self.path.open("a", encoding="utf-8", newline="\n") as file:
                file.write(f"{line}\n" if self._begun else f"{head}\n{line}\n")
        except OSError as error:
            self.trouble = str(error.strerror or error)
        self._begun = True

    def save(self, diary: Diary) -> Path:
        """Write the whole diary anew; raises OSError where it can't, and RuntimeError where there is no folder."""
        if self.path is None:
            raise RuntimeError("There is no folder to save to.")
        self.path.parent.mkdir(parents=True, exist_ok=True)
        new = self.path.with_suffix(".new")
        new.write_text(write_diary(diary), encoding="utf-8", newline="\n")
        new.replace(self.path)
        self._begun = True
        return self.path
