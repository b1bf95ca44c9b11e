"""Money, dates and counts in words."""

from datetime import UTC, datetime

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.web.words import count, day, money, read_money, sentence


@pytest.mark.parametrize(
    ("cents", "currency", "shown"),
    [(1200, "EUR", "€12.00"), (5, "GBP", "£0.05"), (1250, "SEK", "12.50 SEK"), (0, "EUR", "free")],
)
def test_money_is_shown_with_its_sign(cents, currency, shown):
    assert money(cents, currency) == shown


@pytest.mark.parametrize(
    ("typed", "cents"), [("14", 1400), ("14.5", 1450), ("14,50", 1450), (" 14.05 ", 1405), ("0", 0)]
)
def test_a_price_is_read_as_people_type_it(typed, cents):
    assert read_money(typed) == cents


@pytest.mark.parametrize("typed", ["", "free", "-1", "1.234", "1.2.3", "1e3", "٣", "9" * 9, "€5"])
def test_what_is_no_price_is_none(typed):
    assert read_money(typed) is None


@given(st.integers(0, 99_999_999))
def test_every_price_reads_back(cents):
    assert read_money(f"{cents // 100}.{cents % 100:02d}") == cents


@given(st.text(max_size=20))
def test_no_text_breaks_the_reading_of_a_price(typed):
    assert read_money(typed) is None or read_money(typed) >= 0


def test_counts_dates_and_sentences():
    assert count(1, "entry", "entries") == "1 entry"
    assert count(3, "entry", "entries") == "3 entries"
    assert count(2, "piece") == "2 pieces"
    assert day(datetime(2026, 3, 5, tzinfo=UTC)) == "5 March 2026"
    assert sentence("free") == "Free"
