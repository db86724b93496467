"""The layout drawing as DXF, read back by the library's own reader and its audit."""

import io
from collections import Counter

import pytest
from ezdxf import bbox, recover
from sizes import by_size

from trainer.layout import lay_out
from trainer.layout.marks import mark_run
from trainer.level import parse_level
from trainer.plan import taped
from trainer.report.dxf import to_dxf
from trainer.shipped import find_level

LEVELS = by_size(("wren", "egret"), *[("wren", "brolga", "egret")] * 2)


@pytest.fixture(scope="module", params=LEVELS)
def drawn(request):
    text = find_level(request.param).read_text(encoding="utf-8")
    layout = lay_out(parse_level(text, f"{request.param}.yaml").house())
    document, auditor = recover.read(io.BytesIO(to_dxf(layout, request.param).encode("utf-8")))
    return layout, document, auditor


def test_a_strict_reader_finds_nothing_to_mend(drawn):
    _layout, document, auditor = drawn
    assert not auditor.errors
    assert not auditor.fixes
    assert not document.audit().errors


def test_it_is_in_millimetres_and_as_large_as_the_plan(drawn):
    layout, document, _auditor = drawn
    assert document.header["$INSUNITS"] == 4  # millimetres, in the published reference of the format
    xs, ys = zip(*layout.house.plan.outline, strict=True)
    walls = bbox.extents(document.modelspace().query("*[layer=='WALLS']"))
    assert (walls.extmin.x, walls.extmin.y, walls.extmax.x, walls.extmax.y) == (min(xs), min(ys), max(xs), max(ys))
    low, high = document.header["$EXTMIN"], document.header["$EXTMAX"]
    for entity in document.modelspace().query("LWPOLYLINE LINE"):
        box = bbox.extents([entity])
        assert low[0] <= box.extmin.x and box.extmax.x <= high[0]
        assert low[1] <= box.extmin.y and box.extmax.y <= high[1]


def test_every_kind_of_thing_has_a_layer_of_its_own(drawn):
    layout, document, _auditor = drawn
    space = document.modelspace()
    on = Counter(entity.dxf.layer for entity in space)
    assert set(on) <= {layer.dxf.name for layer in document.layers}
    assert (bool(on["BEAMS"]), bool(on["POSTS"])) == (bool(layout.house.plan.beams),) * 2
    kinds = {f"TRUSSES_{kind.upper()}" for kind in layout.counts}
    assert {layer for layer in on if layer.startswith("TRUSSES_")} == kinds
    for name, lines in (("RIDGES", layout.roof.ridges), ("HIPS", layout.roof.hips), ("VALLEYS", layout.roof.valleys)):
        assert on[name] == len(lines)
    assert sorted(text.text for text in space.query("MTEXT[layer=='TAGS']")) == sorted(layout.by_tag)
    for tag, member in layout.by_tag.items():
        # A timber lies on the line from bearing to bearing.
        (x, y) = member.middle
        assert any(
            box.extmin.x <= x <= box.extmax.x and box.extmin.y <= y <= box.extmax.y
            for box in (bbox.extents([e]) for e in space.query(f"*[layer=='TRUSSES_{member.kind.upper()}']"))
        ), tag


def test_broken_lines_are_broken_at_the_size_of_a_house_and_tags_are_not_struck_through(drawn):
    _layout, document, _auditor = drawn
    space = document.modelspace()
    for name in ("CENTER", "DASHED", "DOT"):
        (length,) = (tag.value for tag in document.linetypes.get(name).pattern_tags.tags if tag.code == 40)
        assert 50 <= length * document.header["$LTSCALE"] <= 1000, "a pattern in mm: seen on a house, and not one dash"
    assert {e.dxf.linetype for e in space.query("LWPOLYLINE[layer=='TITLE']")} >= {"CENTER", "DASHED", "DOT"} & {
        layer.dxf.linetype for layer in document.layers if any(e.dxf.layer == layer.dxf.name for e in space)
    }
    assert all(tag.dxf.bg_fill for tag in space.query("MTEXT[layer=='TAGS']"))


def test_the_marks_say_what_the_tape_shows(drawn):
    layout, document, _auditor = drawn
    said = Counter(text.dxf.text for text in document.modelspace().query("TEXT[layer=='MARKS']"))
    for wall in layout.house.plan.walls:
        for member in layout.members:
            for number, end in enumerate(member.ends, 1):
                if end.bears_on == f"plate {wall.name}" and 0 < mark_run(layout, member, number) < wall.length:
                    shows = taped(layout.house.plan, wall, mark_run(layout, member, number))
                    assert said[f"{shows:.1f}".removesuffix(".0")]
