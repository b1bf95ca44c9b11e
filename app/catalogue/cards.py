"""What a listing's draft says of itself, read once for each version and kept."""

from __future__ import annotations

import logging
from functools import lru_cache

from app.catalogue.models import DraftVersion, Listing
from app.pattern.body import size_body
from app.pattern.make import DraftCard, Made, make_pattern, read_draft
from app.pattern.pieces.model import Pattern

__all__ = ["card_of", "draft_name", "sample_of", "sellable"]

_log = logging.getLogger(__name__)

#: The size whose pattern stands for a listing's notions before any body is known.
SAMPLE_SIZE = "92"
KEPT = 64


def draft_name(listing: Listing) -> str:
    """The name under which problems of a listing's draft are reported."""
    return f"{listing.slug}.draft"


def card_of(version: DraftVersion, listing: Listing) -> DraftCard | None:
    """The card of a version of the listing's draft; None when the draft has errors (written to the log)."""
    return _card(version.text, draft_name(listing))


def sellable(listings: list[Listing]) -> list[tuple[Listing, DraftCard]]:
    """The listings whose drafts can be read, each with its card."""
    cards = ((each, card_of(each.current_version, each)) for each in listings if each.current_version is not None)
    return [(listing, card) for listing, card in cards if card is not None]


def sample_of(listing: Listing) -> Pattern | None:
    """The current draft's pattern of a middle size with every choice at its default; None when it cannot be made."""
    version = listing.current_version
    return None if version is None else _sample(version.text, draft_name(listing))


@lru_cache(maxsize=KEPT)
def _card(text: str, name: str) -> DraftCard | None:
    card = read_draft(text, name)
    if isinstance(card, DraftCard):
        return card
    _log.error("the draft %s on sale cannot be read:\n%s", name, "\n".join(str(problem) for problem in card))
    return None


@lru_cache(maxsize=KEPT)
def _sample(text: str, name: str) -> Pattern | None:
    card = _card(text, name)
    if card is None:
        return None
    body = size_body(SAMPLE_SIZE)
    made = make_pattern(text, name, {need: body[need] for need in card.needs}, {})
    return made.pattern if isinstance(made, Made) else None
