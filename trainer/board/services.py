"""What every screen may ask of the board around it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING

from trainer.board.comfort import Comfort
from trainer.board.keeping import Records
from trainer.board.look import Look
from trainer.board.path import Path
from trainer.board.widgets import Ui, Widget
from trainer.terms import Mode

if TYPE_CHECKING:
    from trainer.board.library import HouseEntry, Library


@dataclass(kw_only=True)
class Services:
    """The look, the widgets' shared state, and how to go from one screen to another.

    ``clock`` gives ms since the start, ``stamp`` a name for a file saved now, ``seed`` a number for a new site.
    """

    look: Look
    ui: Ui
    comfort: Comfort
    records: Records
    path: Path
    library: Library | None = None

    show: Callable[..., None]
    ask: Callable[[Callable[[], Widget]], None]
    close: Callable[[], None]
    focus: Callable[[str], None]
    quit: Callable[[], None]
    help: Callable[[], None]

    go_home: Callable[[], None]
    go_first: Callable[[], None]
    go_today: Callable[[], None]
    go_work: Callable[[HouseEntry, Mode], None]
    go_assessments: Callable[[], None]
    go_desk: Callable[[], None]
    go_table: Callable[..., None]
    go_quiz: Callable[[HouseEntry], None]
    go_result: Callable[..., None]

    clock: Callable[[], int]
    stamp: Callable[[], str]
    seed: Callable[[], int]
    full_screen: Callable[[], None]
