"""Pieces in rows that do not overlap."""

from hypothesis import given
from hypothesis import strategies as st

from app.pattern.exchange.layout import in_rows, joined, moved
from app.pattern.geometry import Box

sizes = st.lists(
    st.tuples(st.floats(-300, 300), st.floats(-300, 300), st.floats(5, 1800), st.floats(5, 900)), min_size=1
)


@given(sizes)
def test_no_two_boxes_touch_and_each_keeps_its_size(some):
    boxes = [Box(left, bottom, left + wide, bottom + high) for left, bottom, wide, high in some]
    placed = [moved(b, m) for b, m in zip(boxes, in_rows(boxes), strict=True)]
    for index, one in enumerate(placed):
        assert abs(one.width - boxes[index].width) < 1e-6
        assert one.left >= -1e-6
        assert one.top <= 1e-6
        assert not any(one.meets(other, gap=20.0) for other in placed[:index])


def test_a_row_is_no_wider_than_a_cloth_but_for_a_piece_that_is():
    boxes = [Box(0, 0, 600, 100), Box(0, 0, 600, 300), Box(0, 0, 600, 50), Box(0, 0, 2000, 40)]
    placed = [moved(b, m) for b, m in zip(boxes, in_rows(boxes), strict=True)]
    assert [b.left for b in placed] == [0.0, 625.0, 0.0, 0.0]
    assert [b.top for b in placed] == [0.0, 0.0, -325.0, -400.0]


def test_the_box_round_boxes():
    assert joined([Box(0, 0, 1, 1), Box(-2, 3, 0, 4)]) == Box(-2, 0, 1, 4)
