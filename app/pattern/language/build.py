"""What each rule of the grammar makes: the lines of a draft's sections round their expressions."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from app.pattern.language import nodes as n
from app.pattern.language.build_expressions import ExpressionBuilder, Word
from app.pattern.problem import Span

__all__ = ["Builder", "Make", "maker_of"]


def _text(word: Word | None) -> str:
    return word[1:-1] if word is not None else ""


class Builder(ExpressionBuilder):
    """Makes the node of any line by the method of its rule's name."""

    # ---- lines of the sections
    def draft_line(self, span: Span, c: list[Word]) -> n.Text:
        """The title line."""
        return n.Text(_text(c[0]), span)

    def for_line(self, span: Span, c: list[Any]) -> n.WhomLine:
        """`for women`, `for children from 98cm to 134cm`."""
        group, least, most = c
        return n.WhomLine(str(group), least, most, span)

    def sheet_head(self, span: Span, c: list[Word]) -> n.Name:
        """`sheet NAME`."""
        return n.Name(str(c[0]), self._span_of(c[0]))

    def needs_line(self, span: Span, c: list[Word | None]) -> tuple[n.Name, ...]:
        """Measurement names."""
        return tuple(n.Name(str(t), self._span_of(t)) for t in c if t is not None)

    def limits(self, span: Span, c: list[n.Expr]) -> tuple[n.Expr, n.Expr]:
        """`from A to B`."""
        return c[0], c[1]

    def options(self, span: Span, c: list[Word]) -> list[str]:
        """`one of a, b`."""
        return [str(t) for t in c]

    def choice_line(self, span: Span, c: list[Any]) -> n.ChoiceLine:
        """A choice."""
        name, default, range_, title = c
        least, most = range_ if isinstance(range_, tuple) else (None, None)
        options = tuple(range_) if isinstance(range_, list) else ()
        return n.ChoiceLine(str(name), default, least, most, options, _text(title), span)

    def trait_width(self, span: Span, c: list[n.Expr]) -> tuple[str, Any]:
        """`width L`."""
        return "width", c[0]

    def trait_one_way(self, span: Span, c: list[Any]) -> tuple[str, Any]:
        """`one way`: nap or print that runs one way."""
        return "one_way", True

    def trait_open(self, span: Span, c: list[Any]) -> tuple[str, Any]:
        """`open`: laid single."""
        return "open", True

    def trait_shrinks(self, span: Span, c: list[n.Expr]) -> tuple[str, Any]:
        """`shrinks R`."""
        return "shrinks", c[0]

    def trait_stretches(self, span: Span, c: list[n.Expr]) -> tuple[str, Any]:
        """`stretches R`."""
        return "stretches", c[0]

    def trait_count(self, span: Span, c: list[n.Expr]) -> tuple[str, Any]:
        """`count N`."""
        return "count", c[0]

    def trait_length(self, span: Span, c: list[n.Expr]) -> tuple[str, Any]:
        """`length L`."""
        return "length", c[0]

    def when_tail(self, span: Span, c: list[n.Expr]) -> n.Expr:
        """`when TEST` at the end of a line."""
        return c[0]

    def fabric_line(self, span: Span, c: list[Any]) -> n.FabricLine:
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
            span,
        )

    def notion_line(self, span: Span, c: list[Any]) -> n.NotionLine:
        """A notion."""
        name, title, *traits, when = c
        has = dict(traits)
        return n.NotionLine(str(name), _text(title), has.get("count"), has.get("length"), when, span)

    # ---- drafting steps
    def assign(self, span: Span, c: list[Any]) -> n.Assign:
        """`name = ...`."""
        return n.Assign(str(c[0]), c[1], span)

    def solve(self, span: Span, c: list[Any]) -> n.Solve:
        """The head of a solve block; its steps are put in by the parser."""
        return n.Solve(str(c[0]), c[1], c[2], c[3], c[4], (), span)

    def repeat(self, span: Span, c: list[Any]) -> n.Repeat:
        """The head of a `repeat` block."""
        return n.Repeat(str(c[0]), c[1], c[2], (), span)

    def when_block(self, span: Span, c: list[n.Expr]) -> n.WhenBlock:
        """The head of a `when` block."""
        return n.WhenBlock(c[0], (), span)

    # ---- pieces
    def way_mirrored(self, span: Span, c: list[Any]) -> str:
        """Half of the count mirrored."""
        return "mirrored"

    def way_fold(self, span: Span, c: list[Any]) -> str:
        """Cut on the fold."""
        return "fold"

    def cut(self, span: Span, c: list[Any]) -> n.CutClause:
        """`cut N [mirrored] [on fold] fabric`."""
        count, *ways, fabric = c
        return n.CutClause(int(count), "fold" in ways, "mirrored" in ways, str(fabric), span)

    def piece_head(self, span: Span, c: list[Any]) -> n.PieceNode:
        """The head of a piece; its clauses are put in by the parser."""
        name, title, sheet, *cuts, when = c
        return n.PieceNode(str(name), _text(title), str(sheet) if sheet else "", tuple(cuts), (), when, span)

    def path_ref(self, span: Span, c: list[Word]) -> n.Expr:
        """A name of the sheet, or of another sheet."""
        if len(c) == 2:
            return n.Dotted(str(c[0]), str(c[1]), span)
        return n.Name(str(c[0]), span)

    def outline_item(self, span: Span, c: list[Any]) -> n.OutlineItem:
        """An edge of the outline."""
        fold, source, name = c
        return n.OutlineItem(str(name or source.name), source, fold is not None, span)

    def outline(self, span: Span, c: list[n.OutlineItem]) -> n.OutlineClause:
        """The outline."""
        return n.OutlineClause(tuple(c), span)

    def outline_of(self, span: Span, c: list[Any]) -> n.OutlineOf:
        """The outline of a shape."""
        return n.OutlineOf(c[0], tuple(str(t) for t in c[1:]), span)

    def grain_along(self, span: Span, c: list[n.Expr]) -> n.GrainClause:
        """`grain along PATH`."""
        return n.GrainClause(c[0], None, None, span)

    def grain_points(self, span: Span, c: list[n.Expr]) -> n.GrainClause:
        """`grain A to B`."""
        return n.GrainClause(None, c[0], c[1], span)

    def turned_back(self, span: Span, c: list[Any]) -> str:
        """A hem's corner."""
        return "turned back"

    def squared(self, span: Span, c: list[Any]) -> str:
        """A squared corner."""
        return "squared"

    def rest_allowance(self, span: Span, c: list[Any]) -> n.EdgeAllowance:
        """The allowance of every edge that is not named."""
        return n.EdgeAllowance("", c[0], c[1] or "plain", span)

    def allowance_edge(self, span: Span, c: list[Any]) -> n.EdgeAllowance:
        """The allowance of one edge."""
        return n.EdgeAllowance(str(c[0]), c[1], c[2] or "plain", span)

    def allowance_none(self, span: Span, c: list[Word]) -> n.EdgeAllowance:
        """An edge without allowance."""
        return n.EdgeAllowance(str(c[0]), None, "plain", span)

    def allowance(self, span: Span, c: list[n.EdgeAllowance]) -> n.AllowanceClause:
        """All allowances."""
        return n.AllowanceClause(tuple(c), span)

    def finished(self, span: Span, c: list[Word]) -> n.FinishedEdge:
        """An edge whose finish is said."""
        return n.FinishedEdge(str(c[0]), span)

    def finish(self, span: Span, c: list[Any]) -> n.FinishClause:
        """How edges are finished."""
        *edges, how, when = c
        return n.FinishClause(tuple(edges), " ".join(str(how).split()), when, span)

    def notch_single(self, span: Span, c: list[Any]) -> n.NotchClause:
        """A single notch."""
        return n.NotchClause(str(c[0]), c[1], c[2], False, span)

    def notch_double(self, span: Span, c: list[Any]) -> n.NotchClause:
        """A double notch."""
        return n.NotchClause(str(c[0]), c[1], c[2], True, span)

    def mark(self, span: Span, c: list[Any]) -> n.MarkClause:
        """An inside mark."""
        kind, what, again, label, when = c
        times, direction, step = again or (None, "", None)
        return n.MarkClause(str(kind), what, _text(label), times, direction, step, when, span)

    def again(self, span: Span, c: list[Any]) -> tuple[n.Expr, str, n.Expr]:
        """`repeated N times down L`."""
        return c[0], str(c[1]), c[2]

    def note(self, span: Span, c: list[Word]) -> n.NoteClause:
        """Words on the piece."""
        return n.NoteClause(_text(c[0]), span)

    # ---- assembly
    def run_backwards(self, span: Span, c: list[Any]) -> str:
        """Walked from its end."""
        return "backwards"

    def run_twice(self, span: Span, c: list[Any]) -> str:
        """Walked twice (both halves of a piece on the fold, or two of the piece)."""
        return "twice"

    def run(self, span: Span, c: list[Any]) -> n.RunNode:
        """One edge of a seam's side."""
        piece, edge, *ways = c
        times = 2 ** ways.count("twice")
        return n.RunNode(str(piece), str(edge), "backwards" in ways, times, span)

    def runs(self, span: Span, c: list[n.RunNode]) -> tuple[n.RunNode, ...]:
        """A side of a seam."""
        return tuple(c)

    def ease(self, span: Span, c: list[n.Expr]) -> tuple[str, n.Expr, n.Expr]:
        """Side a is longer by so much."""
        return "ease", c[0], c[1]

    def gather(self, span: Span, c: list[n.Expr]) -> tuple[str, n.Expr, n.Expr]:
        """Side a is gathered by such a ratio."""
        return "gather", c[0], c[1]

    def elastic(self, span: Span, c: list[n.Expr]) -> tuple[str, n.Expr, n.Expr]:
        """Side a is drawn in by elastic by such a ratio."""
        return "elastic", c[0], c[1]

    def short(self, span: Span, c: list[Any]) -> tuple[str, n.Expr, n.Expr]:
        """Side a is shorter by so much, and ends short of side b."""
        least, most = c
        return "short", least, least if most is None else most

    def seam_notch(self, span: Span, c: list[Any]) -> n.SeamNotch:
        """A matched notch."""
        return n.SeamNotch(c[0], c[1] is not None, False, False, span)

    def seam_notch_facing(self, span: Span, c: list[Any]) -> n.SeamNotch:
        """A notch facing a point of the other side."""
        return n.SeamNotch(c[0], False, False, True, span)

    def seam_notch_double(self, span: Span, c: list[Any]) -> n.SeamNotch:
        """A matched double notch."""
        return n.SeamNotch(c[0], c[1] is not None, True, False, span)

    def sew_line(self, span: Span, c: list[Any]) -> n.SewLine:
        """A seam."""
        a, b, fullness, *notches, when = c
        kind, least, most = fullness or ("plain", None, None)
        return n.SewLine(a, b, kind, least, most, tuple(notches), when, span)

    def girth_line(self, span: Span, c: list[Any]) -> n.GirthLine:
        """A finished girth."""
        name, title, value, body, ease, stretches, opening, passes, when = c
        fully, opens = opening or (False, None)
        return n.GirthLine(str(name), _text(title), value, body, ease, stretches, opens, fully, passes, when, span)

    def fit_line(self, span: Span, c: list[Any]) -> n.FitLine:
        """What the garment leaves at a place of the body."""
        name, title, value, measure, least, most, when = c
        body = n.Name(str(measure), self._span_of(measure))
        return n.FitLine(str(name), _text(title), value, body, least, most, when, span)

    def stretches_to(self, span: Span, c: list[n.Expr]) -> n.Expr:
        """`stretches to L`: what the girth measures pulled out."""
        return c[0]

    def passes(self, span: Span, c: list[n.Expr]) -> n.Expr:
        """`passes L`: what of the body must go through."""
        return c[0]

    def opens_fully(self, span: Span, c: list[Any]) -> tuple[bool, None]:
        """`opens fully`: a front that unbuttons, a wrap."""
        return True, None

    def opens_by(self, span: Span, c: list[n.Expr]) -> tuple[bool, n.Expr]:
        """`opens L`: a zip, a placket or a slit of that length."""
        return False, c[0]

    # ---- braces in the steps
    def brace_value(self, span: Span, c: list[n.Expr]) -> n.Expr:
        """A figure in the text."""
        return c[0]

    def brace_seam(self, span: Span, c: list[Word]) -> tuple[str, n.Dotted]:
        """`{seam piece.edge}`: the picture of that seam."""
        return "seam", n.Dotted(str(c[0]), str(c[1]), span)

    def brace_when(self, span: Span, c: list[n.Expr]) -> tuple[str, n.Expr]:
        """`{when TEST}` in a heading."""
        return "when", c[0]


#: Makes what a rule stands for, of its span and its parts.
Make = Callable[[Builder, Span, list[Any]], Any]


def maker_of(rule: str) -> Make:
    """What makes the node of a rule of the grammar: its own method, or for a form without one a call of it."""
    make: Make | None = getattr(Builder, rule, None)
    if make is not None:
        return make
    if rule.startswith("d_"):
        return lambda builder, span, parts: builder.call(f"direction {rule[2:]}", span, parts)
    if rule.startswith("f_"):
        return lambda builder, span, parts: builder.call(rule[2:], span, parts)
    raise AssertionError(f"no builder for the rule {rule}")
