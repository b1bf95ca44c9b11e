"""What is said of a pattern that is made again after it was given out: to its customer, and to the designer."""

from __future__ import annotations

from datetime import datetime

from app.shop.orders.models import WAITING, Order, OrderState
from app.shop.orders.service import status_words
from app.web.failures import FailurePage
from app.web.words import day

__all__ = ["rebuilding_words", "withheld_file_page", "rebuilt_words", "damage_history"]

_WHOLE = "print the whole of the new one, and put none of its sheets together with any that you printed before."
_FOUND = "A file of your pattern was found damaged on our side, so it is not given out."
_SAME = "from the same draft and your entries as they were"


def rebuilding_words(order: Order) -> str:
    """What stands at the head of the page of an order that waits to be made again; "" for one never given out."""
    if order.built_at is None or order.state not in WAITING:
        return ""
    # Damage that was found before the pack was built last is mended.
    damaged = order.damages and datetime.fromisoformat(order.damages[-1]["found_at"]) > order.built_at
    why = f"{_FOUND} The whole pattern is being made again" if damaged else "It is being made again"
    return f"{why}, {_SAME}. When it is ready, {_WHOLE}"


def rebuilt_words(order: Order) -> str:
    """What the page of a ready order says when its pattern was made again after damage; "" otherwise."""
    if order.state is not OrderState.READY or order.built_at is None or not order.damages:
        return ""
    return (
        f"Your pattern was made again on {day(order.built_at)}, because a file of it was found damaged on our side. "
        f"If you have printed from it before, {_WHOLE}"
    )


def withheld_file_page(order: Order) -> FailurePage | None:
    """What stands at the address of a file that is not given out now though it once was; None if it never was."""
    if order.built_at is None:
        return None
    where, back = f"/orders/{order.token}", "See how far your order is"
    lead = rebuilding_words(order)
    if not lead:
        return FailurePage("This file is not given out now", status_words(order), where, "See your order")
    return FailurePage("This pattern is being made again", lead, where, back)


def damage_history(order: Order) -> tuple[str, ...]:
    """For the designer: each time the pack was found damaged, what of it, and what became of it; newest first."""
    said = []
    for number, damage in enumerate(order.damages, 1):
        found = ", ".join(f"{each['name']} {each['how']}" for each in damage["files"])
        moment = datetime.fromisoformat(damage["found_at"])
        newest = number == len(order.damages)
        became = _outcome_words(order) if newest else "The pack was made again."
        said.append(f"{day(moment)}, {moment:%H:%M} UTC: {found}. {became}")
    return tuple(reversed(said))


def _outcome_words(order: Order) -> str:
    same = f"from draft version {order.draft_version.number} and the same entries"
    if order.state in WAITING:
        return f"The pack is being made again {same}; the customer is told so, and no damaged file is given out."
    if order.state is OrderState.READY:
        return f"The pack was made again {same}; its customer is told to print the whole of it."
    return f"The pack was to be made again {same}, and was not: no file is given out, and the customer is told so."
