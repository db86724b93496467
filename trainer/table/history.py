"""All that was drawn, so that any of it can be taken back, however long ago, and done again."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Protocol

from trainer.table.drawing import Drawing


class Act(Protocol):
    """One thing done at the table."""

    def on(self, drawing: Drawing) -> Drawing:
        """Return the sheet after it; :class:`trainer.table.drawing.CannotDraw` where nobody could do that."""


@dataclass(frozen=True, slots=True, eq=False, repr=False)
class History:
    """The sheet as it is ``now``, and those before it; ``undone`` are those to be done again.

    Each knows only its neighbours, so that an act costs the same however many there were.
    """

    now: Drawing
    before: History | None = None
    undone: History | None = None

    def do(self, act: Act) -> History:
        """Return it with one act more; what was undone can't be done again after that."""
        return History(act.on(self.now), self)

    def undo(self) -> History:
        """Return it with the last act taken back; itself where there is none."""
        if self.before is None:
            return self
        return History(self.before.now, self.before.before, self)

    def redo(self) -> History:
        """Return it with what was undone last done again; itself where nothing was."""
        if self.undone is None:
            return self
        return History(self.undone.now, History(self.now, self.before), self.undone.undone)
