"""Reading PDFs back by a general library: everything on a page, and how high its letters are."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from pdfminer.layout import LTChar, LTContainer


def leaves(node: Any) -> Iterator[Any]:
    """Everything on a page that is not made of other things, in the order in which it was painted."""
    if isinstance(node, LTContainer):
        for child in node:
            yield from leaves(child)
    else:
        yield node


def high(char: LTChar) -> float:
    """How high the box of a letter is, points, whichever way it is turned."""
    return float(char.x1 - char.x0 if char.matrix[1] else char.y1 - char.y0)
