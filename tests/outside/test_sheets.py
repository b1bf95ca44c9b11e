"""Printed sheets held against published standards and against routines that are not ours.

Sources: ISO 216:2007 for the A series; ANSI/ASME Y14.1 for 8.5 x 11 in and 11 x 17 in; the
inch of 25.4 mm, exact by international agreement (1959); ISO 32000-1:2008 for the PDF unit of
1/72 inch, page boxes, viewer preferences and optional content. Read with PDFium, qpdf (pikepdf),
Shapely and, where they are installed, Ghostscript and Poppler; SVG with svgpathtools.
"""

import shutil
import subprocess
from math import pi, sqrt
from xml.etree import ElementTree

import pikepdf
import pytest
import svgpathtools
from shapely.geometry import Polygon

from app.pattern.drawing import SvgPen, piece_svg
from app.pattern.drawing.pen import LineStyle
from app.pattern.geometry import Arc, Path, Point
from app.pattern.sheets import (
    PAPERS,
    ROLLS,
    PrintInfo,
    nest_of,
    plan_artwork,
    plan_projector,
    plan_roll,
    plan_sheets,
    write_grading_pdf,
    write_projector_pdf,
    write_roll_pdf,
    write_tiled_artwork,
    write_tiled_pdf,
)
from tests.pattern.drawing.hand_pieces import pattern, skirt_panel, yoke
from tests.pattern.sheets.pdf_reading import open_pdf, paths_of

#: ISO 216:2007, table 1: trimmed sizes in mm.
ISO_216 = {"a0": (841, 1189), "a1": (594, 841), "a2": (420, 594), "a3": (297, 420), "a4": (210, 297)}
#: ANSI/ASME Y14.1 sizes A and B, in inches; Legal (8.5 x 14 in) is common practice.
INCHES = {"letter": (8.5, 11.0), "tabloid": (11.0, 17.0), "legal": (8.5, 14.0)}
#: ISO 32000-1:2008, 8.3.2.3: the default unit of user space is 1/72 inch.
UNITS_PER_INCH, MM_PER_INCH = 72.0, 25.4


@pytest.mark.parametrize("name", sorted(ISO_216))
def test_the_a_series_is_that_of_iso_216(name):
    assert (PAPERS[name].width, PAPERS[name].height) == ISO_216[name]


@pytest.mark.parametrize("name", sorted(ISO_216))
def test_the_sides_of_the_a_series_stand_as_one_to_the_root_of_two(name):
    """ISO 216, clause 3: within the rounding to whole millimetres."""
    paper = PAPERS[name]
    assert paper.height / paper.width == pytest.approx(sqrt(2.0), abs=0.003)


@pytest.mark.parametrize("name", sorted(INCHES))
def test_north_american_papers_are_whole_parts_of_an_inch(name):
    wide, high = INCHES[name]
    assert (PAPERS[name].width, PAPERS[name].height) == pytest.approx((wide * MM_PER_INCH, high * MM_PER_INCH))


def test_every_paper_with_a_published_size_is_held_against_it():
    assert set(PAPERS) == set(ISO_216) | set(INCHES)


@pytest.mark.parametrize("name", ["a4", "a3", "letter", "tabloid"])
def test_the_media_box_of_every_page_is_the_papers_size(name, tmp_path):
    paper = PAPERS[name]
    path = tmp_path / "sheets.pdf"
    write_tiled_pdf(plan_sheets(pattern(), paper, tries=0), pattern(), PrintInfo("Harbour dress"), path)
    with pikepdf.open(path) as document:
        for page in document.pages:
            box = [float(n) * MM_PER_INCH / UNITS_PER_INCH for n in page.mediabox]
            assert box == pytest.approx([0.0, 0.0, paper.width, paper.height], abs=0.1)
            assert "/UserUnit" not in page
            assert "/Rotate" not in page or page.Rotate == 0


@pytest.mark.parametrize("name", ["a4", "letter"])
def test_printed_at_six_hundred_dots_per_inch_the_first_square_is_its_size_in_dots(name, tmp_path):
    """What a printer does: PDFium rasters the page at 600 dpi; 50 mm from outer edge to outer edge are 1181.1 dots."""
    path = tmp_path / "sheets.pdf"
    paper = PAPERS[name]
    write_tiled_pdf(plan_sheets(pattern(), paper, tries=0), pattern(), PrintInfo("Harbour dress"), path)
    with open_pdf(path) as document:
        left, _, right, top = next(p.box for p in paths_of(document[0]) if 49.0 < p.box[2] - p.box[0] < 50.1)
        width = document[0].get_width()
        crop = tuple(n * UNITS_PER_INCH / MM_PER_INCH for n in (left - 2.0, top - 26.0, -right - 2.0, 25.0 - top))
        crop = (crop[0], crop[1], width + crop[2], document[0].get_height() + crop[3])
        image = document[0].render(scale=600.0 / UNITS_PER_INCH, crop=crop).to_pil().convert("L")
    dark = [x for x in range(image.width) if image.getpixel((x, image.height // 2)) < 128]
    assert dark[-1] - dark[0] + 1 == pytest.approx(50.0 / MM_PER_INCH * 600.0, abs=1.0)


def test_qpdf_finds_nothing_to_complain_of(tmp_path):
    path = tmp_path / "sheets.pdf"
    write_tiled_pdf(plan_sheets(pattern(), PAPERS["a4"], tries=0), pattern(), PrintInfo("Harbour dress"), path)
    with pikepdf.open(path) as document:
        assert document.check_pdf_syntax() == []


def test_the_plan_needs_no_fewer_sheets_than_the_area_and_a_quarter_fewer_than_a_row():
    for name in ("a4", "letter"):
        paper = PAPERS[name]
        plan = plan_sheets(pattern(), paper, tries=10)
        wide, high = paper.printable
        area = sum(Polygon(p.cutting.flatten(0.05)).area for p in pattern().pieces)
        assert area / (wide * high) <= len(plan.sheets) <= 0.75 * plan.in_a_row


def cutting_paths(svg):
    root = ElementTree.fromstring(svg)
    for path in root.iter("{http://www.w3.org/2000/svg}path"):
        if path.get("class") == "line-cutting":
            yield svgpathtools.parse_path(path.get("d"))


@pytest.mark.parametrize("piece", [yoke(), skirt_panel()], ids=lambda p: p.name)
def test_svgpathtools_reads_back_the_length_and_area_of_the_cutting_line(piece):
    (path,) = cutting_paths(piece_svg(piece))
    assert path.length() == pytest.approx(piece.cutting.length, abs=0.1)
    assert abs(path.area()) == pytest.approx(abs(piece.cutting.signed_area), rel=1e-4)


def test_a_circle_keeps_its_circumference_and_area_in_svg():
    pen = SvgPen()
    pen.line(Path((Arc(Point(0.0, 0.0), 200.0, 0.0, 2.0 * pi),)), LineStyle.CUTTING)
    path = svgpathtools.parse_path(pen.elements[0].split(' d="')[1].split('"')[0])
    assert path.length() == pytest.approx(400.0 * pi, abs=0.05)
    assert abs(path.area()) == pytest.approx(40_000.0 * pi, rel=1e-4)


@pytest.fixture(scope="module")
def files(tmp_path_factory):
    """One of each kind of file."""
    folder, some = tmp_path_factory.mktemp("kinds"), pattern()
    info = PrintInfo("Harbour dress", "K7F2Q", "Marit", "Fieldwork")
    names = ("tiled", "roll", "projector", "sizes", "table")
    tiled, roll, projector, sizes, table = paths = tuple(folder / f"{name}.pdf" for name in names)
    write_tiled_pdf(plan_sheets(some, PAPERS["letter"], tries=0), some, info, tiled)
    write_roll_pdf(plan_roll(some, ROLLS["36in"]), some, info, roll)
    write_projector_pdf(plan_projector(some, info), some, info, projector)
    nest = nest_of({"84": some, "92": some}, info)
    write_tiled_artwork(plan_artwork(nest, PAPERS["a4"], tries=0), nest, info, sizes)
    write_grading_pdf({"84": some, "92": some}, info, PAPERS["a4"], table)
    return paths


def test_qpdf_finds_no_fault_in_any_kind_of_file(files):
    for path in files:
        with pikepdf.open(path) as document:
            assert document.check_pdf_syntax() == [], path.name


def test_every_kind_of_file_asks_viewers_to_print_it_unscaled_on_its_own_paper_and_one_side(files):
    """ISO 32000-1:2008, 12.2, table 150: PrintScaling None (PDF 1.6), PickTrayByPDFSize and Duplex (PDF 1.7)."""
    for path in files:
        with pikepdf.open(path) as document:
            asked = document.Root.ViewerPreferences
            assert asked.PrintScaling == pikepdf.Name("/None"), path.name
            assert asked.PickTrayByPDFSize is True
            assert asked.Duplex == pikepdf.Name("/Simplex")
            assert document.pdf_version == "1.7"


def test_every_page_of_every_file_is_of_one_box_in_units_of_a_seventy_second_of_an_inch(files):
    """ISO 32000-1:2008, 14.11.2 and table 30: without CropBox the MediaBox is shown; without UserUnit it is 1/72 in."""
    for path in files:
        with pikepdf.open(path) as document:
            for page in document.pages:
                assert "/UserUnit" not in page.obj, path.name
                assert page.cropbox == page.mediabox
                assert page.obj.get("/Rotate", 0) == 0
                assert [float(n) for n in page.mediabox[:2]] == [0.0, 0.0]
                assert max(float(n) for n in page.mediabox) <= 14_400.0


def test_ghostscript_draws_every_kind_of_file_without_a_word(files):
    ghostscript = shutil.which("gs")
    if ghostscript is None:
        pytest.skip("Ghostscript is not installed")
    for path in files:
        command = [ghostscript, "-q", "-dNOPAUSE", "-dBATCH", "-dSAFER", "-sDEVICE=nullpage", str(path)]
        told = subprocess.run(command, capture_output=True, text=True, check=False)
        assert (told.returncode, told.stdout, told.stderr) == (0, "", ""), path.name


def test_poppler_finds_every_font_embedded_as_a_subset(files):
    pdffonts = shutil.which("pdffonts")
    if pdffonts is None:
        pytest.skip("Poppler's tools are not installed")
    for path in files:
        told = subprocess.run([pdffonts, str(path)], capture_output=True, text=True, check=True)
        assert told.stderr == ""
        for row in told.stdout.splitlines()[2:]:
            *_, embedded, subset, _unicode, _number, _generation = row.split()
            assert (embedded, subset) == ("yes", "yes"), row


def test_the_information_of_every_file_names_neither_customer_nor_moment(files):
    """ISO 32000-1, 14.3.3: title, author, subject and creator; the dates are those of an invariant file."""
    for path in files:
        with pikepdf.open(path) as document:
            told = {key: str(value) for key, value in document.docinfo.items()}
            assert str(document.Root.Lang) == "en"
            assert document.Root.ViewerPreferences.PrintScaling == "/None"
            assert "/Outlines" in document.Root
            assert "/PageLabels" in document.Root
        assert told["/Title"].startswith("Harbour dress")
        assert "Marit" not in "".join(told.values())
        assert told["/CreationDate"].startswith("D:2000")


def test_layers_are_what_the_standard_asks_for(files):
    """ISO 32000-1, 8.11.4.2: every group is in OCGs and in the order shown, and is an indirect object of type OCG."""
    with pikepdf.open(files[3]) as document:
        properties = document.Root.OCProperties
        assert [group.is_indirect for group in properties.OCGs] == [True, True]
        assert {str(group.Type) for group in properties.OCGs} == {"/OCG"}
        assert [group.objgen for group in properties.D.Order] == [group.objgen for group in properties.OCGs]
        assert document.pdf_version >= "1.5"


def test_rolls_named_in_inches_are_whole_inches_and_the_others_of_iso_216():
    assert {name: side for name, side in ROLLS.items() if not name.endswith("in")} == {"a1": 594.0, "a0": 841.0}
    for name, side in ROLLS.items():
        if name.endswith("in"):
            assert side == pytest.approx(float(name[:-2]) * MM_PER_INCH)
