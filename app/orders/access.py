"""A fitting or an order by the secret token in its address, or the page that says there is nothing there."""

from __future__ import annotations

from typing import Annotated

from fastapi import Depends
from starlette.exceptions import HTTPException

from app.orders import service
from app.orders.models import Fitting, Order
from app.web.transactions import Transaction

__all__ = ["TheFitting", "TheOrder"]


def _fitting(session: Transaction, token: str) -> Fitting:
    found = service.fitting_by_token(session, token)
    if found is None:
        raise HTTPException(404)
    return found


def _order(session: Transaction, token: str) -> Order:
    found = service.order_by_token(session, token)
    if found is None:
        raise HTTPException(404)
    return found


TheFitting = Annotated[Fitting, Depends(_fitting)]
TheOrder = Annotated[Order, Depends(_order)]
