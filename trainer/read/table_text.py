"""A table's text, as a spreadsheet saves it, to rows."""

from __future__ import annotations

import csv
import io

from trainer.read.fault import WHOLE_FILE, refuse
from trainer.words import _


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
