"""What is known of the bodies that drafts are proved on, and what is not, in words for the designer."""

from __future__ import annotations

from collections.abc import Iterable

from app.pattern.body.children import ESTIMATED
from app.pattern.body.wording import measures_for

__all__ = ["known_words"]


def known_words(group: str, needs: Iterable[str]) -> str:
    """Where the figures of a group come from for these measures, and where they are a guess. Empty for no measure."""
    names = [name for name in needs if name != "stature"]
    if not names:
        return ""
    if group != "children":
        return (
            f"The {group} drawn follow surveys of US soldiers, of 1988 and 2012, made larger and more varied for "
            "customers at large: our own judgement. Nobody in them is under 17, over 58 or pregnant."
        )
    measures = measures_for(group)
    told = [measures[name].title.lower() for name in names if name not in ESTIMATED]
    guessed = [measures[name].title.lower() for name in names if name in ESTIMATED]
    said = []
    if told:
        said.append(
            f"A US survey of 1977 tells us children’s {_listed(told)}; how these go together in one child is our own "
            "estimate, and children of today are rounder."
        )
    if guessed:
        said.append(
            f"No survey at hand tells us {_listed(guessed)}: our own estimate, from memory. The proof shows that the "
            "pattern goes together, not that it fits there: try it on children whom you measured."
        )
    return " ".join(said)


def _listed(words: list[str]) -> str:
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"
