"""The customer's pages: the measurement form, the review of a fitting, and the order."""

from __future__ import annotations

from typing import Any

from fastapi import APIRouter, Request
from starlette.exceptions import HTTPException
from starlette.responses import RedirectResponse, Response

from app.catalogue.access import ListingOnSale, OnSale, listing_on_sale
from app.database import Database
from app.orders import forms, service
from app.orders.access import TheFitting, TheOrder, TheSender
from app.orders.again import file_page
from app.orders.contexts import fabric_page, progress_page, progress_state, review_page
from app.orders.customer import keep_typed, read_customer, take_typed
from app.orders.form_page import FORM, measure_page
from app.orders.keeping import Shelf
from app.orders.limits import Sender
from app.orders.narrow import too_narrow
from app.orders.preview import cloth_errors, refused_of, suggested_cloths
from app.orders.standing import standing_of
from app.pattern.problem import Problem
from app.pattern.units import Unit
from app.web.admission import DrawingTurn, LayingTurn
from app.web.posted import Posted
from app.web.sent import sent_file
from app.web.sessions import leave_problem
from app.web.templating import render
from app.web.transactions import TheDatabase

__all__ = ["router"]

router = APIRouter()


@router.get("/patterns/{slug}/measure")
def measure(request: Request, found: ListingOnSale) -> Response:
    """The empty form."""
    sent = forms.blank(found.card, suggested_cloths(found.listing), Unit.CM)
    page = measure_page(found.listing, found.card, sent)
    return render(request, "orders/measure.html", page)


@router.post("/patterns/{slug}/measure")
def send_measures(
    request: Request, database: TheDatabase, found: ListingOnSale, posted: Posted, sender: TheSender
) -> Response:
    """The filled form: changed by a helper button, shown again with what is wrong, or saved as a fitting."""
    sent = forms.read_sent(posted)
    changed = forms.changed(found.card, sent)
    if changed is not None:
        return render(request, "orders/measure.html", measure_page(found.listing, found.card, changed))
    return _take(request, database, found, sent, sender)


@router.get("/fittings/{token}", dependencies=[DrawingTurn])
def review(request: Request, database: TheDatabase, fitting: TheFitting) -> Response:
    """The pattern for one body, before it is ordered."""
    page = review_page(fitting, take_typed(request), {}, database.read(standing_of, fitting))
    return render(request, "orders/review.html", page)


@router.get("/fittings/{token}/edit")
def edit(request: Request, database: TheDatabase, fitting: TheFitting) -> Response:
    """The form of the listing as it is now, with everything as it was entered."""
    found = database.read(listing_on_sale, fitting.listing.slug)
    sent = forms.reopened(found.card, suggested_cloths(found.listing), fitting)
    return render(request, "orders/measure.html", measure_page(found.listing, found.card, sent))


@router.post("/fittings/{token}/renew")
def renew(request: Request, database: TheDatabase, fitting: TheFitting, posted: Posted, sender: TheSender) -> Response:
    """The same entries drawn by the version on sale now; the form, where that asks for something else."""
    found = database.read(listing_on_sale, fitting.listing.slug)
    keep_typed(request, posted)
    sent = forms.reopened(found.card, suggested_cloths(found.listing), fitting)
    return _take(request, database, found, sent, sender)


@router.get("/fittings/{token}/fabric", dependencies=[LayingTurn])
def fabric(request: Request, fitting: TheFitting) -> Response:
    """The cloth and notions to buy."""
    return render(request, "orders/fabric.html", fabric_page(fitting))


@router.post("/fittings/{token}/fold/{fabric}")
def lay_otherwise(
    request: Request, database: TheDatabase, fitting: TheFitting, posted: Posted, fabric: str, sender: TheSender
) -> Response:
    """The same fitting with one cloth laid open for folded, or the other way round; what was typed stays."""
    if fabric not in fitting.cloths:
        raise HTTPException(404)
    keep_typed(request, posted)
    other = database.write(service.relaid, fitting, fabric, sender)
    if isinstance(other, Problem):
        leave_problem(request, other)
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
        page = review_page(fitting, posted, errors, database.read(standing_of, fitting))
        return render(request, "orders/review.html", page, 422)
    queue, refused = request.app.state.queue, refused_of(fitting)
    placed = database.write(service.place_order, queue, fitting, customer, refused, sender=sender)
    if isinstance(placed, Problem):
        leave_problem(request, placed, "Nothing was ordered. ")
        keep_typed(request, posted)
        return RedirectResponse(f"/fittings/{fitting.token}", status_code=303)
    return RedirectResponse(f"/orders/{placed.token}", status_code=303)


@router.get("/orders/{token}")
def progress(request: Request, order: TheOrder) -> Response:
    """An order: how far it is, then its files, each of which is there as it was built."""
    return render(request, "orders/order.html", progress_page(_shelf(request).seen(order)))


@router.get("/orders/{token}/state")
def state(request: Request, order: TheOrder) -> dict[str, Any]:
    """How far an order is, for the page that follows it."""
    return progress_state(_shelf(request).seen(order))


@router.get("/orders/{token}/files/{name}")
def download(request: Request, order: TheOrder, name: str) -> Response:
    """One file of a ready order, every byte as it was built; or the page that says what became of it."""
    told, content = _shelf(request).take(order, name)
    if content is not None:
        return sent_file(content, f"{told.number}-{name}")
    page = file_page(told)
    if page is None or all(each["name"] != name for each in told.files):
        raise HTTPException(404)
    # Said to whatever asks, a browser or not: it is not here now, and comes back.
    return render(request, "problems/failure.html", page, 503)


def _shelf(request: Request) -> Shelf:
    state = request.app.state
    return Shelf(state.database, state.queue, state.packs)


def _take(request: Request, database: Database, found: OnSale, sent: forms.Sent, sender: Sender) -> Response:
    """The form shown again with what is wrong, or saved as a fitting."""
    checked = forms.check(found.card, sent)
    if checked.entry is None:
        return render(request, "orders/measure.html", measure_page(found.listing, found.card, sent, checked), 422)
    fitting = database.write(service.save_fitting, found.listing, checked.entry, sender)
    if isinstance(fitting, Problem):
        crowded = forms.Checked({FORM: f"{fitting.message} {fitting.fix}"}, (), None)
        return render(request, "orders/measure.html", measure_page(found.listing, found.card, sent, crowded), 429)
    return RedirectResponse(f"/fittings/{fitting.token}", status_code=303)
