"""A draft's file as the commands that make patterns of it need it."""

from __future__ import annotations

from pathlib import Path

from app.cli.words import tell, text_of
from app.pattern.make import DraftCard, read_draft

__all__ = ["card_of"]


def card_of(path: Path) -> tuple[str, DraftCard] | None:
    """A draft's text and card; None, its problems told on stderr, when it cannot be read."""
    text = text_of(path)
    card = read_draft(text, path.name) if text is not None else ()
    if text is None or isinstance(card, tuple):
        tell(card if isinstance(card, tuple) else ())
        return None
    return text, card
