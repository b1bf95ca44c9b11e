"""Money, dates and counts as people read them."""

from __future__ import annotations

from datetime import datetime

__all__ = ["count", "day", "money", "read_money", "sentence"]

_SIGNS = {"EUR": "€", "GBP": "£", "USD": "$"}


def money(cents: int, currency: str) -> str:
    """A price such as `€14.50`; nothing to pay is `free`."""
    if cents == 0:
        return "free"
    amount = f"{cents // 100}.{cents % 100:02d}"
    return f"{_SIGNS[currency]}{amount}" if currency in _SIGNS else f"{amount} {currency}"


def read_money(text: str) -> int | None:
    """The cents of a price as typed (`14`, `14.50`, `14,50`), or None when it is no price."""
    whole, _, part = text.strip().replace(",", ".").partition(".")
    part = part.ljust(2, "0") if part else "00"
    if not (whole.isascii() and whole.isdigit() and len(whole) <= 6 and part.isascii() and part.isdigit()):
        return None
    return int(whole) * 100 + int(part) if len(part) == 2 else None


def day(moment: datetime) -> str:
    """A date such as `5 March 2026`."""
    return f"{moment.day} {moment:%B %Y}"


def count(number: int, one: str, many: str = "") -> str:
    """A number with its noun: `1 piece`, `9 pieces`."""
    return f"{number} {one if number == 1 else many or one + 's'}"


def sentence(words: str) -> str:
    """The words with a capital at the start."""
    return words[:1].upper() + words[1:]
