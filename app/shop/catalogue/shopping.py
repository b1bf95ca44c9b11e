"""What a design asks one to buy, and how many pieces it has, before any body is known: as told on its page."""

from __future__ import annotations

from collections.abc import Iterator

from app.pattern.make import DraftCard
from app.pattern.pieces.model import Pattern
from app.pattern.steps import notions_list
from app.pattern.units import Unit, show_length, with_other_units
from app.shop.catalogue.cards import sample_of
from app.shop.catalogue.models import Listing
from app.web.words import count

__all__ = ["pieces_words", "shopping_list"]


def shopping_list(listing: Listing, card: DraftCard) -> tuple[str, ...]:
    """Cloths at the designer's widths, then everything else once, with the amounts for a middle size."""
    cloths = (f"{title}, {show_length(width, Unit.CM)} wide or what you have" for _name, title, width in card.fabrics)
    return tuple(with_other_units(line) for line in (*cloths, *_notions(card, sample_of(listing))))


def pieces_words(listing: Listing, card: DraftCard) -> str:
    """How many pieces one gets: `9 pattern pieces`, or `7 to 12 pattern pieces, as you choose`."""
    # A middle size is cut as the designer suggests it, and with each other option of each choice.
    changes: list[dict[str, str | bool]] = [{}]
    for choice in card.choices:
        changes += [{choice.name: option} for option in choice.options]
        changes += [{choice.name: answer} for answer in (True, False) if choice.kind == "yesno"]
    samples = [sample_of(listing, change) for change in changes]
    counts = {len(sample.pieces) for sample in samples if sample is not None}
    if not counts:
        counts = {len({title for _name, title in card.pieces})}
    least, most = min(counts), max(counts)
    words = count(most, "pattern piece")
    return words if least == most else f"{least} to {words}, as you choose"


def _notions(card: DraftCard, sample: Pattern | None) -> Iterator[str]:
    rows = notions_list(sample, Unit.CM) if sample is not None else ()
    # The sample is a woman's: what is as long as she is tells nothing of a garment for others.
    amounts = {
        row.title: row.amount if notion.length is None or card.group == "women" else ""
        for row, notion in zip(rows, sample.notions if sample is not None else (), strict=True)
    }
    for title in dict.fromkeys(card.notions):
        if title in amounts:
            yield f"{title}: {amounts[title]}" if amounts[title] else title
        else:
            yield f"{title}, if your choices call for it" if rows else title
