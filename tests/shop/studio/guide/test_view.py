"""The guide's pages: whole, linked, strict about scripts and styles."""

from __future__ import annotations

import re

import pytest

from app.pattern.body import MEASURES
from app.pattern.guide import first_skirt, parts, reference
from app.pattern.guide.words import language_words
from app.shop.studio.guide.view import PAGES, guide_page, write_guide


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    folder = tmp_path_factory.mktemp("guide")
    write_guide(folder)
    return folder


def test_every_page_is_written_with_the_style_and_letters_it_asks_for(folder):
    for name in PAGES:
        html = (folder / name).read_text("utf-8")
        for address in re.findall(r'<link rel="stylesheet" href="([^"]+)"', html):
            css = (folder / address).read_text("utf-8")
            for font in re.findall(r'url\("\.\./(fonts/[^"]+)"\)', css):
                assert (folder / font).stat().st_size > 1000


def test_links_lead_somewhere(folder):
    pages = {name: (folder / name).read_text("utf-8") for name in PAGES}
    for html in pages.values():
        anchors = set(re.findall(r'\bid="([^"]+)"', html))
        for address in re.findall(r'<a[^>]* href="([^"]+)"', html):
            page, _, anchor = address.partition("#")
            assert not page or page in PAGES
            there = set(re.findall(r'\bid="([^"]+)"', pages[page])) if page else anchors
            assert not anchor or anchor in there


@pytest.mark.parametrize("name", PAGES)
def test_a_page_holds_no_script_and_no_inline_style(name):
    html = guide_page(name)
    assert "<script" not in html
    assert "<style" not in html
    assert not re.search(r"<[^>]*\sstyle=", html)
    assert html.count("<h1>") == 1
    assert html.count('aria-current="page"') == 1


@pytest.mark.parametrize("name", PAGES)
def test_anchors_are_used_once(name):
    anchors = re.findall(r'\bid="([^"]+)"', guide_page(name))
    assert len(anchors) == len(set(anchors))


def test_the_reference_shows_every_entry_with_its_drawing():
    html = guide_page("index.html")
    assert html.count('<article class="entry"') == len(reference())
    assert html.count("<svg") == sum(bool(entry.drawing) for entry in reference())
    assert "along PATH by LENGTH [from END]" in html
    assert "&lt;svg" not in html


def test_words_of_a_draft_are_escaped():
    assert "A &lt; B" in guide_page("index.html")


def test_the_tutorial_shows_its_lessons():
    html = guide_page("first-skirt.html")
    assert html.count('<li class="lesson">') == len(first_skirt())
    assert html.count("<svg") == sum(bool(lesson.drawing) for lesson in first_skirt())


def test_a_line_of_a_draft_that_goes_on_below_hangs_in():
    """Each line is a block of its own: only so can what wraps of it be set in."""
    shown = guide_page("first-skirt.html")
    assert '<span class="row">    waist_girth, hip_girth, waist_to_hip\n</span>' in shown
    assert shown.count('<span class="row">') > 40


def test_the_parts_show_their_lines_their_seams_and_what_they_come_to():
    html = guide_page("parts.html")
    assert html.count('<article class="entry"') == len(parts())
    assert html.count("<summary") == len(parts())
    assert html.count("<svg") == sum(len(part.pictures) for part in parts())
    assert "sew stand.attach to back.neck backwards, front.neck" in html
    assert "39 cm along each edge" in html
    assert "&lt;svg" not in html


def test_every_measurement_is_told_with_how_it_is_taken():
    html = guide_page("measurements.html")
    assert html.count('<tr id="') == len(MEASURES)
    for measure in MEASURES.values():
        assert "<code>" + measure.name.replace("_", "_<wbr>") + "</code>" in html
        assert measure.how[0].split(",")[0].split("’")[0][:20] in html


def test_the_words_are_listed_with_where_they_stand_and_those_that_are_no_names():
    html = guide_page("words.html")
    words = language_words()
    assert html.count('<tr id="word-') == len(words)
    for each in words:
        assert f'id="word-{each.word}"' in html
    reserved = html[html.index("<h2>Reserved</h2>") : html.index("<h2>Every word in use</h2>")]
    listed = set(re.findall(r"<code>([a-z]+)</code>", reserved))
    assert listed == {each.word for each in words if not each.free}
