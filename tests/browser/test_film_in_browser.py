"""A film opened in a real browser at a phone's size: it plays, asks, and makes no request.

Run by name, since it wants Chromium and the extra ``browser``: ``pytest tests/browser``.
"""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from attempts import layout_of, level_of
from playwright.sync_api import Browser, BrowserContext, Page, expect
from typer.testing import CliRunner

from trainer.cli import app
from trainer.film import film_of

PHONE = {"width": 360, "height": 740}
LEAST_TARGET = 44


@pytest.fixture(scope="module")
def path(tmp_path_factory: pytest.TempPathFactory) -> Path:
    made = tmp_path_factory.mktemp("film") / "film.html"
    result = CliRunner().invoke(app, ["film", "thornbill", "-o", str(made)])
    assert result.exit_code == 0, result.output
    return made


class Opened:
    """The film's page on a phone, all that it asked for and all that was complained of."""

    def __init__(self, context: BrowserContext, path: Path) -> None:
        self.asked: list[str] = []
        self.said: list[str] = []
        self.page: Page = context.new_page()
        self.page.on("request", lambda request: self.asked.append(request.url))
        self.page.on("console", lambda message: self.said.append(message.text))
        self.page.on("pageerror", lambda error: self.said.append(str(error)))
        self.page.goto(path.as_uri())


def phone(browser: Browser, **more: str) -> BrowserContext:
    return browser.new_context(viewport=PHONE, device_scale_factor=3, is_mobile=True, has_touch=True, **more)


def at(page: Page) -> int:
    return int(str(page.get_attribute(".film", "data-moment")))


def until_asked(page: Page) -> None:
    """Tap on past captions until the film asks."""
    for _turn in range(200):
        if page.locator(".film .options button").count():
            return
        page.tap(".film .on")
    raise AssertionError("it never asks")


def test_it_plays_and_asks_on_a_phone(browser: Browser, path: Path) -> None:
    opened = Opened(phone(browser), path)
    page = opened.page
    expect(page.locator(".film .said")).to_contain_text("First the marks")
    assert page.evaluate("document.documentElement.scrollWidth") <= PHONE["width"], "nothing is off the side"
    for control in page.locator(".film button:visible, .film select:visible").all():
        box = control.bounding_box()
        assert box is not None and box["height"] >= LEAST_TARGET
    page.tap(".film .play")
    page.tap(".film .on")
    expect(page.locator(".film")).to_have_attribute("data-moment", re.compile(r"^[1-9]\d{2,}$"))
    page.tap(".film .play")
    paused = at(page)
    page.wait_for_timeout(300)
    assert at(page) == paused

    until_asked(page)
    stop = film_of(level_of("thornbill"), 1, layout_of("thornbill")).stops[0]
    assert at(page) == stop.at_ms
    wrong = next(option for option in stop.options if not option.right)
    page.get_by_text(wrong.text).first.tap()
    expect(page.locator(".film .said")).to_contain_text(wrong.why)
    expect(page.locator(".film .said")).to_contain_text(next(option.text for option in stop.options if option.right))
    assert opened.said == []
    assert opened.asked == [path.as_uri()], "no request leaves the file"


def test_it_goes_from_step_to_step_to_the_end_by_keyboard(browser: Browser, path: Path) -> None:
    page = Opened(browser.new_context(), path).page
    page.focus(".film .on")
    standing = set()
    for _step in range(200):
        standing.add(page.get_attribute(".film", "data-standing"))
        if page.locator(".film .on").is_disabled():
            break
        page.focus(".film .on")
        page.keyboard.press("Enter")
    expect(page.locator(".film .said")).to_contain_text("The roof is up")
    assert standing == {str(n) for n in range(8)}, "each truss is a step"
    painted = page.evaluate(
        "(() => { const c = document.querySelector('.film canvas');"
        "const d = c.getContext('2d').getImageData(0, 0, c.width, c.height).data;"
        "let n = 0; for (let i = 3; i < d.length; i += 4) { n += d[i] > 0; } return n / (c.width * c.height); })()"
    )
    assert painted > 0.05, "there is a roof on the picture"


def test_one_idea_alone_begins_with_its_own_caption(browser: Browser, path: Path) -> None:
    page = Opened(phone(browser), path).page
    page.select_option(".film .part", label="Gable ends")
    expect(page.locator(".film .said")).to_contain_text("Gable ends")
    caption = next(c for c in film_of(level_of("thornbill"), 1, layout_of("thornbill")).captions if c.idea == "gable")
    assert at(page) == caption.at_ms


def test_where_movement_is_unwanted_nothing_plays_by_itself(browser: Browser, path: Path) -> None:
    page = Opened(phone(browser, reduced_motion="reduce"), path).page
    expect(page.locator(".film .play")).to_be_hidden()
    page.tap(".film .on")
    page.tap(".film .on")
    assert at(page) > 0


def test_all_that_it_says_is_there_as_text_without_scripts(browser: Browser, path: Path) -> None:
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(path.as_uri())
    text = re.sub(r"\s+", " ", page.content())
    made = film_of(level_of("thornbill"), 1, layout_of("thornbill"))
    for cue in made.cues:
        assert cue.text in text
    assert "All that it says is listed below." in text
