"""Lengths in a form: what the person typed, and the exact length behind it when the form itself wrote the text.

Changing between centimetres and inches rounds what is shown. So the form keeps,
beside each text it wrote, the exact millimetres; as long as the person leaves the
text alone that length stands, and going to and fro between the units loses nothing.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from math import isfinite

from app.pattern.units import LengthError, Unit, read_length, show_length

__all__ = ["ROUNDING", "TYPED", "Kept", "Sent", "kept_name"]

#: Where a length came from when the person typed it; else the name of the size it was filled from.
TYPED = "typed"
#: The most by which a text rounded to the eighth of an inch or the millimetre differs from its length, mm.
ROUNDING = 1.6
#: No length anyone types is longer than this many characters; the rest is cut off.
LONGEST = 40


@dataclass(frozen=True, slots=True)
class Kept:
    """The exact length in mm behind a text the form wrote, and where it came from."""

    mm: float
    origin: str
    text: str

    def written(self) -> str:
        """As the form's hidden field holds it."""
        return f"{self.mm!r}|{self.origin}|{self.text}"


def kept_name(name: str) -> str:
    """The hidden field beside the field `name`."""
    return f"kept-{name}"


def _read_kept(written: str) -> Kept | None:
    mm, _, rest = written.partition("|")
    origin, _, text = rest.partition("|")
    try:
        length = float(mm)
    except ValueError:
        return None
    return Kept(length, origin, text) if isfinite(length) and length >= 0.0 else None


@dataclass(frozen=True, slots=True)
class Sent:
    """A form as it was sent (or is shown first): every text by field name, and the unit of its lengths."""

    texts: Mapping[str, str]
    unit: Unit

    def text(self, name: str) -> str:
        """The text of a field as typed, cut to a sane length; "" when it was not sent."""
        return self.texts.get(name, "")[:LONGEST]

    def kept(self, name: str) -> Kept | None:
        """The exact length behind an untouched text, or None."""
        kept = _read_kept(self.texts.get(kept_name(name), ""))
        if kept is None or kept.text != self.text(name):
            return None
        try:
            shown = read_length(kept.text, self.unit)
        except LengthError:
            return None
        # The hidden field comes from outside too: it may refine the text, never contradict it.
        return kept if abs(shown - kept.mm) <= ROUNDING else None

    def entry(self, name: str) -> str | float:
        """A length for a checker: mm where known exactly, else the text as typed."""
        kept = self.kept(name)
        return self.text(name) if kept is None else kept.mm

    def length(self, name: str) -> float:
        """The length in mm; raises `LengthError` with words for the person."""
        kept = self.kept(name)
        return read_length(self.text(name), self.unit) if kept is None else kept.mm

    def with_length(self, name: str, mm: float, origin: str = TYPED) -> Sent:
        """The same form with this length written into a field."""
        return self.with_text(name, show_length(mm, self.unit, named=False), mm, origin)

    def with_text(self, name: str, text: str, mm: float, origin: str = TYPED) -> Sent:
        """The same form with a text of a person's own in a field, and the exact length behind it."""
        return replace(self, texts={**self.texts, name: text, kept_name(name): Kept(mm, origin, text).written()})

    def switched(self, names: tuple[str, ...], unit: Unit) -> Sent:
        """The same form in another unit: every length that can be read is rewritten, the rest stays as typed."""
        switched = replace(self, unit=unit)
        for name in names:
            try:
                mm = self.length(name)
            except LengthError:
                continue
            kept = self.kept(name)
            switched = switched.with_length(name, mm, TYPED if kept is None else kept.origin)
        return switched
