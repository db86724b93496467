"""Which language is spoken: chosen once, by the shell that starts the program, before any other room is loaded.

So for all the others a text is as fixed as if it stood there in that language. Without a choice it is the language
that every text is written in, English (Australia).
"""

from __future__ import annotations

from gettext import NullTranslations

_language: list[NullTranslations] = [NullTranslations()]


def speak(language: NullTranslations) -> None:
    """Speak the language of a catalogue, which gives a text that isn't in it as it is."""
    _language[:] = [language]


def language() -> NullTranslations:
    """Return the catalogue of the language that is spoken."""
    return _language[0]
