"""What every screen may ask of the board around it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from trainer.board.comfort import Comfort
from trainer.board.keeping import Records
from trainer.board.look import Look
from trainer.board.path import Path
from trainer.board.widgets import Ui, Widget

if TYPE_CHECKING:
    from trainer.board.library import Entry, Library
    from trainer.session import Session

Mode = Literal["practice", "assessment"]


@dataclass
class Services:
    """The look, the widgets' shared state, and the ways from one screen to another."""

    look: Look
    ui: Ui
    records: Records
    show: Callable[..., None]
    ask: Callable[[Callable[[], Widget]], None]
    close: Callable[[], None]
    go_home: Callable[[], None]
    go_work: Callable[[Entry, Mode], None]
    go_assessments: Callable[[], None]
    go_quiz: Callable[[Entry], None]
    go_result: Callable[[Entry, Session, str], None]
    quit: Callable[[], None]
    help: Callable[[], None]
    comfort: Comfort
    focus: Callable[[str], None]
    clock: Callable[[], int]
    stamp: Callable[[], str]
    seed: Callable[[], int]
    full_screen: Callable[[], None]
    go_first: Callable[[], None]
    path: Path
    library: Library | None = None
