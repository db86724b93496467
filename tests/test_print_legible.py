"""What is printed can be read: sizes and contrast, read back from the PDFs themselves by a general library.

7 points as the smallest type in print is common practice, no source. A contrast of 4.5 is from W3C, WCAG 2.1, criterion
1.4.3.
"""

from __future__ import annotations

from itertools import pairwise

import pytest
from attempts import level_of
from pdfminer.high_level import extract_pages
from pdfminer.layout import LTChar, LTPage
from print_read import faint, high, leaves
from report_made import mistaken
from typer.testing import CliRunner

from trainer.cli import app
from trainer.layout import lay_out
from trainer.picture.model import Text
from trainer.picture.sheet import plan_picture
from trainer.report.pdf_page import TITLE
from trainer.report.pdf_picture import LEAST_POINTS, legible

A3_DRAWING = (384.0, 247.0)
"""What of an A3 page on its side a drawing has, mm."""


def run(*words: object) -> None:
    result = CliRunner().invoke(app, [str(word) for word in words])
    assert result.exit_code == 0, result.output


@pytest.fixture(scope="module")
def printed(tmp_path_factory: pytest.TempPathFactory) -> dict[str, list[LTPage]]:
    """The pages of a paper, of a class and of an attempt."""
    folder = tmp_path_factory.mktemp("printed")
    mistaken(folder, "emu-01", "pardalote", "off-station")
    attempt = mistaken(folder, "owl-02", "pardalote", "tie-down-missing")
    run("paper", "--level", "wren", "-o", folder / "paper.pdf")
    run("report", "-o", folder / "class.pdf", "--data", folder)
    run("report", attempt.id, "-o", folder / "attempt.pdf", "--data", folder)
    return {name: list(extract_pages(folder / f"{name}.pdf")) for name in ("paper", "class", "attempt")}


@pytest.mark.parametrize("name", ["paper", "class", "attempt"])
def test_no_letter_is_under_seven_points(printed: dict[str, list[LTPage]], name: str) -> None:
    chars = [each for page in printed[name] for each in leaves(page) if isinstance(each, LTChar)]
    assert len(chars) > 500
    box = {round(high(char), 2) for char in chars if char.matrix[1] == 0}
    assert max(box) == pytest.approx(TITLE, abs=0.02), "the title's size is known, and so that of the rest"
    smallest = min(chars, key=high)
    assert high(smallest) >= LEAST_POINTS - 0.02, smallest


@pytest.mark.parametrize("name", ["class", "attempt"])
def test_every_letter_of_a_table_stands_out_from_its_ground(printed: dict[str, list[LTPage]], name: str) -> None:
    """A chart's blue once filled every table after it."""
    for page in printed[name]:
        assert not faint(page)


def test_a_page_after_a_drawing_is_upright_again(printed: dict[str, list[LTPage]]) -> None:
    sizes = [(round(page.width), round(page.height)) for page in printed["attempt"]]
    assert sizes[0] == sizes[-1] == (595, 842)
    assert any(wide > high for wide, high in sizes), "a house that is wider than high lies on its side"
    assert any(a != b for a, b in pairwise(sizes))


@pytest.mark.parametrize("house", ["thornbill", "wren", "figbird"])
def test_every_tag_of_a_plan_has_a_place_of_its_own_on_a3(house: str) -> None:
    picture = plan_picture(lay_out(level_of(house).house()))
    assert any(isinstance(item, Text) for item in picture.items())
    assert legible(picture, A3_DRAWING)
    assert not legible(picture, (20.0, 20.0)), "on a stamp there is no room"
