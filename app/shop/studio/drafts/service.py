"""The draft room's work: what a listing's draft page needs to know, and keeping a text as a new version."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from sqlalchemy.orm import Session

from app.base.database import Database
from app.pattern.drafting.advice import NO_PIECE
from app.pattern.make import Choice
from app.pattern.problem import Refused
from app.shop.catalogue.cards import cannot_settle, draft_name
from app.shop.catalogue.models import DraftVersion, Listing
from app.shop.catalogue.service import add_draft_version, newest_version
from app.shop.studio.desk.service import VersionRow, choices_offered, versions
from app.shop.studio.drafts.check import DraftReading, DraftSource, draft_source
from app.shop.studio.drafts.findings import reading_of

__all__ = ["DraftHistory", "KeptText", "draft_history", "keep_text", "source_for"]


@dataclass(frozen=True, slots=True)
class DraftHistory:
    """A listing with its draft's newest version, and every version's row, newest first."""

    listing: Listing
    newest: DraftVersion | None
    rows: Sequence[VersionRow]

    @property
    def offered(self) -> tuple[Choice, ...]:
        """The choices of the newest version, settled ones too; read outside any transaction."""
        return choices_offered(self.listing, self.newest)


def draft_history(session: Session, listing: Listing) -> DraftHistory:
    """What the draft page of a listing shows of its versions."""
    newest = newest_version(session, listing)
    return DraftHistory(listing, newest, versions(session, listing))


def source_for(listing: Listing, text: str) -> DraftSource:
    """A text as the draft of this listing."""
    return draft_source(text, draft_name(listing), listing.settled)


@dataclass(frozen=True, slots=True)
class KeptText:
    """The newest version once a text was kept, whether the text changed anything, and what keeps it from being proved.

    `lacking` is "" for a text that can be proved as it stands.
    """

    version: DraftVersion
    changed: bool
    lacking: str = ""

    @property
    def notice(self) -> str:
        """What the designer is told."""
        if self.changed and self.lacking:
            return f"Version {self.version.number} is kept. {self.lacking}"
        if self.changed:
            return f"Version {self.version.number} is kept. A worker proves it by itself."
        return f"Nothing has changed: version {self.version.number} is this very text."


def keep_text(database: Database, listing: Listing, text: str) -> KeptText | Refused:
    """Keep a text as the listing's newest version; only one that can be read is kept, else what is wrong with it.

    It is read first, which may take its time, and written then.
    """
    reading = reading_of(source_for(listing, text))
    problems = reading.problems or cannot_settle(listing, text)
    return Refused(problems) if problems else database.write(_keep, listing, text, reading)


def _keep(session: Session, listing: Listing, text: str, reading: DraftReading) -> KeptText:
    before = newest_version(session, listing)
    version = add_draft_version(session, listing, text)
    lacking = next((advice.message for advice in reading.advice if advice.code == NO_PIECE), "")
    return KeptText(version, version is not before, lacking)
