"""The palette: every pair of colours that is read together keeps its contrast."""

from __future__ import annotations

import pytest

from trainer.picture import PALETTE_FILE, contrast, parse_palettes
from trainer.read import Faulty
from trainer.shipped import art_path

PALETTES = parse_palettes(art_path(PALETTE_FILE).read_text(encoding="utf-8"))
LETTERING = 4.5
SHAPES = 3.0
"""WCAG 2.2, success criteria 1.4.3 (text) and 1.4.11 (controls and graphics)."""
SEVERITIES = ("stop", "rework", "tolerance", "habit", "good")
PAIRS = [
    *((role, "paper", LETTERING) for role in ("ink", "faint", "mark", "string", "accent", *SEVERITIES)),
    *((role, "panel", LETTERING) for role in ("panel_ink", "panel_faint", "mark", "accent", *SEVERITIES)),
    *((role, "select", LETTERING) for role in ("ink", "panel_ink", "panel_faint", "faint", *SEVERITIES)),
    *(("accent_ink", role, LETTERING) for role in ("accent", "stop", "rework", "good", "focus")),
    ("button_ink", "button", LETTERING),
    ("disabled_ink", "button", LETTERING),
    ("disabled_ink", "panel", LETTERING),
    ("ink", "plate", LETTERING),
    ("button_edge", "panel", SHAPES),
    ("panel_edge", "panel", SHAPES),
    *((role, ground, SHAPES) for role in ("focus",) for ground in ("paper", "panel", "button", "select")),
    *((role, "paper", SHAPES) for role in ("timber_edge", "plate_edge", "roof", "brace", "fastener", "ghost")),
    *(("timber_edge", role, SHAPES) for role in ("timber", "timber_shade", "saddle", "girder")),
    *(
        ("timber_line", f"{role} {shade}", SHAPES)
        for role in ("timber", "hip_timber", "girder", "saddle")
        for shade in (1, 2, 3, 4)
    ),
    *((role, "ground", LETTERING) for role in ("ink", "mark")),
    *((role, "ground", SHAPES) for role in ("timber_line", "roof", "brace", "fastener", "string")),
    ("plate_edge", "plate", SHAPES),
    ("mark", "plate", SHAPES),
]


def test_contrast_agrees_with_published_values() -> None:
    """Black on white is 21 by WCAG's own definition; the rest are Okabe and Ito's colours on white, as published."""
    assert contrast("#000000", "#ffffff") == pytest.approx(21.0)
    published = {
        "#0072b2": 5.19, "#d55e00": 3.87, "#009e73": 3.42, "#cc79a7": 3.06, "#56b4e9": 2.31, "#e69f00": 2.25,
        "#f0e442": 1.32,
    }  # fmt: skip
    for colour, value in published.items():
        assert contrast(colour, "#ffffff") == pytest.approx(value, abs=0.01)
        assert contrast("#ffffff", colour) == contrast(colour, "#ffffff")


@pytest.mark.parametrize("theme", PALETTES)
def test_what_is_read_together_keeps_its_contrast(theme: str) -> None:
    palette = PALETTES[theme]
    for role, ground, least in PAIRS:
        assert contrast(palette[role], palette[ground]) >= least, f"{role} on {ground}"


def test_every_theme_has_the_same_roles() -> None:
    assert set(PALETTES) == {"light", "dark", "contrast"}
    assert len({frozenset(palette) for palette in PALETTES.values()}) == 1


def test_a_colour_that_is_none_is_told_with_its_line() -> None:
    with pytest.raises(Faulty) as caught:
        parse_palettes("themes:\n  light:\n    ink: black\n    paper: '#ffffff'\n    faint: '#12345'\n", "mine.yaml")
    places = [(fault.line, fault.path) for fault in caught.value.faults]
    assert places == [(3, "themes.light.ink"), (5, "themes.light.faint")]
    with pytest.raises(Faulty):
        parse_palettes("colours: {}\n", "mine.yaml")


def test_the_ring_of_each_severity_is_broken_its_own_way() -> None:
    """Nothing relies on colour alone (W3C, WCAG 2.1, criterion 1.4.1)."""
    from trainer.picture.found import DASHES, INKS
    from trainer.terms import SEVERITIES

    assert set(DASHES) == set(INKS) == set(SEVERITIES)
    assert len(set(DASHES.values())) == len(DASHES) and DASHES["stop-work"] == ()
