"""The draft language: `parse` reads a text into the nodes of `nodes`."""

from app.pattern.language.lines import Source
from app.pattern.language.near import nearest, suggest
from app.pattern.language.nodes import Draft
from app.pattern.language.parse import Parsed, parse

__all__ = ["Draft", "Parsed", "Source", "nearest", "parse", "suggest"]
