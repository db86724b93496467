"""Makes the pictures of the README anew: ``python tests/readme_pictures.py [FOLDER]``, into ``.readme`` by default.

They are taken of the board itself, of screens that its tests go through, and kept small: 256 colours at most.
"""

import struct
import sys
import zlib
from collections import Counter
from pathlib import Path

import pygame
from board_screens import at

SIZE = (1280, 800)
PICTURES = {
    "path": "houses",
    "plan": "stand",
    "falling": "fallen",
    "section": "section",
    "desk": "desk_out",
    "granting": "desk_eased",
}
"""Name of each picture, and the screen that it is of."""


def main(folder: Path) -> None:
    folder.mkdir(exist_ok=True)
    for name, screen in PICTURES.items():
        surface = at(screen, SIZE, 1.0, "light").surface
        (folder / f"{name}.png").write_bytes(png(surface))


def png(surface: pygame.Surface) -> bytes:
    """Return a surface as a PNG of its 256 most used colours; each other one becomes the nearest of those."""
    wide, high = surface.get_size()
    raw = pygame.image.tobytes(surface, "RGB")
    pixels = [raw[i : i + 3] for i in range(0, len(raw), 3)]
    used = Counter(pixels)
    palette = [colour for colour, _count in used.most_common(256)]
    known = {colour: number for number, colour in enumerate(palette)}
    for colour in used:
        if colour not in known:
            known[colour] = min(range(len(palette)), key=lambda n, c=colour: _apart(palette[n], c))
    rows = (b"\0" + bytes(known[p] for p in pixels[y * wide : (y + 1) * wide]) for y in range(high))
    head = struct.pack(">IIBBBBB", wide, high, 8, 3, 0, 0, 0)
    chunks = (
        (b"IHDR", head),
        (b"PLTE", b"".join(palette)),
        (b"IDAT", zlib.compress(b"".join(rows), 9)),
        (b"IEND", b""),
    )
    return b"\x89PNG\r\n\x1a\n" + b"".join(_chunk(kind, data) for kind, data in chunks)


def _apart(one: bytes, other: bytes) -> int:
    return sum((a - b) ** 2 for a, b in zip(one, other, strict=True))


def _chunk(kind: bytes, data: bytes) -> bytes:
    return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))


if __name__ == "__main__":
    main(Path(sys.argv[1]) if len(sys.argv) > 1 else Path(__file__).parents[1] / ".readme")
