"""What is printed can be read: sizes and contrast, read back from the PDFs themselves by a general library.

7 points as the smallest type in print is common practice, no source. A contrast of 4.5 is from W3C, WCAG 2.1, criterion
1.4.3.
"""

from __future__ import annotations

from itertools import pairwise
from typing import Any

import pytest
from attempts import level_of
from pdfminer.high_level import extract_pages
from pdfminer.layout import LTChar, LTCurve, LTPage
from print_read import high, leaves
from report_made import mistaken
from typer.testing import CliRunner

from trainer.cli import app
from trainer.layout import lay_out
from trainer.picture.model import Text
from trainer.picture.sheet import plan_picture
from trainer.report.pdf_page import TITLE
from trainer.report.pdf_picture import LEAST_POINTS, legible

CONTRAST = 4.5
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


def luminance(colour: Any) -> float:
    """Relative luminance of a grey or an RGB colour, WCAG 2.1."""
    parts = [float(each) for each in (colour if isinstance(colour, tuple | list) else (colour,))]
    parts = parts * 3 if len(parts) == 1 else parts
    r, g, b = (p / 12.92 if p <= 0.03928 else ((p + 0.055) / 1.055) ** 2.4 for p in parts)
    return 0.2126 * r + 0.7152 * g + 0.0722 * b


def ground(char: LTChar, fills: list[LTCurve]) -> Any:
    """The colour of the smallest filled box round a letter; white where there is none."""
    x, y = (char.x0 + char.x1) / 2, (char.y0 + char.y1) / 2
    round_it = [f for f in fills if f.x0 <= x <= f.x1 and f.y0 <= y <= f.y1]
    smallest = min(round_it, key=lambda f: (f.x1 - f.x0) * (f.y1 - f.y0), default=None)
    return 1.0 if smallest is None else smallest.non_stroking_color


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
        found = list(leaves(page))
        fills = [
            each for each in found if isinstance(each, LTCurve) and each.fill and each.non_stroking_color is not None
        ]
        for char in found:
            if isinstance(char, LTChar) and char.graphicstate.ncolor is not None:
                light = sorted((luminance(char.graphicstate.ncolor), luminance(ground(char, fills))))
                assert (light[1] + 0.05) / (light[0] + 0.05) >= CONTRAST, (page.pageid, char)


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
