"""The type of a page, embedded in it: the letters of a keyboard and what else the page uses, alike everywhere."""

from __future__ import annotations

import base64
import io
import string
from collections.abc import Iterable
from functools import lru_cache
from pathlib import Path

from trainer.picture.svg import FONTS

FAMILY = FONTS.partition(",")[0]
"""The type's own name, as drawings and pages ask for it first."""
WEIGHTS = (400, 600)
"""Of the files of the type, in their order: regular and semibold."""
STANDS_FOR_TYPE = "/*type*/"
"""Where a page's style has it."""


def with_type(html: str, fonts: Iterable[Path]) -> str:
    """Return a page with its type where its style keeps a place for it; ``fonts`` are files, regular and semibold."""
    letters = "".join(sorted({*string.printable, *html}))
    faces = [_face(path, weight, letters) for path, weight in zip(fonts, WEIGHTS, strict=True)]
    return html.replace(STANDS_FOR_TYPE, "\n".join(faces), 1)


def _face(path: Path, weight: int, letters: str) -> str:
    data = base64.b64encode(_cut_down(path, letters)).decode("ascii")
    source = f"src: url(data:font/ttf;base64,{data}) format('truetype')"
    return f"@font-face {{ font-family: {FAMILY}; font-weight: {weight}; {source}; }}"


@lru_cache(maxsize=8)
def _cut_down(path: Path, letters: str) -> bytes:
    """Return a font with no more than these letters; the pages of one class mostly have the same."""
    from fontTools.subset import Options, Subsetter  # noqa: PLC0415 - slow to load, for pages alone
    from fontTools.ttLib import TTFont  # noqa: PLC0415 - with it

    font = TTFont(path, lazy=True, recalcTimestamp=False)
    options = Options()
    options.layout_features = ["kern", "liga"]
    options.hinting = False
    options.notdef_outline = True
    cutter = Subsetter(options)
    cutter.populate(text=letters)
    cutter.subset(font)
    out = io.BytesIO()
    font.save(out)
    return out.getvalue()
