"""What is read where a page could not be worked out in time, and what a draft that multiplies gives in the browser."""

import pytest

from app.base import aside
from app.base.errors import Busy
from app.pattern.problem import Place, Problem, Refused
from app.shop.orders.review import preview
from app.shop.studio.drafts import findings
from tests.shop.studio.drafts.test_page import APRON, DRAFT, NEW, WORDS, editor, in_database, send

MULTIPLIED = APRON.replace(
    "sheet band\n",
    "sheet band\n    repeat i from 1 to 200\n        repeat j from 1 to 200\n            repeat k from 1 to 200\n"
    "                wave = smooth (at 0, 0), (at 1cm, 1mm * i), (at 2cm, 1mm * j), (at 3cm, 0)\n",
)


@pytest.fixture
def apron(designer):
    """The page of a design that was just added."""
    return designer.submit(designer.get(NEW), to=NEW, **WORDS)


def busy(*_args, **_named):
    raise Busy("no helper was free in time")


def test_a_customer_whose_pattern_is_not_drawn_in_time_reads_a_calm_page_and_loses_nothing(
    visitor, fitted, monkeypatch
):
    preview._made.cache_clear()
    monkeypatch.setattr(aside, "run_or_busy", busy)
    page = visitor.get(fitted.path)
    assert page.status == 503
    assert "The shop is very busy just now" in page.words
    assert "Nothing you had saved is lost" in page.words
    monkeypatch.undo()
    assert visitor.get(fitted.path).status == 200


def test_three_repeats_round_a_curve_are_told_with_their_line_by_check_and_play(designer, apron):
    assert MULTIPLIED != APRON
    line = next(number for number, row in enumerate(MULTIPLIED.split("\n"), 1) if "wave = smooth" in row)
    page = send(designer, apron, MULTIPLIED)
    assert page.status == 200
    assert "there is more to draw for one body than 100,000 steps" in page.words
    assert f"{line}" in page.words
    assert send(designer, apron, MULTIPLIED, "/lines", line=f"{line}").status == 200


def test_a_draft_that_a_helper_was_ended_over_is_told_and_given_back_and_not_kept(
    designer, database, apron, monkeypatch
):
    told = Problem("aside.too-long", "Working this draft out took longer than it may.", "Draw less.", Place())
    monkeypatch.setattr(aside, "run", lambda *_args, **_named: Refused.of(told))
    for kept in (findings._cached_findings, findings._cached_reading):
        kept.cache_clear()
    page = send(designer, apron, APRON)
    assert page.status == 200
    assert "took longer than it may. Draw less." in page.words
    refused = send(designer, apron, APRON, "/keep")
    assert refused.status == 422
    assert "Garden apron" in editor(refused)
    monkeypatch.undo()
    assert in_database(database, lambda _session, listing: listing.current_version) is None
    assert designer.get(DRAFT).words.count("Version 1") == 0
    assert "The text reads well" in send(designer, apron, APRON).words
