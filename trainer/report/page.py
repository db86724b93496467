"""Pages of HTML from their templates, each one file that needs nothing else and makes no request."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from importlib.resources import files
from pathlib import Path

from jinja2 import Environment, PackageLoader, StrictUndefined
from markupsafe import Markup

from trainer.picture import Palette, Picture, to_svg
from trainer.picture.on_page import HIGH, on_page
from trainer.report.paper_text import in_marks
from trainer.report.skills import NOTE
from trainer.report.type_in_page import with_type
from trainer.rules.whole import NOT_DONE
from trainer.words import _, printable

SIGNS: Mapping[str, str] = {
    "holds": _("Holds"),
    "fails": _("Fails"),
    "unknown": _("Not known"),
    "noticed": _("Worth a look"),
}
ASSESSOR = (_("Assessor's name"), _("Comment"), _("Signature and date"))
"""What whoever assesses has a line for."""
IN_BRACKETS = _("Two numbers in brackets are a place on the plan: so many millimetres to the right, then up the page.")
COVERS = _(
    "The houses here that practise each item of the unit, where something was done of it. "
    "It says nothing of how well, or of competency."
)
EACH_TIME = _("Each time")


@cache
def _environment() -> Environment:
    loader = PackageLoader("trainer.report", "pages")
    return Environment(
        loader=loader, autoescape=True, undefined=StrictUndefined, keep_trailing_newline=True, finalize=_shown
    )


def _shown(value: object) -> object:
    """A text from a file without the signs that would turn the page's writing round."""
    return printable(value) if type(value) is str else value


def page(template: str, content: object, palette: Palette, fonts: tuple[Path, Path]) -> str:
    """Fill a template of this room with what is to be said; ``fonts`` are the type's files, regular and semibold."""
    environment = _environment()

    def source(name: str) -> Markup:
        return Markup(files("trainer.report").joinpath("pages", name).read_text(encoding="utf-8"))

    def svg(picture: Picture, wide: float = 0.0, high: float = HIGH) -> Markup:
        """Draw it; lettered for so many px where their width is given."""
        return Markup(to_svg(on_page(picture, wide, high) if wide else picture, palette))

    html = environment.get_template(template).render(
        content=content,
        svg=svg,
        source=source,
        signs=SIGNS,
        covers=COVERS,
        assessor=ASSESSOR,
        in_brackets=IN_BRACKETS,
        each_time=EACH_TIME,
        not_done=NOT_DONE,
        skills_note=NOTE,
        _=_,
        in_marks=in_marks,
    )
    return with_type(html, fonts)
