"""What the play-back of a draft shows: one sheet as it stood after a line, and the way to its other lines."""

from __future__ import annotations

from dataclasses import dataclass
from urllib.parse import urlencode

from markupsafe import Markup

from app.shop.catalogue.models import Listing
from app.shop.orders.shown import Pair
from app.shop.studio.access import ListingVersion
from app.shop.studio.drafts.check import DraftSource
from app.shop.studio.drafts.form import DraftEntry
from app.shop.studio.drafts.play import frame_at_line
from app.shop.studio.drafts.service import source_for
from app.shop.studio.drafts.view import size_field
from app.web.fields import Field

__all__ = ["PlayPage", "Step", "kept_play_page", "sent_play_page"]


@dataclass(frozen=True, slots=True)
class Step:
    """A way to another line's frame. `way` is "first", "previous", "next", "last" or ""; `line` is 0 for none."""

    title: str
    line: int
    address: str = ""
    here: bool = False
    way: str = ""


@dataclass(frozen=True, slots=True)
class PlayPage:
    """One frame of a sheet. Of a version that is kept the steps are links; of a text that was `sent`, buttons.

    `measures` are the lengths that the line gave, `changed` tells what its work changed; `stopped` says where drawing
    could not go on for this body.
    """

    slug: str
    title: str
    of: str
    address: str
    text: str
    sent: bool
    size: Field | None
    sheet: str
    sheets: tuple[Step, ...]
    ways: tuple[Step, ...]
    place: str
    line: int
    words: str
    measures: tuple[Pair, ...]
    changed: tuple[str, ...]
    drawing: Markup
    lines: tuple[Step, ...]
    stopped: str


@dataclass(frozen=True, slots=True)
class _Way:
    """How the address of another frame is made; "" where the text was sent and buttons do."""

    address: str
    size: str

    def to(self, line: int) -> str:
        return f"{self.address}?{urlencode({'line': line, 'size': self.size})}#sheet" if self.address else ""


def kept_play_page(of: ListingVersion, line: int, size: str) -> PlayPage | None:
    """A frame of a version that is kept; None when nothing of it can be drawn."""
    source = source_for(of.listing, of.version.text)
    address = f"{of.address}/lines"
    return _page(of.listing, source, DraftEntry(of.version.text, size, line), (f"Version {of.version.number}", address))


def sent_play_page(listing: Listing, entry: DraftEntry) -> PlayPage | None:
    """A frame of a text that was sent and is not kept; None when nothing of it can be drawn."""
    return _page(listing, source_for(listing, entry.text), entry, ("The text in the editor", ""))


def _page(listing: Listing, source: DraftSource, entry: DraftEntry, named: tuple[str, str]) -> PlayPage | None:
    played = None if entry.problems else frame_at_line(source, entry.size, entry.line)
    if played is None:
        return None
    lines, rows = played.lines, source.text.split("\n")
    of, address = named
    way = _Way(address, played.reading.size(entry.size).id)
    at = lines.index(played.line) if played.line in lines else 0
    return PlayPage(
        slug=listing.slug,
        title=listing.title,
        of=of,
        address=address or f"/studio/listings/{listing.slug}/draft/lines",
        text="" if address else entry.text,
        sent=not address,
        size=size_field(played.reading, entry.size),
        sheet=played.sheet,
        sheets=tuple(Step(name, line, way.to(line), name == played.sheet) for name, line in played.sheets),
        ways=_ways(lines, at, way),
        place=f"{at + 1} of {len(lines)}",
        line=played.line,
        words=played.words,
        measures=played.measures,
        changed=played.changed,
        drawing=played.drawing,
        lines=tuple(Step(" ".join(rows[line - 1].split()), line, way.to(line), line == played.line) for line in lines),
        stopped=played.stopped,
    )


def _ways(lines: tuple[int, ...], at: int, way: _Way) -> tuple[Step, ...]:
    last = len(lines) - 1
    named = (("First", "first", 0), ("Previous", "previous", at - 1), ("Next", "next", at + 1), ("Last", "last", last))
    return tuple(
        Step(title, 0, way=name)
        if index == at or not 0 <= index <= last
        else Step(title, lines[index], way.to(lines[index]), way=name)
        for title, name, index in named
    )
