"""A designer's Markdown becomes safe HTML: words are kept, anything that could fetch or run is not."""

import pytest

from app.base.prose import on_page, printed


def test_emphasis_lists_and_tables_are_set():
    html = printed("Stitch *right sides together*.\n\n1. press\n2. turn\n")
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
    html = str(printed(text))
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
    html = str(printed(text))
    assert "<img" not in html
    assert "<a" not in html


def test_quotation_marks_and_dashes_are_typeset():
    assert "“over the ham”" in printed('Press "over the ham".')
    assert "–" in printed("Rows 3 -- 5.")


def test_a_page_shows_the_same_markdown_with_links_and_no_html():
    html = on_page("*a* <b> [about](https://hollow.example) ![x](https://hollow.example/x.png)")
    assert html.startswith('<p><em>a</em> &lt;b&gt; <a href="https://hollow.example">about</a>')
    assert "javascript:" not in on_page("[x](javascript:alert(1))").replace("[x](javascript:alert(1))", "")
