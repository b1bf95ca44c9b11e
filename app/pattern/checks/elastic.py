"""Elastic: it is shorter than the body it holds and than the cloth it draws in, not less than half of that, and its
ends are held.

Why: elastic as long as the waist lies there slack and the skirt slips; what is drawn in to under half does not come
back evenly. Elastic is cut a few centimetres shorter than the body (common practice). A girth drawn in to under 60
cm is a limb's, of which there are two. Shirring elastic is a thread on a bobbin, of which rows use up any length;
but a row must end in a seam or a hem, or it pulls out.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from app.pattern.checks.check import Check
from app.pattern.checks.joints import free_edges
from app.pattern.checks.shirring import LEAST_RATIO, MOST_RATIO, elastics
from app.pattern.checks.table import CuttingTable, finding, run_words
from app.pattern.geometry import distance_to
from app.pattern.names import dotted
from app.pattern.pieces.measure import seam_lengths
from app.pattern.pieces.model import CornerCut, Mark, MarkKind, Notion, Pattern, Piece
from app.pattern.problem import Measured, Place, Problem, Severity, Told
from app.pattern.units import mm

__all__ = ["CHECK", "LEAST_SHARE", "OVERLAP"]

#: Elastic is at least this share of the flat cloth that it draws in (common practice).
LEAST_SHARE = 0.5
#: Its ends overlap by so much at most (mm), where the body under it is not known.
OVERLAP = 50.0
#: It is shorter than the body under it by this at least, mm.
SLACK = 5.0
#: A full width under this (mm) is a limb's, of which there are two.
_LIMB = 600.0
#: A row ends on an edge when it comes this near (mm).
_ENDS = 12.0
_THREAD = re.compile(r"\bshirr|\bthread\b", re.I)
_SHIRRED = re.compile(r"\bshirr", re.I)


_LONG = Told(
    "checks.elastic-slack",
    "An elastic would be as long as what it should draw in, and hold nothing. Lay it round you where it will sit, "
    "and cut it so that it holds without pressing.",
    Severity.WARNING,
)
_SHORT = Told(
    "checks.elastic-short",
    "An elastic would be less than half as long as the cloth that it draws in. Lay it round you where it will sit "
    "before you cut it.",
    Severity.WARNING,
)
_LOOSE = Told(
    "checks.shirring-loose",
    "Rows of shirring end at an edge that no seam holds. Knot their ends, and stitch across them.",
    Severity.WARNING,
)


@dataclass(frozen=True, slots=True)
class _Drawn:
    """What an elastic may lie in: its name in words, its flat width and the longest elastic that still holds, mm."""

    words: str
    full: float
    most: float
    bound: str


def _run(table: CuttingTable) -> Iterator[Problem]:
    """Every elastic too long or too short for all that it may lie in, and rows whose ends are held by nothing."""
    pattern = table.pattern
    drawn = tuple(_drawn_in(pattern))
    for notion in elastics(pattern):
        if notion.length and drawn and not _THREAD.search(notion.title):
            yield from _length(notion, drawn)
    for piece, edge in free_edges(pattern):
        if edge.allowance.corner is not CornerCut.TURNED_BACK and not edge.name.startswith("hem"):
            rows = [mark for mark in shirred(piece) if mark.path is not None]
            row = next(
                (
                    mark
                    for mark in rows
                    if mark.path is not None
                    and min(distance_to(edge.path, end) for end in (mark.path.start, mark.path.end)) < _ENDS
                    and distance_to(edge.path, mark.path.point_at(mark.path.length / 2.0)) > _ENDS
                ),
                None,
            )
            if row is not None:
                name = dotted(piece.name, edge.name)
                message = f"Rows of shirring in {piece.name} end at {name}, which is sewn to nothing: they pull out."
                fix = f"Sew {name} to its neighbour, or turn it in: “turned back” behind its allowance."
                see = (("the row", row.span), ("the edge", edge.span))
                yield finding(_LOOSE, message, fix, Place(piece.name, edge.name, at=row.at), see=see)


def shirred(piece: Piece) -> tuple[Mark, ...]:
    """The rows of shirring of a piece: its lines to stitch from the first that says so."""
    rows = [mark for mark in piece.marks if mark.kind is MarkKind.STITCH]
    first = next((i for i, mark in enumerate(rows) if _SHIRRED.search(mark.label)), len(rows))
    return tuple(rows[first:])


def _drawn_in(pattern: Pattern) -> Iterator[_Drawn]:
    for girth in pattern.girths:
        # A width that is too much or too little for elastic at all is the shirring check's to tell
        if (
            LEAST_RATIO * girth.measured <= girth.stretches_to <= MOST_RATIO * girth.measured
            and girth.stretches_to > 0.0
        ):
            many = 2.0 if girth.stretches_to < _LIMB else 1.0
            body = girth.body or (girth.measured if girth.as_body else 0.0)
            most = body - SLACK if body else girth.measured + OVERLAP
            bound = f"the body there is {mm(body)}" if body else f"drawn in it is {mm(girth.measured)}"
            yield _Drawn(girth.title or girth.name, many * girth.stretches_to, many * most, bound)
    for seam in pattern.seams:
        if seam.kind == "elastic":
            full, drawn = seam_lengths(pattern, seam)
            for many in (1.0, 2.0):
                yield _Drawn(run_words(seam.a), many * full, many * (drawn + OVERLAP), f"drawn in it is {mm(drawn)}")


def _length(notion: Notion, drawn: tuple[_Drawn, ...]) -> Iterator[Problem]:
    length = notion.length or 0.0
    # One notion may be the elastic of several places
    full, most = sum(one.full for one in drawn), sum(one.most for one in drawn)
    if any(LEAST_SHARE * one.full <= length <= one.most for one in drawn) or (
        len(drawn) > 1 and LEAST_SHARE * full <= length <= most
    ):
        return
    near = min(drawn, key=lambda one: max(LEAST_SHARE * one.full - length, length - one.most))
    see = (("the notion", notion.span),)
    measured = Measured(length, LEAST_SHARE * near.full, near.most)
    where = Place(point=notion.name)
    if length > near.most:
        message = f"{notion.title} is {mm(length)} long, and {near.bound} ({near.words}): it would lie there slack."
        fix = (
            "Cut it a few centimetres shorter than the body it holds, its overlap included, such as: waist_girth * 0.9."
        )
        yield finding(_LONG, message, fix, where, see=see, measured=measured)
    else:
        message = (
            f"{notion.title} is {mm(length)} long, less than half of the {mm(near.full)} of cloth that it draws in "
            f"({near.words})."
        )
        fix = f"Make it {mm(LEAST_SHARE * near.full)} or longer, or the cloth narrower."
        yield finding(_SHORT, message, fix, where, see=see, measured=measured)


#: The check as every room knows it.
CHECK = Check("elastic", "Elastic", _run, (_LONG, _SHORT, _LOOSE))
