"""The instruction file itself: its fonts, its structure for a screen reader, and that no network is asked for it."""

import io
import socket

import pikepdf
import pytest

from app.packs.instructions import SheetFor, instruction_pdf, instruction_sheet
from app.pattern.units import Unit

TO = SheetFor("Saltmarsh blouse", "Imke Falk", "Hollow Lane Studio", "TL-0042", Unit.CM, "letter")


@pytest.fixture(scope="module")
def pdf(blouse):
    with pikepdf.open(io.BytesIO(instruction_pdf(instruction_sheet(blouse, {}, TO)))) as opened:
        yield opened


def kinds(pdf: pikepdf.Pdf) -> list[str]:
    """The kinds of all structure elements, such as /H1 and /Figure."""
    nodes = (node for node in pdf.objects if isinstance(node, pikepdf.Dictionary))
    return [str(node["/S"]) for node in nodes if node.get("/Type") == "/StructElem"]


def test_every_font_is_the_houses_own_and_embedded(pdf):
    nodes = [node for node in pdf.objects if isinstance(node, pikepdf.Dictionary)]
    fonts = [node for node in nodes if node.get("/Type") == "/FontDescriptor"]
    assert fonts
    for font in fonts:
        assert "Source" in str(font["/FontName"])
        assert "/FontFile2" in font or "/FontFile3" in font


def test_a_screen_reader_finds_one_title_chapters_steps_tables_and_pictures(pdf, blouse):
    found = kinds(pdf)
    assert found.count("/H1") == 1
    assert found.count("/H2") >= 6
    assert found.count("/H3") >= len(blouse.pattern.steps)
    assert "/Table" in found
    assert "/Figure" in found


def test_every_page_has_the_papers_size(pdf):
    for page in pdf.pages:
        assert [float(n) for n in page["/MediaBox"]][2:] == pytest.approx((612.0, 792.0), abs=0.01)


def test_pictures_are_lines_and_never_pixels(pdf):
    streams = [node for node in pdf.objects if isinstance(node, pikepdf.Stream)]
    assert not [node for node in streams if node.get("/Subtype") == "/Image"]


def test_nothing_in_it_can_run_or_call_out(pdf):
    nodes = [node for node in pdf.objects if isinstance(node, pikepdf.Dictionary)]
    assert not [node for node in nodes if {"/JS", "/URI", "/Launch"} & {str(key) for key in node}]


def test_no_network_is_asked_for(blouse, monkeypatch):
    def refused(*_args: object) -> None:
        raise AssertionError("the press reached for the network")

    monkeypatch.setattr(socket.socket, "connect", refused)
    monkeypatch.setattr(socket, "getaddrinfo", refused)
    assert instruction_pdf(instruction_sheet(blouse, {}, TO)).startswith(b"%PDF-")
