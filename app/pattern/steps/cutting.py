"""The cutting list: each piece in each cloth, with its count in the trade's words."""

from __future__ import annotations

from dataclasses import dataclass

from app.pattern.pieces.model import Cut, Pattern

__all__ = ["CuttingRow", "count_in_words", "cutting_list"]


@dataclass(frozen=True, slots=True)
class CuttingRow:
    """One line of the cutting list. `piece` and `fabric` are titles; the names are for finding their pictures."""

    piece: str
    fabric: str
    count: str
    piece_name: str
    fabric_name: str
    note: str = ""


def count_in_words(cut: Cut) -> str:
    """How many to cut, and how: `Cut 1 on the fold`, `Cut 2, a mirrored pair`, `Cut 4, as 2 mirrored pairs`."""
    words = f"Cut {cut.count}"
    if cut.on_fold:
        return f"{words} on the fold"
    if cut.pair and cut.count == 2:
        return f"{words}, a mirrored pair"
    if cut.pair:
        return f"{words}, as {cut.count // 2} mirrored pairs"
    return words


def cutting_list(pattern: Pattern) -> tuple[CuttingRow, ...]:
    """Every cut of every piece, cloth by cloth in the order of the pattern's fabrics."""
    titles = {fabric.name: fabric.title for fabric in pattern.fabrics}
    order = {name: rank for rank, name in enumerate(titles)}
    cuts = [(piece, cut) for piece in pattern.pieces for cut in piece.cuts]
    cuts.sort(key=lambda pair: order[pair[1].fabric])
    return tuple(
        CuttingRow(piece.title, titles[cut.fabric], count_in_words(cut), piece.name, cut.fabric, piece.note)
        for piece, cut in cuts
    )
