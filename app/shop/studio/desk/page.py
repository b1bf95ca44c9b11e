"""The designer's back room: her listings, their prices, and the list of her orders."""

from __future__ import annotations

from datetime import timedelta

from fastapi import APIRouter, Depends, Request
from starlette.responses import RedirectResponse, Response

from app.pattern.problem import Problem, Refused
from app.shop.catalogue.models import Listing
from app.shop.catalogue.service import put_on_sale, take_off_sale
from app.shop.orders.service import search_orders
from app.shop.people.access import signed_in_designer
from app.shop.studio.access import TheListing, TheVersion
from app.shop.studio.desk import service
from app.shop.studio.desk.view import dashboard_page, read_search
from app.web.posted import Posted
from app.web.sessions import leave_outcome
from app.web.templating import render
from app.web.transactions import TheDatabase
from app.web.words import read_money

__all__ = ["router"]

router = APIRouter(prefix="/studio", dependencies=[Depends(signed_in_designer)])

_NO_PRICE = Refused.of(Problem("studio.price-unreadable", "This is not a price.", "Write it like 14 or 14.50."))


@router.get("")
def dashboard(request: Request, database: TheDatabase) -> Response:
    """Listings and orders."""
    wanted = read_search(request.query_params)
    silence = timedelta(seconds=request.app.state.settings.lease_seconds)
    page = dashboard_page(
        database.read(service.listings),
        wanted,
        database.read(search_orders, wanted),
        somebody_works=database.read(service.any_worker_alive, silence),
    )
    return render(request, "shop/studio/desk/dashboard.html", page)


@router.post("/listings/{slug}/versions/{number}/sell")
def sell(request: Request, database: TheDatabase, of: TheVersion) -> Response:
    """Put a listing on sale by one version of its draft."""
    sold = database.write(put_on_sale, of.listing, of.version)
    return _back(request, sold, f"{of.listing.title} is on sale.")


@router.post("/listings/{slug}/unpublish")
def unpublish(request: Request, database: TheDatabase, listing: TheListing) -> Response:
    """Take a listing off sale; orders that stand go on."""
    database.write(take_off_sale, listing)
    return _back(request, listing, f"{listing.title} is no longer on sale.")


@router.post("/listings/{slug}/price")
def set_price(request: Request, database: TheDatabase, posted: Posted, listing: TheListing) -> Response:
    """Set a listing's price for orders from now on."""
    cents = read_money(posted.get("price", ""))
    priced = _NO_PRICE if cents is None else database.write(service.set_price, listing, cents)
    return _back(request, priced, f"The price of {listing.title} is set.")


def _back(request: Request, outcome: Listing | Refused, done: str) -> Response:
    leave_outcome(request, outcome, done)
    return RedirectResponse("/studio", status_code=303)
