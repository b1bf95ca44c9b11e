"""report.json: every figure, agreeing with the pattern it was read from, in a documented shape, in the same bytes."""

import json
from dataclasses import replace
from math import cos, dist, hypot, sin
from pathlib import Path

import jsonschema
import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.packs import report as room
from app.packs.report import SheetCount, report, report_bytes, schema
from app.pattern.body import size_body
from app.pattern.checks import CHECKS
from app.pattern.geometry import Cubic, Line, Point, arc_centre
from app.pattern.make import make_pattern
from app.pattern.pieces.model import Allowance, Edge
from app.pattern.plain_words import told_of
from app.pattern.problem import Measured, Place, Problem, Severity
from app.pattern.steps import seam_notes
from tests.places import DRAFTS

SCHEMA = Path(room.__file__).with_name("report_schema.json")
SHEETS = (SheetCount("pattern-a4.pdf", "a4", 21), SheetCount("pattern-one-sheet.pdf", "one sheet", 1))


@pytest.fixture(scope="module")
def figures(skirt, lays):
    return report(skirt, lays, SHEETS)


def numbers(value):
    """Every number anywhere in a JSON value."""
    if isinstance(value, dict):
        for inner in value.values():
            yield from numbers(inner)
    elif isinstance(value, list):
        for inner in value:
            yield from numbers(inner)
    elif isinstance(value, float):
        yield value


def test_the_schema_file_is_the_shape_of_the_report():
    kept = json.loads(SCHEMA.read_text("utf-8"))
    assert kept == schema(), (
        "The report's shape has changed. If an older reader could misread it, raise VERSION in report_model.py; "
        "then write report_schema.json again: json.dumps(schema(), indent=1, sort_keys=True) and a newline."
    )


def test_a_report_holds_to_the_schema(figures):
    jsonschema.Draft202012Validator(json.loads(SCHEMA.read_text("utf-8"))).validate(figures)
    assert (figures["format"], figures["version"]) == ("pattern-report", 2)


def test_a_reader_can_trust_that_nothing_else_is_in_it(figures):
    with pytest.raises(jsonschema.ValidationError):
        jsonschema.validate({**figures, "extra": 1}, schema())
    with pytest.raises(jsonschema.ValidationError):
        jsonschema.validate({key: value for key, value in figures.items() if key != "seams"}, schema())


def test_the_same_pattern_gives_the_same_bytes_whatever_the_order_of_its_measurements(skirt, lays, figures):
    turned = replace(skirt, body=dict(reversed(skirt.body.items())))
    again = report(turned, dict(reversed(lays.items())), SHEETS)
    assert report_bytes(again) == report_bytes(figures)
    assert json.loads(report_bytes(figures)) == figures


def test_no_number_is_finer_than_it_is_meant_to_be_nor_a_negative_nought(figures):
    text = report_bytes(figures).decode()
    assert "-0.0," not in text
    assert "NaN" not in text
    for piece in figures["pieces"]:
        assert all(value == round(value, 3) for value in numbers(piece["cutting"]["points"]))


def test_every_piece_is_there_with_both_outlines_closed_and_anticlockwise(skirt, figures):
    assert [piece["name"] for piece in figures["pieces"]] == [piece.name for piece in skirt.pattern.pieces]
    for piece in figures["pieces"]:
        for outline in (piece["stitching"], piece["cutting"]):
            assert outline["area"] > 0
            (x0, y0), (x1, y1) = outline["points"][0], outline["points"][-1]
            assert hypot(x1 - x0, y1 - y0) < 0.01
        assert piece["cutting"]["area"] > piece["stitching"]["area"]


def test_edges_carry_their_lengths_and_allowances(skirt, figures):
    for piece, written in zip(skirt.pattern.pieces, figures["pieces"], strict=True):
        for edge, figure in zip(piece.edges, written["edges"], strict=True):
            assert figure["name"] == edge.name
            assert figure["length"] == pytest.approx(edge.path.length, abs=0.001)
            assert figure["allowance"] == pytest.approx(edge.allowance.width, abs=0.001)


def test_segments_give_the_curve_back_exactly(skirt, figures):
    """A cubic rebuilt from the report lies on the pattern's own to within the rounding."""
    path = skirt.pattern.piece("centre").edge("panel_seam").path
    edge = next(e for e in figures["pieces"][0]["edges"] if e["name"] == "panel_seam")
    kinds = {"line": Line, "cubic": Cubic}
    for segment, written in zip(path.segments, edge["segments"], strict=True):
        assert isinstance(segment, kinds[written["kind"]])
        names = ("start", "end") if written["kind"] == "line" else ("start", "c1", "c2", "end")
        rebuilt = kinds[written["kind"]](*(Point(*written[name]) for name in names))
        assert rebuilt.point(0.37).distance(segment.point(0.37)) < 0.002


def test_darts_carry_equal_legs_their_intake_and_how_clear_they_stay(blouse):
    darts = [dart for piece in report(blouse, {}, ())["pieces"] for dart in piece["darts"]]
    assert darts
    for dart in darts:
        assert dart["legs"][0] == pytest.approx(dart["legs"][1], abs=0.5)
        assert dart["intake"] == pytest.approx(dist(dart["a"], dart["b"]), abs=0.002)
        assert dart["clearance"] is None or dart["clearance"] >= dart["clear_by"] - 0.001


def test_notches_lie_on_their_edges_and_name_their_seams(blouse):
    figures = report(blouse, {}, ())
    notches = [(piece, notch) for piece in figures["pieces"] for notch in piece["notches"]]
    assert notches
    for piece, notch in notches:
        edge = next(edge for edge in piece["edges"] if edge["name"] == notch["edge"])
        assert 0.0 <= notch["along"] <= edge["length"]
        path = blouse.pattern.piece(piece["name"]).edge(notch["edge"]).path
        assert path.point_at(notch["along"]).distance(Point(*notch["at"])) < 0.01
        assert notch["seam"] is None or 0 <= notch["seam"] < len(figures["seams"])


def test_marks_are_lines_or_points(blouse):
    marks = [mark for piece in report(blouse, {}, ())["pieces"] for mark in piece["marks"]]
    assert {mark["kind"] for mark in marks} >= {"buttonhole", "lengthen"}
    assert any(mark["segments"] for mark in marks)


def test_an_eased_seam_carries_its_difference_and_what_is_allowed(blouse):
    eased = [seam for seam in report(blouse, {}, ())["seams"] if seam["kind"] == "ease"]
    assert eased
    for seam in eased:
        least, most = seam["ease_allowed"]
        assert least - 0.5 <= seam["difference"] <= most + 0.5


@given(
    radius=st.floats(20.0, 900.0),
    start=st.floats(-6.0, 6.0),
    sweep=st.floats(0.2, 3.0),
    left=st.booleans(),
)
def test_an_arc_can_be_drawn_again_from_its_figures(skirt, radius, start, sweep, left):
    turn = sweep if left else -sweep
    edge = Edge("round", arc_centre(Point(3.0, -7.0), radius, start, start + turn), Allowance(10.0))
    piece = replace(skirt.pattern.pieces[0], edges=(edge,), notches=())
    made = replace(skirt, pattern=replace(skirt.pattern, pieces=(piece,), seams=(), girths=()))
    written = report(made, {}, ())["pieces"][0]["edges"][0]
    (arc,) = written["segments"]
    assert arc["kind"] == "arc"
    half = arc["start_angle"] + arc["sweep"] / 2.0
    middle = Point(arc["centre"][0] + arc["radius"] * cos(half), arc["centre"][1] + arc["radius"] * sin(half))
    assert middle.distance(edge.path.point_at(edge.path.length / 2.0)) < 0.005
    assert written["length"] == pytest.approx(arc["radius"] * abs(arc["sweep"]), abs=0.01)


def test_seams_carry_both_lengths_as_the_maker_reads_them(skirt, figures):
    for note, seam in zip(seam_notes(skirt.pattern), figures["seams"], strict=True):
        assert seam["a_length"] == pytest.approx(note.a_length, abs=0.001)
        assert seam["difference"] == pytest.approx(seam["a_length"] - seam["b_length"], abs=0.002)


def test_finished_sizes_are_body_plus_ease(figures):
    sizes = {size["name"]: size for size in figures["finished_sizes"]}
    assert sizes["waist"]["garment"] == pytest.approx(sizes["waist"]["body"] + sizes["waist"]["ease"], abs=0.002)
    assert sizes["hem"]["body"] is None


def test_it_names_every_check_that_ran(figures):
    assert len(figures["checks"]["run"]) == len(CHECKS) == len(set(figures["checks"]["run"]))
    assert figures["checks"]["run"] == [check.title for check in CHECKS]


def test_findings_say_where_and_what_to_do(skirt, lays):
    warned = Problem("checks.truing", "A corner.", "Round it.", Place("side", "hem"), Severity.WARNING)
    wide = replace(warned, code="checks.cloth-width", measured=Measured(1512.34567, None, 1400.0))
    written = report(replace(skirt, findings=(warned, wide)), lays, SHEETS)["checks"]["findings"]
    assert written[0] == {
        "check": "Truing",
        "code": "checks.truing",
        "severity": "warning",
        "message": "A corner.",
        "fix": "Round it.",
        "words": told_of("checks.truing").words,
        "where": "side, edge hem",
        "measured": None,
    }
    assert written[1]["check"] == "Fits the cloth"
    assert written[1]["measured"] == {"is_mm": 1512.346, "least_mm": None, "most_mm": 1400.0}


def test_the_figures_that_a_draft_reckons_are_there():
    """The front of the bodice is a centimetre wider than its back; both are body and ease in two halves."""
    name = "fitted_bodice.draft"
    text = (DRAFTS / name).read_text("utf-8")
    made = make_pattern(text, name, size_body("92"), {"bust_ease": 70.0})
    figures = report(made, {}, ())["figures"]
    assert figures["bust_front"] - figures["bust_back"] == pytest.approx(10.0)
    assert 2 * (figures["bust_front"] + figures["bust_back"]) == pytest.approx(size_body("92")["bust_girth"] + 70.0)


def test_the_lay_is_kept_so_that_it_can_be_drawn_again(lays, figures):
    main = next(cloth for cloth in figures["cloths"] if cloth["fabric"] == "main")
    assert main["buy"] >= main["length"] == pytest.approx(lays["main"].length, abs=0.001)
    assert len(main["placements"]) == len(lays["main"].placements)
    for placement in main["placements"]:
        assert all(-0.001 <= x <= main["length"] + 0.001 for x, _ in placement["outline"])


def test_the_page_counts_are_those_of_the_files(figures):
    assert [(s["file"], s["pages"]) for s in figures["sheets"]] == [
        ("pattern-a4.pdf", 21),
        ("pattern-one-sheet.pdf", 1),
    ]
