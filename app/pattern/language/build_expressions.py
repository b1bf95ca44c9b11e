"""What each rule of an expression makes: typed nodes with spans, from the nodes and words of its parts."""

from __future__ import annotations

from fractions import Fraction
from math import pi
from typing import Any

from app.pattern.language import nodes as n
from app.pattern.problem import Span
from app.pattern.units import MM_PER

__all__ = ["ExpressionBuilder", "Word"]


class Word(str):
    """A word or sign of a line that a node is made of; `begin` is where it stands in the line's text, from 0."""

    __slots__ = ("begin",)
    begin: int


class ExpressionBuilder:
    """Makes the nodes of one logical line, whose text starts at row `first` of `file`.

    Every method is a rule's: it takes the rule's span and its parts, None for an absent one.
    """

    def __init__(self, file: str, text: str, first: int, shift: int = 0) -> None:
        """`shift` is added to the columns of the first row: for expressions cut out of a longer one."""
        self._file, self._text, self._first, self._shift = file, text, first, shift

    def span(self, begin: int, end: int) -> Span:
        """The span in the whole file of a run of the line's text; of one that goes over several rows, its beginning."""
        row = self._text.count("\n", 0, begin)
        column = begin - self._text.rfind("\n", 0, begin) + (0 if row else self._shift)
        width = end - begin if self._text.find("\n", begin, end) < 0 else 1
        return Span(self._file, self._first + row, column, column + width)

    def _span_of(self, word: Word) -> Span:
        return self.span(word.begin, word.begin + len(word))

    def quantity(self, span: Span, c: list[Word]) -> n.Expr:
        """A written number."""
        # `96.5cm`, `38 1/2in`, `30deg`, `20%` or a plain number
        word = c[0]
        digits = word.rstrip("abcdefghijklmnopqrstuvwxyz°%")
        unit = word[len(digits) :]
        value = float(sum(map(Fraction, digits.split()))) if "/" in digits else float(digits)
        if unit in MM_PER:
            return n.Quantity(value * MM_PER[unit], "length", span)
        if unit in ("deg", "°"):
            return n.Quantity(value * pi / 180.0, "angle", span)
        return n.Quantity(value / 100.0 if unit == "%" else value, "number", span)

    def name(self, span: Span, c: list[Word]) -> n.Expr:
        """A bare name."""
        return n.Name(str(c[0]), span)

    def dotted(self, span: Span, c: list[Word]) -> n.Expr:
        """`owner.name`."""
        return n.Dotted(str(c[0]), str(c[1]), span)

    def function(self, span: Span, c: list[Any]) -> n.Expr:
        """`name(a, b)`."""
        return n.Call(f"{c[0]}()", tuple(c[1:]), span)

    def yes(self, span: Span, c: list[Any]) -> n.Expr:
        """The word yes."""
        return n.Name("yes", span)

    def no(self, span: Span, c: list[Any]) -> n.Expr:
        """The word no."""
        return n.Name("no", span)

    def when_otherwise(self, span: Span, c: list[n.Expr]) -> n.Expr:
        """`A when TEST otherwise B`."""
        return n.When(c[0], c[1], c[2], span)

    def compare(self, span: Span, c: list[Any]) -> n.Expr:
        """An order of two quantities."""
        return n.Compare(str(c[1]), c[0], c[2], span)

    def is_(self, span: Span, c: list[n.Expr]) -> n.Expr:
        """`a is b`."""
        return n.Compare("is", c[0], c[1], span)

    def is_not(self, span: Span, c: list[n.Expr]) -> n.Expr:
        """`a is not b`."""
        return n.Compare("is not", c[0], c[1], span)

    def or_(self, span: Span, c: list[n.Expr]) -> n.Expr:
        """One of several tests."""
        return n.Logic("or", tuple(c), span)

    def and_(self, span: Span, c: list[n.Expr]) -> n.Expr:
        """All of several tests."""
        return n.Logic("and", tuple(c), span)

    def not_(self, span: Span, c: list[n.Expr]) -> n.Expr:
        """The opposite of a test."""
        return n.Logic("not", (c[0],), span)

    def f_go(self, span: Span, c: list[Any]) -> n.Expr:
        """`P down L`: the direction becomes part of the form's name."""
        return n.Call(f"go {c[1]}", (c[0], c[2]), span)

    def f_parallel(self, span: Span, c: list[Any]) -> n.Expr:
        """`parallel to PATH by L left`."""
        return n.Call(f"parallel {c[2]}", (c[0], c[1]), span)

    def f_smooth(self, span: Span, c: list[Any]) -> n.Expr:
        """Points first, then the two optional directions; the form's name tells which are there."""
        *points, leaving, arriving = c
        form = "smooth" + (" leaving" if leaving else "") + (" arriving" if arriving else "")
        return n.Call(form, (*(d for d in (leaving, arriving) if d), *points), span)

    def f_pivot(self, span: Span, c: list[Any]) -> n.Expr:
        """The whole dart moves unless a share is named."""
        dart, shape, point, share, name = c
        all_of_it = n.Quantity(1.0, "number", span)
        parts = (self._said(dart), shape, point, share or all_of_it, self._said(name))
        return n.Call("pivot", parts, span)

    def f_cut_side(self, span: Span, c: list[Any]) -> n.Expr:
        """`cut SHAPE left of PATH`: the new side is named after the path."""
        shape, direction, path, name = c
        called = self._said(name) if name else n.Text(getattr(path, "name", "cut"), span)
        return n.Call(f"cut {direction}", (shape, path, called), span)

    def f_tape(self, span: Span, c: list[Any]) -> n.Expr:
        """`tape A to B on side [and side]`: one name serves both when they are the same."""
        first, second, on, other = c
        return n.Call("tape", (first, self._said(on), second, self._said(other or on)), span)

    def f_move_side(self, span: Span, c: list[Any]) -> n.Expr:
        """`move SIDE of SHAPE in by L`."""
        side, shape, way, distance = c
        return n.Call(f"move {way}", (self._said(side), shape, distance), span)

    def slashes(self, span: Span, c: list[n.Expr]) -> list[n.Expr]:
        """Paths along which a shape is slashed."""
        return c

    def fuller_by(self, span: Span, c: list[n.Expr]) -> tuple[str, tuple[n.Expr, ...]]:
        """`by LENGTH`: the end of the form's name, and its parts."""
        return "", (c[0],)

    def fuller_times(self, span: Span, c: list[Any]) -> tuple[str, tuple[n.Expr, ...]]:
        """`making SIDE NUMBER times as long`."""
        return " times", (self._said(c[0]), c[1])

    def f_fan(self, span: Span, c: list[Any]) -> n.Expr:
        """The shape and how far first, then the slashes."""
        shape, slashes, (ending, far) = c
        return n.Call(f"fan{ending}", (shape, *far, *slashes), span)

    def f_spread(self, span: Span, c: list[Any]) -> n.Expr:
        """The shape and how far first, then the slashes."""
        shape, slashes, (ending, far) = c
        return n.Call(f"spread{ending}", (shape, *far, *slashes), span)

    def f_pleat(self, span: Span, c: list[Any]) -> n.Expr:
        """The shape and the depth first, then the slashes."""
        return self._folded("pleat", c, span)

    def f_box_pleat(self, span: Span, c: list[Any]) -> n.Expr:
        """As a plain pleat."""
        return self._folded("box pleat", c, span)

    def f_inverted_pleat(self, span: Span, c: list[Any]) -> n.Expr:
        """As a plain pleat."""
        return self._folded("inverted pleat", c, span)

    def f_tuck(self, span: Span, c: list[Any]) -> n.Expr:
        """The shape, the depth and how far it is stitched, then the slashes."""
        *pleat, stitched = c
        return self._folded("tuck released" if stitched else "tuck", [*pleat, stitched] if stitched else pleat, span)

    def _folded(self, form: str, c: list[Any], span: Span) -> n.Expr:
        shape, slashes, *sizes = c
        return n.Call(form, (shape, *sizes, *slashes), span)

    def f_unite(self, span: Span, c: list[Any]) -> n.Expr:
        """`unite SIDE, SIDE of SHAPE as NAME`: the shape and the new name first, then the sides."""
        *sides, shape, name = c
        return n.Call("unite", (shape, self._said(name), *(self._said(side) for side in sides)), span)

    def f_face(self, span: Span, c: list[Any]) -> n.Expr:
        """The shape and the depth first, then the sides."""
        sides = tuple(self._said(t) for t in c[1:-1])
        return n.Call("face", (c[0], c[-1], *sides), span)

    def _said(self, word: Word) -> n.Text:
        return n.Text(str(word), self._span_of(word))

    def held(self, span: Span, c: list[Word]) -> n.Name:
        """Something a traced shape holds."""
        return n.Name(str(c[0]), span)

    def trace(self, span: Span, c: list[Any]) -> n.Expr:
        """A traced shape."""
        items = tuple(x for x in c if isinstance(x, n.OutlineItem))
        return n.Trace(items, tuple(x for x in c if isinstance(x, n.Name)), span)

    def d_word(self, span: Span, c: list[Word]) -> n.Expr:
        """A direction by its word."""
        return n.Call(f"direction {c[0]}", (), span)

    def call(self, form: str, span: Span, c: list[Any]) -> n.Call:
        """Every other `f_` rule: a call of the form of that name, absent parts left out."""
        return n.Call(form, tuple(self._said(p) if isinstance(p, Word) else p for p in c if p is not None), span)
