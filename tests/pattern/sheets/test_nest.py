"""Several sizes in one file: nested on a common point, a layer each, told apart in grey, with a table of gains."""

import csv
import io
from dataclasses import replace
from math import hypot

import pikepdf
import pytest
from shapely.geometry import Polygon

from app.pattern.body import size_body
from app.pattern.drawing import GREY, Lines, LineStyle
from app.pattern.drawing.outline import fold_line
from app.pattern.drawing.record import Lined, Said
from app.pattern.geometry import Point, Transform
from app.pattern.make import make_pattern
from app.pattern.pieces.model import Pattern
from app.pattern.sheets import (
    PAPERS,
    Nest,
    PrintInfo,
    PrintStyle,
    grading_csv,
    grading_rows,
    nest_of,
    plan_artwork,
    plan_artwork_roll,
    write_grading_pdf,
    write_roll_artwork,
    write_tiled_artwork,
)
from app.pattern.sheets.footprint import moved
from app.pattern.sheets.nest import common_point
from tests.pattern.drawing.hand_pieces import rectangle, skirt_panel
from tests.pattern.sheets.pdf_reading import open_pdf, words_of
from tests.places import DRAFT_FILES

SKIRT = next(path for path in DRAFT_FILES if path.stem == "gore_skirt")
SIZES = ("84", "92", "100")
INFO = PrintInfo("Fernhill skirt, sizes 84 to 100")


@pytest.fixture(scope="module")
def sizes():
    text = SKIRT.read_text("utf-8")
    return {size: make_pattern(text, SKIRT.name, size_body(size), {}).pattern for size in SIZES}


@pytest.fixture(scope="module")
def nest(sizes):
    found = nest_of(sizes, INFO)
    assert isinstance(found, Nest)
    return found


@pytest.fixture(scope="module")
def plan(nest):
    return plan_artwork(nest, PAPERS["a4"], tries=2)


@pytest.fixture(scope="module")
def tiled(nest, plan, tmp_path_factory):
    path = tmp_path_factory.mktemp("nest") / "sizes.pdf"
    assert write_tiled_artwork(plan, nest, INFO, path) == ()
    return path


def cutting_lines(ply):
    return [m.path for m in ply.marks if isinstance(m, Lined) and m.style is LineStyle.CUTTING]


def test_every_size_is_a_layer_and_what_they_share_is_in_none(nest):
    plies = nest.plies("side")
    assert [ply.layer for ply in plies] == ["", "Size 84", "Size 92", "Size 100"]
    assert any(isinstance(m, Said) and m.words == "Side gore" for m in plies[0].marks)
    assert not cutting_lines(plies[0])
    assert all(len(cutting_lines(ply)) == 1 for ply in plies[1:])


def test_sizes_share_their_common_point(nest, sizes):
    for piece in sizes["84"].pieces:
        points = common_point([pattern.piece(piece.name) for pattern in sizes.values()])
        for ply, pattern, point in zip(nest.plies(piece.name)[1:], sizes.values(), points, strict=True):
            shift = Transform.move(points[0].x - point.x, points[0].y - point.y)
            expected = Polygon(pattern.piece(piece.name).cutting.transformed(shift).flatten(0.05))
            for line in cutting_lines(ply):
                assert all(expected.exterior.buffer(0.1).intersects(_spot(p)) for p in line.flatten(1.0))


def _spot(point):
    return Polygon([point, (point.x + 0.01, point.y), (point.x, point.y + 0.01)])


def test_a_piece_on_the_fold_is_nested_on_an_end_of_its_fold(sizes):
    centres = [pattern.piece("centre") for pattern in sizes.values()]
    for piece, point in zip(centres, common_point(centres), strict=True):
        ends = (piece.fold_edge.path.start, piece.fold_edge.path.end)
        assert min(point.distance(end) for end in ends) < 1e-6


def test_a_piece_with_an_edge_along_the_grain_is_nested_on_an_end_of_it():
    small, large = (rectangle("band", "Band", wide, high) for wide, high in ((60.0, 400.0), (70.0, 440.0)))
    assert common_point((small, large)) in ((Point(60, 0), Point(70, 0)), (Point(60, 400), Point(70, 440)))


def test_without_fold_and_straight_grain_the_corner_that_strays_least_is_taken():
    wide = skirt_panel()
    assert common_point((wide, wide)) == (common_point((wide,))[0],) * 2


def test_sizes_have_dashes_that_differ_though_all_are_grey(nest):
    strokes = [ply.palette.strokes[LineStyle.CUTTING] for ply in nest.plies("side")[1:]]
    assert len({stroke.dash for stroke in strokes}) == len(SIZES)
    assert {stroke.shade for stroke in strokes} == {GREY.strokes[LineStyle.CUTTING].shade}
    assert len({GREY.for_size(n).strokes[LineStyle.CUTTING].dash for n in range(12)}) == 12


def test_every_size_is_named_on_its_own_line(nest):
    for size, ply in zip(SIZES, nest.plies("side")[1:], strict=True):
        (line,) = cutting_lines(ply)
        names = [m for m in ply.marks if isinstance(m, Said) and m.words == size]
        assert names
        outline = Polygon(line.flatten(0.05)).exterior
        for name in names:
            left, bottom, right, top = name.bounds
            assert outline.distance(_spot(Point((left + right) / 2, (bottom + top) / 2))) < 0.8


def test_the_ground_holds_every_size(nest, plan):
    grounds = {g.piece: g.shape for g in nest.grounds()}
    places = {p.piece: p.transform for p in plan.placed}
    on_wall = [moved(grounds[name], places[name]) for name, _ in nest.pieces]
    for index, one in enumerate(on_wall):
        assert all(one.distance(other) > 2.0 for other in on_wall[index + 1 :])
    for name, _ in nest.pieces:
        for ply in nest.plies(name)[1:]:
            for line in cutting_lines(ply):
                assert grounds[name].buffer(0.1).contains(Polygon(line.flatten(0.05)).exterior)


def test_the_file_offers_each_size_to_be_switched(tiled):
    with pikepdf.open(tiled) as document:
        groups = document.Root.OCProperties.OCGs
        assert [str(group.Name) for group in groups] == ["Size 84", "Size 92", "Size 100"]
        assert [str(group.Name) for group in document.Root.OCProperties.D.Order] == [f"Size {s}" for s in SIZES]
        for page in document.pages[1:]:
            properties = page.Resources.Properties
            content = page.Contents.read_bytes()
            assert content.count(b" BDC") == content.count(b"EMC") > 0
            assert {str(properties[key].Name) for key in properties} == {f"Size {s}" for s in SIZES}


def test_a_size_switched_off_leaves_less_ink(tiled, tmp_path):
    """Read by PDFium, which draws only the layers that are on."""
    hidden = tmp_path / "one-size.pdf"
    with pikepdf.open(tiled) as document:
        groups = document.Root.OCProperties
        groups.D.OFF = pikepdf.Array([groups.OCGs[1], groups.OCGs[2]])
        groups.D.ON = pikepdf.Array([groups.OCGs[0]])
        document.save(hidden)
    ink = []
    for path in (tiled, hidden):
        with open_pdf(path) as document:
            ink.append(255 - document[1].render(scale=0.5, grayscale=True).to_numpy().mean())
    assert ink[1] < 0.8 * ink[0]


def test_the_first_page_explains_the_sizes_and_the_layers(tiled):
    with open_pdf(tiled) as document:
        words = " ".join(words_of(document[0]).split())
    assert all(f"size {size}" in words for size in SIZES)
    assert "list of layers" in words


def test_the_same_sizes_give_the_same_bytes_under_a_megabyte(nest, plan, tiled, tmp_path):
    again = tmp_path / "again.pdf"
    write_tiled_artwork(plan, nest, INFO, again)
    assert again.read_bytes() == tiled.read_bytes()
    assert again.stat().st_size < 1_000_000


def test_sizes_go_on_a_roll_too(nest, tmp_path):
    roll = plan_artwork_roll(nest, 914.0, tries=0)
    path = tmp_path / "roll.pdf"
    assert write_roll_artwork(roll, nest, INFO, path) == ()
    with pikepdf.open(path) as document:
        assert len(document.pages) == 1
        assert len(document.Root.OCProperties.OCGs) == 3


def test_both_lines_are_drawn_when_asked_for(sizes):
    nest = nest_of(sizes, INFO, PrintStyle(Lines.BOTH))
    stitching = [m for ply in nest.plies("side")[1:] for m in ply.marks if isinstance(m, Lined)]
    assert sum(m.style is LineStyle.STITCHING for m in stitching) == 3


@pytest.mark.parametrize(
    ("change", "said"),
    [
        (lambda p: replace(p, pieces=p.pieces[:-1]), "lacks the piece “Waistband”"),
        (lambda p: replace(p, pieces=(*p.pieces, rectangle("belt", "Belt", 40.0, 400.0))), "has a piece “Belt” more"),
        (lambda p: _changed(p, notches=()), "has other notches on “Side gore” than"),
        (lambda p: _changed(p, marks=()), "has other marks on “Side gore” than"),
    ],
)
def test_sizes_whose_pieces_differ_in_kind_are_refused_in_words(sizes, change, said):
    problems = nest_of({**sizes, "100": change(sizes["100"])}, INFO).problems
    assert [p.code for p in problems] == ["sheets.sizes-differ"]
    assert said in problems[0].message
    assert problems[0].message.startswith("Size 100")
    assert problems[0].where.piece
    assert "same pieces" in problems[0].fix


def _changed(pattern, **more):
    return replace(pattern, pieces=tuple(replace(p, **more) if p.name == "side" else p for p in pattern.pieces))


def test_no_size_at_all_and_an_empty_size_are_refused(sizes):
    assert [p.code for p in nest_of({}, INFO).problems] == ["sheets.no-sizes"]
    empty = Pattern("Nothing", (), (), (), ())
    assert [p.code for p in nest_of({"84": empty}, INFO).problems] == ["sheets.no-pieces"]


def test_one_size_is_a_nest_too(sizes):
    assert nest_of({"84": sizes["84"]}, INFO).layers == ("Size 84",)


def test_the_table_tells_what_each_edge_gains(sizes):
    rows = {(row.piece, row.edge): row for row in grading_rows(sizes)}
    attach = rows["Waistband", "joining edge"]
    expected = [pattern.piece("band").edge("attach").path.length for pattern in sizes.values()]
    assert attach.lengths == pytest.approx(expected)
    assert attach.gains == pytest.approx((expected[1] - expected[0], expected[2] - expected[1]))
    assert sum(len(piece.edges) for piece in sizes["84"].pieces) == len(rows)


def test_the_table_as_values_reads_back(sizes):
    table = list(csv.reader(io.StringIO(grading_csv(sizes))))
    assert table[0] == ["piece", "edge", "84 mm", "92 mm", "100 mm", "84 to 92 mm", "92 to 100 mm"]
    for row in table[1:]:
        lengths, gains = [float(n) for n in row[2:5]], [float(n) for n in row[5:]]
        assert hypot(lengths[0] + gains[0] - lengths[1], lengths[1] + gains[1] - lengths[2]) < 0.16


def test_the_table_is_printed_with_signs(sizes, tmp_path):
    path = tmp_path / "table.pdf"
    write_grading_pdf(sizes, INFO, PAPERS["a4"], path)
    with open_pdf(path) as document:
        words = " ".join(words_of(page) for page in document)
    assert "to 92" in words
    assert "Waistband" in words
    assert "+" in words
    again = tmp_path / "again.pdf"
    write_grading_pdf(sizes, INFO, PAPERS["a4"], again)
    assert again.read_bytes() == path.read_bytes()


def folds_in(nest, piece):
    return [
        (ply.layer, mark.path)
        for ply in nest.plies(piece)
        for mark in ply.marks
        if isinstance(mark, Lined) and mark.style is LineStyle.FOLD
    ]


def test_folds_that_lie_on_one_another_are_one_line_as_long_as_the_longest(nest, sizes):
    ((layer, fold),) = folds_in(nest, "centre")
    assert layer == ""
    lengths = [fold_line(p.piece("centre"), p.piece("centre").fold_edge).length for p in sizes.values()]
    assert fold.length == pytest.approx(max(lengths))


def test_a_fold_inside_a_piece_is_one_line_too(nest):
    assert [layer for layer, _ in folds_in(nest, "band")] == [""]


def test_folds_that_lie_apart_keep_each_its_own_line_and_layer(sizes):
    turned = dict(sizes)
    piece = turned["100"].piece("centre")
    skew = Transform.turn(0.02, piece.fold_edge.path.start)
    other = replace(
        piece,
        edges=tuple(replace(edge, path=edge.path.transformed(skew)) for edge in piece.edges),
        cutting=piece.cutting.transformed(skew),
        stitching=piece.stitching.transformed(skew),
    )
    pieces = tuple(other if each.name == "centre" else each for each in turned["100"].pieces)
    turned["100"] = replace(turned["100"], pieces=pieces)
    folds = folds_in(Nest(turned, INFO), "centre")
    assert [layer for layer, _ in folds] == [f"Size {size}" for size in SIZES]
