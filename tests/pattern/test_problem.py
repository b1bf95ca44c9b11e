"""Problems as people read them: the place, how bad, what to do, what else to look at; in the order of the text."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.pattern.names import in_words, titled
from app.pattern.problem import (
    Place,
    Problem,
    Related,
    Severity,
    Span,
    Told,
    alike,
    has_errors,
    in_order,
)

SPAN = Span("a.draft", 12, 5, 9)


def problem(where=None, severity=Severity.ERROR, **more):
    return Problem("a.b", "It is wrong.", "Mend it.", where, severity, **more)


@pytest.mark.parametrize(
    ("place", "words"),
    [
        (Place(), "the draft"),
        (Place("front"), "front"),
        (Place("front", "side"), "front, edge side"),
        (Place("front", "side", "hip"), "front, edge side, hip"),
        (Place(edge="side"), "edge side"),
        (Place(point="hip"), "hip"),
        (Place("front", at=(1.0, 2.0)), "front"),
        (SPAN, "a.draft:12:5"),
    ],
)
def test_a_place_reads_as_words_or_as_editors_jump_to_it(place, words):
    assert str(place) == words


@pytest.mark.parametrize(
    ("found", "lines"),
    [
        (problem(), ["error: It is wrong.", "  fix: Mend it."]),
        (problem(SPAN), ["a.draft:12:5: error: It is wrong.", "  fix: Mend it."]),
        (problem(Place("front"), Severity.WARNING), ["front: warning: It is wrong.", "  fix: Mend it."]),
        (problem(Place(), Severity.NOTE), ["the draft: note: It is wrong.", "  fix: Mend it."]),
        (
            problem(SPAN, excerpt="    12 | a = b\n       |     ^"),
            ["a.draft:12:5: error: It is wrong.", "    12 | a = b", "       |     ^", "  fix: Mend it."],
        ),
        (
            problem(related=(Related("first given here", SPAN), Related("and so"))),
            ["error: It is wrong.", "  fix: Mend it.", "  see: a.draft:12:5: first given here", "  see: and so"],
        ),
    ],
)
def test_a_problem_reads_from_its_place_to_its_remedy(found, lines):
    assert str(found).split("\n") == lines


@given(st.lists(st.sampled_from(list(Severity)), max_size=6))
def test_only_an_error_is_an_error(severities):
    assert has_errors([problem(severity=each) for each in severities]) == (Severity.ERROR in severities)


SPANS = st.builds(Span, st.just("a"), st.integers(1, 9), st.integers(1, 9), st.just(20))


@given(st.lists(st.one_of(st.none(), st.just(Place("front")), SPANS), max_size=12))
def test_problems_stand_as_their_places_do_and_those_without_one_come_first(places):
    """Those of one place keep the order in which they were found."""
    found = [Problem(f"a.b{number}", "m", "f", where) for number, where in enumerate(places)]
    ordered = in_order(found)
    assert sorted(each.code for each in ordered) == sorted(each.code for each in found)
    keys = [(each.where.line, each.where.column) if isinstance(each.where, Span) else (0, 0) for each in ordered]
    assert keys == sorted(keys)
    for key in set(keys):
        numbers = [int(each.code[3:]) for each, own in zip(ordered, keys, strict=True) if own == key]
        assert numbers == sorted(numbers)


@pytest.mark.parametrize(
    ("code", "words"), [("a.b", ""), ("a.b", "  \n"), ("plain", "x"), (".b", "x"), ("a.", "x"), ("", "x")]
)
def test_a_kind_that_nobody_could_be_told_of_is_a_slip_of_ours(code, words):
    with pytest.raises(ValueError, match="needs a dotted code, and words for the person who will sew"):
        Told(code, words)


def test_kinds_that_come_to_the_same_share_their_words():
    told = alike("It would pull.", "a.b", "a.c", severity=Severity.WARNING, maker=False)
    assert [each.code for each in told] == ["a.b", "a.c"]
    assert {(each.words, each.severity, each.maker) for each in told} == {("It would pull.", Severity.WARNING, False)}


# ---- names


@pytest.mark.parametrize(
    ("name", "words"),
    [("side_upper", "side upper"), ("hem", "hem"), ("_a__b_", "a b"), ("", ""), ("leg_1", "leg 1")],
)
def test_a_name_is_said_as_words(name, words):
    assert in_words(name) == words


@pytest.mark.parametrize(
    ("title", "name", "shown"),
    [("Front skirt", "front", "Front skirt"), ("", "side_front", "Side front"), ("", "", "")],
)
def test_a_title_is_the_designers_or_made_of_the_name(title, name, shown):
    assert titled(title, name) == shown


@given(st.from_regex(r"[a-z][a-z0-9_]{0,20}", fullmatch=True))
def test_no_name_keeps_an_underscore_or_a_double_gap(name):
    words = in_words(name)
    assert "_" not in words
    assert "  " not in words
    assert words.replace(" ", "") == name.replace("_", "")
