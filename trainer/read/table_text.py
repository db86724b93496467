"""A table's text, as a spreadsheet saves it, to rows; and rows to a text that runs nothing in one."""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Iterable, Sequence

from trainer.read.fault import WHOLE_FILE, refuse
from trainer.words import _

_RUNS = re.compile(r"\s*[=+@\t\r-]")
"""How a cell begins that a spreadsheet would run as a formula."""
_NUMBER = re.compile(r"-?[0-9]+(\.[0-9]+)?(e[+-]?[0-9]+)?")


def cell_text(value: object) -> str:
    """Return a cell's text; one that a spreadsheet would run as a formula gets an apostrophe before it."""
    text = f"{value:g}" if isinstance(value, float) else str(value)
    return f"'{text}" if _RUNS.match(text) and not _NUMBER.fullmatch(text) else text


def write_table(rows: Iterable[Sequence[object]]) -> str:
    """Return rows as CSV by RFC 4180, in which nothing is a formula."""
    out = io.StringIO(newline="")
    csv.writer(out, lineterminator="\r\n").writerows([cell_text(value) for value in row] for row in rows)
    return out.getvalue()


def read_table(content: bytes, file: str, without_head: str) -> list[tuple[int, list[str]]]:
    """Return (line where it begins, cells) of every row that isn't empty, the header first.

    UTF-8 with or without a mark at its beginning; parted by commas, semicolons or tabs. ``without_head`` is said of a
    file that has no row at all.

    :raises Faulty: where it is no such text.
    """
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = content[: error.start].count(b"\n") + 1
        refuse(file, line, WHOLE_FILE, _("is not UTF-8; save it as 'CSV UTF-8' in the spreadsheet"))
    delimiter = max(",;\t", key=text.split("\n", 1)[0].count)
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=delimiter)
    found, line = [], 1
    try:
        for cells in reader:
            if any(cell.strip() for cell in cells):
                found.append((line, cells))
            line = reader.line_num + 1
    except csv.Error as error:
        refuse(file, line, "row", _("can't be read: {error}; check its quotes").format(error=error))
    return found or refuse(file, 1, "header", without_head)
