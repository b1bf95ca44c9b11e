"""Rows of the shop that no database holds, for what a page makes of them: a listing, its proof, an order."""

from datetime import UTC, datetime
from hashlib import sha256

from app.shop.catalogue.models import DraftVersion, Level, Listing
from app.shop.orders.models import Fitting, Order, OrderState
from app.shop.proofs.models import Proof, ProofState
from tests.proved import SMALL_DRAFT, summary_of

#: When everything here was written.
MOMENT = datetime(2026, 3, 5, 9, 30, tzinfo=UTC)


def a_version(number=1, text=SMALL_DRAFT, **more):
    """A version of a draft."""
    values = {"id": number, "number": number, "text": text, "sha256": sha256(text.encode()).hexdigest()}
    return DraftVersion(**{**values, "created_at": MOMENT, **more})


def a_listing(version=None, **more):
    """A design, on sale by a version of its draft where one is given."""
    values = {
        "slug": "linnet-apron",
        "title": "Linnet apron",
        "tagline": "",
        "description_md": "",
        "level": Level.CONFIDENT,
        "price_cents": 900,
        "currency": "EUR",
        "picture": "",
        "position": 1,
        "settled": {},
        "published": version is not None,
        "current_version": version,
        "current_version_id": version.id if version is not None else None,
        "created_at": MOMENT,
    }
    return Listing(**{**values, **more})


def a_proof(state=ProofState.READY, share=1.0, ranges=None, **more):
    """A proof that held on a share of a hundred bodies; before the first one has ended give `summary={}`."""
    values = {
        "state": state,
        "units": 100,
        "done": 100,
        "problems": [],
        "summary": summary_of(share, **(ranges or {"hip_girth": (800.0, 1200.0)})),
        "bodies": [],
        "accepted_share": 1.0,
        "accepted_by": "",
        "accepted_at": None,
        "accepted_warnings": [],
        "created_at": MOMENT,
        "updated_at": MOMENT,
        "proved_at": MOMENT if more.get("summary", True) else None,
    }
    return Proof(**{**values, **more})


def a_fitting(version=None, listing=None, **more):
    """What a customer entered for a design."""
    version = version or a_version()
    listing = listing or a_listing(version)
    values = {
        "token": "fitting-token",
        "listing": listing,
        "listing_id": listing.id,
        "draft_version": version,
        "draft_version_id": version.id,
        "entered": {"hip_girth": "98"},
        "measurements": {"hip_girth": 980.0},
        "choices": {},
        "unit": "cm",
        "paper": "A4",
        "cloths": {"main": {"width_mm": 1400.0, "folded": True, "one_way": False}},
        "confirmed": [],
        "prints": {},
        "sender": "",
        "created_at": MOMENT,
    }
    return Fitting(**{**values, **more})


def an_order(state=OrderState.PLACED, fitting=None, **more):
    """An order for a fitting."""
    fitting = fitting or a_fitting()
    values = {
        "number": "TL-2345",
        "token": "order-token",
        "fitting": fitting,
        "draft_version": fitting.draft_version,
        "customer_name": "Ana Quill",
        "customer_email": "ana@mail.example",
        "price_cents": 0,
        "currency": "EUR",
        "payment_kind": "free sample",
        "payment_state": "settled",
        "state": state,
        "stage": "",
        "progress": 0.0,
        "reason": "",
        "findings": [],
        "ticket": 1,
        "attempt": 0,
        "files": [],
        "summary": {},
        "damages": [],
        "created_at": MOMENT,
        "updated_at": MOMENT,
        "built_at": MOMENT if state is OrderState.READY else None,
    }
    return Order(**{**values, **more})
