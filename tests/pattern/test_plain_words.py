"""Problems in words for the person who will sew: chosen for each kind, kind, and without a draft's inner names."""

import re

import pytest

from app.pattern.body import size_body
from app.pattern.checks import CHECKS
from app.pattern.make import make_pattern
from app.pattern.pieces.told import ROOM as CUTTING_OUT
from app.pattern.plain_words import (
    KINDS,
    REMOVED,
    errors_of,
    for_maker,
    in_plain_words,
    is_told,
    title_of,
    titles_of,
    told_of,
)
from app.pattern.problem import Place, Problem, Severity
from tests.pattern.checks.mutations import TEXT
from tests.words import main

#: Words of the trade of writing drafts, which nobody who sews need know.
INNER = re.compile(r"\b(code|column|compile|constant|expression|geometry|parse|span|syntax|variable|walked)\b", re.I)


def problem(code, piece="", point="", severity=Severity.ERROR):
    return Problem(code, "front.side is 605.9 mm", "Redraw it.", Place(piece, point=point), severity)


@pytest.mark.parametrize("kind", KINDS, ids=lambda kind: kind.code)
def test_the_words_are_whole_sentences_without_inner_names_or_shouting(kind):
    assert re.fullmatch(r"[A-Z].*[.)]\.?", kind.words)
    assert not INNER.search(kind.words)
    assert "_" not in kind.words
    assert "!" not in kind.words
    assert not re.search(r"\d mm\b(?! \()", kind.words), "a customer measures in cm or inches: give both"


@pytest.mark.parametrize(
    ("code", "words"),
    [
        ("checks.getting-in", "could not be put on"),
        ("checks.child-neck-cord", "strangle"),
        ("checks.walk-order", "from the wrong end"),
        ("checks.stretched-width", "narrower stretched than at rest"),
        ("checks.over-fold", "over the fold"),
        ("checks.seam-walk", "not be equally long"),
        ("checks.notch-walk", "sewn twisted"),
        ("checks.dart-legs", "pucker"),
        ("checks.finished-size", "wider or narrower"),
        ("checks.outline-crosses", "cross itself"),
        ("lay.too-wide", "wider than your cloth"),
        ("choice.wrong", "what this design allows"),
        ("drafting.no-solution", "finds none"),
        ("language.unreadable", "nothing wrong with your entries"),
    ],
)
def test_what_would_go_wrong_is_said_in_words_of_its_own(code, words):
    assert words in told_of(code).words


def test_each_check_speaks_of_itself_alone():
    """Words that two checks shared could not tell a garment nobody gets into from a crooked outline."""
    said = [told.words for check in CHECKS for told in check.findings]
    assert len(set(said)) == len(said)


def test_a_danger_to_a_child_is_called_one():
    for code in ("checks.child-neck-cord", "checks.child-cord"):
        assert told_of(code).words.startswith("Danger")
        assert "EN 14682" in told_of(code).words


def test_nobody_is_told_words_that_were_chosen_for_no_kind():
    assert not is_told("checks.no-such-check")
    with pytest.raises(KeyError):
        told_of("checks.no-such-check")
    assert in_plain_words([problem("checks.no-such-check")]) == (REMOVED,)


def test_each_kind_is_told_once_in_the_order_found_with_the_pieces_it_concerns():
    titles = {"back": "Back skirt", "front": "Front skirt"}
    found = [
        problem("checks.seam-walk", "front"),
        problem("checks.getting-in", point="waist"),
        problem("checks.seam-walk", "back"),
        problem("checks.seam-walk", "front"),
    ]
    assert in_plain_words(found, titles) == (
        f"Front skirt; Back skirt: {told_of('checks.seam-walk').words}",
        told_of("checks.getting-in").words,
    )
    assert in_plain_words(found[1:2], {"waist": "Waist"})[0].startswith("Waist: The garment")


def test_pieces_girths_and_notions_are_called_what_the_designer_calls_them():
    pattern = make_pattern(TEXT, "whole.draft", size_body("92"), {}).pattern
    titles = titles_of(pattern)
    assert set(titles) >= {piece.name for piece in pattern.pieces} | {girth.name for girth in pattern.girths}
    assert all(title[0].isupper() and "_" not in title for title in titles.values())
    assert titles_of(None) == {}


def test_a_maker_hears_of_all_that_stops_a_pattern_and_of_warnings_she_can_do_something_about():
    warned = [problem(code, severity=Severity.WARNING) for code in ("checks.kink", "checks.cloth-width")]
    stops = problem("checks.walk-order")
    assert for_maker([*warned, stops]) == (warned[1], stops)
    assert errors_of([*warned, stops]) == (stops,)


def test_a_check_and_a_room_have_one_title_for_every_reader():
    assert title_of("checks.shirring-unstated") == "Shirring and elastic"
    assert title_of("pieces.outline-gap") == CUTTING_OUT == "Cutting out"
    assert title_of("choice.wrong") == title_of("drafting.arc") == "Drafting"


def test_the_whole_table_can_be_printed_and_read(capsys):
    main()
    printed = capsys.readouterr().out
    assert all(f"`{kind.code}`" in printed and kind.words in printed for kind in KINDS)
