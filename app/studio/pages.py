"""The designer's back room: her listings, their prices, and her orders."""

from __future__ import annotations

from datetime import timedelta

from fastapi import APIRouter, Depends, Request
from sqlalchemy.orm import Session
from starlette.exceptions import HTTPException
from starlette.responses import RedirectResponse, Response

from app.catalogue.service import put_on_sale, take_off_sale
from app.orders import service as orders
from app.orders.models import Order
from app.orders.standing import standing_of
from app.pattern.problem import Problem
from app.people.access import signed_in_designer
from app.studio import service
from app.studio.access import TheListing, TheVersion
from app.studio.contexts import dashboard_page, read_search, studio_order_page
from app.web.posted import Posted
from app.web.sessions import leave_notice, leave_problem
from app.web.templating import render
from app.web.transactions import TheDatabase
from app.web.words import read_money

__all__ = ["router"]

router = APIRouter(prefix="/studio", dependencies=[Depends(signed_in_designer)])

_NO_PRICE = Problem("studio.price-unreadable", "This is not a price.", "Write it like 14 or 14.50.")


@router.get("")
def dashboard(request: Request, database: TheDatabase) -> Response:
    """Listings and orders."""
    wanted = read_search(request.query_params)
    silence = timedelta(seconds=request.app.state.settings.lease_seconds)
    page = dashboard_page(
        database.read(service.listings),
        wanted,
        database.read(service.find_orders, wanted),
        somebody_works=database.read(service.somebody_works, silence),
    )
    return render(request, "studio/dashboard.html", page)


@router.post("/listings/{slug}/versions/{number}/sell")
def sell(request: Request, database: TheDatabase, of: TheVersion) -> Response:
    """Put a listing on sale by one version of its draft."""
    problem = database.write(put_on_sale, of.listing, of.version)
    return _back(request, problem, f"{of.listing.title} is on sale.")


@router.post("/listings/{slug}/unpublish")
def unpublish(request: Request, database: TheDatabase, listing: TheListing) -> Response:
    """Take a listing off sale; orders that stand go on."""
    database.write(take_off_sale, listing)
    return _back(request, None, f"{listing.title} is no longer on sale.")


@router.post("/listings/{slug}/price")
def set_price(request: Request, database: TheDatabase, posted: Posted, listing: TheListing) -> Response:
    """Set a listing's price for orders from now on."""
    cents = read_money(posted.get("price", ""))
    problem = _NO_PRICE if cents is None else database.write(service.set_price, listing, cents)
    return _back(request, problem, f"The price of {listing.title} is set.")


@router.get("/orders/{number}")
def order(request: Request, database: TheDatabase, number: str) -> Response:
    """One order, with the reason it stopped and the findings."""
    found = database.read(_order, number)
    standing = database.read(standing_of, found.fitting, "This order")
    return render(request, "studio/order.html", studio_order_page(found, standing))


@router.post("/orders/{number}/rebuild")
def rebuild(request: Request, database: TheDatabase, number: str) -> Response:
    """Build an order once more from the same inputs."""
    done = database.write(orders.request_rebuild, request.app.state.queue, database.read(_order, number))
    return _to_order(request, number, done, "The order is being built again.")


@router.post("/orders/{number}/current-draft")
def take_current_draft(request: Request, database: TheDatabase, number: str) -> Response:
    """Move an order that was never delivered to the version now on sale, and build it."""
    found = database.read(_order, number)
    done = database.write(orders.build_current_draft, request.app.state.queue, found)
    return _to_order(request, number, done, "The order is being built from the version now on sale.")


@router.post("/orders/{number}/cancel")
def cancel(request: Request, database: TheDatabase, number: str) -> Response:
    """Cancel an order that was not delivered."""
    done = database.write(orders.cancel_order, request.app.state.queue, database.read(_order, number))
    return _to_order(request, number, done, "The order is cancelled.")


def _order(session: Session, number: str) -> Order:
    found = service.order(session, number)
    if found is None:
        raise HTTPException(404)
    return found


def _back(request: Request, problem: Problem | None, done: str) -> Response:
    _tell(request, problem, done)
    return RedirectResponse("/studio", status_code=303)


def _to_order(request: Request, number: str, outcome: Order | Problem, done: str) -> Response:
    _tell(request, outcome if isinstance(outcome, Problem) else None, done)
    return RedirectResponse(f"/studio/orders/{number}", status_code=303)


def _tell(request: Request, problem: Problem | None, done: str) -> None:
    if problem is None:
        leave_notice(request, done)
    else:
        leave_problem(request, problem)
