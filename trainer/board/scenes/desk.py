"""What the parts of the work screen may ask of it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, Literal, Protocol, get_args

from trainer.board.bench import Bench
from trainer.board.services import Services
from trainer.board.tools import Tool
from trainer.board.widgets import Ui, Widget
from trainer.site.actions import AnyAction
from trainer.site.model import Site
from trainer.terms import Stage
from trainer.words import _

if TYPE_CHECKING:
    from trainer.board.library import Entry
    from trainer.board.plan_view import PlanView
    from trainer.board.scenes.kept import Kept
    from trainer.board.scenes.pointing import Pointer
    from trainer.board.scenes.views import Views
    from trainer.rules.finding import Finding
    from trainer.session import Session

Tab = Literal["own", "yard", "roof", "sheet", "diary"]
TABS: tuple[Tab, ...] = get_args(Tab)
TAB_NAMES: dict[Tab, str] = {"yard": _("Yard"), "roof": _("Roof"), "sheet": _("Job sheet"), "diary": _("Diary")}
OWN_TABS: dict[Tool, str] = {"check": _("Checks"), "unbrace": _("Bracing")}
"""Tools with a list of their own, and the name of its tab."""
LIST_KEY = "side/list"
"""Key of the list of trusses in the column."""
AT = "slip/at"
"""Key of the entry that digits go to."""


class Desk(Protocol):
    """The work screen as its parts see it."""

    services: Services
    ui: Ui
    entry: Entry
    session: Session
    practice: bool
    kept: Kept
    bench: Bench
    tab: Tab
    stage: Stage
    noted: tuple[Finding, ...]
    message: str
    hovered: str
    ghost: AnyAction | None
    diary_row: str
    plan: PlanView
    views: Views
    pointer: Pointer
    roots: dict[str, Widget]
    size: tuple[int, int]

    @property
    def site(self) -> Site:
        """The site as it stands."""

    @property
    def findings(self) -> tuple[Finding, ...]:
        """What has been found so far, as far as it may be shown."""

    @property
    def can_undo(self) -> bool:
        """Whether there is something to take back, and it may be."""

    def settle(self, size: tuple[int, int]) -> None:
        """Make what is stale."""

    def refresh(self, *regions: str) -> None:
        """What regions show has changed."""

    def redraw(self, *regions: str) -> None:
        """Regions have to be drawn again."""

    def hold_still(self) -> None:
        """Let a mouse that lies on the plan disturb nothing until it moves."""

    def change(self, put: Callable[[Bench], object], *, settle_hip: bool = False) -> None:
        """Change the bench, and show it."""

    def use(self, tool: Tool) -> None:
        """Take up a tool."""

    def open_tab(self, tab: Tab) -> None:
        """Open a tab of the column."""

    def open_stage(self, stage: Stage) -> None:
        """Show the tools of a stage."""

    def choose_own(self, row: str) -> None:
        """Choose a row of the tool's own list."""

    def take_own(self, row: str) -> None:
        """Go on with a row of the tool's own list."""

    def choose(self, tag: str) -> None:
        """Choose a truss."""

    def take(self, tag: str) -> None:
        """Go on with a truss as the tool asks."""

    def carry(self, pos: tuple[int, int]) -> None:
        """Drag a truss out of the yard."""

    def drop(self, pos: tuple[int, int]) -> None:
        """Let go of a truss dragged out of the yard."""

    def choose_diary(self, row: str) -> None:
        """Choose a line of the diary."""

    def open_diary_row(self, row: str) -> None:
        """Show again what was found at a line of the diary."""

    def turn(self) -> None:
        """Turn the truss in the hand end for end."""

    def act(self) -> None:
        """Do what the tool is aimed at."""

    def do(self, wanted: Sequence[AnyAction]) -> bool:
        """Do actions one after the other; return whether all were done and nothing was found."""

    def say(self, text: str) -> None:
        """Put a sentence in the strip."""

    def undo(self) -> None:
        """Take the last action back."""

    def hint(self) -> None:
        """Ask what comes next."""

    def close_note(self) -> None:
        """Put the note away."""

    def hand_over(self) -> None:
        """Ask, then hand the roof over."""

    def save(self) -> None:
        """Save the diary."""

    def leave(self) -> None:
        """Go back to the houses."""
