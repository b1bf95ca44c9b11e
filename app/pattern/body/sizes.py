"""The sizes to start from, of whomever a draft is for: women's by bust, men's by letter, children's by height."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from types import MappingProxyType

from app.pattern.body.chart import SIZES, size_body
from app.pattern.body.populations_children import STATURES, child_sizes
from app.pattern.body.populations_standard import MEN_SIZES, men_sizes
from app.pattern.units import Unit, show_length

__all__ = ["USUAL_SIZES", "size_words", "sizes_for"]

#: The size that a form offers first, by group: one in the middle (children's is that of the draft's own statures).
USUAL_SIZES: Mapping[str, str] = MappingProxyType({"women": "92", "men": "M", "children": "116"})


@cache
def sizes_for(group: str, statures: tuple[float, float] | None = None) -> Mapping[str, Mapping[str, float]]:
    """Every size of a group by name, with its body in mm; children's within the statures that a draft offers."""
    if group == "children":
        return MappingProxyType(child_sizes(statures or STATURES))
    if group == "men":
        return MappingProxyType(men_sizes())
    return MappingProxyType({name: size_body(name) for name in SIZES})


def size_words(group: str) -> str:
    """What the sizes go by, as a hint beside them."""
    if group == "children":
        return "By height, in centimetres."
    if group == "men":
        chests = ", ".join(f"{name} {show_length(mm, Unit.CM, named=False)}" for name, mm in MEN_SIZES.items())
        return f"By chest girth, in centimetres: {chests}."
    return "By bust girth, in centimetres."
