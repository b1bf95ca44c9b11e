"""What the page of a listing's draft shows: the editor, what is wrong, what it draws, and the versions kept."""

from __future__ import annotations

from dataclasses import dataclass, replace

from app.pattern.guide.first_skirt import FIRST_SKIRT
from app.pattern.problem import Refused
from app.shop.catalogue.models import DraftVersion, Listing
from app.shop.proofs.service import why_not_sold
from app.shop.proofs.words import proof_words
from app.shop.studio.designs.settled_view import settled_words
from app.shop.studio.desk.service import VersionRow
from app.shop.studio.drafts.check import DraftReading
from app.shop.studio.drafts.findings import DraftFindings, changes_between, draft_findings, format_text
from app.shop.studio.drafts.form import DraftEntry
from app.shop.studio.drafts.parts import (
    ChangeRow,
    DraftResult,
    NumberedRow,
    OutlineGroup,
    ProblemLine,
    numbered_rows,
    outline_groups,
    problem_line,
)
from app.shop.studio.drafts.service import DraftHistory, source_for
from app.web.fields import Field, Option
from app.web.words import count, day, sentence

__all__ = [
    "DraftPage",
    "VersionShown",
    "begun_text",
    "draft_page",
    "first_text",
    "label_of",
    "formatted_entry",
    "size_field",
]


@dataclass(frozen=True, slots=True)
class VersionShown:
    """A version in the list; `sells` when it can go on sale and is not."""

    number: int
    kept: str
    proof: str
    on_sale: bool
    sells: bool


@dataclass(frozen=True, slots=True)
class DraftPage:
    """The draft room for one listing.

    `told` says what became of the text, `tone` how grave that is; `problems` are those of reading it,
    `advice` is what it leaves unsaid or unused.
    `instead` is what stood in the editor before a file took its place.
    """

    slug: str
    title: str
    address: str
    label: str
    standing: str
    settled: str
    sell: int
    text: str
    checked: bool
    told: str
    tone: str
    problems: tuple[ProblemLine, ...]
    advice: tuple[ProblemLine, ...]
    instead: str
    size: Field | None
    size_words: str
    outline: tuple[OutlineGroup, ...]
    look: DraftResult | None
    rows: tuple[NumberedRow, ...]
    versions: tuple[VersionShown, ...]
    changes_words: str
    changes: tuple[ChangeRow, ...]


def draft_page(history: DraftHistory, entry: DraftEntry, *, label: str = "", refused: str = "") -> DraftPage:
    """The page with a text in the editor, read and drawn for a size; `refused` says what was not done, and why."""
    listing = history.listing
    rows = entry.text.split("\n")
    source = source_for(listing, entry.text)
    blank = not entry.text.strip() or entry.text == first_text(listing)
    unread = DraftReading(entry.problems, None, ())
    found = DraftFindings(unread) if entry.problems or blank else draft_findings(source, entry.size)
    reading, look = found.reading, found.look
    problems = tuple(problem_line(one, rows) for one in reading.problems)
    ends = {name: (lines[0], lines[-1]) for name, lines in found.lines.items()}
    standing, sell = _standing(history)
    pair, settled = _pair(history), settled_words(listing, history.offered)
    return DraftPage(
        slug=listing.slug,
        title=listing.title,
        address=f"/studio/listings/{listing.slug}",
        label=label,
        standing=standing,
        settled=f"{settled}. That stays for good: its draft must offer it, and is drawn so here." if settled else "",
        sell=sell,
        text=entry.text,
        checked=not blank,
        told=refused or _told(reading, look),
        tone="wrong" if problems or refused else "warn" if look and (look.refused or look.checks) else "good",
        problems=problems,
        advice=tuple(problem_line(one, rows) for one in reading.advice),
        instead=entry.instead,
        size=size_field(reading, entry.size),
        size_words=reading.size(entry.size).id if reading.outline else "",
        outline=outline_groups(reading.outline, ends) if reading.outline is not None else (),
        look=look,
        rows=() if blank else numbered_rows(rows, found.lines, {one.line for one in problems}),
        versions=tuple(_version(row, listing, history) for row in history.rows),
        changes_words=f"What version {pair[1].number} changes in version {pair[0].number}" if pair else "",
        changes=changes_between(pair[0].text, pair[1].text) if pair else (),
    )


def first_text(listing: Listing) -> str:
    """What stands in the editor before a first version is kept."""
    title = listing.title.replace('"', "”")
    return f'draft "{title}"\n'


def begun_text(listing: Listing) -> str:
    """The guide's first skirt under the listing's own title, to begin with."""
    return FIRST_SKIRT.replace('draft "First skirt"\n', first_text(listing))


def formatted_entry(entry: DraftEntry, name: str) -> tuple[DraftEntry, str]:
    """The entry with its text in the one canonical layout; what was not done, where it cannot be read."""
    laid = Refused(entry.problems) if entry.problems else format_text(entry.text, name)
    if isinstance(laid, Refused):
        return entry, "It is set out once it can be read: mend these lines first."
    return replace(entry, text=laid), ""


def size_field(reading: DraftReading, wanted: str) -> Field | None:
    """The sizes of the chart to draw for; None while the text cannot be read."""
    if not reading.sizes:
        return None
    shown = reading.size(wanted).id
    options = tuple(Option(size.id, sentence(size.id), size.id == shown) for size in reading.sizes)
    return Field(name="size", label="Body it is drawn for", kind="select", options=options)


def _told(reading: DraftReading, look: DraftResult | None) -> str:
    if reading.problems:
        return f"{count(len(reading.problems), 'thing')} to mend in the text."
    if look is None:
        return ""
    advised = " Advice on it stands below; it can be kept all the same." if reading.advice else ""
    if look.refused:
        return f"The text reads well, but nothing can be drawn from it for this body.{advised}"
    return f"The text reads well and can be drawn. {look.checks_words}{advised}"


def _version(row: VersionRow, listing: Listing, history: DraftHistory) -> VersionShown:
    on_sale = listing.published and row.number == _current(history)
    return VersionShown(
        number=row.number,
        kept=day(row.kept_at),
        proof=proof_words(row.proof),
        on_sale=on_sale,
        sells=not on_sale and not why_not_sold(row.proof),
    )


def _current(history: DraftHistory) -> int:
    current = history.listing.current_version
    return current.number if current is not None else 0


def _standing(history: DraftHistory) -> tuple[str, int]:
    """How the newest version stands, and its number when it can be put on sale now (else 0)."""
    if not history.rows:
        return "No version is kept yet.", 0
    newest = history.rows[0]
    if newest.number == _current(history) and history.listing.published:
        unread = " ".join(problem.message for problem in why_not_sold(newest.proof))
        return f"Version {newest.number} is on sale. {unread}".strip(), 0
    unsold = why_not_sold(newest.proof)
    beside = f" Version {_current(history)} stays on sale meanwhile." if history.listing.published else ""
    if not unsold:
        return f"Version {newest.number} is proved and can go on sale.{beside}", newest.number
    why = " ".join(problem.message for problem in unsold)
    proved = proof_words(newest.proof).removesuffix(".")
    return f"Version {newest.number} is on trial: {proved}. {why}{beside}", 0


def _pair(history: DraftHistory) -> tuple[DraftVersion, DraftVersion] | None:
    """The version that orders use and the newest, where they differ."""
    current, newest = history.listing.current_version, history.newest
    return (current, newest) if current is not None and newest is not None and newest.id != current.id else None


def label_of(history: DraftHistory, shown: DraftVersion | None) -> str:
    """What stands in the editor, in words."""
    if shown is None:
        return "A first draft"
    if history.newest is not None and shown.number < history.newest.number:
        return f"Version {shown.number}, an older one. Kept again, it becomes the newest."
    return f"Version {shown.number}"
