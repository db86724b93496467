"""Reads aloud what is on the screen, by the system's own voice, where there is one."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Sequence
from importlib.util import find_spec
from threading import Event, Thread
from typing import Protocol

from trainer.board.widgets import Label, Listing, Prose, Widget
from trainer.words import _

PACKAGE = "pyttsx3"
NO_VOICE = (
    _("There is no voice to read with here. Everything else works without one."),
    _("Whoever looks after this machine can add the extra part called voice, and on Linux also espeak-ng."),
)
"""What is said where nothing can read aloud."""
_SENTENCE_END = re.compile(r"(?<=[.!?:])\s+")


class Engine(Protocol):
    """As much of the system's voice as reading takes."""

    def say(self, text: str) -> object:
        """Take a text to be spoken after those before it."""

    def connect(self, topic: str, cb: Callable[..., object]) -> object:
        """Call ``cb`` with what is told of a ``topic``: each time that a text is begun, say."""

    def stop(self) -> object:
        """Speak no more of what was taken."""

    def runAndWait(self) -> object:  # noqa: N802 - the library's own name
        """Speak all of it, and return when that is done."""


def _system_voice() -> Engine:
    import pyttsx3

    engine: Engine = pyttsx3.init()
    return engine


class Voice:
    """One reading at a time, beside the window's own work; it stops between two sentences."""

    def __init__(self, engine: Callable[[], Engine] = _system_voice, there: bool | None = None) -> None:
        self.there = find_spec(PACKAGE) is not None if there is None else there
        self._engine = engine
        self._stop = Event()
        self._reading: Thread | None = None

    @property
    def reading(self) -> bool:
        """Whether it reads at present."""
        return self._reading is not None and self._reading.is_alive()

    def read(self, texts: Sequence[str]) -> None:
        """Begin to read texts, in place of what is being read."""
        self.stop()
        self._stop = Event()
        self._reading = Thread(target=self._run, args=(tuple(sentences(texts)), self._stop), daemon=True)
        self._reading.start()

    def stop(self) -> None:
        """Read no further than to the end of the sentence."""
        self._stop.set()

    def _run(self, parts: Sequence[str], stop: Event) -> None:
        try:
            engine = self._engine()
            engine.connect("started-utterance", lambda **_told: engine.stop() if stop.is_set() else None)
            for part in parts:
                engine.say(part)
            engine.runAndWait()  # once: not every driver speaks again after that
        except Exception:
            self.there = False


def sentences(texts: Sequence[str]) -> Iterator[str]:
    """Yield the sentences of some texts, as they are to be spoken: signs in words, no marks of the screen."""
    for text in texts:
        plain = text.replace("×", _("times")).replace("√", _("the root of")).replace("–", ",").replace("·", ",")
        for line in plain.split("\n"):
            yield from (part for part in _SENTENCE_END.split(line.strip()) if part.strip(" ,"))


def texts_of(widgets: Sequence[Widget]) -> list[str]:
    """Return what is to be read of some parts of a screen: headings, texts and the rows of lists, as they stand."""
    found: list[str] = []
    for widget in (each for root in widgets for each in root.walk()):
        if isinstance(widget, Label):
            found.append(widget.name)
        elif isinstance(widget, Prose):
            found.append(widget.value)
        elif isinstance(widget, Listing):
            found += [". ".join(filter(None, (row.text, row.second, row.detail))) for row in widget.rows]
    return [text for text in found if text]
