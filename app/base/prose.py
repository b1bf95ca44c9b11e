"""A designer's Markdown as safe HTML: raw HTML comes out as text, and on paper nothing can be fetched."""

from __future__ import annotations

from markdown_it import MarkdownIt
from markupsafe import Markup

__all__ = ["on_page", "printed"]


def _markdown() -> MarkdownIt:
    """The one Markdown of the project: tables and typographic signs, no HTML."""
    parser = MarkdownIt("commonmark", {"html": False, "typographer": True})
    return parser.enable(["replacements", "smartquotes", "table"])


_ON_PAGE = _markdown()
#: On paper there is nothing to press, and the press fetches nothing.
_PRINTED = _markdown().disable(["html_inline", "html_block", "image", "link", "autolink", "reference"])


def on_page(markdown: str) -> Markup:
    """The text as HTML for a page of the shop, with its links."""
    return Markup(_ON_PAGE.render(markdown))


def printed(markdown: str) -> Markup:
    """The text as HTML for a printed sheet, without links and pictures."""
    return Markup(_PRINTED.render(markdown))
