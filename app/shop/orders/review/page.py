"""The customer's pages of a fitting: its pieces and sizes, its cloth, and the order for it."""

from __future__ import annotations

from fastapi import APIRouter, Request
from starlette.exceptions import HTTPException
from starlette.responses import RedirectResponse, Response

from app.pattern.problem import Refused
from app.shop.orders import service
from app.shop.orders.access import TheFitting, TheSender
from app.shop.orders.review.cloth_view import fabric_page
from app.shop.orders.review.form import carry_over_typed, read_customer, take_typed
from app.shop.orders.review.narrow import too_narrow
from app.shop.orders.review.preview import cloth_errors, refused_of
from app.shop.orders.review.service import review_state
from app.shop.orders.review.view import review_page
from app.web.admission import DrawingTurn, LayingTurn
from app.web.posted import Posted
from app.web.sessions import leave_refused
from app.web.templating import render
from app.web.transactions import TheDatabase

router = APIRouter()

__all__ = ["router"]


@router.get("/fittings/{token}", dependencies=[DrawingTurn])
def review(request: Request, database: TheDatabase, fitting: TheFitting) -> Response:
    """The pattern for one body, before it is ordered."""
    page = review_page(fitting, take_typed(request), {}, database.read(review_state, fitting))
    return render(request, "shop/orders/review/review.html", page)


@router.get("/fittings/{token}/fabric", dependencies=[LayingTurn])
def fabric(request: Request, fitting: TheFitting) -> Response:
    """The cloth and notions to buy."""
    return render(request, "shop/orders/review/fabric.html", fabric_page(fitting))


@router.post("/fittings/{token}/fold/{fabric}")
def lay_otherwise(
    request: Request, database: TheDatabase, fitting: TheFitting, posted: Posted, fabric: str, sender: TheSender
) -> Response:
    """The same fitting with one cloth laid open for folded, or the other way round; what was typed stays."""
    if fabric not in fitting.cloths:
        raise HTTPException(404)
    carry_over_typed(request, posted)
    other = database.write(service.save_with_other_lay, fitting, fabric, sender)
    if isinstance(other, Refused):
        leave_refused(request, other)
        other = fitting
    return RedirectResponse(f"/fittings/{other.token}#cloth", status_code=303)


@router.post("/fittings/{token}/order", dependencies=[DrawingTurn])
def order_it(
    request: Request, database: TheDatabase, fitting: TheFitting, posted: Posted, sender: TheSender
) -> Response:
    """Place the order, once. What is slow, the pattern and its cloth, is worked out before anything is written."""
    customer, errors = read_customer(posted)
    errors |= cloth_errors(fitting)
    if errors or too_narrow(fitting):
        page = review_page(fitting, posted, errors, database.read(review_state, fitting))
        return render(request, "shop/orders/review/review.html", page, 422)
    queue, refused = request.app.state.queue, refused_of(fitting)
    placed = database.write(service.place_order, queue, fitting, customer, refused, sender=sender)
    if isinstance(placed, Refused):
        leave_refused(request, placed, "Nothing was ordered. ")
        carry_over_typed(request, posted)
        return RedirectResponse(f"/fittings/{fitting.token}", status_code=303)
    return RedirectResponse(f"/orders/{placed.token}", status_code=303)
