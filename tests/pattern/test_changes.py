"""A length by which something is made longer, or shorter with a minus before it."""

from __future__ import annotations

import pytest

from app.pattern.units import LengthError, Unit, read_change


@pytest.mark.parametrize(
    ("text", "mm"), [("-6", -60.0), ("−6 cm", -60.0), ("– 1 1/2in", -38.1), ("6", 60.0), (" 0 ", 0.0)]
)
def test_a_change_may_make_shorter(text, mm):
    assert read_change(text, Unit.CM) == pytest.approx(mm)


@pytest.mark.parametrize("text", ["-", "--6", "-six", ""])
def test_a_change_that_is_none_is_told(text):
    with pytest.raises(LengthError):
        read_change(text, Unit.CM)
