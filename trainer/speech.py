"""Which language is spoken: chosen once, by the shell that starts the program, before any other room is loaded.

So for all the others a text is as fixed as if it stood there in that language. Without a choice it is the language
that every text is written in, English (Australia).
"""

from __future__ import annotations

from collections.abc import Callable

_spoken: list[Callable[[str], str]] = []


def speak(look_up: Callable[[str], str]) -> None:
    """Speak the language of a catalogue; ``look_up`` returns a text that isn't in it as it is."""
    _spoken[:] = [look_up]


def spoken(text: str) -> str:
    """Return ``text`` in the language that is spoken."""
    return _spoken[0](text) if _spoken else text
