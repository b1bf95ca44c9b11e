"""A designer's Markdown becomes safe HTML: words are kept, anything that could fetch or run is not."""

import pytest

from app.documents.prose import prose


def test_emphasis_lists_and_tables_are_set():
    html = prose("Stitch *right sides together*.\n\n1. press\n2. turn\n")
    assert "<em>right sides together</em>" in html
    assert "<li>press</li>" in html


@pytest.mark.parametrize(
    "text",
    [
        "<script>alert(1)</script>",
        '<img src="file:///etc/passwd">',
        "<iframe src=x></iframe>",
        "before <b onclick=x>bold</b> after",
        "<style>body{display:none}</style>",
    ],
)
def test_raw_html_is_shown_as_words(text):
    html = str(prose(text))
    assert "&lt;" in html
    for tag in ("<script", "<img", "<iframe", "<b ", "<style"):
        assert tag not in html


@pytest.mark.parametrize(
    "text",
    [
        "![a picture](https://example.org/x.png)",
        "[a link](https://example.org/)",
        "<https://example.org/>",
        "![p][x]\n\n[x]: https://example.org/x.png",
    ],
)
def test_pictures_and_links_are_never_made(text):
    html = str(prose(text))
    assert "<img" not in html
    assert "<a" not in html


def test_quotation_marks_and_dashes_are_typeset():
    assert "“over the ham”" in prose('Press "over the ham".')
    assert "–" in prose("Rows 3 -- 5.")
