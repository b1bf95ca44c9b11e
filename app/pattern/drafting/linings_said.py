"""Linings and facings taken from a shape on which the shell was worked further: advice that needs no body.

A cutter who moves a side of the block after she took the lining off it takes the lining anew. What is commonly left out
of a lining, such as pleats, gathers, flare, darts turned elsewhere or a yoke cut off, is no such work: only
sides that were moved are told, and of a facing only the sides that it faces.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from app.pattern.drafting.program import Program
from app.pattern.language import nodes as n
from app.pattern.problem import Problem

__all__ = ["linings_advice"]

_LINING = re.compile(r"\blining\b", re.I)
_MOVES = ("move out", "move in")
_DEEPEST = 60


def linings_advice(program: Program) -> Iterator[Problem]:
    """Each lining or facing that lacks a move of a side which its shell had later."""
    lineages = {piece.name: _lineage(program, piece) for piece in program.draft.pieces}
    shells = [piece for piece in program.draft.pieces if not _is_lining(program, piece)]
    for piece in program.draft.pieces:
        own = lineages[piece.name]
        faced = next((_texts(node) for node in own if isinstance(node, n.Call) and node.form == "face"), None)
        if not own or (faced is None and piece in shells):
            continue
        for shell in shells:
            later = _later(own, lineages[shell.name], faced) if shell is not piece else None
            if later is not None:
                what = "facing" if faced is not None else "lining"
                said = (
                    f"The {what} {piece.name} is taken from a shape on which {shell.name} was worked further: there "
                    f"{later} was moved afterwards, here it was not."
                )
                fix = f"Take {piece.name} from the shape that {shell.name} is cut from, or move {later} here as well."
                yield program.source.problem("drafting.older-shape", said, fix, piece.span)
                break


def _is_lining(program: Program, piece: n.PieceNode) -> bool:
    titles = {fabric.name: f"{fabric.name} {fabric.title}" for fabric in program.draft.fabrics}
    named = _LINING.search(f"{piece.name.replace('_', ' ')} {piece.title}") is not None
    return named or all(_LINING.search(titles.get(cut.fabric, "")) for cut in piece.cuts)


def _later(own: list[n.Expr], shell: list[n.Expr], faced: tuple[str, ...] | None) -> str | None:
    """The side that was moved on the way to the shell after both ways parted, and not on the way to the other piece."""
    at = next((i for i, node in enumerate(shell) if any(node is mine for mine in own)), None)
    if at is None:
        return None
    since = next(i for i, node in enumerate(own) if node is shell[at])
    moved = {_texts(node)[0] for node in own[:since] if isinstance(node, n.Call) and node.form in _MOVES}
    for node in shell[:at]:
        if isinstance(node, n.Call) and node.form in _MOVES:
            side = _texts(node)[0]
            # How long shell and lining are is told where they are cut: a shell may well be lengthened after its lining
            if side not in moved and not side.startswith("hem") and (faced is None or side in faced):
                return side
    return None


def _texts(node: n.Call) -> tuple[str, ...]:
    return tuple(part.text for part in node.args if isinstance(part, n.Text))


def _lineage(program: Program, piece: n.PieceNode) -> list[n.Expr]:
    """The work from which a piece's shape came, the last first, down to the shape that was traced."""
    outline = next((clause for clause in piece.clauses if isinstance(clause, n.OutlineOf)), None)
    if outline is None:
        return []
    found: list[n.Expr] = []
    node: n.Expr | None = outline.shape
    sheet = program.piece_sheets.get(piece.name, "")
    while node is not None and len(found) < _DEEPEST:
        if isinstance(node, n.Name | n.Dotted):
            sheet = node.owner if isinstance(node, n.Dotted) else sheet
            node = _drawn_as(program, sheet, node.name)
            continue
        found.append(node)
        parts = node.args if isinstance(node, n.Call) else ()
        node = next((part for part in parts if _is_shape(program, part, sheet)), None)
    return found


def _is_shape(program: Program, node: n.Expr, sheet: str) -> bool:
    """Whether a part of pattern work is the shape that it is done on."""
    if isinstance(node, n.Name | n.Dotted):
        drawn = _drawn_as(program, node.owner if isinstance(node, n.Dotted) else sheet, node.name)
        return drawn is not None and _is_shape(program, drawn, sheet)
    shaped = ("pivot", "shorten", "cut ", "tape", "spread", "fan", "pleat", "box", "inverted", "tuck", "move", "true")
    return isinstance(node, n.Trace) or (isinstance(node, n.Call) and node.form.startswith((*shaped, "face", "mirror")))


def _drawn_as(program: Program, sheet: str, name: str) -> n.Expr | None:
    """The step of a sheet that draws a name; None where none does at its outermost level."""
    steps = next((one.steps for one in program.draft.sheets if one.name == sheet), ())
    return next((step.value for step in steps if isinstance(step, n.Assign) and step.name == name), None)
