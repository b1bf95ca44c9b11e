"""The designer's page of an order: why it stopped, and what can be done."""

from __future__ import annotations

from fastapi import APIRouter, Depends, Request
from sqlalchemy.orm import Session
from starlette.exceptions import HTTPException
from starlette.responses import RedirectResponse, Response

from app.pattern.problem import Refused
from app.shop.orders import service as orders
from app.shop.orders.coverage import proof_coverage
from app.shop.orders.models import Order
from app.shop.people.access import signed_in_designer
from app.shop.studio.orders.view import order_page
from app.web.sessions import leave_outcome
from app.web.templating import render
from app.web.transactions import TheDatabase

router = APIRouter(prefix="/studio/orders", dependencies=[Depends(signed_in_designer)])

__all__ = ["router"]


@router.get("/{number}")
def order(request: Request, database: TheDatabase, number: str) -> Response:
    """One order, with the reason it stopped and the findings."""
    found = database.read(_order, number)
    coverage = database.read(proof_coverage, found.fitting, "This order")
    return render(request, "shop/studio/orders/order.html", order_page(found, coverage))


@router.post("/{number}/rebuild")
def rebuild(request: Request, database: TheDatabase, number: str) -> Response:
    """Build an order once more from the same inputs."""
    done = database.write(orders.request_rebuild, request.app.state.queue, database.read(_order, number))
    return _to_order(request, number, done, "The order is being built again.")


@router.post("/{number}/current-draft")
def take_current_draft(request: Request, database: TheDatabase, number: str) -> Response:
    """Move an order that was never delivered to the version now on sale, and build it."""
    found = database.read(_order, number)
    done = database.write(orders.build_current_draft, request.app.state.queue, found)
    return _to_order(request, number, done, "The order is being built from the version now on sale.")


@router.post("/{number}/cancel")
def cancel(request: Request, database: TheDatabase, number: str) -> Response:
    """Cancel an order that was not delivered."""
    done = database.write(orders.cancel_order, request.app.state.queue, database.read(_order, number))
    return _to_order(request, number, done, "The order is cancelled.")


def _order(session: Session, number: str) -> Order:
    found = orders.order_by_number(session, number)
    if found is None:
        raise HTTPException(404)
    return found


def _to_order(request: Request, number: str, outcome: Order | Refused, done: str) -> Response:
    leave_outcome(request, outcome, done)
    return RedirectResponse(f"/studio/orders/{number}", status_code=303)
