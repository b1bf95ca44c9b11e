"""One line of a draft spelled the canonical way: its tokens with the right space between them, cut into cells.

Cells are what is aligned under one another in a block: the name of a step and what
it stands for; a choice's name, default, limits and title.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from lark import Token, Tree

from app.pattern.language.grammar import line_grammar

__all__ = ["GAPS", "Spelled", "spell"]

#: Spaces between the cells of a line, by its rule (a step's own rule is the `assign` inside it).
GAPS: dict[str, tuple[int, ...]] = {
    "assign": (1,),
    "choice_line": (1, 1, 2),
    "fabric_line": (2, 2),
    "notion_line": (2, 2),
    "girth_line": (1, 1),
    "fit_line": (1, 1),
    "clause": (1,),
}
#: Clauses of a piece that say what it is, aligned under one another.
_COLUMN = ("outline", "grain", "allowance", "finish")
#: Lines of a finished measure, and the words with which their clauses begin.
_MEASURES = ("girth_line", "fit_line")
_GIRTH_CLAUSES = ("BODY", "EASE", "STRETCHES", "OPENS", "PASSES")
_TIGHT = (".", "..")  # the dot of `front.side`, the dots of `1cm..2cm`
_WHOLE = re.compile(r"\d+")


@dataclass(frozen=True, slots=True)
class Spelled:
    """A line in its cells; lines of one `shape` (other than "") that follow one another are aligned."""

    shape: str
    cells: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class _Read:
    """A line's tokens, and where in it a minus is a sign, a name is a function's, and a clause begins."""

    tokens: tuple[Token, ...]
    signs: frozenset[int]
    functions: frozenset[int]
    clauses: frozenset[int]
    rule: str


def spell(text: str, start: str) -> Spelled:
    """The canonical cells of a line that the rule `start` can read."""
    tokens = tuple(line_grammar().parse_interactive(text, start=start).exhaust_lexer())
    tree = line_grammar().parse(text, start=start)
    read = _Read(tokens, _places(tree, "f_negative"), _places(tree, "function"), _clauses(tree, tokens), str(tree.data))
    shape, cuts = _cuts(read, start)
    ends = [*cuts, len(read.tokens)]
    cells = tuple(_joined(read, a, b) for a, b in zip([0, *cuts], ends, strict=True))
    return Spelled(shape, cells)


def _places(tree: Tree[Token], rule: str) -> frozenset[int]:
    found = (t.meta.start_pos for t in tree.iter_subtrees() if t.data == rule)
    return frozenset(place for place in found if place is not None)


def _clauses(tree: Tree[Token], tokens: Sequence[Token]) -> frozenset[int]:
    """Where the clauses of a seam, a girth or a fit begin: two spaces part them from what stands before."""
    if tree.data not in ("sew_line", *_MEASURES):
        return frozenset()
    parts = [child for child in tree.children if isinstance(child, Tree) and child.data != "runs"]
    rules = {part.meta.start_pos for part in parts if tree.data == "sew_line" or part.data == "when_tail"}
    words = {t.start_pos for t in tokens if tree.data in _MEASURES and t.type in _GIRTH_CLAUSES}
    return frozenset(place for place in rules | words if place is not None)


# ---- cells


def _cuts(read: _Read, start: str) -> tuple[str, list[int]]:
    """The shape of a line, and the indices of the tokens that begin its second and later cells."""
    kinds = [token.type for token in read.tokens]
    if read.rule == "assign":
        return read.rule, [1]
    if start in _MEASURES:
        return start, [2, kinds.index("EQUAL")]
    if start == "choice_line":
        title = kinds.index("STRING") if "STRING" in kinds else len(kinds)
        limits = next((i for i in range(2, title) if kinds[i] in ("FROM", "ONE")), title)
        return start, [1, limits, title]
    if start in ("fabric_line", "notion_line"):
        return start, [1, 2]
    if start == "piece_line" and str(read.tokens[0]) in _COLUMN:
        return "clause", [1]
    return "", []


# ---- spaces


def _joined(read: _Read, first: int, end: int) -> str:
    words = ""
    for index in range(first, end):
        gap = "" if index == first or _touch(read, index) else " "
        words += gap * (1 + (read.tokens[index].start_pos in read.clauses)) + _said(read.tokens[index])
    return words


def _said(token: Token) -> str:
    """The token itself; inside one such as `38 1/2in` a single space."""
    return str(token) if token.type == "STRING" else " ".join(token.split())


def _touch(read: _Read, index: int) -> bool:
    """True when no space stands before the token at `index`."""
    before, token = read.tokens[index - 1], read.tokens[index]
    if token.type in ("COMMA", "RPAR") or before.type == "LPAR":
        return True
    if str(token) in _TIGHT or str(before) in _TIGHT:
        return True
    if before.type == "MINUS" and before.start_pos in read.signs:
        return True
    if token.type == "LPAR":
        return before.start_pos in read.functions and before.type == "NAME"
    # True on either side of the stroke of a plain fraction such as 1/4
    middle = index if read.tokens[index].type == "SLASH" else index - 1
    around = read.tokens[middle - 1 : middle + 2]
    if read.tokens[middle].type != "SLASH" or len(around) < 3:
        return False
    return _WHOLE.fullmatch(str(around[0])) is not None and _WHOLE.fullmatch(str(around[2])) is not None
