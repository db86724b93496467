"""Long work says on standard error how far it has come, and only to somebody who looks on."""

import io
import sys

import pytest

from trainer.cli.progress import progress


class Terminal(io.StringIO):
    def isatty(self) -> bool:
        return True


def test_work_in_a_terminal_shows_how_far_it_has_come(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    screen = Terminal()
    monkeypatch.setattr(sys, "stderr", screen)
    monkeypatch.setenv("TERM", "xterm")
    assert list(progress(iter("abc"), "Reading", 3)) == ["a", "b", "c"]
    assert "Reading" in screen.getvalue() and "100%" in screen.getvalue()
    assert capsys.readouterr().out == "", "what a program reads is kept clean"


def test_work_that_nobody_looks_on_at_says_nothing(capsys: pytest.CaptureFixture[str]) -> None:
    assert list(progress([1, 2], "Reading")) == [1, 2]
    assert capsys.readouterr() == ("", "")
