"""A draft of the catalogue that no longer fits where it touches the body is heard: see `damages_fit` for the table."""

from __future__ import annotations

import pytest

from tests.pattern.checks.damages import damaged, said_of, sound, text_of
from tests.pattern.checks.damages_fit import DAMAGES


@pytest.mark.parametrize(("draft", "words", "old", "new", "code"), DAMAGES, ids=lambda v: v if len(v) < 60 else "")
def test_what_no_longer_fits_is_heard_and_was_not_before(draft, words, old, new, code):
    assert text_of(draft).count(old) == 1, f"“{old}” stands {text_of(draft).count(old)} times in {draft}"
    assert code not in sound(draft), words
    assert code in said_of(damaged(draft, ((old, new),)), draft), words
