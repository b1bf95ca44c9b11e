"""Lengths in a form: what the person typed, and the exact length behind it when the form itself wrote the text.

Changing between centimetres and inches rounds what is shown. So the form keeps,
beside each text it wrote, the exact millimetres; as long as the person leaves the
text alone that length stands, and going to and fro between the units loses nothing.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from app.pattern.units import LengthError, Unit, read_change, show_length

__all__ = ["ROUNDING", "TYPED", "ExactLength", "TypedForm", "exact_field"]

#: Where a length came from when the person typed it; else the name of the size it was filled from.
TYPED = "typed"
#: The most by which a text rounded to the eighth of an inch or the millimetre differs from its length, mm.
ROUNDING = 1.6
#: No length anyone types is longer than this many characters; the rest is cut off.
LONGEST = 40


@dataclass(frozen=True, slots=True)
class ExactLength:
    """The exact length in mm behind a text the form wrote, and where it came from."""

    mm: float
    origin: str
    text: str

    def as_hidden_field(self) -> str:
        """As the form's hidden field holds it."""
        return f"{self.mm!r}|{self.origin}|{self.text}"


def exact_field(name: str) -> str:
    """The hidden field beside the field `name`."""
    return f"kept-{name}"


@dataclass(frozen=True, slots=True)
class TypedForm:
    """A form as it was sent (or is shown first): every text by field name, and the unit of its lengths."""

    texts: Mapping[str, str]
    unit: Unit

    def text(self, name: str) -> str:
        """The text of a field as typed, cut to a sane length; "" when it was not sent."""
        return self.texts.get(name, "")[:LONGEST]

    def exact(self, name: str) -> ExactLength | None:
        """The exact length behind an untouched text, or None."""
        mm, _, rest = self.texts.get(exact_field(name), "").partition("|")
        origin, _, text = rest.partition("|")
        if text != self.text(name):
            return None
        try:
            exact, shown = ExactLength(float(mm), origin, text), read_change(text, self.unit)
        except ValueError:
            return None
        # The hidden field comes from outside too: it may refine the text, never contradict it.
        return exact if (exact.mm >= 0.0 or shown < 0.0) and abs(shown - exact.mm) <= ROUNDING else None

    def length_or_text(self, name: str) -> str | float:
        """A length for a checker: mm where known exactly, else the text as typed."""
        exact = self.exact(name)
        return self.text(name) if exact is None else exact.mm

    def length(self, name: str) -> float:
        """The length in mm, less than nothing with a minus; raises `LengthError` with words for the person."""
        exact = self.exact(name)
        return read_change(self.text(name), self.unit) if exact is None else exact.mm

    def with_length(self, name: str, mm: float, origin: str = TYPED) -> TypedForm:
        """The same form with this length written into a field."""
        return self.with_text(name, show_length(mm, self.unit, named=False), mm, origin)

    def with_text(self, name: str, text: str, mm: float, origin: str = TYPED) -> TypedForm:
        """The same form with a text of a person's own in a field, and the exact length behind it."""
        return replace(
            self, texts={**self.texts, name: text, exact_field(name): ExactLength(mm, origin, text).as_hidden_field()}
        )

    def in_unit(self, names: tuple[str, ...], unit: Unit) -> TypedForm:
        """The same form in another unit: every length that can be read is rewritten, the rest stays as typed."""
        switched = replace(self, unit=unit)
        for name in names:
            try:
                mm = self.length(name)
            except LengthError:
                continue
            exact = self.exact(name)
            switched = switched.with_length(name, mm, TYPED if exact is None else exact.origin)
        return switched
