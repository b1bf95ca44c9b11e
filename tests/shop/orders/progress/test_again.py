"""A pattern made again after it was given out: what its customer and the designer are told, at each turn of it."""

from datetime import timedelta

import pytest

from app.shop.orders.models import OrderState
from app.shop.orders.progress.rebuilding import damage_history, rebuilding_words, rebuilt_words, withheld_file_page
from app.shop.orders.service import status_words
from tests.shop.unsaved import MOMENT, an_order

LATER, EARLIER = MOMENT + timedelta(days=1), MOMENT - timedelta(days=1)
WAITING = (OrderState.PLACED, OrderState.BUILDING)
ENDED = tuple(state for state in OrderState if state not in WAITING)
DAMAGED = "A file of your pattern was found damaged on our side, so it is not given out."
WHOLE = "print the whole of the new one, and put none of its sheets together with any that you printed before."


def damage(moment, **files):
    named = files or {"instructions.pdf": "is missing or cannot be read"}
    return {
        "found_at": moment.isoformat(),
        "files": [{"name": name.replace("_", "."), "how": how} for name, how in named.items()],
    }


def given_out(state, **more):
    """An order that was ready once."""
    return an_order(state, built_at=MOMENT, **more)


# ---- to the customer, while it waits


@pytest.mark.parametrize("state", list(OrderState))
def test_an_order_that_was_never_given_out_is_not_made_again(state):
    order = an_order(state, built_at=None, damages=[])
    assert rebuilding_words(order) == ""
    assert withheld_file_page(order) is None


@pytest.mark.parametrize("state", ENDED)
def test_an_order_that_does_not_wait_is_not_being_made_again(state):
    assert rebuilding_words(given_out(state, damages=[damage(LATER)])) == ""


@pytest.mark.parametrize("state", WAITING)
def test_damage_found_since_it_was_built_is_told_as_the_reason(state):
    lead = rebuilding_words(given_out(state, damages=[damage(LATER)]))
    assert lead == (
        f"{DAMAGED} The whole pattern is being made again, from the same draft and your entries as they were. "
        f"When it is ready, {WHOLE}"
    )


@pytest.mark.parametrize("damages", [[], [damage(EARLIER)]])
def test_made_again_for_another_reason_nothing_is_said_of_damage(damages):
    lead = rebuilding_words(given_out(OrderState.PLACED, damages=damages))
    assert "damaged" not in lead
    assert lead.startswith("It is being made again, from the same draft and your entries as they were.")
    assert lead.endswith(WHOLE)


def test_the_newest_damage_counts_and_not_the_first():
    assert DAMAGED in rebuilding_words(given_out(OrderState.PLACED, damages=[damage(EARLIER), damage(LATER)]))


# ---- to the customer, when it is ready


def test_a_pattern_made_again_after_damage_says_so_with_the_day_and_what_to_print():
    words = rebuilt_words(given_out(OrderState.READY, damages=[damage(EARLIER)]))
    assert words == (
        "Your pattern was made again on 5 March 2026, because a file of it was found damaged on our side. "
        f"If you have printed from it before, {WHOLE}"
    )


def test_a_pattern_that_was_never_damaged_says_nothing_of_it():
    assert rebuilt_words(given_out(OrderState.READY)) == ""


@pytest.mark.parametrize("state", [state for state in OrderState if state is not OrderState.READY])
def test_only_a_ready_pattern_was_made_again(state):
    assert rebuilt_words(given_out(state, damages=[damage(EARLIER)])) == ""


# ---- at the address of a file


@pytest.mark.parametrize("state", WAITING)
def test_a_file_that_is_being_made_again_says_so_and_leads_to_the_order(state):
    order = given_out(state, damages=[damage(LATER)])
    page = withheld_file_page(order)
    assert page.title == "This pattern is being made again"
    assert page.words == rebuilding_words(order)
    assert page.link == "/orders/order-token"


@pytest.mark.parametrize("state", [OrderState.NEEDS_DESIGNER, OrderState.FAILED, OrderState.CANCELLED])
def test_a_file_that_is_not_given_out_any_more_tells_where_the_order_stands(state):
    order = given_out(state)
    page = withheld_file_page(order)
    assert page.title == "This file is not given out now"
    assert page.words == status_words(order)
    assert page.link == "/orders/order-token"


# ---- to the designer


@pytest.mark.parametrize(
    ("state", "became"),
    [
        (
            OrderState.PLACED,
            "The pack is being made again from draft version 1 and the same entries; the customer is told so, "
            "and no damaged file is given out.",
        ),
        (
            OrderState.BUILDING,
            "The pack is being made again from draft version 1 and the same entries; the customer is told so, "
            "and no damaged file is given out.",
        ),
        (
            OrderState.READY,
            "The pack was made again from draft version 1 and the same entries; its customer is told to print "
            "the whole of it.",
        ),
        (
            OrderState.FAILED,
            "The pack was to be made again from draft version 1 and the same entries, and was not: no file is "
            "given out, and the customer is told so.",
        ),
        (
            OrderState.NEEDS_DESIGNER,
            "The pack was to be made again from draft version 1 and the same entries, and was not: no file is "
            "given out, and the customer is told so.",
        ),
    ],
)
def test_the_designer_reads_what_became_of_the_newest_damage(state, became):
    [said] = damage_history(given_out(state, damages=[damage(LATER)]))
    assert said == f"6 March 2026, 09:30 UTC: instructions.pdf is missing or cannot be read. {became}"


def test_several_damages_are_told_newest_first_and_only_the_newest_may_be_open():
    order = given_out(
        OrderState.PLACED,
        damages=[damage(EARLIER, a_pdf="is longer than the 3 bytes that were built"), damage(LATER)],
    )
    newest, oldest = damage_history(order)
    assert "is being made again" in newest
    assert oldest == (
        "4 March 2026, 09:30 UTC: a.pdf is longer than the 3 bytes that were built. The pack was made again."
    )


def test_every_file_that_was_damaged_is_named():
    [said] = damage_history(given_out(OrderState.READY, damages=[damage(EARLIER, a_pdf="is x", b_pdf="is y")]))
    assert "a.pdf is x, b.pdf is y." in said


def test_without_damage_there_is_nothing_to_tell():
    assert damage_history(given_out(OrderState.READY)) == ()
