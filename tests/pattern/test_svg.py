"""SVG as text: whatever stands in it is read back by an XML reader as it was given."""

from xml.etree import ElementTree

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.pattern.svg import closed, element, number, opened, pair, said, svg

#: Text that XML 1.0 can hold at all, without the line ends that its readers make alike.
TEXT = st.text(st.characters(exclude_categories=("Cs", "Cc", "Cn"), exclude_characters="\ufffe\uffff"))


@pytest.mark.parametrize(
    ("value", "places", "text"),
    [(1.0, 2, "1"), (-0.001, 2, "0"), (0.126, 2, "0.13"), (-20.5, 2, "-20.5"), (0.1236, 3, "0.124"), (100.0, 0, "100")],
)
def test_numbers_are_as_short_as_their_decimals_allow_and_never_a_negative_nought(value, places, text):
    assert number(value, places) == text


def test_a_point_is_two_numbers_with_a_comma():
    assert pair(1.0, -2.505) == "1,-2.5"


@given(words=TEXT, value=TEXT)
def test_words_and_attributes_come_back_as_they_were_given(words, value):
    read = ElementTree.fromstring(element("text", said(words), data_note=value))
    assert (read.text or "") == words
    assert read.get("data-note") == value


def test_attributes_are_named_as_in_svg_and_left_out_where_there_is_nothing():
    assert element("path", class_="line", stroke_width=0.5, viewBox="0 0 1 1", opacity=None) == (
        '<path class="line" stroke-width="0.5" viewBox="0 0 1 1"/>'
    )


def test_an_element_written_as_it_goes_is_the_same_as_one_written_whole():
    assert opened("g", id="a") + "<path/>" + closed("g") == element("g", element("path"), id="a")


def test_a_picture_stands_alone():
    read = ElementTree.fromstring(svg(element("g"), width="5mm"))
    assert read.tag == "{http://www.w3.org/2000/svg}svg"
    assert [child.tag for child in read] == ["{http://www.w3.org/2000/svg}g"]
