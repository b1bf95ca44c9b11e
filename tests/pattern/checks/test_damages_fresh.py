"""Four fresh garments are passed in silence, and what is damaged in them is heard: see `damages_fresh`."""

from __future__ import annotations

import pytest

from tests.pattern.checks.damages import damaged, said_of, sound
from tests.pattern.checks.damages_fresh import BLOUSE, DAMAGES, DRESS, SHORTS, SKIRT, UNHEARD


@pytest.mark.parametrize("garment", [BLOUSE, SHORTS, DRESS, SKIRT])
def test_the_fresh_garments_are_passed_in_silence(garment):
    assert sound(garment) == frozenset()


@pytest.mark.parametrize(("garment", "words", "swaps", "code", "chosen"), DAMAGES, ids=lambda v: str(v)[:60])
def test_a_damage_to_a_fresh_garment_is_heard(garment, words, swaps, code, chosen):
    assert code in said_of(damaged(garment, swaps), garment, chosen), words


@pytest.mark.parametrize(("garment", "words", "swaps", "why"), UNHEARD, ids=lambda v: str(v)[:60])
def test_what_is_not_heard_is_known_and_why(garment, words, swaps, why):
    assert said_of(damaged(garment, swaps), garment) == {}, f"{words}: now heard; it is no longer so that {why}"
