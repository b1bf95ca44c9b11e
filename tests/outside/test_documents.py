"""The documents held against general-purpose libraries and published conventions.

A report must be readable by anyone: here the lengths and areas are measured again, from the
report alone, by svgpathtools and shapely, and the shape is judged by jsonschema. The PDF is read
by pdfium. Conventions of sewing are those of named pages; see each test.
"""

import json
import re
from pathlib import Path as FilePath

import jsonschema
import pypdfium2
import pytest
import shapely
import svgpathtools

from app.packs import report as report_room
from app.packs.instructions import SheetFor, instruction_pdf, instruction_sheet
from app.packs.report import report, report_bytes
from app.pattern.lay import EFFORT_QUICK, items_for, lay_plan_for
from app.pattern.make import Made, make_pattern
from app.pattern.steps import SeamNote, seam_in_words
from app.pattern.steps.clipping import STOP_SHORT, TRIM_INNER, TRIM_OUTER
from app.pattern.units import Unit, show_cloth_length, show_length
from tests.places import DRAFTS

DRAFT = DRAFTS / "gore_skirt.draft"


@pytest.fixture(scope="module")
def skirt() -> Made:
    made = make_pattern(
        DRAFT.read_text("utf-8"), DRAFT.name, {"waist_girth": 830.0, "hip_girth": 1080.0, "waist_to_hip": 210.0}, {}
    )
    assert isinstance(made, Made)
    return made


@pytest.fixture(scope="module")
def lays(skirt):
    return {
        fabric.name: lay_plan_for(items_for(skirt.pattern, fabric.name), fabric, effort=EFFORT_QUICK)
        for fabric in skirt.pattern.fabrics
    }


@pytest.fixture(scope="module")
def figures(skirt, lays):
    return json.loads(report_bytes(report(skirt, lays, ())))


def drawn(segments) -> svgpathtools.Path:
    """The report's exact segments as svgpathtools draws them (no arcs occur in this draft)."""
    parts = []
    for segment in segments:
        names = ("start", "end") if segment["kind"] == "line" else ("start", "c1", "c2", "end")
        points = [complex(*segment[name]) for name in names]
        parts.append(svgpathtools.Line(*points) if len(points) == 2 else svgpathtools.CubicBezier(*points))
    return svgpathtools.Path(*parts)


def test_jsonschema_accepts_the_schema_and_the_report(figures):
    schema = json.loads(FilePath(report_room.__file__).with_name("report_schema.json").read_text("utf-8"))
    jsonschema.Draft202012Validator.check_schema(schema)
    jsonschema.Draft202012Validator(schema).validate(figures)


def test_svgpathtools_measures_every_edge_as_the_report_does(figures):
    for piece in figures["pieces"]:
        for edge in piece["edges"]:
            assert drawn(edge["segments"]).length(error=1e-6) == pytest.approx(edge["length"], abs=0.01)


def test_svgpathtools_walks_every_seam_as_the_report_does(figures):
    lengths = {
        (piece["name"], edge["name"]): drawn(edge["segments"]).length(error=1e-6)
        for piece in figures["pieces"]
        for edge in piece["edges"]
    }
    for seam in figures["seams"]:
        for side in ("a", "b"):
            walked = sum(lengths[run["piece"], run["edge"]] * run["times"] for run in seam[side])
            assert walked == pytest.approx(seam[f"{side}_length"], abs=0.05)


def test_shapely_measures_every_outline_as_the_report_does(figures):
    for piece in figures["pieces"]:
        for outline in (piece["stitching"], piece["cutting"]):
            ring = shapely.LinearRing(outline["points"])
            assert ring.is_simple
            assert ring.is_ccw
            # Chords within 0.05 mm of the curve lose at most that much along the whole way round.
            assert shapely.Polygon(ring).area == pytest.approx(outline["area"], abs=0.05 * outline["length"])
            assert ring.length == pytest.approx(outline["length"], rel=1e-3)
        assert shapely.Polygon(piece["cutting"]["points"]).covers(shapely.Polygon(piece["stitching"]["points"]))


def test_shapely_finds_no_two_pieces_on_top_of_each_other_in_the_reported_lay(figures):
    for cloth in figures["cloths"]:
        polygons = [shapely.Polygon(placement["outline"]) for placement in cloth["placements"]]
        tree = shapely.STRtree(polygons)
        for one, other in tree.query(polygons, predicate="overlaps").T:
            assert polygons[one].intersection(polygons[other]).area < 0.01
        depth = cloth["width"] / 2 if cloth["folded"] else cloth["width"]
        cloth_on_table = shapely.box(-0.01, -0.01, cloth["length"] + 0.01, depth + 0.01)
        assert all(cloth_on_table.covers(polygon) for polygon in polygons)


def test_pdfium_reads_the_customers_figures_off_the_printed_sheet(skirt, lays):
    to = SheetFor("Fernhill skirt", "Imke Falk", "Hollow Lane Studio", "TL-0042", Unit.CM, "a4")
    document = pypdfium2.PdfDocument(instruction_pdf(instruction_sheet(skirt, lays, to)))
    text = "\n".join(page.get_textpage().get_text_bounded() for page in document)
    text = re.sub(r"\s+", " ", text.replace("\u00a0", " "))
    document.close()
    for girth in skirt.pattern.girths:
        assert show_length(girth.measured, Unit.CM, named=False) in text
    assert show_cloth_length(lays["main"].buy, Unit.CM) in text


def test_gathers_read_like_the_published_worked_example():
    """Flat = finished x ratio: 20 x 2.5 = 50 (as several sewing pages print it: a worked example, common practice)."""
    note = SeamNote(0, "gather", "Flounce (top)", "Skirt (hem)", 500.0, 200.0)
    assert seam_in_words(note, Unit.CM) == "Draw up Flounce (top) from 50 cm to 20 cm to fit Skirt (hem), 2.50 to 1."


def test_clips_and_trims_are_those_of_the_school_textbook():
    """Trim to 1/8-1/4 in, widest next to the outside, stop 1/8 in from the stitching.

    A textbook on clothing of Goodheart-Willcox (its online edition, p. 451; title and year not seen); common practice.
    """
    assert [show_length(mm, Unit.INCH) for mm in (STOP_SHORT, TRIM_INNER, TRIM_OUTER)] == ["1/8 in", "1/8 in", "1/4 in"]


@pytest.mark.parametrize(
    ("metres", "words"), [(0.9144, "1 yd"), (1.8288, "2 yd"), (0.1143, "1/8 yd"), (1.0, "1 1/8 yd")]
)
def test_a_yard_is_the_international_one(metres, words):
    """1 yd = 0.9144 m exactly: the international yard and pound agreement of 1959."""
    assert show_cloth_length(metres * 1000.0, Unit.INCH) == words
