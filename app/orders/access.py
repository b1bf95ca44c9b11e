"""A fitting or an order by the secret token in its address, or the page that says there is nothing there."""

from __future__ import annotations

from typing import Annotated

from fastapi import Depends, Request
from starlette.exceptions import HTTPException

from app.orders import service
from app.orders.models import Fitting, Order
from app.orders.preview import cloth_needed
from app.web.transactions import Transaction

__all__ = ["ClothPlanned", "TheFitting", "TheOrder"]


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


def _plan_cloth(request: Request, token: str) -> None:
    with request.app.state.database.reading() as session:
        fitting = service.fitting_by_token(session, token)
    if fitting is not None:
        cloth_needed(fitting)


#: Works out the fitting's pattern and cloth, which are then remembered. Asked for before the request's transaction,
#: it keeps the slow part (up to a second) out of the time in which nobody else may write.
ClothPlanned = Depends(_plan_cloth)
TheFitting = Annotated[Fitting, Depends(_fitting)]
TheOrder = Annotated[Order, Depends(_order)]
