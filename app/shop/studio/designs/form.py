"""The words of a design as a designer types them: read into values, or told field by field what is amiss."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Mapping
from dataclasses import dataclass

from app.pattern.problem import spelled_out
from app.shop.catalogue.models import Level, Listing
from app.shop.catalogue.service import ListingWords
from app.shop.studio.desk.service import price_problems
from app.web.words import read_money

__all__ = ["DesignEntry", "slug_of", "read_design"]

_LONGEST = {"title": 120, "tagline": 200, "description": 20_000, "slug": 80}
_ADDRESS = re.compile(r"[a-z0-9]+(-[a-z0-9]+)*")
_NO_PRICE = "This is not a price. Write it like 14 or 14.50."


@dataclass(frozen=True, slots=True)
class DesignEntry:
    """What was typed, by field, and what is amiss, by field; `words` once nothing is."""

    typed: Mapping[str, str]
    errors: Mapping[str, str]
    words: ListingWords | None = None


def slug_of(title: str) -> str:
    """The last part of a page's address made from a title: `Käthe's apron` gives `kathes-apron`."""
    plain = unicodedata.normalize("NFKD", title.lower().replace("ß", "ss"))
    letters = "".join(sign for sign in plain if not unicodedata.combining(sign) and sign not in "'’")
    return re.sub(r"[^a-z0-9]+", "-", letters).strip("-")[: _LONGEST["slug"]].strip("-")


def read_design(posted: Mapping[str, str], listing: Listing | None, currency: str, position: int) -> DesignEntry:
    """A posted form as words for a listing.

    A design that is there keeps its address, price and place; a new one is given `currency` and `position`.
    """
    typed = {name: _printable(posted.get(name, "")) for name in ("title", "tagline", "description", "level")}
    if listing is None:
        slug = posted.get("slug", "").strip().lower()
        typed |= {"slug": slug or slug_of(typed["title"]), "price": posted.get("price", "").strip()}
    if errors := _errors(typed, currency):
        return DesignEntry(typed, errors)
    words = ListingWords(
        slug=listing.slug if listing else typed["slug"],
        title=typed["title"],
        tagline=typed["tagline"],
        description_md=typed["description"],
        level=Level(typed["level"]),
        price_cents=listing.price_cents if listing else read_money(typed["price"]) or 0,
        currency=listing.currency if listing else currency,
        picture=listing.picture if listing else "",
        position=listing.position if listing else position,
    )
    return DesignEntry(typed, {}, words)


def _printable(text: str) -> str:
    """The text without signs that nobody can see, its lines ended as everywhere and every other gap a space."""
    rows = text.replace("\r\n", "\n").replace("\r", "\n")
    gapped = (" " if sign.isspace() and sign != "\n" else sign for sign in rows)
    return "".join(sign for sign in gapped if sign.isprintable() or sign == "\n").strip()


def _errors(typed: Mapping[str, str], currency: str) -> dict[str, str]:
    found = {}
    for name, most in _LONGEST.items():
        if (given := len(typed.get(name, ""))) > most:
            found[name] = f"This has {given:,} characters; {most:,} are the most. Shorten it."
    if not typed["title"]:
        found["title"] = "A design needs a name. Write the one that customers will read."
    if "\n" in typed["title"] + typed["tagline"]:
        found["title"] = "A name and a line below it are one line each."
    if typed["level"] not in set(Level):
        found["level"] = "Choose how much sewing it asks for."
    if "slug" in typed and not _ADDRESS.fullmatch(typed["slug"]):
        found["slug"] = (
            "Write small letters from a to z, digits, and single hyphens between them, such as garden-apron."
        )
    if "price" in typed:
        cents = read_money(typed["price"])
        if wrong := _NO_PRICE if cents is None else spelled_out(price_problems(cents, currency)):
            found["price"] = wrong
    return found
