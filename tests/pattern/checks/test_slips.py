"""Each slip of a designer is heard, and by its own check alone: see `damages_slips` for the table."""

from __future__ import annotations

import pytest

from tests.pattern.checks.damages_slips import SKIRT, SLIPS, TOP, TROUSERS, heard, slipped, text_of


@pytest.mark.parametrize("garment", [SKIRT, TOP, TROUSERS])
def test_the_garments_themselves_are_passed_in_silence(garment):
    assert heard(text_of(garment)) == ()


@pytest.mark.parametrize("slip", SLIPS, ids=lambda slip: f"{slip.check}: {slip.words}")
def test_a_slip_is_heard_and_nothing_else(slip):
    assert heard(slipped(slip)) == tuple(sorted((slip.code, *slip.also)))
