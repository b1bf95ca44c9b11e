"""Exchanged files read back by libraries that are not ours, and held against the published meaning of their layers.

Sources: ASTM D6673-10 (withdrawn 2019), "Sewn Products Pattern Data Interchange", its layers
as two transcriptions give them that do not depend on each other (the standard's own text was not
read: second-hand); the DXF reference of AutoCAD 2000 for $INSUNITS 4 = millimetres and $MEASUREMENT
1 = metric, from memory; SVG 1.1 (W3C), 7.9 and 8.3, for units and path data. Read with ezdxf,
svgpathtools and Shapely.
"""

from xml.etree import ElementTree

import ezdxf
import pytest
import svgpathtools
from shapely.geometry import LineString, Polygon

from app.pattern.body import draw_bodies, size_body
from app.pattern.exchange import Layer, StyleInfo, write_dxf, write_svg_files
from app.pattern.exchange.contents import handed_pieces
from app.pattern.exchange.points import CHORD_ERROR
from app.pattern.make import Made, make_pattern
from app.pattern.units import Unit
from tests.places import DRAFTS

INFO = StyleInfo("Sample", "K7F2Q", "Marit", "Studio Fieldwork")
WITHIN = 0.1

#: ASTM D6673-10, second hand: what each layer holds.
ASTM_D6673 = {
    1: "piece boundary",
    2: "turn points",
    3: "curve points",
    4: "notches: V and slit; alignment",
    5: "grade reference",
    6: "mirror line",
    7: "grain line",
    8: "internal lines, drawn not cut",
    9: "stripe reference line",
    10: "plaid reference line",
    11: "internal cutouts",
    13: "drill holes",
    14: "sew lines",
    15: "annotation text",
}
WORDS_OF = {
    Layer.BOUNDARY: "boundary",
    Layer.TURN_POINTS: "turn points",
    Layer.CURVE_POINTS: "curve points",
    Layer.NOTCHES: "notches",
    Layer.MIRROR: "mirror",
    Layer.GRAIN: "grain",
    Layer.INTERNAL: "internal lines",
    Layer.DRILL: "drill",
    Layer.SEW: "sew",
    Layer.ANNOTATION: "annotation",
}


@pytest.fixture(scope="module", params=["gore_skirt", "set_in_blouse", "shirred_tunic", "shirred_tunic lined"])
def pattern(request):
    name, *lined = request.param.split()
    text = (DRAFTS / f"{name}.draft").read_text("utf-8")
    made = make_pattern(text, f"{name}.draft", size_body("92"), {"lined": True} if lined else {}, Unit.CM)
    assert isinstance(made, Made), made
    return made.pattern


@pytest.fixture(scope="module")
def drawing(pattern, tmp_path_factory):
    path = tmp_path_factory.mktemp("dxf") / "pattern.dxf"
    write_dxf(pattern, INFO, path)
    return ezdxf.readfile(path)


def on(block, layer):
    return [e for e in block if e.dxf.layer == str(int(layer))]


def points(entity):
    if entity.dxftype() == "LINE":
        return [tuple(entity.dxf.start)[:2], tuple(entity.dxf.end)[:2]]
    found = [tuple(v.dxf.location)[:2] for v in entity.vertices]
    return [*found, found[0]] if entity.is_closed else found


def strokes(block, layer):
    return [LineString(points(e)) for e in on(block, layer) if e.dxftype() in ("LINE", "POLYLINE")]


@pytest.mark.parametrize("layer", list(Layer))
def test_every_layer_means_what_the_standard_says(layer):
    assert WORDS_OF[layer] in ASTM_D6673[int(layer)]


def test_ezdxf_finds_no_error_in_the_file(drawing):
    audit = drawing.audit()
    assert not audit.errors
    assert not audit.fixes


def test_the_header_declares_metric_millimetres(drawing):
    assert ezdxf.units.decode(drawing.header["$INSUNITS"]) == "mm"
    assert drawing.header["$MEASUREMENT"] == 1


def test_every_edge_is_as_long_in_the_dxf_file_as_in_the_pattern(drawing, pattern):
    for handed in handed_pieces(pattern, INFO):
        read = strokes(drawing.blocks.get(handed.slug), Layer.SEW)
        edges = [edge for edge in handed.piece.edges if not edge.fold]
        for edge, line in zip(edges, read, strict=False):
            assert line.length == pytest.approx(edge.path.length, abs=WITHIN), (handed.slug, edge.name)
        assert len(read) >= len(edges)


def test_every_boundary_lies_on_the_cutting_line(drawing, pattern):
    for handed in handed_pieces(pattern, INFO):
        (line,) = strokes(drawing.blocks.get(handed.slug), Layer.BOUNDARY)
        true = handed.piece.cutting
        assert line.length == pytest.approx(true.length, abs=WITHIN)
        assert line.hausdorff_distance(LineString(true.flatten(0.001))) <= CHORD_ERROR + 0.002
        assert Polygon(line.coords).area == pytest.approx(true.signed_area, abs=CHORD_ERROR * true.length)
        assert Polygon(line.coords).is_valid


def test_every_fold_of_the_pattern_is_a_mirror_line_on_the_boundary(drawing, pattern):
    for handed in handed_pieces(pattern, INFO):
        block = drawing.blocks.get(handed.slug)
        mirrors = strokes(block, Layer.MIRROR)
        assert len(mirrors) == sum(edge.fold for edge in handed.piece.edges)
        (boundary,) = strokes(block, Layer.BOUNDARY)
        for mirror in mirrors:
            assert boundary.buffer(0.01).covers(mirror)


def test_every_notch_point_lies_on_the_boundary(drawing, pattern):
    for handed in handed_pieces(pattern, INFO):
        block = drawing.blocks.get(handed.slug)
        (boundary,) = strokes(block, Layer.BOUNDARY)
        for notch in on(block, Layer.NOTCHES):
            assert boundary.distance(LineString([tuple(notch.dxf.location)[:2]] * 2)) < 0.05


def test_every_piece_keeps_clear_of_the_others_in_the_drawing(drawing):
    shapes = []
    for insert in drawing.modelspace().query("INSERT"):
        outlines = [e for e in insert.virtual_entities() if e.dxf.layer == "1" and e.dxftype() == "POLYLINE"]
        shapes += [Polygon(points(e)) for e in outlines]
    assert len(shapes) > 2
    for index, one in enumerate(shapes):
        assert all(one.distance(other) > 10.0 for other in shapes[:index])


def test_svgpathtools_measures_every_edge_and_every_piece_as_the_pattern_does(pattern, tmp_path):
    names = write_svg_files(pattern, INFO, tmp_path)
    for handed, name in zip(handed_pieces(pattern, INFO), names, strict=False):
        paths, attributes, sheet = svgpathtools.svg2paths2(str(tmp_path / name))
        assert sheet["width"] == sheet["viewBox"].split()[2] + "mm"
        read = {a["data-edge"]: p for p, a in zip(paths, attributes, strict=True) if "data-corner" in a}
        for edge in handed.piece.edges:
            if not edge.fold:
                assert read[edge.name].length() == pytest.approx(edge.path.length, abs=WITHIN), (name, edge.name)
        _measure_cutting(tmp_path / name, handed)


def _measure_cutting(path, handed):
    """Cutting line and folds together go once round the piece."""
    root = ElementTree.parse(path).getroot()
    groups = [g for g in root.iter("{http://www.w3.org/2000/svg}g") if g.get("data-lines") in ("cutting", "fold")]
    read = [svgpathtools.parse_path(p.get("d")) for g in groups for p in g]
    assert sum(p.length() for p in read) == pytest.approx(handed.piece.cutting.length, abs=WITHIN)


@pytest.mark.parametrize("draft", sorted(DRAFTS.glob("*.draft")), ids=lambda p: p.stem)
def test_files_for_unlike_bodies_hold_as_well(draft, tmp_path):
    """Bodies drawn from a population, not sizes of a chart."""
    for body in draw_bodies(4, seed=23):
        made = make_pattern(draft.read_text("utf-8"), draft.name, body, {}, Unit.CM)
        assert isinstance(made, Made), made
        write_dxf(made.pattern, INFO, tmp_path / "pattern.dxf")
        read = ezdxf.readfile(tmp_path / "pattern.dxf")
        assert not read.audit().errors
        for handed in handed_pieces(made.pattern, INFO):
            (line,) = strokes(read.blocks.get(handed.slug), Layer.BOUNDARY)
            assert line.length == pytest.approx(handed.piece.cutting.length, abs=WITHIN)
            assert line.is_simple
