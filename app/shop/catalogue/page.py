"""The pages on which people look round: the catalogue, one listing, and how it all works."""

from __future__ import annotations

from fastapi import APIRouter, Request
from starlette.responses import Response

from app.shop.catalogue import service
from app.shop.catalogue.access import ListingOnSale
from app.shop.catalogue.cards import readable_listings
from app.shop.catalogue.view import PlainPage, PrivacyPage, catalogue_page, listing_page
from app.shop.proofs.service import proof_of, proofs_of
from app.web.templating import render
from app.web.transactions import TheDatabase
from app.web.words import count

__all__ = ["router"]

router = APIRouter()


@router.get("/")
def catalogue(request: Request, database: TheDatabase) -> Response:
    """Everything on sale."""
    listings = database.read(service.published_listings)
    proofs = database.read(proofs_of, [each.current_version_id for each in listings])
    page = catalogue_page(readable_listings(listings), proofs)
    return render(request, "shop/catalogue/index.html", page)


@router.get("/patterns/{slug}")
def listing(request: Request, database: TheDatabase, found: ListingOnSale) -> Response:
    """One design."""
    proof = database.read(proof_of, found.listing.current_version_id)
    return render(request, "shop/catalogue/listing.html", listing_page(found.listing, found.card, proof))


@router.get("/how-it-works")
def how_it_works(request: Request) -> Response:
    """From tape to cloth, and what is checked."""
    return render(request, "shop/catalogue/how_it_works.html", PlainPage())


@router.get("/privacy")
def privacy(request: Request) -> Response:
    """What is kept of a customer, and who sees it."""
    days = request.app.state.settings.fitting_days
    return render(request, "shop/catalogue/privacy.html", PrivacyPage(count(days, "day")))
