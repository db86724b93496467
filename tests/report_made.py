"""Invented attempts for the reports: real houses built by rehearsal, one person a mistake."""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from html.parser import HTMLParser
from pathlib import Path
from typing import Any

from attempts import level_of
from records_made import NOON

from trainer.records.attempt import Attempt
from trainer.records.seat import CODE_SETTING, Seat
from trainer.rehearse import rehearse
from trainer.shipped import find_level
from trainer.site import AnyAction


def built(
    folder: Path, code: str, level: str, actions: Sequence[AnyAction], *, seconds: int = 7, finish: bool = True
) -> Attempt:
    """An attempt on a seat of its own, an action every so many seconds."""
    times = itertools.count(NOON, 1000 * seconds)
    seat = Seat.open(folder, lambda: next(times))
    seat.store.set_setting(CODE_SETTING, code)
    going = seat.begin(find_level(level).read_text(encoding="utf-8"), 1, "practice")
    for action in actions:
        going.do(action)
    made = going.finish() if finish else seat.store.attempts(going.attempt)[0]
    seat.leave()
    return made


def mistaken(folder: Path, code: str, level: str, mistake: str | None, **more: Any) -> Attempt:
    """A right attempt but for one mistake."""
    return built(folder, code, level, rehearse(level_of(level), 1, mistake).actions, **more)


class Page(HTMLParser):
    """The text of a page, its elements, and whatever it would fetch."""

    def __init__(self, html: str) -> None:
        super().__init__()
        self.words, self.tags, self.fetched = "", [], []
        self.feed(html)
        self.text = " ".join(self.words.split())

    def handle_data(self, data: str) -> None:
        self.words += data

    def handle_endtag(self, tag: str) -> None:
        self.words += " " if tag in ("td", "th", "dt", "dd", "text") else ""

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append(tag)
        self.fetched += [value for name, value in attrs if name in ("src", "href", "data", "action", "xlink:href")]


def plain(text: str) -> str:
    return " ".join(text.split())
