"""The printing press: HTML to PDF by WeasyPrint, with our own fonts, nothing fetched, and the same bytes each time."""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import cache
from hashlib import sha256
from mimetypes import guess_type
from pathlib import Path
from threading import Lock
from typing import Any
from urllib.parse import unquote, urlsplit

from weasyprint import CSS, HTML
from weasyprint.text.fonts import FontConfiguration
from weasyprint.urls import URLFetcher, URLFetcherResponse

from app.base.templates import STATIC

__all__ = ["PAPERS", "RefusedAddress", "StaticOnly", "press"]

#: The papers a sheet may be set on, as CSS page sizes: ISO 216 A4, and US Letter (8.5 by 11 in).
PAPERS = {"a4": "A4", "letter": "letter"}
#: A drawing in a page, with the words that say what it shows.
_DRAWING = re.compile(r'<svg\b[^>]*?\baria-label="([^"]*)".*?</svg>', re.DOTALL)
_INK = "#1d2a2a"
#: The fonts are shared, and Pango's font maps may be used by one thread at a time.
_ONE_AT_A_TIME = Lock()


class RefusedAddress(ValueError):
    """A page asked the press for something that is not one of the project's static files."""


class StaticOnly(URLFetcher):
    """Fetches files under one folder, and drawings by their numbers; anything else stops the printing."""

    def __init__(self, folder: Path, drawings: Sequence[str] = ()) -> None:
        """Serve the files under `folder`, and `drawings` (SVG) as `drawing:0`, `drawing:1`..."""
        super().__init__(allowed_protocols=("file", "drawing"), fail_on_errors=True)  # type: ignore[no-untyped-call]
        self._folder = folder.resolve()
        self._drawings = drawings

    def fetch(self, url: str, headers: Any = None) -> URLFetcherResponse:
        """The drawing, or the file under the folder, of an address; raises `RefusedAddress` for any other."""
        parts = urlsplit(url)
        if parts.scheme == "drawing" and parts.path.isdecimal() and int(parts.path) < len(self._drawings):
            return URLFetcherResponse(url, self._drawings[int(parts.path)].encode(), {"Content-Type": "image/svg+xml"})
        path = Path(unquote(parts.path)).resolve()
        if parts.scheme != "file" or parts.netloc or not path.is_relative_to(self._folder):
            raise RefusedAddress(url)
        return URLFetcherResponse(url, path.read_bytes(), {"Content-Type": guess_type(path.name)[0] or "font/ttf"})


@cache
def _fonts() -> FontConfiguration:
    """One for the process: fonts are read once, not for each document."""
    return FontConfiguration()


@cache
def _style(name: str, paper: str) -> tuple[CSS, CSS]:
    fetch, fonts = StaticOnly(STATIC), _fonts()
    sheet = CSS(filename=STATIC / "packs" / name, url_fetcher=fetch, font_config=fonts)
    size = CSS(string=f"@page {{ size: {PAPERS[paper]} }}", url_fetcher=fetch, font_config=fonts)
    return sheet, size


def press(html: str, style: str, paper: str) -> bytes:
    """The PDF of an HTML text, styled by a file of `static/packs`, on a paper of `PAPERS`.

    The file's identifier is made from its text, so equal texts give equal bytes.
    """
    text, drawings = _set_aside(html)
    fetch = StaticOnly(STATIC, drawings)
    page = HTML(string=text, base_url=(STATIC / "packs").as_uri() + "/", url_fetcher=fetch)
    identifier = sha256(f"{paper}\n{html}".encode()).digest()[:16]
    with _ONE_AT_A_TIME:
        pdf = page.write_pdf(
            stylesheets=list(_style(style, paper)), font_config=_fonts(), pdf_identifier=identifier, pdf_tags=True
        )
    return bytes(pdf)


def _set_aside(html: str) -> tuple[str, list[str]]:
    """The page with `img` in place of its drawings, and the drawings.

    Parsed as part of the page, every line of a drawing would be matched against every
    rule of the style: that took a third of the time of an instruction sheet.
    """
    drawings: list[str] = []

    def take(match: re.Match[str]) -> str:
        drawings.append(match[0].replace("<svg", f'<svg color="{_INK}"', 1))
        return f'<img src="drawing:{len(drawings) - 1}" alt="{match[1]}">'

    return _DRAWING.sub(take, html), drawings
