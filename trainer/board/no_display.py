"""That there is no screen."""

from __future__ import annotations


class NoDisplay(RuntimeError):  # noqa: N818 - it says what is missing here, not that the program is wrong
    """Raised where no window can be opened."""
