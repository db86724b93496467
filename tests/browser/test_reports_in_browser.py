"""Reports opened in a real browser: the replay plays, nothing is complained of, and no request leaves the file.

Run by name, since it wants Chromium and the extra ``browser``: ``pytest tests/browser``.
"""

from __future__ import annotations

import re
from pathlib import Path

from attempts import level_of
from playwright.sync_api import Browser, Page, expect
from report_made import built, mistaken
from typer.testing import CliRunner

from trainer.cli import app
from trainer.rehearse import rehearse


class Opened:
    """A page, all that it asked for and all that was complained of."""

    def __init__(self, browser: Browser, path: Path) -> None:
        self.asked: list[str] = []
        self.said: list[str] = []
        self.page: Page = browser.new_page()
        self.page.on("request", lambda request: self.asked.append(request.url))
        self.page.on("console", lambda message: self.said.append(message.text))
        self.page.on("pageerror", lambda error: self.said.append(str(error)))
        self.page.goto(path.as_uri())


def report(folder: Path, *words: str) -> Path:
    path = folder / "report.html"
    result = CliRunner().invoke(app, ["report", *words, "-o", str(path), "--data", str(folder)])
    assert result.exit_code == 0, result.output
    return path


def shown(page: Page) -> int:
    return sum(piece.is_visible() for piece in page.locator(".replay g.piece[data-of]").all())


def test_the_replay_plays_by_mouse_and_by_keys(browser: Browser, tmp_path: Path) -> None:
    made = mistaken(tmp_path, "wren-07", "pardalote", "off-station")
    last = len(made.houses[0].acts)
    path = report(tmp_path, made.id)
    opened = Opened(browser, path)
    page = opened.page
    box = page.locator(".replay")
    expect(box).to_have_attribute("data-moment", str(last))
    expect(page.locator(".replay .now")).to_contain_text("Handed over")
    whole = shown(page)

    page.click(".replay .start")
    expect(box).to_have_attribute("data-moment", "0")
    expect(page.locator(".replay .now")).to_contain_text("before the first action")
    assert shown(page) < whole / 3
    page.click(".replay .play")
    expect(page.locator(".replay .play")).to_have_text("Pause")
    expect(box).to_have_attribute("data-moment", re.compile("^[3-9]$"), timeout=20_000)
    page.click(".replay .play")
    expect(page.locator(".replay .play")).to_have_text("Play")

    at = next(act["index"] + 1 for act in made.houses[0].acts if act["found"])
    page.locator(".replay input").fill(str(at))
    expect(page.locator(".replay .now")).to_contain_text("Out of tolerance")
    page.locator(".replay input").press("ArrowRight")
    expect(box).to_have_attribute("data-moment", str(at + 1))
    page.locator(".replay .back").press("Enter")
    expect(box).to_have_attribute("data-moment", str(at))
    assert opened.said == []
    assert opened.asked == [path.as_uri()], "no request leaves the file"


def test_what_is_played_to_the_end_stops_and_starts_again(browser: Browser, tmp_path: Path) -> None:
    made = built(tmp_path, "wren-07", "pardalote", rehearse(level_of("pardalote"), 1).actions[:3])
    page = Opened(browser, report(tmp_path, made.id)).page
    page.click(".replay .play")
    expect(page.locator(".replay .now")).to_contain_text("before the first action")
    expect(page.locator(".replay")).to_have_attribute("data-moment", "3")
    expect(page.locator(".replay .play")).to_have_text("Play")


def test_a_class_prints_in_black_and_white_and_asks_for_nothing(browser: Browser, tmp_path: Path) -> None:
    mistaken(tmp_path, "wren-07", "pardalote", "off-station")
    mistaken(tmp_path, "emu-02", "pardalote", None, seconds=11)
    path = report(tmp_path)
    opened = Opened(browser, path)
    expect(opened.page.locator("figure svg")).to_have_count(3)
    opened.page.emulate_media(media="print")
    assert opened.page.pdf().startswith(b"%PDF-")
    bar = opened.page.locator("figure svg polygon").first
    assert luminance(str(bar.get_attribute("fill"))) < 0.25, "a bar is dark on white without its colour"
    assert opened.said == []
    assert opened.asked == [path.as_uri()]


def luminance(colour: str) -> float:
    """Relative luminance, WCAG 2.2."""
    parts = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    linear = [part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]
