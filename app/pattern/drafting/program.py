"""A whole draft compiled: names, kinds and references checked without a body, every error told at once."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

from app.pattern.body import MEASURES
from app.pattern.drafting.choices import Choice, read_choices
from app.pattern.drafting.env import Run, Step
from app.pattern.drafting.expressions import ExpressionCompiler, Known, Scope, name_list
from app.pattern.drafting.kinds import Kind
from app.pattern.drafting.shape_expressions import held_names
from app.pattern.drafting.steps import lay_steps
from app.pattern.language import Draft, Source, nearest
from app.pattern.language import nodes as n
from app.pattern.problem import Problem, Span

__all__ = ["Program", "compile_draft"]


@dataclass(frozen=True, slots=True)
class Program:
    """A draft ready to be played for a body.

    `sheets` are compiled steps in order, with their names; `run_of` gives the compiled
    form of an expression of the tree (they are kept by identity, as are the `kinds` of steps
    and expressions). `statures` (least, most, mm) are those that the garment is offered for,
    where the draft says so. `problems` are what is wrong with it; one that has errors cannot be played.
    """

    draft: Draft
    source: Source
    choices: tuple[Choice, ...]
    figures: tuple[Step, ...]
    sheets: tuple[tuple[str, tuple[Step, ...]], ...]
    piece_sheets: dict[str, str]
    table: dict[int, Run]
    kinds: dict[int, str]
    statures: tuple[float, float] | None = None
    problems: tuple[Problem, ...] = ()

    def run_of(self, node: n.Expr) -> Run:
        """The compiled form of `node`."""
        return self.table[id(node)]


def compile_draft(draft: Draft, source: Source) -> Program:
    """Compile and check a draft without a body."""
    return _Compiler(draft, source).program()


class _Compiler:
    def __init__(self, draft: Draft, source: Source) -> None:
        self.draft = draft
        self.expressions = ExpressionCompiler(source)
        self.globals = Scope()
        self.piece_sheets: dict[str, str] = {}

    def program(self) -> Program:
        """Everything in the order in which names become known."""
        self.globals.open = self.draft.lost
        owners = [node.name for node in self.draft.sheets] + [node.name for node in self.draft.pieces]
        self.expressions.owners_open = self.draft.lost or "" in owners
        statures = self._statures()
        self._needs()
        self.expressions.asked = tuple(need.name for need in self.draft.needs if need.name in MEASURES)
        self.expressions.group = self.draft.group
        choices = self._choices()
        self.globals.may_hold(self.draft.unread)
        self._twice("fabric", self.draft.fabrics)
        self._twice("notion", self.draft.notions)
        figures = tuple(lay_steps(self.draft.figures, self.expressions, self.globals, "figures"))
        sheets = tuple(self._sheet(sheet) for sheet in self.draft.sheets)
        self._twice("sheet", self.draft.sheets)
        self._twice("piece", self.draft.pieces)
        for piece in self.draft.pieces:
            self._piece(piece)
        self._fabrics()
        self._assembly()
        self._instructions()
        done = self.expressions
        return Program(
            self.draft,
            done.source,
            choices,
            figures,
            sheets,
            self.piece_sheets,
            done.table,
            done.kinds,
            statures,
            tuple(done.problems),
        )

    # ---- what is known from the start
    def _statures(self) -> tuple[float, float] | None:
        """The statures of the `for` line, which hang on no name."""
        whom = self.draft.whom
        if whom is None or whom.least is None or whom.most is None:
            return None
        for node in (whom.least, whom.most):
            self.expressions.wanted(node, Scope(), "length")
        found = [self.expressions.fixed(node) for node in (whom.least, whom.most)]
        least, most = (value if isinstance(value, float | int) else 0.0 for value in found)
        if least > most:
            said = "The smallest stature is greater than the greatest."
            self.expressions.note("drafting.statures", said, "Exchange the two.", whom.span)
        return float(least), float(most)

    def _needs(self) -> None:
        for need in self.draft.needs:
            if need.name not in MEASURES:
                self.expressions.note(
                    "drafting.unknown-measurement",
                    f"“{need.name}” is no measurement of the register.",
                    self.expressions.suggest(need.name, MEASURES, "Use the names of ISO 8559-1, such as bust_girth."),
                    need.span,
                )
                # The name that was meant is taken as known, so that one slip is told once.
                if (meant := nearest(need.name, MEASURES)) is not None:
                    self.globals.names[meant] = Known(f"body.{meant}", Kind("length"), need.span)
            self.globals.names[need.name] = Known(f"body.{need.name}", Kind("length"), need.span)

    def _choices(self) -> tuple[Choice, ...]:
        choices = read_choices(self.draft.choices, self.expressions)
        for choice, line in zip(choices, self.draft.choices, strict=False):
            if choice.name in self.globals.names:
                self.expressions.note(
                    "drafting.name-twice", f"“{choice.name}” is named twice.", "Choose another name.", line.span
                )
            self.globals.names[choice.name] = Known(
                f"choice.{choice.name}", Kind(choice.kind, choice.options), line.span
            )
        return choices

    def _twice(self, what: str, nodes: Iterable[Any]) -> None:
        for name, count in Counter(node.name for node in nodes).items():
            if count > 1 and name:
                span = [node.span for node in nodes if node.name == name][-1]
                self.expressions.note("drafting.name-twice", f"Two {what}s are named “{name}”.", "Rename one.", span)

    def _sheet(self, sheet: n.SheetNode) -> tuple[str, tuple[Step, ...]]:
        scope = Scope({}, self.globals)
        scope.may_hold(sheet.unread)
        self.expressions.sheets[sheet.name] = scope
        return sheet.name, tuple(lay_steps(sheet.steps, self.expressions, scope, f"sheet {sheet.name}"))

    # ---- pieces
    def _piece(self, piece: n.PieceNode) -> None:
        scope = self._sheet_of(piece)
        self._test(piece.when)
        self._cuts(piece)
        outline = self._only(piece, (n.OutlineClause, n.OutlineOf), "outline")
        self._only(piece, (n.GrainClause,), "grain")
        self._only(piece, (n.AllowanceClause,), "allowance")
        # Without its outline line, told by now, a piece may have any edge.
        edges = self._outline(piece, outline, scope) if outline else Scope(open=True)
        self.expressions.pieces[piece.name] = edges
        for clause in piece.clauses:
            self._clause(piece, clause, scope, edges)

    def _sheet_of(self, piece: n.PieceNode) -> Scope:
        sheets = self.expressions.sheets
        name = piece.sheet or (
            piece.name if piece.name in sheets else next(iter(sheets), "") if len(sheets) == 1 else ""
        )
        if name not in sheets and "piece" not in piece.unread and not self.expressions.owners_open:
            fix = self.expressions.suggest(
                piece.sheet, sheets, f"Write: from SHEET. Known are: {name_list(list(sheets))}."
            )
            said = (
                f"There is no sheet “{piece.sheet}”."
                if piece.sheet
                else "It is not said from which sheet this piece comes."
            )
            self.expressions.note("drafting.unknown-sheet", said, fix, piece.span)
        # Where a slip is likely the sheet that was meant is taken, so that the slip is told once.
        likely = None if self.expressions.owners_open else nearest(name, sheets)
        meant = name if name in sheets else likely
        scope = sheets[meant] if meant is not None else Scope({}, self.globals, open=True)
        self.piece_sheets[piece.name] = name
        self.expressions.piece_scopes[piece.name] = scope
        return scope

    def _cuts(self, piece: n.PieceNode) -> None:
        fabrics = [fabric.name for fabric in self.draft.fabrics]
        any_other = self.draft.lost or "" in fabrics
        for cut in piece.cuts:
            if not any_other and cut.fabric not in (*fabrics, *self.draft.unread):
                fix = self.expressions.suggest(cut.fabric, fabrics, "List it under fabrics.")
                self.expressions.note("drafting.unknown-fabric", f"There is no fabric “{cut.fabric}”.", fix, cut.span)
            if cut.pair and cut.count % 2:
                self.expressions.note(
                    "drafting.odd-pair", f"{cut.count} pieces make no mirrored pairs.", "Cut an even number.", cut.span
                )
            if cut.count < 1:
                self.expressions.note("drafting.no-cut", "None of this piece is cut.", "Cut at least 1.", cut.span)

    def _only(self, piece: n.PieceNode, sort: tuple[type, ...], word: str) -> Any:
        found = [clause for clause in piece.clauses if isinstance(clause, sort)]
        may_be = self.draft.lost or word in piece.unread or "" in piece.unread
        if len(found) > 1 or (not found and not may_be):
            said = f"The piece {piece.name} has {'no' if not found else 'more than one'} {word} line."
            self.expressions.note("drafting.piece-line", said, f"Give it one line beginning with “{word}”.", piece.span)
        return found[0] if found else None

    def _outline(self, piece: n.PieceNode, clause: n.OutlineClause | n.OutlineOf, scope: Scope) -> Scope:
        if isinstance(clause, n.OutlineOf):
            compiled = self.expressions.wanted(clause.shape, scope, "shape")
            held = held_names(compiled.kind)
            edges = Scope(open="unknown" in (compiled.kind.name, *held.values()))
            for name, kind in held.items():
                if kind in ("path", "dart", "unknown"):
                    edges.names[name] = Known(f"{piece.name}.{name}", Kind(kind), clause.span)
            for fold in clause.folds:
                self._edge_known(piece, fold, edges, clause.span)
            return edges
        edges = Scope()
        for item in clause.items:
            compiled = self.expressions.wanted(item.source, scope, "path|dart")
            if item.name in edges.names:
                self.expressions.note(
                    "drafting.name-twice", f"Two edges are named “{item.name}”.", "Rename one with “as”.", item.span
                )
            edges.names[item.name] = Known(f"{piece.name}.{item.name}", compiled.kind, item.span)
            # One that nothing on the sheet is called may be a slip for any other.
            edges.open = edges.open or compiled.kind.name == "unknown"
        return edges

    def _clause(self, piece: n.PieceNode, clause: Any, scope: Scope, edges: Scope) -> None:
        if isinstance(clause, n.GrainClause):
            for node, kind in ((clause.path, "path"), (clause.start, "point"), (clause.end, "point")):
                self._wanted(node, scope, kind)
        elif isinstance(clause, n.AllowanceClause):
            for item in clause.items:
                self._wanted(item.width, scope, "length")
                self._edge_known(piece, item.edge, edges, item.span)
        elif isinstance(clause, n.FinishClause):
            for finished in clause.edges:
                self._edge_known(piece, finished.edge, edges, finished.span)
            self._wanted(clause.when, self.globals, "yesno")
        elif isinstance(clause, n.NotchClause):
            self._edge_known(piece, clause.edge, edges, clause.span)
            self._wanted(clause.distance, scope, "length")
            self._wanted(clause.end, scope, "point")
        elif isinstance(clause, n.MarkClause):
            self._wanted(clause.what, scope, "point|path")
            self._wanted(clause.times, scope, "number")
            self._wanted(clause.step, scope, "length")
            self._wanted(clause.when, scope, "yesno")

    def _wanted(self, node: n.Expr | None, scope: Scope, kind: str) -> None:
        if node is not None:
            self.expressions.wanted(node, scope, kind)

    def _edge_known(self, piece: n.PieceNode, edge: str, edges: Scope, span: Span) -> None:
        if edge and edges.find(edge) is None:
            fix = self.expressions.suggest(edge, edges.names, f"Its edges are: {name_list(list(edges.names))}.")
            self.expressions.note("drafting.unknown-edge", f"The piece {piece.name} has no edge “{edge}”.", fix, span)

    def _run_known(self, run: n.RunNode) -> None:
        """A seam takes edges of pieces only: not darts, nor what else stands on the sheet behind a piece."""
        edges = self.expressions.pieces.get(run.piece)
        if edges is None:
            if not self.expressions.owners_open:
                pieces = self.expressions.pieces
                fix = self.expressions.suggest(run.piece, pieces, f"Known are: {name_list(list(pieces))}.")
                self.expressions.note("drafting.unknown-owner", f"No piece is named “{run.piece}”.", fix, run.span)
            return
        known = edges.find(run.edge)
        if known is None or known.kind.name == "dart":
            sides = [name for name, side in edges.names.items() if side.kind.name != "dart"]
            fix = self.expressions.suggest(run.edge, sides, f"Its edges are: {name_list(sides)}.")
            self.expressions.note(
                "drafting.unknown-edge", f"The piece {run.piece} has no edge “{run.edge}”.", fix, run.span
            )

    # ---- the rest
    def _test(self, node: n.Expr | None) -> None:
        self._wanted(node, self.globals, "yesno")

    def _fabrics(self) -> None:
        for fabric in self.draft.fabrics:
            # The width must be known before anyone is measured: no name can stand in it
            noted = len(self.expressions.problems)
            self._wanted(fabric.width, Scope(), "length")
            if fabric.width is not None and len(self.expressions.problems) == noted:
                self.expressions.fixed(fabric.width)
            self._wanted(fabric.shrinks, self.globals, "number")
            self._wanted(fabric.stretches, self.globals, "number")
            self._test(fabric.when)

    def _assembly(self) -> None:
        for seam in self.draft.seams:
            for run in (*seam.a, *seam.b):
                self._run_known(run)
            kind = "length" if seam.kind in ("ease", "short") else "number"
            self._wanted(seam.least, self.globals, kind)
            self._wanted(seam.most, self.globals, kind)
            for notch in seam.notches:
                self._wanted(notch.distance, self.globals, "length|number")
            self._test(seam.when)
        for girth in self.draft.girths:
            for node in (girth.value, girth.body, girth.ease, girth.stretches, girth.opens, girth.passes):
                self._wanted(node, self.globals, "length")
            self._test(girth.when)
        for fit in self.draft.fits:
            self.expressions.measure(fit.measure, fit.span)
            for node in (fit.value, fit.least, fit.most):
                self._wanted(node, self.globals, "length")
            self._test(fit.when)
        self._twice("fit line", self.draft.fits)

    def _instructions(self) -> None:
        for notion in self.draft.notions:
            self._wanted(notion.count, self.globals, "number")
            self._wanted(notion.length, self.globals, "length")
            self._test(notion.when)
        for step in self.draft.steps:
            self._test(step.when)
            for part in step.parts:
                if not isinstance(part, str):
                    self._wanted(part, self.globals, "length|number|angle|text|option")
            for seam in step.seams:
                self._seam_known(seam)

    def _seam_known(self, edge: n.Dotted) -> None:
        """An edge whose picture is wanted must be in a seam, which may be absent where its condition does not hold."""
        noted = len(self.expressions.problems)
        known = self.expressions.expr(edge, self.globals).kind
        runs = [f"{run.piece}.{run.edge}" for line in self.draft.seams for run in (*line.a, *line.b)]
        written = f"{edge.owner}.{edge.name}"
        told = len(self.expressions.problems) > noted or known.name == "unknown" or self.draft.lost
        if not told and written not in (*runs, *self.draft.unread):
            sides = sorted({run for run in runs if run.startswith(f"{edge.owner}.")}) or sorted(set(runs))
            fix = f"Edges in seams are: {name_list(sides)}." if runs else "Write the seam first: sew EDGE to EDGE."
            said = f"No seam is sewn along {written}, so that there is no picture of one."
            self.expressions.note("drafting.no-seam", said, fix, edge.span)
