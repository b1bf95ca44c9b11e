"""How much one network address, and everybody together, may have waiting, so that nobody crowds out the others."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import timedelta

import sqlalchemy as sa
from sqlalchemy.orm import Session

from app.base.database import now, take_lock
from app.pattern.problem import Problem
from app.shop.orders.models import WAITING, Fitting, Order
from app.web.words import count

__all__ = [
    "NOBODY",
    "SenderLimits",
    "Sender",
    "orders_in_queue",
    "orders_waiting",
    "too_many_fittings",
    "too_many_orders",
]

_HOUR, _DAY = timedelta(hours=1), timedelta(days=1)


@dataclass(frozen=True, slots=True)
class SenderLimits:
    """The most that is taken: of one address, and of the whole shop."""

    fittings_an_hour: int = 120
    orders_waiting: int = 10
    orders_a_day: int = 40
    shop_waiting: int = 500


@dataclass(frozen=True, slots=True)
class Sender:
    """Who sends a form, as far as it is known: a mark of the network address ("" for none), and what it may have."""

    mark: str = ""
    limits: SenderLimits = field(default_factory=SenderLimits)


#: Somebody at the shop's own machine, of whom nothing is counted.
NOBODY = Sender()


def too_many_fittings(session: Session, sender: Sender) -> tuple[Problem, ...]:
    """Why no more measurements are taken from this address for the moment; empty while they are."""
    most = sender.limits.fittings_an_hour
    if sender.mark:
        take_lock(session, f"fittings {sender.mark}")
    if not sender.mark or _count_since(session, Fitting, sender, _HOUR) < most:
        return ()
    sets = count(most, "set")
    said = f"At most {sets} of measurements can come from one network address within an hour, and so many did."
    fix = "Nothing you typed is lost: leave this page open, wait an hour, and send it again."
    return (Problem("orders.many-fittings", said, fix),)


def too_many_orders(session: Session, sender: Sender) -> tuple[Problem, ...]:
    """Why no more orders are taken from this address, or from anybody, for the moment; empty while they are."""
    limits = sender.limits
    waiting, a_day = count(limits.orders_waiting, "order"), count(limits.orders_a_day, "order")
    if sender.mark and orders_waiting(session, sender) >= limits.orders_waiting:
        said = f"At most {waiting} of one network address can wait at a time, and so many do."
        fix = "Your measurements are kept. Come back to this page when one of them is ready."
        return (Problem("orders.many-waiting", said, fix),)
    if sender.mark and _count_since(session, Order, sender, _DAY) >= limits.orders_a_day:
        said = f"At most {a_day} can come from one network address within a day, and so many did."
        fix = "Your measurements are kept. Come back to this page tomorrow."
        return (Problem("orders.many-today", said, fix),)
    if orders_in_queue(session) >= limits.shop_waiting:
        said = "So many orders wait to be built that no more are taken for the moment."
        fix = "Your measurements are kept. Come back to this page in an hour."
        return (Problem("orders.shop-full", said, fix),)
    return ()


def orders_waiting(session: Session, sender: Sender) -> int:
    """How many orders of this address wait or are being built; 0 for nobody's."""
    if not sender.mark:
        return 0
    return _count(session, sa.select(Order.id).where(Order.sender == sender.mark, Order.state.in_(WAITING)))


def orders_in_queue(session: Session) -> int:
    """How many orders of anybody wait or are being built."""
    return _count(session, sa.select(Order.id).where(Order.state.in_(WAITING)))


def _count_since(session: Session, table: type[Fitting] | type[Order], sender: Sender, span: timedelta) -> int:
    sent = sa.select(table.id).where(table.sender == sender.mark, table.created_at > now(session) - span)
    return _count(session, sent)


def _count(session: Session, rows: sa.Select[int]) -> int:
    return session.scalar(sa.select(sa.func.count()).select_from(rows.subquery())) or 0
