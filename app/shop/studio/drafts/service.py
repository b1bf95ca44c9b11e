"""The draft room's work: what a listing's draft page needs to know, and keeping a text as a new version."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from sqlalchemy.orm import Session

from app.base.database import Database
from app.pattern.drafting.advice import NO_PIECE
from app.pattern.make import Choice
from app.pattern.problem import Problem
from app.shop.catalogue.cards import cannot_settle, draft_name
from app.shop.catalogue.models import DraftVersion, Listing
from app.shop.catalogue.service import add_draft_version, newest_version
from app.shop.studio.desk.service import VersionRow, offered, versions
from app.shop.studio.drafts.check import Reading, Subject, subject_of
from app.shop.studio.drafts.found import reading_of

__all__ = ["Desk", "Kept", "desk_of", "keep", "subject_for"]


@dataclass(frozen=True, slots=True)
class Desk:
    """A listing with its draft's newest version, and every version's row, newest first."""

    listing: Listing
    newest: DraftVersion | None
    rows: Sequence[VersionRow]

    @property
    def offered(self) -> tuple[Choice, ...]:
        """The choices of the newest version, settled ones too; read outside any transaction."""
        return offered(self.listing, self.newest)


def desk_of(session: Session, listing: Listing) -> Desk:
    """What the draft page of a listing shows of its versions."""
    newest = newest_version(session, listing)
    return Desk(listing, newest, versions(session, listing))


def subject_for(listing: Listing, text: str) -> Subject:
    """A text as the draft of this listing."""
    return subject_of(text, draft_name(listing), listing.settled)


@dataclass(frozen=True, slots=True)
class Kept:
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


def keep(database: Database, listing: Listing, text: str) -> Kept | tuple[Problem, ...]:
    """Keep a text as the listing's newest version; only one that can be read is kept, else what is wrong with it.

    It is read first, which may take its time, and written then.
    """
    reading = reading_of(subject_for(listing, text))
    problems = reading.problems or cannot_settle(listing, text)
    return problems or database.write(_keep, listing, text, reading)


def _keep(session: Session, listing: Listing, text: str, reading: Reading) -> Kept:
    before = newest_version(session, listing)
    version = add_draft_version(session, listing, text)
    lacking = next((advice.message for advice in reading.advice if advice.code == NO_PIECE), "")
    return Kept(version, version is not before, lacking)
