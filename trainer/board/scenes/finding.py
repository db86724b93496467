"""Find anything that can be done by typing a word of its name."""

from __future__ import annotations

from collections.abc import Sequence

from trainer.board.command import Command, matching
from trainer.board.services import Services
from trainer.board.widgets import Button, Flow, LineEntry, Listing, Row, Widget, dialog
from trainer.words import _

KEY = "find/words"


class _Finding:
    """What has been typed, and which of the commands found is chosen."""

    def __init__(self, services: Services, commands: Sequence[Command]) -> None:
        self.services = services
        self.commands = {str(number): command for number, command in enumerate(commands)}
        self.words = ""
        self.chosen = ""

    def found(self) -> list[str]:
        """Return the keys of the commands that fit, the best first."""
        keys = {id(command): key for key, command in self.commands.items()}
        return [keys[id(command)] for command in matching(self.commands.values(), self.words)]

    def write(self, words: str) -> None:
        self.words, self.chosen = words, ""

    def step(self, by: int) -> None:
        found = self.found()
        now = found.index(self.chosen) if self.chosen in found else 0
        if found:
            self.chosen = found[max(0, min(len(found) - 1, now + by))]

    def run(self) -> None:
        found = self.found()
        if found:
            self.run_one(self.chosen if self.chosen in found else found[0])

    def run_one(self, key: str) -> None:
        self.services.close()
        self.commands[key].run()

    def choose(self, key: str) -> None:
        self.chosen = key

    def dialog(self) -> Widget:
        found = self.found()
        rows = [Row(key, self.commands[key].name, self.commands[key].keys) for key in found]
        chosen = self.chosen if self.chosen in found else (found[0] if found else "")
        listing = Listing(
            _("What can be done"), rows, chosen, self.choose, take=self.run_one, key="find/list", tall=True, show=7,
            empty=_("Nothing here has that name. Try one word of it."),
        )  # fmt: skip
        field = LineEntry(
            _("Type some letters of its name"), self.words, self.write, key=KEY, enter=self.run, step=self.step
        )
        buttons = Flow(
            [
                Button(_("Do it"), self.run, kind="primary", key="find/do", enabled=bool(found)),
                Button(_("Close"), self.services.close, shortcut="Esc", key="find/close"),
            ],
            key="find/buttons",
        )
        return dialog(_("What can be done here"), [field, listing, buttons], first=KEY)


def find_dialog(services: Services, commands: Sequence[Command]) -> None:
    """Ask what to do, and do it."""
    services.ask(_Finding(services, commands).dialog)
