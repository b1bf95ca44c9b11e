"""Adding a design, from an empty page or from another one's draft, and changing the words of one."""

from __future__ import annotations

from fastapi import APIRouter, Depends, Request
from starlette.responses import RedirectResponse, Response

from app.shop.catalogue.models import Listing
from app.shop.people.access import signed_in_designer
from app.shop.studio.access import TheListing
from app.shop.studio.designs.form import DesignEntry
from app.shop.studio.designs.service import add_design, add_design_from, change_words, origin_of, shop_currency
from app.shop.studio.designs.view import another_design_page, new_design_page, words_page
from app.shop.studio.desk.service import newest_versions
from app.shop.studio.drafts.service import draft_history
from app.web.admission import DraftTurn
from app.web.posted import Posted
from app.web.sessions import leave_notice
from app.web.templating import render
from app.web.transactions import TheDatabase

__all__ = ["router"]

router = APIRouter(prefix="/studio", dependencies=[Depends(signed_in_designer)])


@router.get("/new-design")
def new_design(request: Request, database: TheDatabase) -> Response:
    """The form to add a design."""
    return render(request, "shop/studio/designs/design.html", new_design_page(database.read(shop_currency)))


@router.post("/new-design")
def add(request: Request, database: TheDatabase, posted: Posted) -> Response:
    """Add a design, and go on to its draft."""
    done = database.write(add_design, posted)
    if isinstance(done, DesignEntry):
        return render(
            request, "shop/studio/designs/design.html", new_design_page(database.read(shop_currency), done), 422
        )
    leave_notice(request, f"{done.title} is added. It is not on sale yet: write its draft.")
    return RedirectResponse(f"/studio/listings/{done.slug}/draft", status_code=303)


@router.get("/listings/{slug}/another", dependencies=[DraftTurn])
def another_design(request: Request, database: TheDatabase, listing: TheListing) -> Response:
    """The form to add a design that is made from this one's draft."""
    origin = origin_of(listing, database.read(newest_versions, listing))
    if origin is None:
        return _nothing_to_begin_from(request, listing)
    return render(request, "shop/studio/designs/design.html", another_design_page(origin, database.read(shop_currency)))


@router.post("/listings/{slug}/another", dependencies=[DraftTurn])
def add_another(request: Request, database: TheDatabase, listing: TheListing, posted: Posted) -> Response:
    """Add a design that is made from this one's draft, with what it settles."""
    origin = origin_of(listing, database.read(newest_versions, listing))
    if origin is None:
        return _nothing_to_begin_from(request, listing)
    done = add_design_from(database, posted, origin)
    if isinstance(done, DesignEntry):
        return render(
            request,
            "shop/studio/designs/design.html",
            another_design_page(origin, database.read(shop_currency), done),
            422,
        )
    leave_notice(request, f"{done.title} is added with the draft of {listing.title}. A worker proves it by itself.")
    return RedirectResponse(f"/studio/listings/{done.slug}/draft", status_code=303)


@router.get("/listings/{slug}/words", dependencies=[DraftTurn])
def words(request: Request, database: TheDatabase, listing: TheListing) -> Response:
    """The form for a design's words."""
    return render(request, "shop/studio/designs/design.html", words_page(database.read(draft_history, listing)))


@router.post("/listings/{slug}/words", dependencies=[DraftTurn])
def change(request: Request, database: TheDatabase, listing: TheListing, posted: Posted) -> Response:
    """Change a design's words."""
    done = database.write(change_words, listing, posted)
    if isinstance(done, DesignEntry):
        return render(
            request, "shop/studio/designs/design.html", words_page(database.read(draft_history, listing), done), 422
        )
    leave_notice(request, f"The words of {done.title} are saved.")
    return RedirectResponse("/studio", status_code=303)


def _nothing_to_begin_from(request: Request, listing: Listing) -> Response:
    leave_notice(request, f"{listing.title} has no draft yet that can be read. Keep a version of it first.", "wrong")
    return RedirectResponse(f"/studio/listings/{listing.slug}/draft", status_code=303)
