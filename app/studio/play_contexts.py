"""What the play-back of a draft shows: one sheet as it stood after a line, and the way to its other lines."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from math import degrees
from urllib.parse import urlencode

from markupsafe import Markup

from app.catalogue.models import Listing
from app.orders.contexts import Pair
from app.pattern.drafting.playback import Frame, frame_at
from app.pattern.drafting.shapes.changes import told
from app.pattern.drawing.playback import box_of, frame_svg
from app.pattern.guide.drawing import DrawnDraft
from app.pattern.language import nodes as n
from app.pattern.problem import Span
from app.pattern.units import Unit, show_length
from app.studio.access import VersionOf
from app.studio.draft_check import Subject, drawn, read_text
from app.studio.draft_contexts import size_field
from app.studio.draft_forms import DraftEntry
from app.studio.draft_parts import lines_of
from app.studio.draft_service import subject_for
from app.web.fields import Field

__all__ = ["PlayPage", "Step", "kept_play_page", "sent_play_page"]

#: What one picture shows: things its line drew, and things drawn before (the fullest sheet of the catalogue has half).
MOST_NEWEST, MOST_OLDER = 24, 200


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


def kept_play_page(of: VersionOf, line: int, size: str) -> PlayPage | None:
    """A frame of a version that is kept; None when nothing of it can be drawn."""
    subject = subject_for(of.listing, of.version.text)
    address = f"{of.address}/lines"
    return _page(
        of.listing, subject, DraftEntry(of.version.text, size, line), (f"Version {of.version.number}", address)
    )


def sent_play_page(listing: Listing, entry: DraftEntry) -> PlayPage | None:
    """A frame of a text that was sent and is not kept; None when nothing of it can be drawn."""
    return _page(listing, subject_for(listing, entry.text), entry, ("The text in the editor", ""))


def _page(listing: Listing, subject: Subject, entry: DraftEntry, named: tuple[str, str]) -> PlayPage | None:
    if entry.problem is not None:
        return None
    drawing = drawn(subject, entry.size)
    by_sheet = lines_of(drawing) if isinstance(drawing, DrawnDraft) else {}
    if not isinstance(drawing, DrawnDraft) or not by_sheet:
        return None
    sheet = _sheet_at(by_sheet, entry.line)
    lines, rows = by_sheet[sheet], subject.text.split("\n")
    at = max(bisect_right(lines, entry.line) - 1, 0)
    frame, whole = (_bounded(frame_at(drawing.env, drawing.program, line)) for line in (lines[at], lines[-1]))
    reading = read_text(subject)
    of, address = named
    way = _Way(address, reading.size(entry.size).id)
    return PlayPage(
        slug=listing.slug,
        title=listing.title,
        of=of,
        address=address or f"/studio/listings/{listing.slug}/draft/lines",
        text="" if address else entry.text,
        sent=not address,
        size=size_field(reading, entry.size),
        sheet=sheet,
        sheets=tuple(Step(name, some[0], way.to(some[0]), name == sheet) for name, some in by_sheet.items()),
        ways=_ways(lines, at, way),
        place=f"{at + 1} of {len(lines)}",
        line=frame.line,
        words=" ".join(frame.words.split()),
        measures=tuple(Pair(name.replace("_", " "), words) for name, words in _measures(drawing, frame)),
        changed=tuple(told(change, Unit.CM) for change in frame.changes[:MOST_NEWEST]),
        drawing=Markup(frame_svg(frame, box_of([frame, whole]))),
        lines=tuple(Step(" ".join(rows[line - 1].split()), line, way.to(line), line == frame.line) for line in lines),
        stopped=_stopped(drawing),
    )


def _bounded(frame: Frame) -> Frame:
    """The frame with no more on it than can be told apart: a line that is repeated may have drawn thousands."""
    newest = [thing for thing in frame.things if thing.newest][-MOST_NEWEST:]
    older = [thing for thing in frame.things if not thing.newest][-MOST_OLDER:]
    return replace(frame, things=(*newest, *older), measures=frame.measures[-MOST_NEWEST:])


def _sheet_at(by_sheet: dict[str, tuple[int, ...]], line: int) -> str:
    """The last sheet that begins at or before a line; the first sheet for a line before all of them."""
    begun = [name for name, lines in by_sheet.items() if lines[0] <= line]
    return begun[-1] if begun else next(iter(by_sheet))


def _ways(lines: tuple[int, ...], at: int, way: _Way) -> tuple[Step, ...]:
    last = len(lines) - 1
    named = (("First", "first", 0), ("Previous", "previous", at - 1), ("Next", "next", at + 1), ("Last", "last", last))
    return tuple(
        Step(title, 0, way=name)
        if index == at or not 0 <= index <= last
        else Step(title, lines[index], way.to(lines[index]), way=name)
        for title, name, index in named
    )


def _measures(drawing: DrawnDraft, frame: Frame) -> list[tuple[str, str]]:
    kinds = {}
    for sheet in drawing.program.draft.sheets:
        if sheet.name == frame.sheet:
            kinds = {
                (line, name): drawing.program.kinds.get(id(value), "") for name, value, line in _values(sheet.steps)
            }
    return [(name, _figure(value, kinds.get((frame.line, name), ""))) for name, value in frame.measures]


def _values(steps: Iterable[n.StepNode]) -> Iterator[tuple[str, n.Assign | n.Expr, int]]:
    """What tells the kind of each name that steps give, with its line."""
    for step in steps:
        if isinstance(step, n.Assign):
            yield step.name, step, step.span.line
        else:
            yield from _values(step.steps)
        if isinstance(step, n.Solve):
            yield step.name, step.least, step.span.line


def _figure(value: float, kind: str) -> str:
    """A value in words: mm, radians and square millimetres as people read them."""
    if kind == "length":
        return show_length(value, Unit.CM)
    if kind == "angle":
        return f"{degrees(value):.1f}°"
    return f"{value / 100.0:.1f} cm²" if kind == "area" else f"{value:g}"


def _stopped(drawing: DrawnDraft) -> str:
    if not drawing.problems:
        return ""
    first = drawing.problems[0]
    where = f"Line {first.where.line}: " if isinstance(first.where, Span) else ""
    return f"{where}{first.message} {first.fix}"
