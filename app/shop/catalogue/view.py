"""What the pages of the catalogue show, ready to print."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from markupsafe import Markup

from app.base.prose import on_page
from app.base.templates import STATIC
from app.pattern.body.wording import measures_for
from app.pattern.drawing import piece_svg
from app.pattern.make import Choice, DraftCard
from app.pattern.names import in_words
from app.pattern.units import Unit, show_range
from app.shop.catalogue.cards import sample_of
from app.shop.catalogue.models import Level, Listing
from app.shop.catalogue.shopping import pieces_words, shopping_list
from app.shop.proofs.models import Proof
from app.shop.proofs.words import customer_words
from app.web.words import count, money, sentence

__all__ = [
    "LEVEL_WORDS",
    "Card",
    "CataloguePage",
    "ChoiceWords",
    "ListingPage",
    "PlainPage",
    "PrivacyPage",
    "catalogue_page",
    "choice_range",
    "listing_page",
]

LEVEL_WORDS = {
    Level.FIRST_GARMENT: "Good for a first garment",
    Level.CONFIDENT: "For a confident sewer",
    Level.PRACTISED: "For a practised sewer",
}


@dataclass(frozen=True, slots=True)
class PrivacyPage:
    """What is kept of a customer; `kept` is for how long without an order, in words."""

    kept: str


@dataclass(frozen=True, slots=True)
class PlainPage:
    """A page of fixed words."""


@dataclass(frozen=True, slots=True)
class Card:
    """One listing in the catalogue: `picture` is a static file, or else `drawing` shows its main piece.

    `proof` is a line on how it is drawn and checked.
    """

    slug: str
    title: str
    tagline: str
    level: str
    price: str
    picture: str
    drawing: Markup
    alt: str
    proof: str


@dataclass(frozen=True, slots=True)
class CataloguePage:
    """Everything on sale."""

    cards: tuple[Card, ...]


@dataclass(frozen=True, slots=True)
class ChoiceWords:
    """A choice the customer will make, and between what."""

    title: str
    words: str


@dataclass(frozen=True, slots=True)
class ListingPage:
    """One design: its words, what the customer chooses, measures and buys, and what she gets.

    `picture` is a static file, or else `drawing` shows its main piece.
    """

    slug: str
    title: str
    tagline: str
    level: str
    price: str
    price_note: str
    picture: str
    drawing: Markup
    alt: str
    description: Markup
    choices: tuple[ChoiceWords, ...]
    needs_title: str
    needs: tuple[str, ...]
    shopping: tuple[str, ...]
    pieces_words: str
    proof: str


def catalogue_page(found: list[tuple[Listing, DraftCard]], proofs: Mapping[int, Proof]) -> CataloguePage:
    """The catalogue of listings with their drafts' cards; `proofs` by draft version."""
    return CataloguePage(
        tuple(
            Card(
                slug=listing.slug,
                title=listing.title,
                tagline=listing.tagline,
                level=LEVEL_WORDS[listing.level],
                price=sentence(money(listing.price_cents, listing.currency)),
                picture=_picture(listing),
                drawing=_drawing(listing),
                alt=_alt(listing),
                proof=customer_words(proofs.get(listing.current_version_id or 0))
                or f"Drawn from {count(len(card.needs), 'measurement')}; every seam walked before it is sent.",
            )
            for listing, card in found
        )
    )


def listing_page(listing: Listing, card: DraftCard, proof: Proof | None) -> ListingPage:
    """One listing with its draft's card and the proof of its draft."""
    return ListingPage(
        slug=listing.slug,
        title=listing.title,
        tagline=listing.tagline,
        level=LEVEL_WORDS[listing.level],
        price=sentence(money(listing.price_cents, listing.currency)),
        price_note="For now every order is a free sample: nothing is charged.",
        picture=_picture(listing),
        drawing=_drawing(listing),
        alt=_alt(listing),
        description=on_page(listing.description_md),
        choices=tuple(ChoiceWords(choice.title, choice_range(choice)) for choice in card.choices),
        needs_title=f"{sentence(count(len(card.needs), 'measurement'))} to take",
        needs=tuple(measures_for(card.group)[need].title for need in card.needs),
        shopping=shopping_list(listing, card),
        pieces_words=pieces_words(listing, card),
        proof=customer_words(proof),
    )


def choice_range(choice: Choice, units: tuple[Unit, ...] = (Unit.CM, Unit.INCH)) -> str:
    """Between what one chooses: `6 to 18 cm (2 3/8 to 7 1/8 in)`, `hip or waist`, `yes or no`."""
    if choice.kind == "yesno":
        return "yes or no"
    if choice.kind == "option":
        return " or ".join(in_words(option) for option in choice.options)
    if choice.least is None or choice.most is None:
        return "as you like"
    if choice.kind == "number":
        return f"{choice.least:g} to {choice.most:g}"
    first, *others = (show_range(choice.least, choice.most, unit) for unit in units)
    return " ".join([first, *(f"({other})" for other in others)])


def _picture(listing: Listing) -> str:
    name = f"garments/{listing.picture or listing.slug + '.svg'}"
    return name if (STATIC / name).is_file() else ""


def _drawing(listing: Listing) -> Markup:
    """For a design without a picture of its own: the first piece of its draft, which is the main one."""
    sample = sample_of(listing) if not _picture(listing) else None
    return Markup(piece_svg(sample.pieces[0])) if sample is not None else Markup()


def _alt(listing: Listing) -> str:
    return f"Line drawing of the {listing.title}, front and back"
