"""A good draft of the catalogue with something left out is heard: see `damages_whole` for the table."""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path

import pytest

from app.demo import shop
from app.pattern.body import size_body
from app.pattern.body.populations_children import child
from app.pattern.make import Made, make_pattern
from tests.pattern.checks.damages_whole import DAMAGES

DRAFTS = Path(shop.__file__).parent / "drafts"


@cache
def sound(draft):
    """The codes that the undamaged draft has at its own choices."""
    return codes((DRAFTS / f"{draft}.draft").read_text("utf-8"), draft)


def codes(text, draft):
    made = make_pattern(text, f"{draft}.draft", child(1220.0) if draft.startswith("childs") else size_body("92"), {})
    return {problem.code for problem in (made.findings if isinstance(made, Made) else made.problems)}


def without_lost_pictures(text):
    """A draft without the pictures of seams that it has no longer: who forgets a seam shows none."""
    sewn = set(re.findall(r"[a-z]\w*\.[a-z]\w*", " ".join(re.findall(r"^sew (.*(?:\n    .*)*)", text, re.MULTILINE))))
    return re.sub(r" ?\{seam (\w+\.\w+)\}", lambda picture: picture[0] if picture[1] in sewn else "", text)


@pytest.mark.parametrize(("draft", "words", "old", "new", "code"), DAMAGES, ids=lambda v: v if len(v) < 60 else "")
def test_what_is_left_out_is_heard_and_was_not_before(draft, words, old, new, code):
    text = (DRAFTS / f"{draft}.draft").read_text("utf-8")
    assert text.count(old) == 1, f"“{old}” stands {text.count(old)} times in {draft}"
    assert code not in sound(draft), words
    assert code in codes(without_lost_pictures(text.replace(old, new)), draft), words
