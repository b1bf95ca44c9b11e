"""The press prints from the project's own files only, with our fonts in the file, and the same bytes each time."""

import io
import logging
import re
import subprocess
import sys
from concurrent.futures import ThreadPoolExecutor
from hashlib import sha256
from pathlib import Path

import pikepdf
import pytest
from weasyprint.urls import FatalURLFetchingError

from app.base.templates import STATIC
from app.packs.press import RefusedAddress, StaticOnly, press

PAGE = """<!doctype html><html lang="en"><head><meta charset="utf-8"><title>Trial</title></head>
<body><div class="running-title">Trial</div><h1>Trial</h1><p>Ease <strong>1 cm</strong> in, <em>gently</em>.</p>{}
</body></html>"""


def opened(pdf: bytes) -> pikepdf.Pdf:
    return pikepdf.open(io.BytesIO(pdf))


def test_the_file_knows_its_title_and_language_and_is_tagged():
    with opened(press(PAGE.format(""), "instructions.css", "a4")) as pdf:
        assert str(pdf.docinfo["/Title"]) == "Trial"
        assert str(pdf.Root["/Lang"]) == "en"
        assert pdf.Root["/MarkInfo"]["/Marked"]


@pytest.mark.parametrize(("paper", "size"), [("a4", (595.28, 841.89)), ("letter", (612.0, 792.0))])
def test_the_page_has_the_size_of_its_paper(paper, size):
    with opened(press(PAGE.format(""), "instructions.css", paper)) as pdf:
        box = [float(n) for n in pdf.pages[0]["/MediaBox"]]
    assert box[2:] == pytest.approx(size, abs=0.01)


def test_every_font_is_the_houses_own_and_embedded():
    with opened(press(PAGE.format(""), "instructions.css", "a4")) as pdf:
        fonts = [
            font["/DescendantFonts"][0]["/FontDescriptor"] for font in pdf.pages[0]["/Resources"]["/Font"].values()
        ]
        assert len(fonts) == 3
        for font in fonts:
            assert "Source" in str(font["/FontName"])
            assert "/FontFile2" in font or "/FontFile3" in font


def test_equal_pages_give_equal_bytes_in_another_process_too(tmp_path):
    here = press(PAGE.format(""), "instructions.css", "a4")
    assert press(PAGE.format(""), "instructions.css", "a4") == here
    page = tmp_path / "page.html"
    page.write_text(PAGE.format(""), "utf-8")
    script = (
        "import sys, hashlib, pathlib; from app.packs.press import press; "
        "html = pathlib.Path(sys.argv[1]).read_text('utf-8'); "
        "print(hashlib.sha256(press(html, 'instructions.css', 'a4')).hexdigest())"
    )
    root = Path(__file__).resolve().parents[2]
    run = subprocess.run(
        [sys.executable, "-c", script, str(page)],
        capture_output=True,
        text=True,
        check=True,
        cwd=root,
        env={"PYTHONHASHSEED": "7", "PATH": "/usr/bin:/bin"},
    )
    assert run.stdout.strip() == sha256(here).hexdigest()


def test_two_threads_may_print_at_once():
    pages = [PAGE.format(f"<p>{number}</p>") for number in range(4)]
    alone = [press(page, "instructions.css", "a4") for page in pages]
    with ThreadPoolExecutor(4) as pool:
        together = list(pool.map(lambda page: press(page, "instructions.css", "a4"), pages))
    assert together == alone


def test_different_pages_have_different_identifiers():
    one, two = (
        press(PAGE.format(""), "instructions.css", "a4"),
        press(PAGE.format("<p>x</p>"), "instructions.css", "a4"),
    )
    with opened(one) as first, opened(two) as second:
        assert bytes(first.trailer["/ID"][0]) != bytes(second.trailer["/ID"][0])


@pytest.mark.parametrize(
    "address", ["https://example.org/x.png", "http://127.0.0.1/x", "file:///etc/hostname", "../../README.md"]
)
def test_a_page_that_asks_for_anything_else_is_not_printed(address):
    with pytest.raises(FatalURLFetchingError) as refused:
        press(PAGE.format(f'<img src="{address}">'), "instructions.css", "a4")
    assert isinstance(refused.value.__cause__, RefusedAddress)


@pytest.mark.parametrize(
    "address",
    [
        "ftp://example.org/x",
        "data:text/plain,x",
        "file://host/etc/hostname",
        "file:///etc/passwd",
        (STATIC / ".." / "pyproject.toml").as_uri(),
        (STATIC / "%2e%2e" / "pyproject.toml").as_uri().replace("%25", "%"),
    ],
)
def test_the_fetcher_refuses_whatever_is_not_a_static_file(address):
    with pytest.raises(RefusedAddress):
        StaticOnly(STATIC).fetch(address)


def test_the_fetcher_serves_a_static_file_with_its_type():
    response = StaticOnly(STATIC).fetch((STATIC / "packs" / "tape.svg").as_uri())
    assert response.content_type == "image/svg+xml"
    assert response.read().startswith(b"<svg")


def test_a_drawings_label_becomes_its_alternative_text():
    drawing = (
        '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9" aria-label="A &amp; B"><path d="M0 0H9"/></svg>'
    )
    with opened(press(PAGE.format(drawing), "instructions.css", "a4")) as pdf:
        nodes = (node for node in pdf.objects if isinstance(node, pikepdf.Dictionary))
        pictures = [node for node in nodes if node.get("/S") == "/Figure"]
        assert [str(node["/Alt"]) for node in pictures] == ["A & B"]


def test_a_drawing_is_printed_as_lines_in_the_houses_ink():
    drawing = (
        '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9" aria-label="A line">'
        '<path d="M0 0L9 9" stroke="currentColor" fill="none"/></svg>'
    )
    with opened(press(PAGE.format(drawing), "instructions.css", "a4")) as pdf:
        forms = [node for node in pdf.objects if isinstance(node, pikepdf.Stream)]
        assert not any(node.get("/Subtype") == "/Image" for node in forms)
        pages = b"".join(node.read_bytes() for node in forms if node.get("/Subtype") != "/XML")
    ink = rb"0\.1137\d* 0\.1647\d* 0\.1647\d* (RG|SCN)"
    assert re.search(ink, pages)
    assert re.search(rb"9(\.0)? 9(\.0)? l\b", pages)


def test_only_drawings_of_the_page_can_be_fetched_by_number():
    fetch = StaticOnly(STATIC, ["<svg/>"])
    assert fetch.fetch("drawing:0").read() == b"<svg/>"
    for address in ("drawing:1", "drawing:-1", "drawing:x", "drawing:"):
        with pytest.raises(RefusedAddress):
            fetch.fetch(address)


def test_the_press_has_nothing_to_complain_of_in_our_style(caplog):
    with caplog.at_level(logging.WARNING, logger="weasyprint"):
        press(PAGE.format(""), "instructions.css", "a4")
    assert caplog.records == []
