"""A designer's Markdown as safe HTML: no raw HTML, no pictures and no links, so that a draft can fetch nothing."""

from __future__ import annotations

from markdown_it import MarkdownIt
from markupsafe import Markup

__all__ = ["prose"]

_MARKDOWN = (
    MarkdownIt("commonmark", {"html": False, "typographer": True})
    .enable(["replacements", "smartquotes", "table"])
    .disable(["html_inline", "html_block", "image", "link", "autolink", "reference"])
)


def prose(markdown: str) -> Markup:
    """The text as HTML that may be set into a template as it is."""
    return Markup(_MARKDOWN.render(markdown))
