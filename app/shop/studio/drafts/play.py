"""One frame of a draft's drawing, worked out by a helper (`app.base.aside`): a sheet as it stood after a line."""

from __future__ import annotations

from bisect import bisect_right
from dataclasses import dataclass, replace
from math import degrees

from markupsafe import Markup

from app.base import aside
from app.pattern.drafting.playback import Frame, frame_at
from app.pattern.drafting.shapes.changes import change_in_words
from app.pattern.drawing.playback import box_of, frame_svg
from app.pattern.guide.drawing import DrawnDraft
from app.pattern.language import nodes as n
from app.pattern.language.walk import find_all
from app.pattern.problem import Refused, Span, spelled_out
from app.pattern.units import Unit, show_length
from app.shop.orders.shown import Pair
from app.shop.studio.drafts.check import DraftReading, DraftSource, draw_source, read_text
from app.shop.studio.drafts.parts import lines_of

__all__ = ["PlayedFrame", "work_out_frame", "frame_at_line"]

#: What one picture shows: things its line drew, and things drawn before (the fullest sheet of the catalogue has half).
MOST_NEWEST, MOST_OLDER = 24, 200


@dataclass(frozen=True, slots=True)
class PlayedFrame:
    """A frame: its sheet and line, all `lines` of that sheet that draw, and the first line of each of the `sheets`.

    `measures` are the lengths that the line gave, `changed` tells what its work changed; `stopped` says where drawing
    could not go on for this body.
    """

    reading: DraftReading
    sheet: str
    sheets: tuple[tuple[str, int], ...]
    lines: tuple[int, ...]
    line: int
    words: str
    measures: tuple[Pair, ...]
    changed: tuple[str, ...]
    drawing: Markup
    stopped: str


def frame_at_line(source: DraftSource, size: str, line: int) -> PlayedFrame | None:
    """A text's drawing up to a line, for a size of its chart; None when nothing of it can be drawn.

    Raises `Busy` when no helper is free.
    """
    played = aside.run(work_out_frame, source, size, line)
    return None if isinstance(played, Refused) else played


def work_out_frame(source: DraftSource, size: str, line: int) -> PlayedFrame | None:
    """The work of `frame_at_line`, as a helper does it."""
    drawing = draw_source(source, size)
    by_sheet = lines_of(drawing) if isinstance(drawing, DrawnDraft) else {}
    if not isinstance(drawing, DrawnDraft) or not by_sheet:
        return None
    # The last sheet that begins at or before the line; the first one for a line before all of them.
    begun = [name for name, some in by_sheet.items() if some[0] <= line]
    sheet = begun[-1] if begun else next(iter(by_sheet))
    lines = by_sheet[sheet]
    at = max(bisect_right(lines, line) - 1, 0)
    frame, whole = (_bounded(frame_at(drawing.env, drawing.program, each)) for each in (lines[at], lines[-1]))
    first = drawing.problems[0] if drawing.problems else None
    place = f"Line {first.where.line}: " if first and isinstance(first.where, Span) else ""
    return PlayedFrame(
        reading=read_text(source),
        sheet=sheet,
        sheets=tuple((name, some[0]) for name, some in by_sheet.items()),
        lines=lines,
        line=frame.line,
        words=" ".join(frame.words.split()),
        measures=tuple(Pair(name.replace("_", " "), words) for name, words in _measures(drawing, frame)),
        changed=tuple(change_in_words(change, Unit.CM) for change in frame.changes[:MOST_NEWEST]),
        drawing=Markup(frame_svg(frame, box_of([frame, whole]))),
        stopped=place + spelled_out([first]) if first else "",
    )


def _bounded(frame: Frame) -> Frame:
    """The frame with no more on it than can be told apart: a line that is repeated may have drawn thousands."""
    newest = [thing for thing in frame.things if thing.newest][-MOST_NEWEST:]
    older = [thing for thing in frame.things if not thing.newest][-MOST_OLDER:]
    return replace(frame, things=(*newest, *older), measures=frame.measures[-MOST_NEWEST:])


def _measures(drawing: DrawnDraft, frame: Frame) -> list[tuple[str, str]]:
    sheet = tuple(sheet for sheet in drawing.program.draft.sheets if sheet.name == frame.sheet)
    kinds = {}
    for step in find_all(sheet, n.Assign, n.Solve):
        says = step if isinstance(step, n.Assign) else step.least
        kinds[step.span.line, step.name] = drawing.program.kinds.get(id(says), "")
    return [(name, _figure(value, kinds.get((frame.line, name), ""))) for name, value in frame.measures]


def _figure(value: float, kind: str) -> str:
    """A value in words: mm, radians and square millimetres as people read them."""
    if kind == "length":
        return show_length(value, Unit.CM)
    if kind == "angle":
        return f"{degrees(value):.1f}°"
    return f"{value / 100.0:.1f} cm²" if kind == "area" else f"{value:g}"
