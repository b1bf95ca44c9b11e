"""Findings in words for the person who will sew."""

import re
from pathlib import Path

import pytest

from app.orders.plain_words import in_plain_words

CORE = Path(__file__).parents[2] / "app" / "pattern"
CODE = re.compile(r'"((?:checks|pieces)\.[a-z-]+)"')
CODES = sorted({code for file in CORE.rglob("*.py") for code in CODE.findall(file.read_text())})


@pytest.mark.parametrize(
    ("code", "words"),
    [
        ("checks.seam-walk", "would not meet"),
        ("checks.notch-walk", "would not meet"),
        ("checks.dart-legs", "dart would not close"),
        ("checks.finished-size", "room it needs"),
        ("checks.ease-minimum", "room it needs"),
        ("checks.truing", "run on smoothly"),
        ("checks.fullness", "too full or too scant"),
        ("checks.grain-outside", "too small"),
        ("checks.outline-crosses", "cross itself"),
        ("pieces.outline-gap", "cross itself"),
        ("lay.too-wide", "go on the cloth"),
        ("choice.wrong", "outside what the design allows"),
        ("drafting.no-solution", "cannot be drawn"),
        ("", "cannot be drawn"),
    ],
)
def test_each_kind_of_finding_says_what_would_go_wrong(code, words):
    (sentence,) = in_plain_words([code])
    assert words in sentence


def test_each_kind_is_told_once_in_the_order_found():
    told = in_plain_words(["checks.seam-walk", "checks.finished-size", "checks.notch-walk"])
    assert [sentence.split()[0] for sentence in told] == ["Edges", "The"]


def test_no_finding_of_a_check_is_told_as_something_that_was_never_drawn():
    assert len(CODES) > 20
    for code in CODES:
        assert "cannot be drawn" not in in_plain_words([code])[0], code
