"""The ``trainer`` command, which ``python -m trainer`` is too: first the language, then everything that has texts."""

from __future__ import annotations

from trainer.shipped import catalogue
from trainer.speech import speak

speak(catalogue())

from trainer.cli import main  # noqa: E402 - its rooms make their texts as they are loaded

if __name__ == "__main__":
    main()
