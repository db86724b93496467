"""Nothing on the plan relies on colour alone: painted pictures, as three kinds of colour blindness see them.

The simulation is the linear one of Machado, Oliveira and Fernandes (2009), severity 1.0; its matrices are from memory.
Criterion: W3C, WCAG 2.2, 1.4.1 (use of colour).
"""

from itertools import combinations

import pygame
import pytest

from trainer.board.paint import Brush, colours_of
from trainer.picture.found import DASHES, INKS
from trainer.picture.model import Line, View
from trainer.picture.palette import contrast
from trainer.picture.timbers import EDGE, RUNS
from trainer.shipped.colours import palettes

SEEN = {
    "protan": ((0.152286, 1.052583, -0.204868), (0.114503, 0.786281, 0.099216), (-0.003882, -0.048116, 1.051998)),
    "deutan": ((0.367322, 0.860646, -0.227968), (0.280085, 0.672501, 0.047413), (-0.011820, 0.042940, 0.968881)),
    "tritan": ((1.255528, -0.076749, -0.178779), (-0.078411, 0.930809, 0.147602), (0.004733, 0.691367, 0.303900)),
}
LONG = 600
APART = 0.08
"""Two ways to break a line tell apart where they differ by so much in how much of it is drawn, or in how often."""


def seen_as(colour: tuple[int, ...], kind: str) -> str:
    """A colour as it is seen, in linear light, as #rrggbb."""
    light = [c / 255 / 12.92 if c / 255 <= 0.04045 else ((c / 255 + 0.055) / 1.055) ** 2.4 for c in colour[:3]]
    mixed = [min(1.0, max(0.0, sum(m * v for m, v in zip(row, light, strict=True)))) for row in SEEN[kind]]
    back = [c * 12.92 if c <= 0.0031308 else 1.055 * c ** (1 / 2.4) - 0.055 for c in mixed]
    return "#" + "".join(f"{round(255 * c):02x}" for c in back)


def drawn(role: str, dash: tuple[float, ...], theme: str, kind: str) -> tuple[float, int]:
    """How much of a line is drawn, and in how many pieces, as it is seen on the ground of the plan."""
    palette = palettes()[theme]
    surface = pygame.Surface((LONG, 21))
    surface.fill(colours_of(palette)["paper"])
    view = View(1.0, 0.0, 20.0)
    Brush(surface, colours_of(palette), view).paint([Line(((0.0, 10.0), (float(LONG), 10.0)), role, 4.0, "px", dash)])
    ground = seen_as(surface.get_at((0, 1)), kind)
    on = [contrast(seen_as(surface.get_at((x, 10)), kind), ground) >= 3.0 for x in range(LONG)]
    return sum(on) / LONG, sum(b and not a for a, b in zip([False, *on], on, strict=False))


@pytest.mark.parametrize("kind", SEEN)
@pytest.mark.parametrize("theme", ["light", "dark", "contrast"])
def test_the_rings_of_severities_tell_apart(theme: str, kind: str) -> None:
    looks = {severity: drawn(INKS[severity], DASHES[severity], theme, kind) for severity in INKS}
    assert all(share > 0.2 for share, _pieces in looks.values()), looks
    for one, other in combinations(looks, 2):
        (a, n), (b, m) = looks[one], looks[other]
        assert abs(a - b) > APART or abs(n - m) > APART * max(n, m), (one, other)


@pytest.mark.parametrize("kind", SEEN)
@pytest.mark.parametrize("theme", ["light", "dark", "contrast"])
def test_bracing_tells_apart_from_the_trusses_under_it(theme: str, kind: str) -> None:
    """Trusses are whole lines, bracing is broken: whoever sees the two in one colour still sees which is which."""
    for run in ("batten", "prop", "steel brace", "roof brace", "tie"):
        role, _wide, dash = RUNS[run]  # type: ignore[index]
        share, pieces = drawn(role, dash, theme, kind)
        assert pieces > 10 and 0.3 < share < 0.95, run
    assert drawn(EDGE, (), theme, kind) == (1.0, 1)
