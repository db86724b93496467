"""Text for people in columns that stay apart, also in a pipe or read aloud."""

from __future__ import annotations

from collections.abc import Sequence


def table(heads: Sequence[str], rows: Sequence[Sequence[str]], right: str = "") -> str:
    """Return rows under their heads, columns two spaces apart.

    ``right`` has a letter for each column: ``r`` for one set to the right, anything else to the left.
    """
    widths = [max(len(cell) for cell in column) for column in zip(heads, *rows, strict=True)]
    sides = right.ljust(len(heads), "l")
    lines = [
        "  ".join(
            cell.rjust(width) if side == "r" else cell.ljust(width)
            for cell, width, side in zip(row, widths, sides, strict=True)
        ).rstrip()
        for row in (heads, ["-" * width for width in widths], *rows)
    ]
    return "\n".join(lines)
