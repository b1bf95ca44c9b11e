"""A fitting or an order by the secret token in its address, or the page that says there is nothing there; who sends."""

from __future__ import annotations

from typing import Annotated

from fastapi import Depends, Request
from starlette.exceptions import HTTPException

from app.base.settings import Settings
from app.shop.orders import service
from app.shop.orders.limits import Sender, SenderLimits
from app.shop.orders.models import Fitting, Order
from app.web.addresses import address_mark
from app.web.transactions import TheDatabase

__all__ = ["TheFitting", "TheOrder", "TheSender"]


def _fitting(database: TheDatabase, token: str) -> Fitting:
    found = database.read(service.fitting_by_token, token)
    if found is None:
        raise HTTPException(404)
    return found


def _order(database: TheDatabase, token: str) -> Order:
    found = database.read(service.order_by_token, token)
    if found is None:
        raise HTTPException(404)
    return found


async def _sender(request: Request) -> Sender:
    settings: Settings = request.app.state.settings
    limits = SenderLimits(
        fittings_an_hour=settings.address_fittings,
        orders_waiting=settings.address_waiting,
        orders_a_day=settings.address_orders,
        shop_waiting=settings.most_waiting,
    )
    return Sender(address_mark(request), limits)


TheFitting = Annotated[Fitting, Depends(_fitting)]
TheOrder = Annotated[Order, Depends(_order)]
TheSender = Annotated[Sender, Depends(_sender)]
