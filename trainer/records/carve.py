"""Reads rows out of a damaged SQLite file page by page, without trusting its tree.

Follows the file format as SQLite documents it (Database File Format, sections 1.6 and 2.1: leaf pages of tables, cells,
records, overflow pages). What comes out is not to be trusted before its hashes are checked.
"""

from __future__ import annotations

from collections.abc import Iterator

_LEAF = 0x0D
_FIRST_HEADER = 100
"""Bytes of the file's own header on its first page."""
_INTEGERS = {1: 1, 2: 2, 3: 3, 4: 4, 5: 6, 6: 8}
"""Serial types of whole numbers and their sizes in bytes."""
_FIRST_LONG = 12
"""From this serial type on, even ones are bytes and odd ones are text; the type also tells how long they are."""
_LEAST_PAGE, _USUAL_PAGE = 512, 4096
"""Sizes of a page in bytes: powers of two; the usual one stands in where the header is spoilt."""

Value = int | bytes | str | None


def rows(content: bytes) -> Iterator[tuple[Value, ...]]:
    """Yield every row that can be made out on any table's leaf page, whichever table it is of."""
    size = int.from_bytes(content[16:18])
    size = size if size >= _LEAST_PAGE and size & (size - 1) == 0 else _USUAL_PAGE
    for start in range(0, len(content), size):
        page = content[start : start + size]
        header = 0 if start else _FIRST_HEADER
        if len(page) < size or page[header] != _LEAF:
            continue
        for place in range(int.from_bytes(page[header + 3 : header + 5])):
            at = header + 8 + 2 * place
            try:
                yield _record(_payload(content, page, int.from_bytes(page[at : at + 2]), size))
            except (IndexError, ValueError):
                continue  # spoilt


def _payload(content: bytes, page: bytes, at: int, size: int) -> bytes:
    """A cell's bytes, with what overflowed to other pages; how much stays on the page is by section 1.6."""
    total, at = _varint(page, at)
    _rowid, at = _varint(page, at)
    if total > len(content):
        raise ValueError(total)
    most, least = size - 35, (size - 12) * 32 // 255 - 23
    spill = least + (total - least) % (size - 4)
    local = total if total <= most else spill if spill <= most else least
    payload = page[at : at + local]
    following = int.from_bytes(page[at + local : at + local + 4]) if local < total else 0
    while len(payload) < total:
        start = (following - 1) * size
        if start < 0:
            raise ValueError(following)
        following = int.from_bytes(content[start : start + 4])
        payload += content[start + 4 : start + size][: total - len(payload)]
        if start + 4 >= len(content):
            raise ValueError(start)
    return payload


def _record(payload: bytes) -> tuple[Value, ...]:
    end, at = _varint(payload, 0)
    if end > len(payload):
        raise ValueError(end)
    kinds = []
    while at < end:
        kind, at = _varint(payload, at)
        kinds.append(kind)
    values: list[Value] = []
    for kind in kinds:
        size = _INTEGERS.get(kind, 0) if kind < _FIRST_LONG else (kind - _FIRST_LONG) // 2
        raw = payload[at : at + size]
        if len(raw) < size:
            raise ValueError(size)
        at += size
        values.append(_value(kind, raw))
    return tuple(values)


def _value(kind: int, raw: bytes) -> Value:
    if kind >= _FIRST_LONG:
        return raw if kind % 2 == 0 else raw.decode("utf-8", errors="replace")
    if kind in _INTEGERS:
        return int.from_bytes(raw, signed=True)
    return {0: None, 8: 0, 9: 1}[kind] if kind in (0, 8, 9) else None


def _varint(page: bytes, at: int) -> tuple[int, int]:
    """A number in SQLite's own form, big end first in groups of seven bits, and the place after it."""
    value = 0
    for place in range(8):
        byte = page[at + place]
        value = value << 7 | byte & 0x7F
        if byte < 0x80:
            return value, at + place + 1
    return value << 8 | page[at + 8], at + 9
