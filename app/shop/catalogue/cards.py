"""What a listing's draft says of itself, read once for each version and kept."""

from __future__ import annotations

import logging
from collections.abc import Mapping
from functools import lru_cache
from typing import Any

from app.base import aside
from app.pattern.body import size_body
from app.pattern.make import DraftCard, Made, make_pattern
from app.pattern.pieces.model import Pattern
from app.pattern.problem import Problem, Refused
from app.pattern.settled import settled_card
from app.shop.catalogue.models import DraftVersion, Listing

__all__ = ["card_of", "cannot_settle", "cannot_settle_so", "draft_name", "sample_of", "readable_listings"]

_log = logging.getLogger(__name__)

#: The size whose pattern stands for a listing's notions before any body is known.
SAMPLE_SIZE = "92"
KEPT = 64

#: The name under which a text is looked at before it is any listing's.
_ANY = "draft"

_Pairs = tuple[tuple[str, Any], ...]


def draft_name(listing: Listing) -> str:
    """The name under which problems of a listing's draft are reported."""
    return f"{listing.slug}.draft"


def card_of(version: DraftVersion, listing: Listing) -> DraftCard | None:
    """The card of a version of the listing's draft, without what the listing settles.

    None when the draft has errors, or cannot be settled so (written to the log).
    """
    return _card(version.text, draft_name(listing), _settled(listing))


def cannot_settle(listing: Listing, text: str) -> tuple[Problem, ...]:
    """Why a text cannot be a draft of this listing, which settles some of its choices; empty when it can."""
    return cannot_settle_so(text, listing.settled)


def cannot_settle_so(text: str, settled: Mapping[str, Any]) -> tuple[Problem, ...]:
    """Why the choices of a text cannot be settled so; empty when they can. Kept for when it is asked again."""
    if not settled:
        return ()
    held = _held(text, _ANY, tuple(sorted(settled.items())))
    return held.problems if isinstance(held, Refused) else ()


def readable_listings(listings: list[Listing]) -> list[tuple[Listing, DraftCard]]:
    """The listings whose drafts can be read, each with its card."""
    cards = ((each, card_of(each.current_version, each)) for each in listings if each.current_version is not None)
    return [(listing, card) for listing, card in cards if card is not None]


def sample_of(listing: Listing, chosen: Mapping[str, str | bool] | None = None) -> Pattern | None:
    """The current draft's pattern of a middle size with every open choice at its default but those `chosen`.

    None when there is none.
    """
    version = listing.current_version
    if version is None:
        return None
    return _sample(version.text, draft_name(listing), _settled(listing), tuple(sorted((chosen or {}).items())))


def _settled(listing: Listing) -> _Pairs:
    return tuple(sorted(listing.settled.items()))


@lru_cache(maxsize=KEPT)
def _held(text: str, name: str, settled: _Pairs) -> DraftCard | Refused:
    return aside.run_or_busy(settled_card, text, name, dict(settled))


@lru_cache(maxsize=KEPT)
def _card(text: str, name: str, settled: _Pairs) -> DraftCard | None:
    held = _held(text, name, settled)
    if isinstance(held, Refused):
        _log.error("the draft %s on sale cannot be read:\n%s", name, "\n".join(map(str, held.problems)))
        return None
    return held


@lru_cache(maxsize=KEPT)
def _sample(text: str, name: str, settled: _Pairs, chosen: _Pairs) -> Pattern | None:
    card = _card(text, name, settled)
    if card is None:
        return None
    body = size_body(SAMPLE_SIZE)
    measured = {need: body[need] for need in card.needs}
    made = aside.run_or_busy(make_pattern, text, name, measured, dict((*settled, *chosen)))
    return made.pattern if isinstance(made, Made) else None
