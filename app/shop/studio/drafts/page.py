"""The draft room: writing a listing's draft, checking it, keeping it, and playing it back line by line."""

from __future__ import annotations

from fastapi import APIRouter, Depends, Request
from starlette.exceptions import HTTPException
from starlette.responses import RedirectResponse, Response

from app.pattern.problem import Refused
from app.shop.catalogue.cards import draft_name
from app.shop.people.access import signed_in_designer
from app.shop.studio.access import TheListing, TheVersion, read_positive_number
from app.shop.studio.desk import service
from app.shop.studio.drafts.form import DraftEntry, read_entry
from app.shop.studio.drafts.play_view import kept_play_page, sent_play_page
from app.shop.studio.drafts.service import draft_history, keep_text
from app.shop.studio.drafts.view import begun_text, draft_page, first_text, formatted_entry, label_of
from app.web.admission import DraftTurn
from app.web.posted import Posted, Uploaded
from app.web.sessions import leave_notice
from app.web.templating import render
from app.web.transactions import TheDatabase

__all__ = ["router"]

router = APIRouter(prefix="/studio/listings/{slug}", dependencies=[Depends(signed_in_designer), DraftTurn])

_NOT_KEPT = "Nothing was kept: a version can be kept once it can be read. Your text stands below as you wrote it."
_NOT_PLAYED = "There is nothing to play yet: mend these lines first."


@router.get("/draft")
def draft(
    request: Request, database: TheDatabase, listing: TheListing, version: str = "", size: str = "", begin: str = ""
) -> Response:
    """The editor with the newest version, or the one asked for."""
    history = database.read(draft_history, listing)
    shown = database.read(service.version, listing, read_positive_number(version)) if version else history.newest
    first = begun_text(listing) if begin == "first-skirt" else first_text(listing)
    entry = DraftEntry(shown.text if shown is not None else first, size)
    return render(request, "shop/studio/drafts/draft.html", draft_page(history, entry, label=label_of(history, shown)))


@router.post("/draft")
def check(request: Request, database: TheDatabase, listing: TheListing, posted: Posted, uploaded: Uploaded) -> Response:
    """Everything that can be found out about the text as sent; with "layout", set out anew before."""
    entry, refused = read_entry(posted, uploaded, 0), ""
    if posted.get("action") == "layout":
        entry, refused = formatted_entry(entry, draft_name(listing))
    page = draft_page(database.read(draft_history, listing), entry, label="Not kept yet", refused=refused)
    return render(request, "shop/studio/drafts/draft.html", page)


@router.post("/draft/keep")
def keep_version(
    request: Request, database: TheDatabase, listing: TheListing, posted: Posted, uploaded: Uploaded
) -> Response:
    """Keep the text as a new version; one that cannot be read comes back with what is wrong in it."""
    entry = read_entry(posted, uploaded, 0)
    kept = Refused(entry.problems) if entry.problems else keep_text(database, listing, entry.text)
    if isinstance(kept, Refused):
        page = draft_page(database.read(draft_history, listing), entry, label="Not kept yet", refused=_NOT_KEPT)
        return render(request, "shop/studio/drafts/draft.html", page, 422)
    leave_notice(request, kept.notice)
    return RedirectResponse(f"/studio/listings/{listing.slug}/draft", status_code=303)


@router.post("/draft/lines")
def play_sent(
    request: Request, database: TheDatabase, listing: TheListing, posted: Posted, uploaded: Uploaded
) -> Response:
    """The drawing of the text as sent, up to one of its lines."""
    entry = read_entry(posted, uploaded, read_positive_number(posted.get("line", "")))
    page = sent_play_page(listing, entry)
    if page is not None:
        return render(request, "shop/studio/drafts/play.html", page)
    told = draft_page(database.read(draft_history, listing), entry, label="Not kept yet", refused=_NOT_PLAYED)
    return render(request, "shop/studio/drafts/draft.html", told, 422)


@router.get("/versions/{number}/lines")
def play(request: Request, of: TheVersion, line: str = "", size: str = "") -> Response:
    """The drawing of a version that is kept, up to one of its lines."""
    page = kept_play_page(of, read_positive_number(line), size)
    if page is None:
        raise HTTPException(404)
    return render(request, "shop/studio/drafts/play.html", page)
