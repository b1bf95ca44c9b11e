"""A draft of the catalogue that no longer fits where it touches the body is heard: see `damages_fit` for the table."""

from __future__ import annotations

import pytest

from tests.pattern.checks.damages_fit import DAMAGES
from tests.pattern.checks.test_damages_whole import DRAFTS, codes, sound


@pytest.mark.parametrize(("draft", "words", "old", "new", "code"), DAMAGES, ids=lambda v: v if len(v) < 60 else "")
def test_what_no_longer_fits_is_heard_and_was_not_before(draft, words, old, new, code):
    text = (DRAFTS / f"{draft}.draft").read_text("utf-8")
    assert text.count(old) == 1, f"“{old}” stands {text.count(old)} times in {draft}"
    assert code not in sound(draft), words
    assert code in codes(text.replace(old, new), draft), words
