"""From a played draft to a whole pattern: pieces cut, seams matched, girths measured, words filled in."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field, replace
from math import degrees
from typing import TypeVar

from app.pattern.drafting import DartShape, Env, Program
from app.pattern.drafting.advice import CUT_SOMETHING
from app.pattern.drafting.errors import CannotDraw, geometry_failure, piece_left_out
from app.pattern.drafting.limits import require_drawable, too_much_work, work_of
from app.pattern.drafting.shapes import Shape, ShapeDart
from app.pattern.geometry import GeometryError, Path, Point, TooMuchWork, Transform, counted
from app.pattern.language import nodes as n
from app.pattern.names import in_words, part_named, titled
from app.pattern.pieces.cut import cut_piece
from app.pattern.pieces.drafted import dart_spec, darts_as_listed, fold_lines, mark
from app.pattern.pieces.matching import NotchWish, lost_notches, match_notches, notch_on
from app.pattern.pieces.measure import run_length, starts_at_fold
from app.pattern.pieces.model import (
    Allowance,
    CornerCut,
    Cut,
    Edge,
    EdgeRun,
    Fabric,
    FitPlace,
    Girth,
    Grain,
    Mark,
    Notch,
    Notion,
    Pattern,
    Piece,
    Seam,
    StepText,
)
from app.pattern.pieces.spec import DartSpec, PieceSpec
from app.pattern.pieces.told_body import told_of_body
from app.pattern.pieces.width import width_at
from app.pattern.problem import Problem, Refused, Span
from app.pattern.units import Unit, show_length, show_seam_width

__all__ = ["assemble", "nothing_to_cut"]

_C = TypeVar("_C")

_MOST_MARKS = 200
_AS_LONG = 0.5  # mm: a girth as long as a measure of the body
_STATURE = "stature"
_MARKING = 60  # work of a mark or a notch, which is drawn several times over (see `geometry.work`)
_CUTTING = 10  # work of cutting, checking and drawing a line or curve of a piece, and as much for each beside it
_WAYS = {"down": (0.0, -1.0), "up": (0.0, 1.0), "left": (-1.0, 0.0), "right": (1.0, 0.0)}


def assemble(program: Program, env: Env, unit: Unit) -> Pattern | Refused:
    """The pattern of a played draft, its words in `unit`; refused when a part of it cannot be made.

    Fills `env.edges` and `env.width` with what was cut.
    """
    work = _Assembly(program, env, unit)
    try:
        with counted(env.work):
            return work.pattern()
    except TooMuchWork:
        work.note(*too_much_work(), work.at)
        return Refused(tuple(work.problems))


def nothing_to_cut(program: Program) -> Problem:
    """What is said of a draft of which, with the choices as they are, no piece is cut: it is no pattern."""
    if not program.draft.pieces:
        said, fix = "There is no piece to cut, so this is not a pattern.", CUT_SOMETHING
    else:
        said = "With these choices there is no piece to cut, so this is not a pattern."
        fix = "Let one piece at least be cut whatever is chosen, or do not offer choices that leave none."
    return program.source.problem("pieces.nothing-to-cut", said, fix, program.draft.span)


def _figures(env: Env) -> dict[str, float]:
    """What the draft's own figures came to: lengths in mm, areas in square mm, angles in radians, plain numbers."""
    named = {key.removeprefix("figures."): value for key, value in env.values.items() if key.startswith("figures.")}
    return {name: float(v) for name, v in named.items() if isinstance(v, int | float) and not isinstance(v, bool)}


@dataclass(slots=True)
class _Assembly:
    program: Program
    env: Env
    unit: Unit
    problems: list[Problem] = field(default_factory=list)
    pieces: dict[str, Piece] = field(default_factory=dict)
    at: Span = field(default_factory=lambda: Span("", 1, 1, 2))  # the line that is worked on

    def pattern(self) -> Pattern | Refused:
        """The whole pattern. `TooMuchWork` when there is too much to do."""
        draft = self.program.draft
        fabrics = self.fabrics()
        self.cut_pieces({fabric.name for fabric in fabrics})
        if not self.pieces and not self.problems:
            self.problems.append(nothing_to_cut(self.program))
        if self.problems:
            return Refused(tuple(self.problems))
        seams = self.seams()
        girths = tuple(g for line in draft.girths if (g := self.girth(line)) is not None)
        notions = tuple(x for line in draft.notions if (x := self.notion(line)) is not None)
        # The stature of the body that is drawn for, mm; None where it is not known
        stature = self.env.values.get(f"body.{_STATURE}")
        pattern = Pattern(
            draft.title,
            tuple(self.pieces.values()),
            seams,
            girths,
            fabrics,
            notions,
            figures=_figures(self.env),
            group=draft.group,
            statures=self.program.statures,
            stature=stature if isinstance(stature, float) else None,
            fits=tuple(place for line in draft.fits if (place := self.fit(line)) is not None),
        )
        whole = replace(pattern, steps=self.steps(pattern))
        return Refused(tuple(self.problems)) if self.problems else whole

    # ---- reading expressions
    def _holds(self, test: n.Expr | None, span: Span) -> bool:
        return bool(self._value(test, span)) if test is not None else True

    def _value(self, node: n.Expr, span: Span) -> object:
        """The value of an expression; a problem at `span` and None when it has none for this body."""
        self.at = span
        self.env.work.spend(1)
        try:
            value = self.program.run_of(node)(self.env)
            require_drawable(value)
            return value
        except CannotDraw as cannot:
            self.note(cannot.code, cannot.message, cannot.fix, span)
        except GeometryError as wrong:
            self.note(*geometry_failure(wrong), span)
        return None

    def note(self, code: str, message: str, fix: str, span: Span) -> None:
        """Note a problem at a place of the draft."""
        self.problems.append(self.program.source.problem(code, message, fix, span))

    def _number(self, node: n.Expr | None, span: Span, otherwise: float = 0.0) -> float:
        value = self._value(node, span) if node is not None else otherwise
        return float(value) if isinstance(value, int | float) else otherwise

    # ---- cloth
    def fabrics(self) -> tuple[Fabric, ...]:
        """The cloths that this garment uses."""
        return tuple(self._fabric(line) for line in self.program.draft.fabrics if self._holds(line.when, line.span))

    def _fabric(self, line: n.FabricLine) -> Fabric:
        return Fabric(
            line.name,
            line.title,
            self._number(line.width, line.span, 1400.0),
            line.one_way,
            not line.open,
            self._number(line.shrinks, line.span),
            self._number(line.stretches, line.span),
            line.span,
        )

    # ---- pieces
    def cut_pieces(self, fabrics: set[str]) -> None:
        """Cut every piece that is asked for and lay its edges open to later expressions."""
        for node in self.program.draft.pieces:
            cuts = tuple(Cut(c.fabric, c.count, c.on_fold, c.pair) for c in node.cuts if c.fabric in fabrics)
            if cuts and self._holds(node.when, node.span):
                self._cut(node, cuts)
        self.env.width = self._width

    def _width(self, piece: str, at: Point) -> float:
        if piece not in self.pieces:
            raise piece_left_out(piece)
        cut = self.pieces[piece]
        self.env.work.spend(20 + 12 * len(cut.stitching.segments))
        width: float = width_at(cut, at.y)
        return width

    def _cut(self, node: n.PieceNode, cuts: tuple[Cut, ...]) -> None:
        spec = self._spec(node, cuts)
        self.at = node.span
        if spec is None:
            return
        edges = sum(len(item.path.segments) for item in spec.items if isinstance(item, Edge))
        self.env.work.spend(_CUTTING * edges + edges * edges)
        piece = cut_piece(spec)
        if isinstance(piece, Refused):
            self._note_all(piece)
            return
        self.pieces[piece.name] = piece
        for edge in piece.edges:
            self.env.edges[f"{piece.name}.{edge.name}"] = edge.path
            if edge.taken_in:
                self.env.taken_in[f"{piece.name}.{edge.name}"] = edge.taken_in

    def _note_all(self, refused: Refused) -> None:
        """Note what was refused, each problem with the line of the draft where it points at one."""
        for problem in refused.problems:
            shown = self.program.source.excerpt(problem.where) if isinstance(problem.where, Span) else problem.excerpt
            self.problems.append(replace(problem, excerpt=shown))

    def _spec(self, node: n.PieceNode, cuts: tuple[Cut, ...]) -> PieceSpec | None:
        found = len(self.problems)
        clause = self._clause(node, n.AllowanceClause)
        allowances = {
            item.edge: Allowance(self._number(item.width, item.span), CornerCut(item.corner)) for item in clause.items
        }
        outline = next(c for c in node.clauses if isinstance(c, n.OutlineClause | n.OutlineOf))
        # Pattern work may stand in the line itself: it is done once for the outline and the folds.
        shape = self._value(outline.shape, outline.span) if isinstance(outline, n.OutlineOf) else None
        items = self._finished(node, self._items(node, outline, shape, allowances))
        grain = self._grain(self._clause(node, n.GrainClause))
        if len(self.problems) > found or grain is None:
            return None
        edges = {item.name: item for item in items if isinstance(item, Edge)}
        wanted = [self._notch(node.name, c, edges) for c in node.clauses if isinstance(c, n.NotchClause)]
        notches = tuple(notch for notch in wanted if notch is not None)
        marked = [c for c in node.clauses if isinstance(c, n.MarkClause)]
        marks = tuple(m for c in marked if self._holds(c.when, c.span) for m in self._marks(c))
        marks += fold_lines(shape, outline.span) if isinstance(shape, Shape) else ()
        note = " ".join(c.text for c in node.clauses if isinstance(c, n.NoteClause))
        if len(self.problems) > found:
            return None
        return PieceSpec(node.name, node.title, items, grain, cuts, notches, marks, note, node.span)

    def _items(
        self,
        node: n.PieceNode,
        outline: n.OutlineClause | n.OutlineOf,
        shape: object,
        allowances: dict[str, Allowance],
    ) -> tuple[Edge | DartSpec, ...]:
        if isinstance(outline, n.OutlineClause):
            return darts_as_listed([self._item(node, item, allowances) for item in outline.items])
        return self._shape_items(node, outline, shape, allowances) if isinstance(shape, Shape) else ()

    def _finished(self, node: n.PieceNode, items: tuple[Edge | DartSpec, ...]) -> tuple[Edge | DartSpec, ...]:
        """The outline with what is said of how its edges are finished, of each edge once."""
        said: dict[str, str] = {}
        names = [item.name for item in items if isinstance(item, Edge)]
        for clause in node.clauses:
            if not isinstance(clause, n.FinishClause) or not self._holds(clause.when, clause.span):
                continue
            for finished in clause.edges:
                edge = part_named(finished.edge, names)
                if edge is None:
                    self._no_edge(node.name, finished.edge, names, finished.span)
                    continue
                if edge in said:
                    told = f"The edge {edge} of {node.name} is {said[edge]} and {clause.how} at once."
                    self.note("pieces.finish-twice", told, "Say one of the two.", finished.span)
                said[edge] = clause.how
        return tuple(replace(i, finish=said.get(i.name, "")) if isinstance(i, Edge) else i for i in items)

    def _shape_items(
        self, node: n.PieceNode, clause: n.OutlineOf, shape: Shape, allowances: dict[str, Allowance]
    ) -> tuple[Edge | DartSpec, ...]:
        items: list[Edge | DartSpec] = []
        names = [item.name for item in shape.items]
        folds = {part_named(name, names) for name in clause.folds}
        allowances = {(part_named(name, names) or name): width for name, width in allowances.items()}
        for item in shape.items:
            if isinstance(item, ShapeDart):
                self.env.edges[f"{node.name}.{item.name}"] = item.dart
                items.append(dart_spec(item.name, item.dart, clause.span))
                continue
            fold = item.name in folds
            width = Allowance(0.0) if fold else allowances.get(item.name, allowances[""])
            items.append(Edge(item.name, item.path, width, fold, True, clause.span, item.folds))
        return tuple(items)

    @staticmethod
    def _clause(node: n.PieceNode, sort: type[_C]) -> _C:
        return next(clause for clause in node.clauses if isinstance(clause, sort))

    def _item(self, node: n.PieceNode, item: n.OutlineItem, allowances: dict[str, Allowance]) -> Edge | DartSpec:
        value = self._value(item.source, item.span)
        if isinstance(value, DartShape):
            self.env.edges[f"{node.name}.{item.name}"] = value
            return dart_spec(item.name, value, item.span)
        path = value if isinstance(value, Path) else Path.through(Point(0.0, 0.0), Point(1.0, 0.0))
        width = Allowance(0.0) if item.fold else allowances.get(item.name, allowances[""])
        return Edge(item.name, path, width, item.fold, True, item.span)

    def _grain(self, clause: n.GrainClause) -> Grain | None:
        if clause.path is not None:
            path = self._value(clause.path, clause.span)
            return Grain(path.start, path.end) if isinstance(path, Path) else None
        ends = [self._value(p, clause.span) for p in (clause.start, clause.end) if p is not None]
        points = [p for p in ends if isinstance(p, Point)]
        return Grain(points[0], points[1]) if len(points) == 2 else None

    def _notch(self, piece: str, clause: n.NotchClause, edges: dict[str, Edge]) -> Notch | None:
        self.env.work.spend(_MARKING)
        edge = edges.get(part_named(clause.edge, edges) or "")
        if edge is None:
            self._no_edge(piece, clause.edge, edges, clause.span)
            return None
        distance = self._number(clause.distance, clause.span)
        end = self._value(clause.end, clause.span) if clause.end is not None else edge.path.start
        from_end = isinstance(end, Point) and end.distance(edge.path.end) < end.distance(edge.path.start)
        wish = NotchWish(distance, "end" if from_end else "start", clause.double, "a", clause.span)
        notch = notch_on(piece, edge, wish)
        if isinstance(notch, Refused):
            self._note_all(notch)
            return None
        return notch

    def _marks(self, clause: n.MarkClause) -> tuple[Mark, ...]:
        """The mark, and its repeats at even steps; the label stands at the first."""
        value = self._value(clause.what, clause.span)
        times = round(self._number(clause.times, clause.span, 1.0))
        if not 1 <= times <= _MOST_MARKS:
            said, fix = f"This mark would be drawn {times} times.", f"Draw it 1 to {_MOST_MARKS} times."
            self.note("pieces.repeats", said, fix, clause.span)
            return ()
        self.env.work.spend(times * (_MARKING + work_of(value)))
        step = self._number(clause.step, clause.span)
        dx, dy = _WAYS.get(clause.direction, (0.0, 0.0))
        moves = (Transform.move(dx * step * i, dy * step * i) for i in range(times))
        return tuple(mark(clause, value, move, clause.label if i == 0 else "") for i, move in enumerate(moves))

    # ---- seams
    def seams(self) -> tuple[Seam, ...]:
        """Every seam whose pieces are there, its notches put on the pieces of both sides."""
        seams: list[Seam] = []
        for line in self.program.draft.seams:
            if self._holds(line.when, line.span) and self._present(line):
                seam = self._seam(line)
                seams.append(replace(seam, unmarked=self._match(line, seam, len(seams))))
        return tuple(seams)

    def _present(self, line: n.SewLine) -> bool:
        runs = (*line.a, *line.b)
        absent = [run for run in runs if run.piece not in self.pieces]
        for run in runs:
            names = [e.name for e in self.pieces[run.piece].edges] if run.piece in self.pieces else [run.edge]
            if part_named(run.edge, names) is None:
                self._no_edge(run.piece, run.edge, names, run.span)
                return False
        for run in absent:
            told_of = piece_left_out(run.piece)
            self.note("pieces.left-out", told_of.message, told_of.fix, run.span)
        return not absent

    def _no_edge(self, piece: str, edge: str, names: Iterable[str], span: Span) -> None:
        """A side that the shape was not cut into for this body."""
        said = f"For this body the piece {piece} has no edge “{edge}”."
        fix = f"Its edges are: {', '.join(names)}."
        self.note("drafting.unknown-edge", said, fix, span)

    def _seam(self, line: n.SewLine) -> Seam:
        a, b = (tuple(self._run(run) for run in side) for side in (line.a, line.b))
        none = 0.0 if line.kind in ("plain", "ease", "short") else 1.0
        limits = (self._number(line.least, line.span, none), self._number(line.most, line.span, none))
        if line.kind in ("gather", "elastic"):
            return Seam(a, b, line.kind, ratio=limits, span=line.span)
        if line.kind == "short":
            return Seam(a, b, line.kind, ease=(-limits[1], -limits[0]), span=line.span)
        return Seam(a, b, line.kind, ease=limits, span=line.span)

    def _run(self, run: n.RunNode) -> EdgeRun:
        """The run as it is walked: both halves of an edge that ends on the fold, from the end that is away from it."""
        backwards = run.backwards
        piece = self.pieces[run.piece]
        edge = part_named(run.edge, [edge.name for edge in piece.edges]) or run.edge
        if run.times > 1 and starts_at_fold(piece, edge, backwards):
            backwards = not backwards
        return EdgeRun(run.piece, edge, backwards, run.times)

    def _match(self, line: n.SewLine, seam: Seam, index: int) -> tuple[Span, ...]:
        """Put the seam's notches on the pieces of both sides; gives the lines of those that no piece takes."""
        if not line.notches:
            return ()
        self.at = line.span
        self.env.work.spend(len(line.notches) * (_MARKING + len(line.notches) * (len(line.a) + len(line.b))))
        wishes = [self._wish(notch, seam) for notch in line.notches]
        matched = match_notches(self.pieces, seam, index, wishes)
        if isinstance(matched, Refused):
            self._note_all(matched)
            return ()
        for placed in matched:
            piece = self.pieces[placed.piece]
            self.pieces[placed.piece] = replace(piece, notches=(*piece.notches, placed.notch))
        return lost_notches(self.pieces, seam, wishes)

    def _wish(self, notch: n.SeamNotch, seam: Seam) -> NotchWish:
        """The notch as it is wanted along side a, mm; a plain number is a share of the whole."""
        value = self._number(notch.distance, notch.span)
        if self.program.kinds.get(id(notch.distance)) == "number":
            value *= run_length(self.pieces, seam.b if notch.facing else seam.a)
        side = "b" if notch.facing else "a"
        return NotchWish(value, "end" if notch.from_end else "start", notch.double, side, notch.span)

    # ---- figures and words
    def girth(self, line: n.GirthLine) -> Girth | None:
        """A finished girth as measured on the pieces, beside what it must come to."""
        if not self._holds(line.when, line.span):
            return None
        measured = self._number(line.value, line.span)
        body = self._number(line.body, line.span)
        ease = self._number(line.ease, line.span, measured)
        measure = line.body.name if isinstance(line.body, n.Name) else ""
        title = titled(line.title, line.name)
        stretches, opens, passes = (self._number(x, line.span) for x in (line.stretches, line.opens, line.passes))
        return Girth(
            line.name,
            title,
            measured,
            body,
            ease,
            measure,
            line.span,
            stretches_to=stretches,
            opens=opens,
            opens_fully=line.opens_fully,
            passes=passes,
            as_body=self._as_body(measured) if stretches else "",
        )

    def fit(self, line: n.FitLine) -> FitPlace | None:
        """What the garment measures at a place of the body, beside the body's own figure."""
        if not self._holds(line.when, line.span):
            return None
        measured, least, most = (self._number(node, line.span) for node in (line.value, line.least, line.most))
        body, spread = told_of_body(self.program, self.env, line.measure.name)
        title = titled(line.title, line.name)
        return FitPlace(line.name, title, measured, line.measure.name, body, spread, least, most, line.span)

    def _as_body(self, measured: float) -> str:
        """The measure of the body that a length equals, or "" when it equals none."""
        needs = (need.name for need in self.program.draft.needs)
        taken = ((name, self.env.values.get(f"body.{name}")) for name in needs)
        return next((name for name, mm in taken if isinstance(mm, float) and abs(mm - measured) < _AS_LONG), "")

    def notion(self, line: n.NotionLine) -> Notion | None:
        """Something to buy, its amount worked out."""
        if not self._holds(line.when, line.span):
            return None
        count = self._number(line.count, line.span) if line.count is not None else None
        length = self._number(line.length, line.span) if line.length is not None else None
        return Notion(line.name, line.title, count, length, line.span)

    def steps(self, pattern: Pattern) -> tuple[StepText, ...]:
        """The steps of the making in the customer's figures."""
        return tuple(
            StepText(
                step.title,
                "".join(self._said(part, step.span) for part in step.parts).strip(),
                tuple(i for dotted in step.seams if (i := _seam_of(pattern, dotted)) is not None),
                step.span,
            )
            for step in self.program.draft.steps
            if self._holds(step.when, step.span)
        )

    def _said(self, part: str | n.Expr, span: Span) -> str:
        if isinstance(part, str):
            return part
        value = self._value(part, span)
        kind = self.program.kinds.get(id(part), "number")
        if not isinstance(value, float):
            return in_words(str(value)) if value is not None else ""
        if kind == "length":
            # A length the designer wrote down is a width to sew by; any other was worked out for this body.
            show = show_seam_width if isinstance(part, n.Quantity) else show_length
            return show(value, self.unit).replace(" ", "\u00a0")
        return f"{degrees(value):.0f}°" if kind == "angle" else f"{value:.2f}".rstrip("0").rstrip(".")


def _seam_of(pattern: Pattern, dotted: n.Dotted) -> int | None:
    names = [edge.name for piece in pattern.pieces if piece.name == dotted.owner for edge in piece.edges]
    name = part_named(dotted.name, names)
    for index, seam in enumerate(pattern.seams):
        if any((run.piece, run.edge) == (dotted.owner, name) for run in (*seam.a, *seam.b)):
            return index
    return None
