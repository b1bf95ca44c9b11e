"""What the designer's page of an order shows, ready to print."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from markupsafe import Markup

from app.shop.orders.coverage import COVERED, ProofCoverage
from app.shop.orders.findings import only_outside_proof
from app.shop.orders.models import WAITING, Order, OrderState
from app.shop.orders.progress.rebuilding import damage_history
from app.shop.orders.progress.view import pack_remarks
from app.shop.orders.shown import Finding, Pair, entered_pairs
from app.web.fields import Option
from app.web.words import day, money

__all__ = ["STATES", "StudioOrderPage", "order_page", "css_class"]

STATES = {
    OrderState.PLACED: "placed",
    OrderState.BUILDING: "building",
    OrderState.READY: "ready",
    OrderState.NEEDS_DESIGNER: "needs you",
    OrderState.FAILED: "failed",
    OrderState.CANCELLED: "cancelled",
}

_OUTSIDE_FIX = "Look at her pieces. Then build it all the same, or write to her."
#: What can be done with an order in each state: the last part of the address, and the words on the button.
_REBUILD = Option("rebuild", "Build it again")
_NEW_DRAFT = Option("current-draft", "Take the version now on sale and build again")
_BUILD_OUTSIDE = Option("rebuild", "Build it all the same")
_CANCEL = Option("cancel", "Cancel the order")
_ACTIONS = {
    OrderState.PLACED: (_CANCEL,),
    OrderState.BUILDING: (_CANCEL,),
    OrderState.READY: (_REBUILD,),
    OrderState.NEEDS_DESIGNER: (_REBUILD, _NEW_DRAFT, _CANCEL),
    OrderState.FAILED: (_REBUILD, _NEW_DRAFT, _CANCEL),
    OrderState.CANCELLED: (),
}


@dataclass(frozen=True, slots=True)
class StudioOrderPage:
    """One order as the designer sees it, with the reason it stopped or waits, the findings and what she can do.

    `again` tells each time that its pack was found damaged; `notes` are what its customer is told of her pack, the
    files that are not there first.
    """

    number: str
    token: str
    fitting: str
    state: str
    css_class: str
    reason_title: str
    reason: str
    again: tuple[str, ...]
    findings: tuple[Finding, ...]
    notes: tuple[str, ...]
    facts: tuple[Pair, ...]
    actions: tuple[Option, ...]
    where: Markup


def order_page(order: Order, coverage: ProofCoverage = COVERED) -> StudioOrderPage:
    """One order; `coverage` is how its body stands to the proof of its draft."""
    fitting = order.fitting
    facts = (
        Pair("Pattern", f"{fitting.listing.title}, draft version {order.draft_version.number}"),
        Pair("Placed", day(order.created_at)),
        Pair("Customer", order.customer_name or "no name given"),
        Pair("E-mail", order.customer_email or "none given"),
        Pair("Price", f"{money(order.price_cents, order.currency)} ({order.payment_kind})"),
        *entered_pairs(fitting, order.draft_version),
    )
    return StudioOrderPage(
        number=order.number,
        token=order.token,
        fitting=fitting.token,
        state=STATES[order.state],
        css_class=css_class(order.state),
        reason_title="Why it waits" if order.state in WAITING else "Why it stopped",
        reason=order.reason,
        again=damage_history(order),
        findings=tuple(_finding(one) for one in order.findings),
        notes=(*pack_remarks(order, "left_out"), *pack_remarks(order, "notes")),
        facts=facts,
        actions=_actions(order),
        where=Markup(coverage.chart),
    )


def _finding(found: Mapping[str, Any]) -> Finding:
    # What a customer outside the proof is told to do is not what the designer does about it.
    outside = only_outside_proof([found])
    return Finding(str(found.get("message", "")), _OUTSIDE_FIX if outside else str(found.get("fix", "")))


def _actions(order: Order) -> tuple[Option, ...]:
    actions = _ACTIONS[order.state]
    if order.state is not OrderState.NEEDS_DESIGNER or not only_outside_proof(order.findings):
        return actions
    return tuple(_BUILD_OUTSIDE if action is _REBUILD else action for action in actions)


def css_class(state: OrderState) -> str:
    return state.value.replace("_", "-")
