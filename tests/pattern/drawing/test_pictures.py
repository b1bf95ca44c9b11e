"""The small pictures: whole, accessible, and free of anything a strict page policy would refuse."""

from dataclasses import replace
from xml.etree import ElementTree

import pytest

from app.pattern.drawing import WIDE_SHAPE, piece_svg, preview_svg, seam_svg
from app.pattern.drawing.fonts import width_of
from app.pattern.geometry import Path, Point
from app.pattern.pieces.model import EdgeRun, Mark, MarkKind, Pattern, Seam
from app.pattern.units import Unit
from tests.pattern.drawing.hand_pieces import pattern, rectangle, skirt_panel, yoke

SVG = "{http://www.w3.org/2000/svg}"
PICTURES = [preview_svg(pattern(), Unit.CM), piece_svg(yoke()), seam_svg(pattern(), pattern().seams[0])]


def parsed(svg):
    return ElementTree.fromstring(svg)


@pytest.mark.parametrize("svg", PICTURES)
def test_a_picture_names_itself_and_fills_its_place(svg):
    root = parsed(svg)
    assert root.get("role") == "img"
    assert root.get("aria-label") == root.find(f"{SVG}title").text
    assert "width" not in root.attrib
    assert len(root.get("viewBox").split()) == 4


@pytest.mark.parametrize("svg", PICTURES)
def test_a_picture_holds_neither_style_nor_script(svg):
    for element in parsed(svg).iter():
        assert element.tag not in (f"{SVG}style", f"{SVG}script")
        assert "style" not in element.attrib
        assert not any(name.startswith("on") or "href" in name for name in element.attrib)


def test_the_preview_shows_every_piece_with_its_title_cut_list_and_size():
    root = parsed(preview_svg(pattern(), Unit.CM))
    titles = [g.find(f"{SVG}title").text for g in root.iter(f"{SVG}g")]
    assert len(titles) == len(pattern().pieces)
    assert any(t.startswith("Yoke: cut 2 Shell, mirrored; ") and t.endswith(" cm") for t in titles)


def test_the_preview_speaks_inches_to_those_who_read_them():
    inches = preview_svg(pattern(), Unit.INCH)
    assert ">8 in<" in inches
    assert " cm" not in inches
    assert ">20 cm<" in preview_svg(pattern(), Unit.CM)


def test_pieces_in_the_preview_keep_one_scale_and_do_not_overlap():
    root = parsed(preview_svg(pattern(), Unit.CM))
    boxes = []
    for group in root.iter(f"{SVG}g"):
        fill = next(p for p in group.iter(f"{SVG}path") if p.get("class") == "fill-piece")
        numbers = [float(n) for n in fill.get("d").translate(str.maketrans("MLCZ", "    ")).split()]
        boxes.append((min(numbers[::2]), min(numbers[1::2]), max(numbers[::2]), max(numbers[1::2])))
    widths = sorted(b[2] - b[0] for b in boxes)
    expected = sorted(p.cutting.bounds.right - p.cutting.bounds.left for p in pattern().pieces)
    assert widths[0] == pytest.approx(expected[0], abs=0.05)
    assert widths[-1] == pytest.approx(expected[-1], abs=0.05)
    for i, a in enumerate(boxes):
        for b in boxes[i + 1 :]:
            assert a[2] <= b[0] or b[2] <= a[0] or a[3] <= b[1] or b[3] <= a[1]


def test_small_pictures_show_where_a_piece_is_folded():
    """A line to fold along is drawn; what is only sewn or placed would fill so small a picture."""
    middle = Path.through(Point(50.0, 20.0), Point(50.0, 80.0))
    marks = tuple(Mark(kind, middle, Point(50.0, 50.0)) for kind in (MarkKind.FOLD, MarkKind.STITCH))
    plain = replace(pattern().pieces[0], marks=())

    def lines(marked):
        return [len(list(parsed(svg).iter(f"{SVG}path"))) for svg in (piece_svg(marked), preview_of(marked))]

    def preview_of(piece):
        return preview_svg(replace(pattern(), pieces=(piece,)), Unit.CM)

    folded, sewn = replace(plain, marks=marks[:1]), replace(plain, marks=marks[1:])
    assert [a - b for a, b in zip(lines(folded), lines(plain), strict=True)] == [1, 1]
    assert lines(sewn) == lines(plain)


def test_a_title_with_signs_is_escaped():
    piece = replace(skirt_panel(), title='Front <1> & "2"')
    root = parsed(preview_svg(replace(pattern(), pieces=(piece,)), Unit.CM))
    assert 'Front <1> & "2"' in "".join(root.itertext())


def test_a_preview_of_one_piece_counts_one_piece():
    one = Pattern("Bag", (rectangle("bag", "Bag", 300.0, 400.0),), (), (), ())
    assert parsed(preview_svg(one, Unit.CM)).get("aria-label") == "Bag: 1 piece to scale"


def test_a_seam_picture_makes_each_edge_that_is_sewn_strong():
    root = parsed(seam_svg(pattern(), pattern().seams[0]))
    strong = [p for p in root.iter(f"{SVG}path") if p.get("class") == "line-highlight"]
    assert len(strong) == 3
    dots = [p for p in root.iter(f"{SVG}path") if p.get("class") == "fill-accent"]
    assert len(dots) == 2


def test_a_seam_picture_is_titled_by_its_edges():
    label = parsed(seam_svg(pattern(), pattern().seams[0])).get("aria-label")
    assert label == "Skirt panel, side, to Bodice front, side a and Bodice front, side b"


def test_a_seam_of_a_piece_to_itself_shows_the_piece_once():
    seam = Seam((EdgeRun("skirt", "side"),), (EdgeRun("skirt", "centre", backwards=True),))
    root = parsed(seam_svg(pattern(), seam))
    assert len(list(root.iter(f"{SVG}g"))) == 1
    assert len([p for p in root.iter(f"{SVG}path") if p.get("class") == "fill-accent"]) == 2


def test_a_thumbnail_has_no_words_in_it_but_its_title():
    root = parsed(piece_svg(yoke()))
    assert list(root.iter(f"{SVG}text")) == []
    assert root.get("aria-label") == "Yoke"


def sketch(*sides):
    """A pattern of oblongs whose hems are all sewn together."""
    pieces = tuple(rectangle(f"p{n}", title, wide, high) for n, (title, wide, high) in enumerate(sides))
    seam = Seam((EdgeRun("p0", "hem"),), tuple(EdgeRun(f"p{n}", "top") for n in range(len(sides))))
    return replace(pattern(), pieces=pieces, seams=(seam,)), seam


def said_in(svg):
    """Each line of words with its width by the typeface, and the picture's view box."""
    root = parsed(svg)
    view = [float(n) for n in root.get("viewBox").split()]
    sized = [(t, float(t.get("font-size"))) for t in root.iter(f"{SVG}text")]
    return [(t.text, float(t.get("x")), float(t.get("y")), size, width_of(t.text, size)) for t, size in sized], view


LONG = ("Waistband", 800.0, 80.0), ("Side gore", 240.0, 700.0), ("Centre gore, front and back", 170.0, 700.0)
NARROW = ("Sleeve seam placket facing", 30.0, 900.0), ("Under placket facing", 28.0, 900.0)
SHAPES = [LONG, NARROW, (("Cuff", 250.0, 90.0),)]


@pytest.mark.parametrize("sides", SHAPES)
def test_titles_in_a_seam_picture_never_overlap_and_stay_inside_it(sides):
    words, (left, top, wide, high) = said_in(seam_svg(*sketch(*sides)))
    boxes = [(x - w / 2.0, y - 0.72 * size, x + w / 2.0, y + 0.22 * size) for _, x, y, size, w in words]
    for index, a in enumerate(boxes):
        assert left <= a[0] <= a[2] <= left + wide
        assert top <= a[1] <= a[3] <= top + high
        for b in boxes[index + 1 :]:
            assert a[2] <= b[0] or b[2] <= a[0] or a[3] <= b[1] or b[3] <= a[1]


#: Seven points, the least that is read with ease on paper, mm.
SEVEN = 7.0 / 72.0 * 25.4


@pytest.mark.parametrize("sides", SHAPES)
def test_letters_in_seam_pictures_are_seven_points_or_more_in_the_room_they_get_on_paper(sides):
    words, (_, _, wide, high) = said_in(seam_svg(*sketch(*sides)))
    room = 101.0 if wide > WIDE_SHAPE * high else 49.0
    shown = min(room / wide, 46.0 / high)
    assert words
    assert all(SEVEN <= size * shown <= 1.3 * SEVEN for *_, size, _ in words)


@pytest.mark.parametrize("sides", [*SHAPES, (*NARROW, *LONG, ("Collar", 210.0, 60.0))])
def test_letters_in_a_preview_are_seven_points_or_more_on_a_sheets_cover(sides):
    words, (_, _, wide, high) = said_in(preview_svg(sketch(*sides)[0], Unit.CM))
    shown = min(174.0 / wide, 78.0 / high)
    assert len(words) > len(sides)
    assert all(SEVEN <= size * shown <= 1.6 * SEVEN for *_, size, _ in words)


def test_a_wide_piece_stands_over_the_tall_ones_so_that_no_white_is_left_below_it():
    words, _ = said_in(seam_svg(*sketch(*LONG)))
    assert words[0][0] == "Waistband"
    assert set(" ".join(line for line, *_ in words).split()) >= {"Side", "Centre", "front", "back"}
