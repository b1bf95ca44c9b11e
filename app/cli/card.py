"""A draft's file as the commands that make patterns of it need it."""

from __future__ import annotations

from pathlib import Path

from app.cli.words import tell, text_of
from app.pattern.make import DraftCard, read_draft
from app.pattern.problem import Refused

__all__ = ["card_of"]


def card_of(path: Path) -> tuple[str, DraftCard] | None:
    """A draft's text and card; None, its problems told on stderr, when it cannot be read."""
    text = text_of(path)
    if text is None:
        return None
    card = read_draft(text, path.name)
    if isinstance(card, Refused):
        tell(card.problems)
        return None
    return text, card
