"""The measurement form: empty, as it was sent, and opened again for a fitting."""

from __future__ import annotations

from fastapi import APIRouter, Request
from starlette.responses import RedirectResponse, Response

from app.base.database import Database
from app.pattern.problem import Refused, spelled_out
from app.pattern.units import Unit
from app.shop.catalogue.access import ListingOnSale, OnSale, listing_on_sale
from app.shop.orders import service
from app.shop.orders.access import TheFitting, TheSender
from app.shop.orders.limits import Sender
from app.shop.orders.measure import form
from app.shop.orders.measure.typed import TypedForm
from app.shop.orders.measure.view import FORM, measure_page
from app.shop.orders.review.form import carry_over_typed
from app.shop.orders.review.preview import suggested_cloths
from app.web.posted import Posted
from app.web.templating import render
from app.web.transactions import TheDatabase

__all__ = ["router"]

router = APIRouter()


@router.get("/patterns/{slug}/measure")
def measure(request: Request, found: ListingOnSale) -> Response:
    """The empty form."""
    sent = form.blank(found.card, suggested_cloths(found.listing), Unit.CM)
    page = measure_page(found.listing, found.card, sent)
    return render(request, "shop/orders/measure/measure.html", page)


@router.post("/patterns/{slug}/measure")
def send_measures(
    request: Request, database: TheDatabase, found: ListingOnSale, posted: Posted, sender: TheSender
) -> Response:
    """The filled form: changed by a helper button, shown again with what is wrong, or saved as a fitting."""
    sent = form.read_sent(posted)
    changed = form.after_button(found.card, sent)
    if changed is not None:
        return render(request, "shop/orders/measure/measure.html", measure_page(found.listing, found.card, changed))
    return _save_or_show_errors(request, database, found, sent, sender)


@router.get("/fittings/{token}/edit")
def edit(request: Request, database: TheDatabase, fitting: TheFitting) -> Response:
    """The form of the listing as it is now, with everything as it was entered."""
    found = database.read(listing_on_sale, fitting.listing.slug)
    sent = form.reopened(found.card, suggested_cloths(found.listing), fitting)
    return render(request, "shop/orders/measure/measure.html", measure_page(found.listing, found.card, sent))


@router.post("/fittings/{token}/renew")
def renew(request: Request, database: TheDatabase, fitting: TheFitting, posted: Posted, sender: TheSender) -> Response:
    """The same entries drawn by the version on sale now; the form, where that asks for something else."""
    found = database.read(listing_on_sale, fitting.listing.slug)
    carry_over_typed(request, posted)
    sent = form.reopened(found.card, suggested_cloths(found.listing), fitting)
    return _save_or_show_errors(request, database, found, sent, sender)


def _save_or_show_errors(
    request: Request, database: Database, found: OnSale, sent: TypedForm, sender: Sender
) -> Response:
    """The form shown again with what is wrong, or saved as a fitting."""
    checked = form.check(found.card, sent)
    if checked.entry is None:
        return render(
            request, "shop/orders/measure/measure.html", measure_page(found.listing, found.card, sent, checked), 422
        )
    fitting = database.write(service.save_fitting, found.listing, checked.entry, sender)
    if isinstance(fitting, Refused):
        crowded = form.CheckedForm({FORM: spelled_out(fitting.problems)}, (), None)
        return render(
            request, "shop/orders/measure/measure.html", measure_page(found.listing, found.card, sent, crowded), 429
        )
    return RedirectResponse(f"/fittings/{fitting.token}", status_code=303)
