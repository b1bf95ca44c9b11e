"""The SVG files: true scale, groups that say what they mean, one for each piece and one with all."""

from xml.etree import ElementTree

import pytest
import svgpathtools

from app.pattern.exchange import StyleInfo, write_svg_files
from app.pattern.exchange.contents import LineKind
from app.pattern.pieces.model import Pattern
from tests.pattern.drawing.hand_pieces import tab

SVG = "{http://www.w3.org/2000/svg}"
NAMES = ("01-front.svg", "02-skirt.svg", "03-yoke.svg", "04-placket.svg", "05-waistband.svg", "06-tab.svg")


def root_of(path):
    return ElementTree.parse(path).getroot()


def group(root, kind):
    return [g for g in root.iter(f"{SVG}g") if g.get("data-lines") == kind]


def length(path):
    return svgpathtools.parse_path(path.get("d")).length()


@pytest.fixture
def front(svg_folder):
    return root_of(svg_folder / "01-front.svg")


def test_each_piece_has_a_file_and_all_have_one(svg_folder, pattern, info, tmp_path):
    assert write_svg_files(pattern, info, tmp_path) == (*NAMES, "all-pieces.svg")
    assert {p.name for p in tmp_path.iterdir()} == {*NAMES, "all-pieces.svg"}


def test_equal_patterns_give_equal_bytes(svg_folder, pattern, info, tmp_path):
    for name in write_svg_files(pattern, info, tmp_path):
        assert (tmp_path / name).read_bytes() == (svg_folder / name).read_bytes()


@pytest.mark.parametrize("name", [*NAMES, "all-pieces.svg"])
def test_one_unit_is_one_millimetre(svg_folder, name):
    root = root_of(svg_folder / name)
    left, top, wide, high = root.get("viewBox").split()
    assert (left, top) == ("0", "0")
    assert root.get("width") == f"{wide}mm"
    assert root.get("height") == f"{high}mm"


@pytest.mark.parametrize("name", [*NAMES, "all-pieces.svg"])
def test_nothing_lies_outside_the_picture(svg_folder, name):
    root = root_of(svg_folder / name)
    wide, high = (float(n) for n in root.get("viewBox").split()[2:])
    for path in root.iter(f"{SVG}path"):
        left, right, top, bottom = svgpathtools.parse_path(path.get("d")).bbox()
        assert 0.0 <= left <= right <= wide
        assert 0.0 <= top <= bottom <= high


def test_a_file_has_a_title_and_says_its_scale(front):
    assert front.find(f"{SVG}title").text == "Harbour dress: Bodice front"
    assert "1 unit is 1 mm" in front.find(f"{SVG}desc").text


def test_lines_are_grouped_by_what_they_mean(front):
    kinds = [g.get("data-lines") for g in front.iter(f"{SVG}g") if g.get("data-lines")]
    assert kinds == [*(str(kind) for kind in LineKind), "signs"]


def test_ids_are_unique_over_all_pieces(svg_folder):
    ids = [e.get("id") for e in root_of(svg_folder / "all-pieces.svg").iter() if e.get("id")]
    assert len(ids) == len(set(ids))
    assert {"01-front", "01-front-cutting", "06-tab-stitching"} <= set(ids)


def test_each_edge_says_its_name_and_its_true_length(front, pattern):
    paths = {p.get("data-edge"): p for p in group(front, "stitching")[0]}
    edges = [e for e in pattern.piece("front").edges if not e.fold]
    assert set(paths) == {e.name for e in edges}
    for edge in edges:
        assert length(paths[edge.name]) == pytest.approx(edge.path.length, abs=0.01)
        assert float(paths[edge.name].get("data-length")) == pytest.approx(edge.path.length, abs=0.001)


def test_arcs_stay_arcs(svg_folder):
    (hem,) = (p for p in root_of(svg_folder / "03-yoke.svg").iter(f"{SVG}path") if p.get("data-edge") == "hem")
    assert "A210,210" in hem.get("d")
    assert "C" not in hem.get("d")


def test_y_points_down_and_nothing_is_mirrored(svg_folder):
    """The bodice's neck is at its top and its fold on its left: so they are in the file."""
    root = root_of(svg_folder / "01-front.svg")
    paths = {p.get("data-edge"): svgpathtools.parse_path(p.get("d")) for p in root.iter(f"{SVG}path")}
    assert paths["neck"].point(0.5).imag < paths["waist_a"].point(0.5).imag
    assert paths["centre"].point(0.5).real < paths["armhole"].point(0.5).real


def test_a_half_says_so_and_how_often_it_is_cut(front):
    (piece,) = (g for g in front.iter(f"{SVG}g") if g.get("data-piece"))
    assert piece.get("data-half") == "yes"
    assert piece.get("data-cut") == "cut 1 Shell on fold; cut 1 Lining on fold"
    assert piece.find(f"{SVG}title").text == "Bodice front"


def test_all_pieces_together_are_those_of_the_single_files(svg_folder):
    together = root_of(svg_folder / "all-pieces.svg")
    cut = sorted(length(p) for g in group(together, "cutting") for p in g)
    alone = sorted(length(p) for name in NAMES for g in group(root_of(svg_folder / name), "cutting") for p in g)
    assert cut == pytest.approx(alone, abs=0.02)


def test_pieces_do_not_lie_on_one_another(svg_folder):
    boxes = []
    for g in group(root_of(svg_folder / "all-pieces.svg"), "cutting"):
        lefts, rights, tops, bottoms = zip(*(svgpathtools.parse_path(p.get("d")).bbox() for p in g), strict=True)
        boxes.append((min(lefts), max(rights), min(tops), max(bottoms)))
    for index, (left, right, top, bottom) in enumerate(boxes):
        for l2, r2, t2, b2 in boxes[:index]:
            assert right < l2 or r2 < left or bottom < t2 or b2 < top


def test_words_with_markup_and_control_signs_are_written_as_typed(tmp_path):
    (name, _) = write_svg_files(Pattern("x", (tab(),), (), (), ()), StyleInfo('A<b>&"c\x0bd'), tmp_path)
    assert root_of(tmp_path / name).find(f"{SVG}title").text == 'A<b>&"c d: Belt carrier'
