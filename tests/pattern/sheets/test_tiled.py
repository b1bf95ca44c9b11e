"""The tiled file, read back page by page with PDFium."""

from dataclasses import replace

import pikepdf
import pytest
from shapely import affinity
from shapely.geometry import LineString, MultiLineString, Polygon, box
from shapely.ops import unary_union

from app.pattern.drawing import BLACK, GREY, LineStyle
from app.pattern.drawing.curves import drawable
from app.pattern.drawing.record import text_corners
from app.pattern.geometry import Line, Transform
from app.pattern.problem import Severity
from app.pattern.sheets import PAPERS, PrintInfo, info_problems, plan_sheets, write_tiled_pdf
from app.pattern.sheets.artwork import OnePattern
from app.pattern.sheets.joins import BUTTON, joints_of
from app.pattern.sheets.tiled import joints_under
from tests.pattern.sheets.pdf_reading import PT, open_pdf, paths_of, words_of

CUTTING = GREY.strokes[LineStyle.CUTTING]


def is_cutting(path):
    return abs(path.width - CUTTING.width) < 0.01 and abs(path.grey - 255 * (1.0 - CUTTING.shade)) < 2


def cutting_on(plan, pattern, sheet):
    """The pieces' cutting lines of one sheet as segments of control points in the page's frame."""
    margin = plan.paper.margin
    to_page = Transform.move(margin - sheet.box.left, margin - sheet.box.bottom)
    places = {p.piece: p.transform.then(to_page) for p in plan.placed}
    for name in sheet.pieces:
        for segment in drawable(pattern.piece(name).cutting.transformed(places[name]).segments):
            if isinstance(segment, Line):
                yield segment.start, segment.end
            else:
                yield segment.start, segment.c1, segment.c2, segment.end


def flat(segments):
    """Lines through points on each segment (curves sampled at 24 steps)."""
    lines = []
    for points in segments:
        if len(points) == 2:
            lines.append(LineString(points))
            continue
        steps = [i / 24.0 for i in range(25)]
        weights = [((1 - t) ** 3, 3 * (1 - t) ** 2 * t, 3 * (1 - t) * t**2, t**3) for t in steps]
        lines.append(
            LineString(
                [tuple(sum(w * p[k] for w, p in zip(ws, points, strict=True)) for k in (0, 1)) for ws in weights]
            )
        )
    return unary_union(lines)


def frame_of(plan):
    wide, high = plan.paper.printable
    m = plan.paper.margin
    return box(m, m, m + wide, m + high)


def test_there_is_a_first_page_and_one_page_for_each_sheet_all_of_the_papers_size(plan, tiled):
    with open_pdf(tiled) as document:
        assert len(document) == 1 + len(plan.sheets)
        for page in document:
            width, height = page.get_size()
            assert width / PT == pytest.approx(plan.paper.width, abs=0.01)
            assert height / PT == pytest.approx(plan.paper.height, abs=0.01)


def test_each_sheet_shows_the_plans_cutting_lines_within_a_tenth_of_a_millimetre(plan, pattern, tiled):
    frame = frame_of(plan)
    with open_pdf(tiled) as document:
        for sheet, page in zip(plan.sheets, list(document)[1:], strict=True):
            read = flat(s for p in paths_of(page) if is_cutting(p) for s in p.segments)
            meant = flat(s for s in cutting_on(plan, pattern, sheet) if s[0] != s[-1])
            read, meant = read.intersection(frame), meant.intersection(frame)
            fold_free = [m for m in getattr(meant, "geoms", [meant]) if not m.is_empty]
            assert read.difference(meant.buffer(0.1)).length < 1e-6
            for name in sheet.pieces:
                if pattern.piece(name).fold_edge is None:
                    assert any(True for _ in fold_free)


def test_the_tiles_put_together_are_the_whole_drawing(plan, pattern, tiled):
    """Every millimetre of every cutting line is on some sheet, in its place on the wall, within 0.1 mm."""
    frame, margin, parts = frame_of(plan), plan.paper.margin, []
    with open_pdf(tiled) as document:
        for sheet, page in zip(plan.sheets, list(document)[1:], strict=True):
            read = flat(s for p in paths_of(page) if is_cutting(p) for s in p.segments).intersection(frame)
            parts.append(affinity.translate(read, sheet.box.left - margin, sheet.box.bottom - margin))
    wall = unary_union(parts).buffer(0.1)
    for placed in plan.placed:
        piece = pattern.piece(placed.piece)
        if piece.fold_edge is None:
            outline = LineString(piece.cutting.transformed(placed.transform).flatten(0.01))
            assert outline.difference(wall).length < 1e-6


def test_each_page_says_which_sheet_it_is_of_which_order(plan, tiled):
    with open_pdf(tiled) as document:
        for number, (sheet, page) in enumerate(zip(plan.sheets, list(document)[1:], strict=True), start=2):
            words = words_of(page)
            assert sheet.name in words.split()
            assert "order K7F2Q" in words
            assert f"page {number} of {1 + len(plan.sheets)}" in words


def test_a_joint_names_the_same_pair_on_both_sheets_and_its_button_is_at_the_middle(plan):
    seen = {}
    wide, high = plan.paper.printable
    from_box = Transform()
    for sheet in plan.sheets:
        for joint in joints_of(plan, sheet, sheet.box):
            seen.setdefault(joint.pair, []).append((sheet.name, from_box.apply(joint.middle), joint.trimmed))
    assert seen
    for pair, sides in seen.items():
        assert len(sides) == 2
        (one, here, trimmed), (two, there, other) = sides
        assert pair.split("·") == sorted((one, two), key=lambda n: pair.index(n))
        assert here.distance(there) < 1e-9
        assert trimmed != other
    assert min(wide, high) / 10.0 > BUTTON


def test_pairs_are_printed_on_both_pages_of_a_joint(plan, tiled):
    with open_pdf(tiled) as document:
        words = {s.name: words_of(p) for s, p in zip(plan.sheets, list(document)[1:], strict=True)}
    for sheet in plan.sheets:
        for joint in joints_of(plan, sheet, sheet.box):
            assert joint.pair in words[sheet.name]
            assert joint.pair in words[joint.neighbour]


def test_only_right_and_lower_edges_are_trimmed(plan):
    for sheet in plan.sheets:
        for joint in joints_of(plan, sheet, sheet.box):
            assert joint.trimmed == (joint.outward.x > 0 or joint.outward.y < 0)


def test_the_first_page_explains_printing_joining_lines_and_dangers(plan, pattern, tiled):
    with open_pdf(tiled) as document:
        words = " ".join(words_of(document[0]).split())
    assert "100 %" in words
    assert "never “fit to page”" in words
    assert f"Put {len(plan.sheets)} sheets together" in words
    assert "made to measure for Marit" in words
    assert "Shears, pins, machine and iron can hurt" in words
    for piece in pattern.pieces:
        assert piece.title in words
    for sheet in plan.sheets:
        assert sheet.name in words


def test_fonts_are_embedded_as_subsets_and_the_file_is_small(tiled):
    with pikepdf.open(tiled) as document:
        fonts = [
            o for o in document.objects if isinstance(o, pikepdf.Dictionary) and o.get("/Type") == "/FontDescriptor"
        ]
        assert len(fonts) >= 3
        for font in fonts:
            assert "/FontFile2" in font
            assert "+SourceSans3" in str(font.FontName)
    assert tiled.stat().st_size < 1_000_000


def test_the_file_names_itself_its_language_and_asks_not_to_be_scaled(tiled, plan):
    with pikepdf.open(tiled) as document:
        assert document.check_pdf_syntax() == [] if hasattr(document, "check_pdf_syntax") else document.check() == []
        assert str(document.docinfo.Title) == "Harbour dress · order K7F2Q"
        assert str(document.docinfo.Author) == "Studio Fieldwork"
        assert str(document.Root.Lang) == "en"
        assert document.Root.ViewerPreferences.PrintScaling == "/None"
        assert [page.label for page in document.pages] == ["start", *(s.name for s in plan.sheets)]


def test_bookmarks_lead_to_every_sheet_and_every_piece(plan, pattern, tiled):
    with open_pdf(tiled) as document:
        marks = {m.get_title(): m.get_dest().get_index() for m in document.get_toc()}
    for number, sheet in enumerate(plan.sheets, start=1):
        assert marks[f"Sheet {sheet.name}"] == number
    for piece in pattern.pieces:
        assert marks[piece.title] == 1 + plan.sheets.index(plan.sheets_of(piece.name)[0])


def test_the_same_order_gives_the_same_bytes(plan, pattern, info, tiled, tmp_path):
    again = tmp_path / "again.pdf"
    write_tiled_pdf(plan, pattern, info, again)
    assert again.read_bytes() == tiled.read_bytes()


def test_black_ink_changes_the_lines_and_not_the_first_page(plan, pattern, info, tiled, tmp_path):
    path = tmp_path / "black.pdf"
    write_tiled_pdf(plan, pattern, info, path, palette=BLACK)
    with open_pdf(path) as document:
        assert any(p.grey == 0 for p in paths_of(document[1]))
        assert len(document) == 1 + len(plan.sheets)


def test_letters_that_cannot_be_printed_are_a_warning_not_a_failure(pattern, tmp_path):
    plan = plan_sheets(pattern, PAPERS["a3"], tries=0)
    info = PrintInfo("Harbour dress", customer="美咲")
    (problem,) = write_tiled_pdf(plan, pattern, info, tmp_path / "p.pdf")
    assert problem.severity is Severity.WARNING
    assert problem.code == "sheets.letters-lacking"
    assert "美" in problem.message
    assert info_problems(replace(info, customer="Zoë")) == ()


def test_an_order_without_number_customer_or_studio_prints_too(pattern, tmp_path):
    plan = plan_sheets(pattern, PAPERS["legal"], tries=0)
    path = tmp_path / "bare.pdf"
    assert write_tiled_pdf(plan, pattern, PrintInfo("Harbour dress"), path) == ()
    with open_pdf(path) as document:
        assert "made to measure" not in words_of(document[0])
        assert "order" not in words_of(document[1])


def test_the_drawing_of_a_piece_carries_the_orders_words(pattern, info):
    words = {m.words for m in OnePattern(pattern, info).plies("skirt")[0].marks if hasattr(m, "words")}
    assert {"Harbour dress · K7F2Q", "for Marit", "cut 4 Shell, mirrored"} <= words


def test_lines_stay_on_their_sheet_but_for_the_bleed(plan, tiled):
    """PDFium gives whole paths; what is shown is clipped, so the page's own ink is looked at instead."""
    with open_pdf(tiled) as document:
        for page in list(document)[1:]:
            image = page.render(scale=1.0).to_pil().convert("L")
            edge = int((plan.paper.margin - 6.5) * PT)
            for side in (
                (0, 0, image.width, edge),
                (0, 0, edge, image.height),
                (image.width - edge, 0, image.width, image.height),
                (0, image.height - edge, image.width, image.height),
            ):
                assert image.crop(side).getextrema()[0] > 250


def test_multi_lines_are_what_the_reader_returns():
    assert isinstance(flat([((0, 0), (1, 0)), ((5, 5), (6, 6))]), MultiLineString)


def test_titles_keep_off_the_joints_where_they_stay_easy_to_read(plan, pattern, info):
    joints = joints_under(plan)
    art = OnePattern(pattern, info)
    frames = {name: unary_union([LineString(p.flatten()) for p in paths]) for name, paths in joints.items()}
    crossed = 0
    for piece in pattern.pieces:
        title = next(
            m for m in art.plies(piece.name, joints[piece.name])[0].marks if getattr(m, "words", "") == piece.title
        )
        corners = Polygon(text_corners(title.at, title.words, title.lettering))
        crossed += corners.intersects(frames[piece.name])
    assert crossed <= 1


def test_joints_under_a_piece_are_the_frames_of_its_sheets_seen_from_the_piece(plan):
    joints = joints_under(plan)
    for placed in plan.placed:
        frames = [path.transformed(placed.transform).bounds for path in joints[placed.piece]]
        assert [list(f) for f in frames] == [pytest.approx(list(s.box)) for s in plan.sheets_of(placed.piece)]
