"""The page to take home, on a phone in a real browser: it marks as the trainer does, by touch and by keys alone.

Run by name, as the other tests of this folder. Sizes of targets: W3C, WCAG 2.2, 2.5.8 (24 px) and 2.5.5 (44 px).
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from itertools import pairwise
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Locator, Page, expect
from typer.testing import CliRunner

from trainer.cli import app
from trainer.quiz.measure import TypedNumber, read_measure

PHONE = {"width": 360, "height": 740}
LETTERS = """e => [...e.querySelectorAll('text')].map(
    t => parseFloat(t.getAttribute('font-size')) * e.getScreenCTM().a)"""
"""How high the letters of a drawing are, px."""


@pytest.fixture(scope="module")
def file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("home") / "practice.html"
    words = ["paper", "--level", "wren", "--seed", "2", "-o", str(path), "--practise"]
    assert CliRunner().invoke(app, words).exit_code == 0
    return path


@pytest.fixture
def page(browser: Browser, file: Path) -> Iterator[Page]:
    opened = browser.new_page(viewport=PHONE, has_touch=True)
    asked, said = list[str](), list[str]()
    opened.on("request", lambda request: asked.append(request.url))
    opened.on("console", lambda message: said.append(message.text))
    opened.on("pageerror", lambda error: said.append(str(error)))
    opened.goto(file.as_uri())
    yield opened
    assert said == []
    assert asked == [file.as_uri()], "no request leaves the file"
    kept = opened.evaluate("[document.cookie, localStorage.length, sessionStorage.length]")
    assert kept == ["", 0, 0], "nothing is kept"
    opened.close()


def judged(form: Locator) -> dict[str, object]:
    return json.loads(str(form.get_attribute("data-judged")))


def answer(form: Locator, wrong: bool = False) -> None:
    """Answer a question rightly, or so that it is wrong."""
    way, known = form.get_attribute("data-way"), judged(form)
    if way == "number":
        form.locator("input").fill(f"{float(known['value']) + (1e5 if wrong else 0)}")
        return
    right = [int(each) for each in known["right"]]
    if way in ("order", "match"):
        boxes = form.locator("select")
        given = [right[1], right[0], *right[2:]] if wrong else right
        for i, at in enumerate(given):
            boxes.nth(i).select_option(str(at))
        return
    count = form.locator("input").count()
    for at in [i for i in range(count) if i not in right][:1] if wrong else right:
        form.locator("label.choice").nth(at).tap()


def test_right_answers_are_right_and_wrong_ones_are_explained(page: Page) -> None:
    forms = page.locator("form")
    count = forms.count()
    assert count == 40
    ways = set()
    for i in range(count):
        form = forms.nth(i)
        ways.add(form.get_attribute("data-way"))
        answer(form, wrong=i % 2 == 1)
        form.locator("button").tap()
        verdict = form.locator(".verdict")
        if i % 2 and not (form.get_attribute("data-way") == "match" and "Right." in str(verdict.text_content())):
            expect(verdict).to_contain_text("Not right.")
            expect(verdict).to_contain_text("The answer:")
        else:
            expect(verdict).to_contain_text("Right.")
    assert ways >= {"one", "several", "number", "order", "match"}
    expect(page.locator("#score")).to_contain_text("Answered: 40 of 40.")


def test_it_fits_a_phone_and_fingers(page: Page) -> None:
    wide = page.evaluate("[document.documentElement.scrollWidth, window.innerWidth]")
    assert wide[0] <= wide[1], "only plans scroll sideways"
    for target in page.locator("button, label.choice, label.number input, select, summary, a").all():
        box = target.bounding_box()
        assert box is not None and box["height"] >= 44 and box["width"] >= 24
    small = page.evaluate(
        "[...document.querySelectorAll('p, label, legend, h2, dd')].map(e => parseFloat(getComputedStyle(e).fontSize))"
    )
    assert min(small) >= 14


def test_a_question_s_drawing_is_seen_whole_and_a_plan_says_how_to_see_the_rest(page: Page) -> None:
    """Reflow at 320 to 360 px, but for what needs two dimensions: W3C, WCAG 2.2, 1.4.10."""
    drawings = page.locator("article figure svg")
    assert drawings.count() >= 2
    for drawing in drawings.all():
        box = drawing.bounding_box()
        assert box is not None and box["x"] >= 0 and box["x"] + box["width"] <= PHONE["width"]
        assert min(drawing.evaluate(LETTERS)) >= 11, "letters of a drawing, px"
    plans = page.locator("figure.plan")
    assert plans.count() >= 1
    for plan in plans.all():
        assert plan.get_attribute("tabindex") == "0" and plan.get_attribute("role") == "group"
        assert "scroll it sideways" in str(plan.get_attribute("aria-label"))
    expect(page.locator("section", has=plans.first)).to_contain_text("arrow keys")
    plans.first.focus()
    page.keyboard.press("ArrowRight")
    page.wait_for_timeout(600)
    assert plans.first.evaluate("e => e.scrollLeft") > 0


def test_focus_goes_down_the_page_and_each_verdict_is_told_as_it_comes(page: Page) -> None:
    """Focus order: W3C, WCAG 2.2, 2.4.3; a status is announced without taking the focus: 4.1.3."""
    assert page.locator("[tabindex]:not([tabindex='0']):not([tabindex='-1'])").count() == 0
    form = page.locator("form").first
    order = form.evaluate("e => [...e.querySelectorAll('input, select, button')].map(x => x.tagName)")
    assert order[-1] == "BUTTON" and "BUTTON" not in order[:-1]
    answer(form)
    form.locator("button").focus()
    page.keyboard.press("Enter")
    expect(form.locator("[role=status]")).to_contain_text("Right.")
    assert page.evaluate("document.activeElement.tagName") == "BUTTON", "the focus stays where it was"
    page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.tagName") == "SUMMARY"


def test_its_type_comes_with_it(page: Page) -> None:
    page.evaluate("document.fonts.ready")
    faces = page.evaluate("[...document.fonts].map(f => [f.family, f.weight, f.status])")
    assert [face[1:] for face in faces] == [["400", "loaded"], ["600", "loaded"]]


def test_from_a_plan_one_comes_back_to_one_s_question(page: Page) -> None:
    link = page.locator("article a[href^='#plan-']").last
    question = link.evaluate("a => a.closest('article').id")
    link.tap()
    page.locator("section .back").first.tap()
    expect(page.locator(f"#{question} h2")).to_be_in_viewport()
    top = page.locator(f"#{question} h2").bounding_box()
    bar = page.locator("#score").bounding_box()
    assert top and bar and top["y"] >= bar["y"] + bar["height"] - 1, "not under the bar with the score"


def test_it_is_done_by_keys_alone(page: Page) -> None:
    form = page.locator("form[data-way=one]").first
    form.locator("input").first.focus()
    for _step in range(next(map(int, judged(form)["right"]))):
        page.keyboard.press("ArrowDown")
    page.keyboard.press("Space")
    page.keyboard.press("Enter")
    expect(form.locator(".verdict")).to_contain_text("Right.")
    number = page.locator("form[data-way=number]").first
    number.locator("input").focus()
    page.keyboard.press("Enter")
    expect(number.locator(".verdict")).to_contain_text("Type a number")
    page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.tagName") == "BUTTON"
    assert page.evaluate("getComputedStyle(document.activeElement).outlineStyle") == "solid"


def test_a_screen_reader_finds_a_name_for_all_and_hears_the_verdict(page: Page) -> None:
    """Names come from labels and legends, results from live regions: W3C, WAI-ARIA 1.2, status."""
    for box in page.locator("form input, form select").all():
        assert box.evaluate("e => e.labels.length") == 1
    assert page.locator("form fieldset > legend").count() == page.locator("form").count()
    assert page.locator("form .verdict[role=status]").count() == page.locator("form").count()
    assert page.locator("canvas").count() == 0
    levels = page.evaluate("[...document.querySelectorAll('h1, h2, h3')].map(e => Number(e.tagName[1]))")
    assert levels[0] == 1 and set(levels[1:]) <= {2, 3}
    assert all(after - before <= 1 for before, after in pairwise(levels)), "no level is skipped"
    for drawing in page.locator("figure svg").all():
        assert drawing.get_attribute("role") == "img"
        assert drawing.locator("title").first.text_content()


@pytest.mark.parametrize(
    "text", ["1800", "1 800", "1,800", "1.8 m", "1800mm", "1.800,5", "1 80", "2 kN", "-5", "x", ".5"]
)
def test_numbers_are_read_as_the_trainer_reads_them(page: Page, text: str) -> None:
    form = page.locator('form[data-way=number][data-judged*="millimetre"]').first
    read = read_measure(text, "mm")
    value = read.value if isinstance(read, TypedNumber) else None
    known = judged(form) | {"value": value if value is not None else 1, "near": 0, "slips": []}
    form.evaluate("(form, known) => { form.dataset.judged = JSON.stringify(known) }", known)
    form.locator("input").fill(text)
    form.locator("button").tap()
    said = str(form.locator(".verdict").text_content())
    assert ("Right." in said) == (value is not None), said
    assert "Not right." not in said
