"""What is printed can be read: sizes and contrast, read back from the PDFs themselves by a general library.

7 points as the smallest type in print is common practice, no source. A contrast of 4.5 is from W3C, WCAG 2.1, criterion
1.4.3.
"""

from __future__ import annotations

from itertools import pairwise

import pytest
from attempts import layout_of
from pdfminer.high_level import extract_pages
from pdfminer.layout import LTChar, LTPage
from print_read import faint, high, leaves
from report_made import mistaken
from shapely import STRtree, box
from sizes import by_size
from typer.testing import CliRunner

from trainer.cli import app
from trainer.picture.lettering import text_box
from trainer.picture.model import Text
from trainer.picture.moments import reference_picture
from trainer.picture.on_page import HIGH, WIDE, on_page
from trainer.report.house_plan import SCALE, HousePlan
from trainer.report.pdf_page import HEAD, TITLE
from trainer.report.pdf_picture import LEAST_POINTS, legible

KINDS = ("paper", "guide", "sheet", "sheet-A4", "cutout", "class", "attempt")
FOOTER = 45.0
"""What stands lower than this on a page of text is its number, points."""
A3_DRAWING = (384.0, 247.0)
"""What of an A3 page on its side a drawing has, mm."""
UPRIGHT = (261.0, 370.0)
"""The same of one that stands."""


def run(*words: object) -> None:
    result = CliRunner().invoke(app, [str(word) for word in words])
    assert result.exit_code == 0, result.output


@pytest.fixture(scope="module")
def printed(tmp_path_factory: pytest.TempPathFactory) -> dict[str, list[LTPage]]:
    """The pages of every kind of PDF that there is."""
    folder = tmp_path_factory.mktemp("printed")
    mistaken(folder, "emu-01", "pardalote", "off-station")
    attempt = mistaken(folder, "owl-02", "pardalote", "tie-down-missing")
    questions, large, model = by_size((8, "fantail", "pardalote"), (20, "wren", "lorikeet"), (20, "wren", "lorikeet"))
    run("paper", "--level", "wren", "--count", questions, "-o", folder / "paper.pdf")
    run("paper", "--level", "wren", "--count", questions, "--answers", "-o", folder / "guide.pdf")
    run("sheet", "pardalote", "-o", folder / "sheet.pdf")
    run("sheet", large, "--paper", "A4", "-o", folder / "sheet-A4.pdf")
    run("cutout", model, "-o", folder / "cutout.pdf")
    run("report", "-o", folder / "class.pdf", "--data", folder)
    run("report", attempt.id, "-o", folder / "attempt.pdf", "--data", folder)
    return {name: list(extract_pages(folder / f"{name}.pdf")) for name in KINDS}


@pytest.mark.parametrize("name", KINDS)
def test_no_letter_is_under_seven_points(printed: dict[str, list[LTPage]], name: str) -> None:
    chars = [each for page in printed[name] for each in leaves(page) if isinstance(each, LTChar)]
    assert len(chars) > 500
    box = {round(high(char), 2) for char in chars if char.matrix[1] == 0}
    assert max(box) == pytest.approx(TITLE, abs=0.02), "the title's size is known, and so that of the rest"
    smallest = min(chars, key=high)
    assert high(smallest) >= LEAST_POINTS - 0.02, smallest


@pytest.mark.parametrize("name", KINDS)
def test_every_letter_stands_out_from_its_ground(printed: dict[str, list[LTPage]], name: str) -> None:
    """A chart's blue once filled every table after it."""
    for page in printed[name]:
        assert not faint(page)


@pytest.mark.parametrize("name", KINDS)
def test_no_letter_is_printed_over_another(printed: dict[str, list[LTPage]], name: str) -> None:
    """The caution under a card model's building order once ran through it."""
    for number, page in enumerate(printed[name], 1):
        chars = [each for each in leaves(page) if isinstance(each, LTChar) and each.get_text().strip()]
        boxes = [box(*char.bbox) for char in chars]
        inside = STRtree(boxes).query([each.centroid for each in boxes], predicate="within").T
        assert not [(number, chars[a], chars[b]) for a, b in inside if a != b]


@pytest.mark.parametrize("name", KINDS)
def test_no_heading_stands_alone_at_the_foot_of_a_page(printed: dict[str, list[LTPage]], name: str) -> None:
    for number, page in enumerate(printed[name], 1):
        chars = [each for each in leaves(page) if isinstance(each, LTChar) and each.y0 > FOOTER]
        lowest = min(chars, key=lambda char: char.y0)
        assert high(lowest) < HEAD - 0.1, (number, lowest)


def test_a_page_after_a_drawing_is_upright_again(printed: dict[str, list[LTPage]]) -> None:
    sizes = [(round(page.width), round(page.height)) for page in printed["attempt"]]
    assert sizes[0] == sizes[-1] == (595, 842)
    assert any(wide > high for wide, high in sizes), "a house that is wider than high lies on its side"
    assert any(a != b for a, b in pairwise(sizes))
    for page, (wide, tall) in zip(printed["attempt"], sizes, strict=True):
        words = "".join(each.get_text() for each in leaves(page) if isinstance(each, LTChar))
        assert wide < tall or not any(text in words for text in ("Why it matters", "what was done")), "on its drawing"


@pytest.mark.parametrize("house", ["thornbill", "wren", "jabiru", "brolga"][: by_size(3, 4, 4)])
def test_every_tag_and_wall_has_a_place_of_its_own_on_a3(house: str) -> None:
    """The largest houses too: a tag without room shares one with its neighbours, or stands aside on a line."""
    picture = reference_picture(layout_of(house), "", "")
    texts = {item.text for item in picture.items() if isinstance(item, Text)}
    assert {member.tag for member in layout_of(house).members} <= texts
    left, low, right, top = picture.box
    size = A3_DRAWING if right - left > top - low else UPRIGHT
    assert legible(picture, size)
    assert not legible(picture, (6.0, 6.0)), "on a stamp there is no room"


@pytest.mark.parametrize("house", ["wren", "brolga"][: by_size(1, 2, 2)])
def test_what_a_page_prints_is_no_smaller_than_seven_points(house: str) -> None:
    """A page of HTML on A4 with 15 mm margins has 180 mm for a drawing: 72 points are 25.4 mm."""
    made = on_page(reference_picture(layout_of(house), "", ""), WIDE, HIGH)
    left, low, right, top = made.box
    printed = min(180 / (right - left), 240 / (top - low)) * 72 / 25.4
    sizes = [item.size * printed for item in made.items() if isinstance(item, Text)]
    assert min(sizes) >= LEAST_POINTS - 0.02
    parts = HousePlan("", house, layout_of(house)).parts
    assert min(item.size for part in parts for item in part.drawn.items() if isinstance(item, Text)) >= (
        LEAST_POINTS / 72 * 25.4 * SCALE - 0.1
    ), "a plan of a paper is at its scale"
    seen = {item.text for part in parts for item in part.drawn.items() if isinstance(item, Text)}
    assert {member.tag for member in layout_of(house).members} <= seen


@pytest.mark.parametrize(("house", "wide"), [("wren", 330.0), ("brolga", 600.0)])
def test_no_letter_of_a_page_is_cut_off_at_the_edge_of_its_drawing(house: str, wide: float) -> None:
    """Tags of a large house were once led out past the drawing's edge."""
    made = on_page(reference_picture(layout_of(house), "", ""), wide, HIGH)
    drawn = box(*made.box).buffer(1.0)
    assert not [item for item in made.items() if isinstance(item, Text) and not drawn.covers(box(*text_box(item)))]
