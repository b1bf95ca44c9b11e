"""Turns Lark's trees of one line into typed nodes with spans."""

from __future__ import annotations

from fractions import Fraction
from math import pi
from typing import Any

from lark import Token, Transformer, v_args
from lark.tree import Meta

from app.pattern.language import nodes as n
from app.pattern.problem import Span
from app.pattern.units import MM_PER

__all__ = ["Builder"]

_SIGNS = {"add", "subtract", "multiply", "divide", "negative"}


def _text(token: Token | None) -> str:
    return str(token)[1:-1] if token is not None else ""


def _quantity(token: Token, span: Span) -> n.Quantity:
    """`96.5cm`, `38 1/2in`, `30deg`, `20%` or a plain number."""
    body = str(token)
    digits = body.rstrip("abcdefghijklmnopqrstuvwxyz°%")
    unit = body[len(digits) :]
    value = float(sum(Fraction(part) for part in digits.split()))
    if unit in MM_PER:
        return n.Quantity(value * MM_PER[unit], "length", span)
    if unit in ("deg", "°"):
        return n.Quantity(value * pi / 180.0, "angle", span)
    return n.Quantity(value / 100.0 if unit == "%" else value, "number", span)


@v_args(meta=True)
class Builder(Transformer[Token, Any]):
    """Builds the nodes of one logical line that starts at row `first` of `file`."""

    def __init__(self, file: str, first: int, shift: int = 0) -> None:
        """`shift` is added to the columns: for expressions cut out of a longer row."""
        super().__init__(visit_tokens=False)
        self._file, self._first, self._shift = file, first, shift

    def span(self, where: Meta | Token) -> Span:
        """The span of a tree or a token in the whole file."""
        line = where.line if where.line is not None else 1
        column = where.column if where.column is not None else 1
        end_line = where.end_line if where.end_line is not None else line
        end = where.end_column if end_line == line and where.end_column is not None else column + 1
        shift = self._shift if line == 1 else 0
        return Span(self._file, self._first + line - 1, column + shift, end + shift)

    # ---- expressions
    def quantity(self, meta: Meta, c: list[Token]) -> n.Expr:
        """A written number."""
        return _quantity(c[0], self.span(meta))

    def name(self, meta: Meta, c: list[Token]) -> n.Expr:
        """A bare name."""
        return n.Name(str(c[0]), self.span(meta))

    def dotted(self, meta: Meta, c: list[Token]) -> n.Expr:
        """`owner.name`."""
        return n.Dotted(str(c[0]), str(c[1]), self.span(meta))

    def function(self, meta: Meta, c: list[Any]) -> n.Expr:
        """`name(a, b)`."""
        return n.Call(f"{c[0]}()", tuple(c[1:]), self.span(meta))

    def yes(self, meta: Meta, c: list[Any]) -> n.Expr:
        """The word yes."""
        return n.Name("yes", self.span(meta))

    def no(self, meta: Meta, c: list[Any]) -> n.Expr:
        """The word no."""
        return n.Name("no", self.span(meta))

    def when_otherwise(self, meta: Meta, c: list[n.Expr]) -> n.Expr:
        """`A when TEST otherwise B`."""
        return n.When(c[0], c[1], c[2], self.span(meta))

    def compare(self, meta: Meta, c: list[Any]) -> n.Expr:
        """An order of two quantities."""
        return n.Compare(str(c[1]), c[0], c[2], self.span(meta))

    def is_(self, meta: Meta, c: list[n.Expr]) -> n.Expr:
        """`a is b`."""
        return n.Compare("is", c[0], c[1], self.span(meta))

    def is_not(self, meta: Meta, c: list[n.Expr]) -> n.Expr:
        """`a is not b`."""
        return n.Compare("is not", c[0], c[1], self.span(meta))

    def or_(self, meta: Meta, c: list[n.Expr]) -> n.Expr:
        """One of several tests."""
        return n.Logic("or", tuple(c), self.span(meta))

    def and_(self, meta: Meta, c: list[n.Expr]) -> n.Expr:
        """All of several tests."""
        return n.Logic("and", tuple(c), self.span(meta))

    def not_(self, meta: Meta, c: list[n.Expr]) -> n.Expr:
        """The opposite of a test."""
        return n.Logic("not", (c[0],), self.span(meta))

    def f_go(self, meta: Meta, c: list[Any]) -> n.Expr:
        """`P down L`: the direction becomes part of the form's name."""
        return n.Call(f"go {c[1]}", (c[0], c[2]), self.span(meta))

    def f_parallel(self, meta: Meta, c: list[Any]) -> n.Expr:
        """`parallel to PATH by L left`."""
        return n.Call(f"parallel {c[2]}", (c[0], c[1]), self.span(meta))

    def f_smooth(self, meta: Meta, c: list[Any]) -> n.Expr:
        """Points first, then the two optional directions; the form's name tells which are there."""
        *points, leaving, arriving = c
        form = "smooth" + (" leaving" if leaving else "") + (" arriving" if arriving else "")
        return n.Call(form, (*(d for d in (leaving, arriving) if d), *points), self.span(meta))

    def f_pivot(self, meta: Meta, c: list[Any]) -> n.Expr:
        """The whole dart moves unless a share is named."""
        dart, shape, point, share, name = c
        all_of_it = n.Quantity(1.0, "number", self.span(meta))
        parts = (self._said(dart), shape, point, share or all_of_it, self._said(name))
        return n.Call("pivot", parts, self.span(meta))

    def f_cut_side(self, meta: Meta, c: list[Any]) -> n.Expr:
        """`cut SHAPE left of PATH`: the new side is named after the path."""
        shape, direction, path, name = c
        called = self._said(name) if name else n.Text(getattr(path, "name", "cut"), self.span(meta))
        return n.Call(f"cut {direction}", (shape, path, called), self.span(meta))

    def f_tape(self, meta: Meta, c: list[Any]) -> n.Expr:
        """`tape A to B on side [and side]`: one name serves both when they are the same."""
        first, second, on, other = c
        return n.Call("tape", (first, self._said(on), second, self._said(other or on)), self.span(meta))

    def f_move_side(self, meta: Meta, c: list[Any]) -> n.Expr:
        """`move SIDE of SHAPE in by L`."""
        side, shape, way, distance = c
        return n.Call(f"move {way}", (self._said(side), shape, distance), self.span(meta))

    def slashes(self, meta: Meta, c: list[n.Expr]) -> list[n.Expr]:
        """Paths along which a shape is slashed."""
        return c

    def fuller_by(self, meta: Meta, c: list[n.Expr]) -> tuple[str, tuple[n.Expr, ...]]:
        """`by LENGTH`: the end of the form's name, and its parts."""
        return "", (c[0],)

    def fuller_times(self, meta: Meta, c: list[Any]) -> tuple[str, tuple[n.Expr, ...]]:
        """`making SIDE NUMBER times as long`."""
        return " times", (self._said(c[0]), c[1])

    def f_fan(self, meta: Meta, c: list[Any]) -> n.Expr:
        """The shape and how far first, then the slashes."""
        shape, slashes, (ending, far) = c
        return n.Call(f"fan{ending}", (shape, *far, *slashes), self.span(meta))

    def f_spread(self, meta: Meta, c: list[Any]) -> n.Expr:
        """The shape and how far first, then the slashes."""
        shape, slashes, (ending, far) = c
        return n.Call(f"spread{ending}", (shape, *far, *slashes), self.span(meta))

    def f_pleat(self, meta: Meta, c: list[Any]) -> n.Expr:
        """The shape and the depth first, then the slashes."""
        return self._folded("pleat", c, meta)

    def f_box_pleat(self, meta: Meta, c: list[Any]) -> n.Expr:
        """As a plain pleat."""
        return self._folded("box pleat", c, meta)

    def f_inverted_pleat(self, meta: Meta, c: list[Any]) -> n.Expr:
        """As a plain pleat."""
        return self._folded("inverted pleat", c, meta)

    def f_tuck(self, meta: Meta, c: list[Any]) -> n.Expr:
        """The shape, the depth and how far it is stitched, then the slashes."""
        *pleat, stitched = c
        return self._folded("tuck released" if stitched else "tuck", [*pleat, stitched] if stitched else pleat, meta)

    def _folded(self, form: str, c: list[Any], meta: Meta) -> n.Expr:
        shape, slashes, *sizes = c
        return n.Call(form, (shape, *sizes, *slashes), self.span(meta))

    def f_face(self, meta: Meta, c: list[Any]) -> n.Expr:
        """The shape and the depth first, then the sides."""
        sides = tuple(self._said(t) for t in c[1:-1])
        return n.Call("face", (c[0], c[-1], *sides), self.span(meta))

    def _said(self, token: Token) -> n.Text:
        return n.Text(str(token), self.span(token))

    def held(self, meta: Meta, c: list[Token]) -> n.Name:
        """Something a traced shape holds."""
        return n.Name(str(c[0]), self.span(meta))

    def trace(self, meta: Meta, c: list[Any]) -> n.Expr:
        """A traced shape."""
        items = tuple(x for x in c if isinstance(x, n.OutlineItem))
        return n.Trace(items, tuple(x for x in c if isinstance(x, n.Name)), self.span(meta))

    def d_word(self, meta: Meta, c: list[Token]) -> n.Expr:
        """A direction by its word."""
        return n.Call(f"direction {c[0]}", (), self.span(meta))

    def __default__(self, data: Any, children: list[Any], meta: Meta) -> Any:
        """Every other `f_` or `d_` rule: a call of the form of that name, absent parts left out."""
        rule = str(data)
        given = tuple(self._said(c) if isinstance(c, Token) else c for c in children if c is not None)
        if rule.startswith("d_"):
            return n.Call(f"direction {rule[2:]}", given, self.span(meta))
        if rule.startswith("f_"):
            return n.Call(rule[2:], given, self.span(meta))
        raise AssertionError(f"no builder for the rule {rule}")

    # ---- lines of the sections
    def draft_line(self, meta: Meta, c: list[Token]) -> n.Text:
        """The title line."""
        return n.Text(_text(c[0]), self.span(meta))

    def for_line(self, meta: Meta, c: list[Any]) -> n.WhomLine:
        """`for women`, `for children from 98cm to 134cm`."""
        group, least, most = c
        return n.WhomLine(str(group), least, most, self.span(meta))

    def sheet_head(self, meta: Meta, c: list[Token]) -> n.Name:
        """`sheet NAME`."""
        return n.Name(str(c[0]), self.span(c[0]))

    def needs_line(self, meta: Meta, c: list[Token | None]) -> tuple[n.Name, ...]:
        """Measurement names."""
        return tuple(n.Name(str(t), self.span(t)) for t in c if t is not None)

    def limits(self, meta: Meta, c: list[n.Expr]) -> tuple[n.Expr, n.Expr]:
        """`from A to B`."""
        return c[0], c[1]

    def options(self, meta: Meta, c: list[Token]) -> list[str]:
        """`one of a, b`."""
        return [str(t) for t in c]

    def choice_line(self, meta: Meta, c: list[Any]) -> n.ChoiceLine:
        """A choice."""
        name, default, range_, title = c
        least, most = range_ if isinstance(range_, tuple) else (None, None)
        options = tuple(range_) if isinstance(range_, list) else ()
        return n.ChoiceLine(str(name), default, least, most, options, _text(title), self.span(meta))

    def trait_width(self, meta: Meta, c: list[n.Expr]) -> tuple[str, Any]:
        """`width L`."""
        return "width", c[0]

    def trait_one_way(self, meta: Meta, c: list[Any]) -> tuple[str, Any]:
        """`one way`: nap or print that runs one way."""
        return "one_way", True

    def trait_open(self, meta: Meta, c: list[Any]) -> tuple[str, Any]:
        """`open`: laid single."""
        return "open", True

    def trait_shrinks(self, meta: Meta, c: list[n.Expr]) -> tuple[str, Any]:
        """`shrinks R`."""
        return "shrinks", c[0]

    def trait_stretches(self, meta: Meta, c: list[n.Expr]) -> tuple[str, Any]:
        """`stretches R`."""
        return "stretches", c[0]

    def trait_count(self, meta: Meta, c: list[n.Expr]) -> tuple[str, Any]:
        """`count N`."""
        return "count", c[0]

    def trait_length(self, meta: Meta, c: list[n.Expr]) -> tuple[str, Any]:
        """`length L`."""
        return "length", c[0]

    def when_tail(self, meta: Meta, c: list[n.Expr]) -> n.Expr:
        """`when TEST` at the end of a line."""
        return c[0]

    def fabric_line(self, meta: Meta, c: list[Any]) -> n.FabricLine:
        """A cloth."""
        name, title, *traits, when = c
        has = dict(traits)
        return n.FabricLine(
            str(name),
            _text(title),
            has.get("width"),
            "one_way" in has,
            "open" in has,
            has.get("shrinks"),
            has.get("stretches"),
            when,
            self.span(meta),
        )

    def notion_line(self, meta: Meta, c: list[Any]) -> n.NotionLine:
        """A notion."""
        name, title, *traits, when = c
        has = dict(traits)
        return n.NotionLine(str(name), _text(title), has.get("count"), has.get("length"), when, self.span(meta))

    # ---- drafting steps
    def assign(self, meta: Meta, c: list[Any]) -> n.Assign:
        """`name = ...`."""
        return n.Assign(str(c[0]), c[1], self.span(meta))

    def solve(self, meta: Meta, c: list[Any]) -> n.Solve:
        """The head of a solve block; its steps are put in by the parser."""
        return n.Solve(str(c[0]), c[1], c[2], c[3], c[4], (), self.span(meta))

    def repeat(self, meta: Meta, c: list[Any]) -> n.Repeat:
        """The head of a `repeat` block."""
        return n.Repeat(str(c[0]), c[1], c[2], (), self.span(meta))

    def when_block(self, meta: Meta, c: list[n.Expr]) -> n.WhenBlock:
        """The head of a `when` block."""
        return n.WhenBlock(c[0], (), self.span(meta))

    # ---- pieces
    def way_mirrored(self, meta: Meta, c: list[Any]) -> str:
        """Half of the count mirrored."""
        return "mirrored"

    def way_fold(self, meta: Meta, c: list[Any]) -> str:
        """Cut on the fold."""
        return "fold"

    def cut(self, meta: Meta, c: list[Any]) -> n.CutClause:
        """`cut N [mirrored] [on fold] fabric`."""
        count, *ways, fabric = c
        return n.CutClause(int(count), "fold" in ways, "mirrored" in ways, str(fabric), self.span(meta))

    def piece_head(self, meta: Meta, c: list[Any]) -> n.PieceNode:
        """The head of a piece; its clauses are put in by the parser."""
        name, title, sheet, *cuts, when = c
        return n.PieceNode(str(name), _text(title), str(sheet) if sheet else "", tuple(cuts), (), when, self.span(meta))

    def path_ref(self, meta: Meta, c: list[Token]) -> n.Expr:
        """A name of the sheet, or of another sheet."""
        if len(c) == 2:
            return n.Dotted(str(c[0]), str(c[1]), self.span(meta))
        return n.Name(str(c[0]), self.span(meta))

    def outline_item(self, meta: Meta, c: list[Any]) -> n.OutlineItem:
        """An edge of the outline."""
        fold, source, name = c
        return n.OutlineItem(str(name or source.name), source, fold is not None, self.span(meta))

    def outline(self, meta: Meta, c: list[n.OutlineItem]) -> n.OutlineClause:
        """The outline."""
        return n.OutlineClause(tuple(c), self.span(meta))

    def outline_of(self, meta: Meta, c: list[Any]) -> n.OutlineOf:
        """The outline of a shape."""
        return n.OutlineOf(c[0], tuple(str(t) for t in c[1:]), self.span(meta))

    def grain_along(self, meta: Meta, c: list[n.Expr]) -> n.GrainClause:
        """`grain along PATH`."""
        return n.GrainClause(c[0], None, None, self.span(meta))

    def grain_points(self, meta: Meta, c: list[n.Expr]) -> n.GrainClause:
        """`grain A to B`."""
        return n.GrainClause(None, c[0], c[1], self.span(meta))

    def turned_back(self, meta: Meta, c: list[Any]) -> str:
        """A hem's corner."""
        return "turned back"

    def squared(self, meta: Meta, c: list[Any]) -> str:
        """A squared corner."""
        return "squared"

    def rest_allowance(self, meta: Meta, c: list[Any]) -> n.EdgeAllowance:
        """The allowance of every edge that is not named."""
        return n.EdgeAllowance("", c[0], c[1] or "plain", self.span(meta))

    def allowance_edge(self, meta: Meta, c: list[Any]) -> n.EdgeAllowance:
        """The allowance of one edge."""
        return n.EdgeAllowance(str(c[0]), c[1], c[2] or "plain", self.span(meta))

    def allowance_none(self, meta: Meta, c: list[Token]) -> n.EdgeAllowance:
        """An edge without allowance."""
        return n.EdgeAllowance(str(c[0]), None, "plain", self.span(meta))

    def allowance(self, meta: Meta, c: list[n.EdgeAllowance]) -> n.AllowanceClause:
        """All allowances."""
        return n.AllowanceClause(tuple(c), self.span(meta))

    def notch_single(self, meta: Meta, c: list[Any]) -> n.NotchClause:
        """A single notch."""
        return n.NotchClause(str(c[0]), c[1], c[2], False, self.span(meta))

    def notch_double(self, meta: Meta, c: list[Any]) -> n.NotchClause:
        """A double notch."""
        return n.NotchClause(str(c[0]), c[1], c[2], True, self.span(meta))

    def mark(self, meta: Meta, c: list[Any]) -> n.MarkClause:
        """An inside mark."""
        kind, what, again, label, when = c
        times, direction, step = again or (None, "", None)
        return n.MarkClause(str(kind), what, _text(label), times, direction, step, when, self.span(meta))

    def again(self, meta: Meta, c: list[Any]) -> tuple[n.Expr, str, n.Expr]:
        """`repeated N times down L`."""
        return c[0], str(c[1]), c[2]

    def note(self, meta: Meta, c: list[Token]) -> n.NoteClause:
        """Words on the piece."""
        return n.NoteClause(_text(c[0]), self.span(meta))

    # ---- assembly
    def run_backwards(self, meta: Meta, c: list[Any]) -> str:
        """Walked from its end."""
        return "backwards"

    def run_twice(self, meta: Meta, c: list[Any]) -> str:
        """Walked twice (both halves of a piece on the fold, or two of the piece)."""
        return "twice"

    def run(self, meta: Meta, c: list[Any]) -> n.RunNode:
        """One edge of a seam's side."""
        piece, edge, *ways = c
        times = 2 ** ways.count("twice")
        return n.RunNode(str(piece), str(edge), "backwards" in ways, times, self.span(meta))

    def runs(self, meta: Meta, c: list[n.RunNode]) -> tuple[n.RunNode, ...]:
        """A side of a seam."""
        return tuple(c)

    def ease(self, meta: Meta, c: list[n.Expr]) -> tuple[str, n.Expr, n.Expr]:
        """Side a is longer by so much."""
        return "ease", c[0], c[1]

    def gather(self, meta: Meta, c: list[n.Expr]) -> tuple[str, n.Expr, n.Expr]:
        """Side a is gathered by such a ratio."""
        return "gather", c[0], c[1]

    def elastic(self, meta: Meta, c: list[n.Expr]) -> tuple[str, n.Expr, n.Expr]:
        """Side a is drawn in by elastic by such a ratio."""
        return "elastic", c[0], c[1]

    def seam_notch(self, meta: Meta, c: list[Any]) -> n.SeamNotch:
        """A matched notch."""
        return n.SeamNotch(c[0], c[1] is not None, False, False, self.span(meta))

    def seam_notch_facing(self, meta: Meta, c: list[Any]) -> n.SeamNotch:
        """A notch facing a point of the other side."""
        return n.SeamNotch(c[0], False, False, True, self.span(meta))

    def seam_notch_double(self, meta: Meta, c: list[Any]) -> n.SeamNotch:
        """A matched double notch."""
        return n.SeamNotch(c[0], c[1] is not None, True, False, self.span(meta))

    def sew_line(self, meta: Meta, c: list[Any]) -> n.SewLine:
        """A seam."""
        a, b, fullness, *notches, when = c
        kind, least, most = fullness or ("plain", None, None)
        return n.SewLine(a, b, kind, least, most, tuple(notches), when, self.span(meta))

    def girth_line(self, meta: Meta, c: list[Any]) -> n.GirthLine:
        """A finished girth."""
        name, title, value, body, ease, stretches, opening, passes, when = c
        fully, opens = opening or (False, None)
        return n.GirthLine(
            str(name), _text(title), value, body, ease, stretches, opens, fully, passes, when, self.span(meta)
        )

    def stretches_to(self, meta: Meta, c: list[n.Expr]) -> n.Expr:
        """`stretches to L`: what the girth measures pulled out."""
        return c[0]

    def passes(self, meta: Meta, c: list[n.Expr]) -> n.Expr:
        """`passes L`: what of the body must go through."""
        return c[0]

    def opens_fully(self, meta: Meta, c: list[Any]) -> tuple[bool, None]:
        """`opens fully`: a front that unbuttons, a wrap."""
        return True, None

    def opens_by(self, meta: Meta, c: list[n.Expr]) -> tuple[bool, n.Expr]:
        """`opens L`: a zip, a placket or a slit of that length."""
        return False, c[0]

    # ---- braces in the steps
    def brace_value(self, meta: Meta, c: list[n.Expr]) -> n.Expr:
        """A figure in the text."""
        return c[0]

    def brace_seam(self, meta: Meta, c: list[Token]) -> tuple[str, n.Dotted]:
        """`{seam piece.edge}`: the picture of that seam."""
        return "seam", n.Dotted(str(c[0]), str(c[1]), self.span(meta))

    def brace_when(self, meta: Meta, c: list[n.Expr]) -> tuple[str, n.Expr]:
        """`{when TEST}` in a heading."""
        return "when", c[0]
