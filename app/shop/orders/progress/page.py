"""The customer's pages of an order: how far it is, and its files."""

from __future__ import annotations

from typing import Any

from fastapi import APIRouter, Request
from starlette.exceptions import HTTPException
from starlette.responses import Response

from app.shop.orders.access import TheOrder
from app.shop.orders.keeping import PackKeeper
from app.shop.orders.progress.rebuilding import withheld_file_page
from app.shop.orders.progress.view import progress_page, progress_state
from app.web.sent import file_response
from app.web.templating import render

router = APIRouter()

__all__ = ["router"]


@router.get("/orders/{token}")
def progress(request: Request, order: TheOrder) -> Response:
    """An order: how far it is, then its files, each of which is there as it was built."""
    return render(request, "shop/orders/progress/order.html", progress_page(_pack_keeper(request).verified(order)))


@router.get("/orders/{token}/state")
def state(request: Request, order: TheOrder) -> dict[str, Any]:
    """How far an order is, for the page that follows it."""
    return progress_state(_pack_keeper(request).verified(order))


@router.get("/orders/{token}/files/{name}")
def download(request: Request, order: TheOrder, name: str) -> Response:
    """One file of a ready order, every byte as it was built; or the page that says what became of it."""
    told, content = _pack_keeper(request).read_file(order, name)
    if content is not None:
        return file_response(content, f"{told.number}-{name}")
    page = withheld_file_page(told)
    if page is None or all(each["name"] != name for each in told.files):
        raise HTTPException(404)
    # Said to whatever asks, a browser or not: it is not here now, and comes back.
    return render(request, "web/failure.html", page, 503)


def _pack_keeper(request: Request) -> PackKeeper:
    state = request.app.state
    return PackKeeper(state.database, state.queue, state.packs)
