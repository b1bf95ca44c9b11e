"""The DXF file: blocks, layers, points, words; the same bytes for the same pattern."""

import re
from collections import Counter

import ezdxf
import pytest

from app.pattern.exchange import Layer, StyleInfo, write_dxf
from app.pattern.exchange.contents import handed_pieces
from app.pattern.pieces.model import Pattern
from tests.pattern.drawing.hand_pieces import tab

EXACT = 1e-4


@pytest.fixture(scope="module")
def document(dxf_file):
    return ezdxf.readfile(dxf_file)


def on(block, layer):
    return [e for e in block if e.dxf.layer == str(int(layer))]


def words(entities):
    return [e.dxf.text for e in entities if e.dxftype() == "TEXT"]


def test_the_unit_is_the_millimetre(document):
    assert document.header["$INSUNITS"] == 4
    assert document.header["$MEASUREMENT"] == 1


def test_each_piece_is_one_block_inserted_once_unturned_at_full_size(document, pattern):
    inserts = document.modelspace().query("INSERT")
    assert [i.dxf.name for i in inserts] == [
        "01-front", "02-skirt", "03-yoke", "04-placket", "05-waistband", "06-tab",
    ]  # fmt: skip
    for insert in inserts:
        assert (insert.dxf.xscale, insert.dxf.yscale, insert.dxf.rotation) == (1.0, 1.0, 0.0)
        assert insert.dxf.name in document.blocks


def test_the_boundary_is_one_closed_polyline(document):
    for insert in document.modelspace().query("INSERT"):
        outlines = [e for e in on(document.blocks.get(insert.dxf.name), Layer.BOUNDARY) if e.dxftype() == "POLYLINE"]
        assert [o.is_closed for o in outlines] == [True]


def test_only_known_layers_are_used(document):
    used = {e.dxf.layer for block in document.blocks for e in block}
    assert used <= {str(int(layer)) for layer in Layer}


def test_only_entities_that_old_programs_know_are_written(document):
    kinds = {e.dxftype() for block in document.blocks for e in block} | {e.dxftype() for e in document.modelspace()}
    assert kinds == {"POLYLINE", "LINE", "POINT", "TEXT", "INSERT"}


def test_every_point_of_a_pointed_line_is_named_once(document):
    block = document.blocks.get("02-skirt")
    named = Counter(
        (round(e.dxf.location.x, 4), round(e.dxf.location.y, 4))
        for layer in (Layer.TURN_POINTS, Layer.CURVE_POINTS)
        for e in on(block, layer)
    )
    corners = [e for layer in (Layer.BOUNDARY, Layer.INTERNAL, Layer.SEW) for e in on(block, layer)]
    drawn = Counter()
    for e in corners:
        if e.dxftype() == "POLYLINE":
            drawn.update((v.dxf.location.x, v.dxf.location.y) for v in e.vertices)
        elif e.dxftype() == "LINE":
            drawn.update([(e.dxf.start.x, e.dxf.start.y), (e.dxf.end.x, e.dxf.end.y)])
    assert named == drawn


def test_the_fold_is_on_the_mirror_layer_from_cutting_line_to_cutting_line(document):
    (fold,) = on(document.blocks.get("01-front"), Layer.MIRROR)
    assert fold.dxftype() == "LINE"
    (outline,) = (e for e in on(document.blocks.get("01-front"), Layer.BOUNDARY) if e.dxftype() == "POLYLINE")
    ys = [v.dxf.location.y for v in outline.vertices if abs(v.dxf.location.x) < 0.01]
    assert sorted((fold.dxf.start.y, fold.dxf.end.y)) == pytest.approx([min(ys), max(ys)], abs=0.01)
    assert not on(document.blocks.get("02-skirt"), Layer.MIRROR)


def test_the_grain_is_one_line(document, pattern):
    (grain,) = on(document.blocks.get("02-skirt"), Layer.GRAIN)
    assert tuple(grain.dxf.start)[:2] == pytest.approx((120.0, 160.0), abs=EXACT)
    assert tuple(grain.dxf.end)[:2] == pytest.approx((120.0, 520.0), abs=EXACT)


def test_notches_are_points_on_the_boundary_and_dart_legs_are_notched_too(document, pattern):
    notches = on(document.blocks.get("01-front"), Layer.NOTCHES)
    assert {e.dxftype() for e in notches} == {"POINT"}
    assert len(notches) == 4 + 2 * len(pattern.piece("front").darts)


def test_a_notch_says_at_which_angle_it_goes_in(document):
    """The skirt's centre leans to the right as it rises: its notches point right and a little down."""
    angles = [e.dxf.angle for e in on(document.blocks.get("02-skirt"), Layer.NOTCHES)][1:]
    assert angles == pytest.approx([-5.36, -5.36], abs=0.01)


def test_a_topstitched_row_is_a_sew_line_and_a_buttonhole_an_internal_line(document):
    sewn = on(document.blocks.get("02-skirt"), Layer.SEW)
    assert [tuple(e.dxf.start)[:2] for e in sewn if e.dxftype() == "LINE"][-1] == pytest.approx((180.0, 30.0))
    assert len(on(document.blocks.get("04-placket"), Layer.INTERNAL)) == 3


def test_machine_text_is_on_the_boundary_layer_and_words_for_people_are_annotations(document):
    block = document.blocks.get("01-front")
    assert words(on(block, Layer.BOUNDARY)) == [
        "PIECE NAME: Bodice front", "SIZE: made to measure", "QUANTITY: 1", "MATERIAL: Shell",
    ]  # fmt: skip
    said = words(on(block, Layer.ANNOTATION))
    assert {"cut 1 Lining on fold", "waist dart", "place on fold"} <= set(said)


def test_the_styles_text_stands_in_the_drawing_below_the_pieces(document):
    space = document.modelspace()
    said = words(on(space, Layer.BOUNDARY))
    assert said[0] == "STYLE NAME: Harbour dress"
    assert "For Marit" in words(on(space, Layer.ANNOTATION))
    lowest = min(i.dxf.insert.y for i in space.query("INSERT"))
    assert all(t.dxf.insert.y < lowest for t in space.query("TEXT"))


def test_the_extents_hold_everything(document):
    low, high = document.header["$EXTMIN"], document.header["$EXTMAX"]
    for insert in document.modelspace().query("INSERT"):
        for entity in insert.virtual_entities():
            if entity.dxftype() == "POINT":
                assert low[0] - 0.01 <= entity.dxf.location.x <= high[0] + 0.01
                assert low[1] - 0.01 <= entity.dxf.location.y <= high[1] + 0.01


def test_equal_patterns_give_equal_bytes(dxf_file, pattern, info, tmp_path):
    write_dxf(pattern, info, tmp_path / "again.dxf")
    assert (tmp_path / "again.dxf").read_bytes() == dxf_file.read_bytes()


def test_the_file_carries_no_date_no_identifier_and_no_version_of_the_library(dxf_file):
    text = dxf_file.read_text("cp1252")
    assert ezdxf.__version__ not in text
    dates = re.findall(r"\$TDU?(?:CREATE|UPDATE)\r?\n +40\r?\n([\d.]+)", text)
    assert len(dates) == 4
    assert set(dates) == {"2451545.0"}  # the Julian date of 2000-01-01, for every file
    assert set(re.findall(r"\{[0-9A-F-]{36}\}", text)) == {"{00000000-0000-0000-0000-000000000000}"}


def test_letters_of_any_language_come_back(tmp_path, info):
    path = tmp_path / "letters.dxf"
    write_dxf(Pattern("x", (tab(),), (), (), ()), StyleInfo("Żółw Ελλάς Ünder", customer="Søren"), path)
    space = ezdxf.readfile(path).modelspace()
    said = [ezdxf.decode_dxf_unicode(text) for text in words(space)]
    assert "STYLE NAME: Żółw Ελλάς Ünder" in said
    assert "For Søren" in said


def test_blocks_carry_the_pieces_own_coordinates(document, pattern, info):
    for handed in handed_pieces(pattern, info):
        block = document.blocks.get(handed.slug)
        (outline,) = (e for e in on(block, Layer.BOUNDARY) if e.dxftype() == "POLYLINE")
        xs = [v.dxf.location.x for v in outline.vertices]
        assert (min(xs), max(xs)) == pytest.approx((handed.bounds.left, handed.bounds.right), abs=0.02)
