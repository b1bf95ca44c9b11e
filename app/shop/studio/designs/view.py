"""What the pages show on which a design is added and its words are changed."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from app.shop.catalogue.view import LEVEL_WORDS
from app.shop.studio.designs.form import DesignEntry
from app.shop.studio.designs.service import Origin
from app.shop.studio.designs.settled_view import settled_fields, settled_words
from app.shop.studio.drafts.service import DraftHistory
from app.web.fields import Field, FieldError, Option

__all__ = ["DesignPage", "another_design_page", "new_design_page", "words_page"]

_NEW = DesignEntry({}, {})
_SETTLES = (
    "What is settled here holds for every customer and is not asked. It stays so for good, "
    "since proofs and orders stand on it; the rest is left to each customer."
)


@dataclass(frozen=True, slots=True)
class DesignPage:
    """The form of a design's words: where it goes, what its button says, and what is amiss.

    `settles` are the choices that a new design may settle, `settles_words` says what that is. A design
    that is there tells what it has `settled`, and `another` is where one more is made from its draft.
    """

    heading: str
    lead: str
    action: str
    button: str
    fields: tuple[Field, ...]
    errors_title: str = ""
    errors: tuple[FieldError, ...] = ()
    settles_words: str = ""
    settles: tuple[Field, ...] = ()
    settled: str = ""
    another: str = ""


def new_design_page(currency: str, entry: DesignEntry = _NEW) -> DesignPage:
    """The form to add a design, with what was typed."""
    fields = _fields(entry, entry.typed)
    title, *rest = fields
    address = Field(
        name="slug",
        label="Address in the shop",
        value=entry.typed.get("slug", ""),
        hint="The end of its page's address. Left empty, it is made from the name; it stays as it is for good.",
        error=entry.errors.get("slug", ""),
    )
    price = Field(
        name="price",
        label="Price",
        value=entry.typed.get("price", ""),
        unit=currency,
        mode="decimal",
        error=entry.errors.get("price", ""),
    )
    return DesignPage(
        heading="Add a design",
        lead="First its words. Next comes the draft; nothing is on sale until that is proved.",
        action="/studio/new-design",
        button="Add it and write its draft",
        fields=(title, address, *rest, price),
        errors_title="The design is not added yet",
        errors=_field_errors(entry),
    )


def another_design_page(origin: Origin, currency: str, entry: DesignEntry = _NEW) -> DesignPage:
    """The form to add a design that is made from another one's draft."""
    whose = f"{origin.listing.title}, version {origin.version.number}"
    return replace(
        new_design_page(currency, entry),
        heading="Another design from one draft",
        lead=f"From the draft of {whose}. Its text becomes the new design’s version 1, proved with what you settle.",
        action=f"/studio/listings/{origin.listing.slug}/another",
        button="Add it with this draft",
        settles_words=_SETTLES if origin.choices else "This draft has no choice to settle.",
        settles=settled_fields(origin.choices, origin.listing, entry.typed, entry.errors),
    )


def words_page(history: DraftHistory, entry: DesignEntry | None = None) -> DesignPage:
    """The form for a design's words: as they are, or as they were typed."""
    listing = history.listing
    kept = {
        "title": listing.title,
        "tagline": listing.tagline,
        "description": listing.description_md,
        "level": listing.level.value,
    }
    typed = entry.typed if entry is not None else kept
    return DesignPage(
        heading=f"The words of {listing.title}",
        lead="Customers read them at once. Its address stays the same, since people may have kept the link.",
        action=f"/studio/listings/{listing.slug}/words",
        button="Save the words",
        fields=_fields(entry or _NEW, typed),
        errors_title="The words are not saved yet",
        errors=_field_errors(entry or _NEW),
        settled=settled_words(listing, history.offered),
        another=f"/studio/listings/{listing.slug}/another" if history.rows else "",
    )


def _fields(entry: DesignEntry, typed: Mapping[str, str]) -> tuple[Field, ...]:
    levels = tuple(Option(level.value, words, typed.get("level") == level) for level, words in LEVEL_WORDS.items())
    return (
        Field(name="title", label="Name", value=typed.get("title", ""), error=entry.errors.get("title", "")),
        Field(
            name="tagline",
            label="One line on it",
            value=typed.get("tagline", ""),
            hint="Stands under the name, such as: A six-gore skirt that hangs from a smooth waistband.",
            error=entry.errors.get("tagline", ""),
        ),
        Field(
            name="description",
            label="Description",
            kind="words",
            value=typed.get("description", ""),
            hint="What is special in the cut, what is chosen, which cloth. An empty line begins a paragraph; "
            "**two stars** on either side make words strong (Markdown).",
            error=entry.errors.get("description", ""),
        ),
        Field(
            name="level",
            label="How much sewing it asks for",
            kind="select",
            options=(Option("", "choose", not typed.get("level")), *levels),
            error=entry.errors.get("level", ""),
        ),
    )


def _field_errors(entry: DesignEntry) -> tuple[FieldError, ...]:
    return tuple(FieldError(name, words) for name, words in entry.errors.items())
