"""Expressions: names and kinds resolved without a body, compiled to plain functions of an `Env`."""

from __future__ import annotations

import operator
from collections.abc import Callable, Iterable
from functools import cache
from typing import Any

from app.pattern.body import MEASURES
from app.pattern.drafting.env import Env, Run
from app.pattern.drafting.errors import CannotDraw, piece_left_out
from app.pattern.drafting.forms import FORMS, Form
from app.pattern.drafting.kinds import Kind, Value, say_kind
from app.pattern.drafting.limits import require_drawable, work_of
from app.pattern.drafting.measure_expressions import MeasureCompiler
from app.pattern.drafting.offers import offer
from app.pattern.drafting.scope import Compiled, Known, Scope, name_list
from app.pattern.drafting.shape_expressions import ShapeCompiler
from app.pattern.language import Source, suggest
from app.pattern.language import nodes as n
from app.pattern.names import part_named
from app.pattern.problem import Problem, Span

__all__ = ["FUNCTIONS", "OPERATORS", "Compiled", "Known", "Scope", "ExpressionCompiler", "name_list"]

_UNKNOWN = Kind("unknown")
_DIMENSIONS = {"number": 0, "length": 1, "area": 2}
_BY_DIMENSION = {0: "number", 1: "length", 2: "area"}
_SAME = {"min()": min, "max()": max, "abs()": abs}
_NAME_IT = "Name it on a line above, or list it under needs or choices."
_MEASURE_IT = "Write a measure such as 3cm: nothing has a name here."
_MOST_HELD = 2_000  # names a shape may hold: each pivot may halve any side, so that they would grow without end
_MOST_TOLD = 500  # problems of one draft's names and kinds
#: Above any area (mm²) of a garment, and low enough that what is drawn with it ends.
_HUGE = 1e9
_FEW, _PART = 3, 2  # so many parts of a form are no work; each of more is so much (see `geometry.work`)
_ORDER = {"<": operator.lt, ">": operator.gt, "<=": operator.le, ">=": operator.ge}


def _constant(value: Any) -> Run:
    return lambda env: value


def _looked_up(key: str, name: str) -> Run:
    def run(env: Env) -> Any:
        try:
            return env.values[key]
        except KeyError:
            raise CannotDraw(
                "drafting.not-drawn",
                f"“{name}” was not drawn, since its condition does not hold.",
                "Put this line under the same condition.",
            ) from None

    return run


def _divide(a: float, b: float) -> float:
    if abs(b) < 1e-12:
        raise CannotDraw("drafting.division", "This divides by 0.", "Keep the divisor away from 0.")
    return _measured(a / b)


def _multiply(a: float, b: float) -> float:
    return _measured(a * b)


def _measured(value: float) -> float:
    """`value`, if it could be measured on some cloth: what goes on from here must not run into infinity."""
    if not -_HUGE < value < _HUGE:
        raise CannotDraw("drafting.huge", "This comes to no finite size.", "Check the formula.")
    return value


def _no_such_edge(node: n.Dotted, env: Env) -> CannotDraw:
    """The piece was left out, or the shape it is cut from lost this edge to pattern work."""
    edges = [key.partition(".")[2] for key in env.edges if key.startswith(f"{node.owner}.")]
    if edges:
        return CannotDraw(
            "drafting.edge-gone",
            f"The piece {node.owner} is cut without an edge “{node.name}”: pattern work took it away or renamed it.",
            f"Its edges are: {name_list(edges)}. What the sheet still has can be measured there.",
        )
    return piece_left_out(node.owner)


#: What arithmetic does, by the name of its form.
OPERATORS: dict[str, Callable[..., float]] = {
    "add": operator.add,
    "subtract": operator.sub,
    "multiply": _multiply,
    "divide": _divide,
    "negative": operator.neg,
}
#: Every function, those that are forms first.
FUNCTIONS = tuple(name for name in (*FORMS, *_SAME, "likely()", "width()", "folded()") if name.endswith("()"))


class ExpressionCompiler(ShapeCompiler, MeasureCompiler):
    """Compiles expressions of one draft and collects their problems.

    `sheets` and `pieces` map an owner's name to what it holds, for `owner.name`;
    `piece_scopes` gives the sheet scope of each piece, for `width(piece, point)`. `owners_open`
    is true when the line that names some sheet or piece could not be read. `asked` are the measurements that the draft
    asks a customer of the `group` for.
    """

    def __init__(self, source: Source) -> None:
        self.source = source
        self.problems: list[Problem] = []
        self.sheets: dict[str, Scope] = {}
        self.pieces: dict[str, Scope] = {}
        self.piece_scopes: dict[str, Scope] = {}
        self.owners_open = False
        self.asked: tuple[str, ...] = ()
        self.group = "women"
        self.table: dict[int, Run] = {}
        self.kinds: dict[int, str] = {}

    def note(self, code: str, message: str, fix: str, span: Span) -> None:
        """Note a problem at a place of the draft."""
        if not self.full:
            self.problems.append(self.source.problem(code, message, fix, span))

    @property
    def full(self) -> bool:
        """True when so many problems are noted that looking on would only cost time."""
        return len(self.problems) >= _MOST_TOLD

    def suggest(self, word: str, names: Iterable[str], otherwise: str) -> str:
        """A remedy: the nearest name when there is one, else `otherwise`."""
        return otherwise if self.full else suggest(word, names, otherwise)

    def wanted(self, node: n.Expr, scope: Scope, wanted: str) -> Compiled:
        """Compile `node`, which must be of the kind `wanted`; keeps it in the table for `Program.run_of`."""
        compiled = self.expr(node, scope)
        zero = isinstance(node, n.Quantity) and node.value == 0.0 and compiled.kind.name == "number"
        if not compiled.kind.fits(wanted) and not (zero and wanted in ("length", "angle")):
            self._wrong_kind(node, compiled.kind, wanted)
        self.table[id(node)] = compiled.run
        self.kinds[id(node)] = compiled.kind.name
        return compiled

    def fixed(self, node: n.Expr) -> Value:
        """The value of a compiled `node` that hangs on nothing else; 0, with a problem noted, when it has none."""
        try:
            value = self.table[id(node)](Env({}))
            require_drawable(value)
        except CannotDraw as cannot:
            self.note(cannot.code, cannot.message, cannot.fix, node.span)
            return 0.0
        return value

    def _wrong_kind(self, node: n.Expr, kind: Kind, wanted: str) -> None:
        if isinstance(node, n.Quantity) and kind.name == "number" and "length" in wanted:
            said = self.written(node.span)
            self.note("drafting.no-unit", f"{said} what? A length needs its unit.", f"Write {said}cm.", node.span)
            return
        self.note(
            "drafting.kind",
            f"This is {say_kind(kind.name)}; {say_kind(wanted)} belongs here.",
            offer(self.written(node.span), kind, wanted),
            node.span,
        )

    def written(self, span: Span) -> str:
        """What stands at a place of the draft."""
        return self.source.rows[span.line - 1][span.column - 1 : span.end_column - 1]

    def expr(self, node: n.Expr, scope: Scope) -> Compiled:
        """Compile any expression."""
        if self.full:
            return Compiled(_UNKNOWN, _constant(0.0))
        compiled: Compiled = getattr(self, "_" + type(node).__name__.lower())(node, scope)
        return compiled

    # ---- leaves
    def _quantity(self, node: n.Quantity, scope: Scope) -> Compiled:
        if abs(node.value) > 1e6:
            self.note("drafting.huge", "This number is too large for any cloth.", "Check its unit.", node.span)
        return Compiled(Kind(node.kind), _constant(node.value))

    def _text(self, node: n.Text, scope: Scope) -> Compiled:
        return Compiled(Kind("text"), _constant(node.text))

    def _name(self, node: n.Name, scope: Scope) -> Compiled:
        if node.name in ("yes", "no"):
            return Compiled(Kind("yesno"), _constant(node.name == "yes"))
        known = scope.find(node.name)
        if known is None:
            names = scope.all_names()
            said = f"Nothing named “{node.name}” is known here."
            fix = self.suggest(node.name, names, _NAME_IT if names else _MEASURE_IT)
            if names and node.name in MEASURES:  # forgotten among the needs, and no slip for another name
                said = f"The measurement {node.name} is used here, and is not among the needs."
                fix = f"List it under needs: {node.name}"
            self.note("drafting.unknown-name", said, fix, node.span)
            return Compiled(_UNKNOWN, _constant(0.0))
        return Compiled(known.kind, _looked_up(known.key, node.name))

    def _dotted(self, node: n.Dotted, scope: Scope) -> Compiled:
        owner = scope.find(node.owner)
        if owner is not None and owner.kind.name == "shape":
            return self._held(node, owner, Compiled(owner.kind, _looked_up(owner.key, node.owner)))
        # A piece knows its edges, then what else stands on its sheet, then what stands on a sheet of its own name.
        edges = self.pieces.get(node.owner)
        sheet = self.piece_scopes.get(node.owner) or self.sheets.get(node.owner)
        namesake = self.sheets.get(node.owner)
        if namesake and node.name in namesake.names and not any(s and node.name in s.names for s in (edges, sheet)):
            sheet = namesake
        if edges is not None and (node.name in edges.names or sheet is None or node.name not in sheet.names):
            return self._edge(node, edges)
        known = Scope(sheet.names, open=sheet.open).find(node.name) if sheet else None
        if known is not None:
            return Compiled(known.kind, _looked_up(known.key, node.name))
        if sheet is not None:
            fix = self.suggest(node.name, sheet.names, f"It has: {name_list(list(sheet.names))}.")
            self.note("drafting.unknown-name", f"The sheet {node.owner} has no “{node.name}”.", fix, node.span)
        elif not self.owners_open and (owner is None or owner.kind != _UNKNOWN):
            owners = [*self.pieces, *self.sheets]
            fix = self.suggest(node.owner, owners, f"Known are: {name_list(owners)}.")
            self.note("drafting.unknown-owner", f"No piece or sheet is named “{node.owner}”.", fix, node.span)
        return Compiled(_UNKNOWN, _constant(0.0))

    def _edge(self, node: n.Dotted, edges: Scope) -> Compiled:
        known = edges.find(node.name)
        if known is None:
            names = edges.names
            fix = self.suggest(node.name, names, f"Its edges are: {name_list(list(names))}.")
            self.note("drafting.unknown-edge", f"The piece {node.owner} has no edge “{node.name}”.", fix, node.span)
            return Compiled(_UNKNOWN, _constant(0.0))
        key = known.key

        def run(env: Env) -> Any:
            if key in env.edges:
                return env.edges[key]
            edges = [one.partition(".")[2] for one in env.edges if one.startswith(f"{node.owner}.")]
            meant = part_named(node.name, edges)
            if meant is None:
                raise _no_such_edge(node, env)
            return env.edges[f"{node.owner}.{meant}"]

        return Compiled(known.kind, run)

    # ---- tests
    def _compare(self, node: n.Compare, scope: Scope) -> Compiled:
        left = self.expr(node.left, scope)
        if left.kind.name == "option" and node.op in ("is", "is not"):
            return self._is_option(node, left)
        if left.kind == _UNKNOWN and node.op in ("is", "is not"):
            return Compiled(Kind("yesno"), _constant(False))  # what it may be is not known either
        right = self.expr(node.right, scope)
        zero = any(isinstance(side, n.Quantity) and side.value == 0.0 for side in (node.left, node.right))
        if not left.kind.alike(right.kind) and not zero:
            self.note(
                "drafting.compare",
                f"{say_kind(left.kind.name)} cannot be compared with {say_kind(right.kind.name)}.".capitalize(),
                "Compare two things of one kind.",
                node.span,
            )
        if node.op in _ORDER:
            for side, part in ((node.left, left), (node.right, right)):
                if not part.kind.fits("number|length|area|angle"):
                    self._wrong_kind(side, part.kind, "length|number")
        compare: Any = _ORDER.get(node.op) or (operator.eq if node.op == "is" else operator.ne)
        a, b = left.run, right.run
        return Compiled(Kind("yesno"), lambda env: compare(a(env), b(env)))

    def _is_option(self, node: n.Compare, left: Compiled) -> Compiled:
        option = node.right.name if isinstance(node.right, n.Name) else ""
        if option not in left.kind.options:
            fix = self.suggest(option, left.kind.options, f"It may be: {name_list(left.kind.options)}.")
            self.note("drafting.option", f"“{option}” is none of this choice's options.", fix, node.right.span)
        run, same = left.run, node.op == "is"
        return Compiled(Kind("yesno"), lambda env: (run(env) == option) is same)

    def _logic(self, node: n.Logic, scope: Scope) -> Compiled:
        runs = [self.wanted(part, scope, "yesno").run for part in node.parts]
        if node.op == "not":
            return Compiled(Kind("yesno"), lambda env: not runs[0](env))
        test = all if node.op == "and" else any
        return Compiled(Kind("yesno"), lambda env: test(run(env) for run in runs))

    def _when(self, node: n.When, scope: Scope) -> Compiled:
        test = self.wanted(node.test, scope, "yesno").run
        then, otherwise = self.expr(node.then, scope), self.expr(node.otherwise, scope)
        if not then.kind.alike(otherwise.kind):
            self.note(
                "drafting.kind",
                f"One side is {say_kind(then.kind.name)}, the other {say_kind(otherwise.kind.name)}.",
                "Give both sides one kind.",
                node.span,
            )
        a, b = then.run, otherwise.run
        return Compiled(then.kind, lambda env: a(env) if test(env) else b(env))

    # ---- forms
    def _call(self, node: n.Call, scope: Scope) -> Compiled:
        if node.form in OPERATORS:
            return self._arithmetic(node, scope)
        if node.form in _SAME:
            return self._same(node, scope)
        if node.form == "width()":
            piece = node.args[0].name if isinstance(node.args[0], n.Name) else ""
            if piece not in self.piece_scopes and piece and self.owners_open:
                return Compiled(Kind("length"), _constant(0.0))
            if piece not in self.piece_scopes or len(node.args) != 2:
                fix = self.suggest(piece, self.piece_scopes, "Write width(piece, point).")
                self.note("drafting.width", "width() takes a piece and a point of its sheet.", fix, node.span)
                return Compiled(Kind("length"), _constant(0.0))
            at: Any = self.wanted(node.args[1], self.piece_scopes[piece], "point").run
            return Compiled(Kind("length"), lambda env: env.width(piece, at(env)))
        if node.form == "folded()":
            return self._folded(node, scope)
        if node.form == "likely()":
            return self._likely(node)
        form = FORMS.get(node.form)
        if form is None:
            fix = self.suggest(node.form, FUNCTIONS, f"Known are: {name_list(FUNCTIONS)}.")
            self.note("drafting.unknown-form", f"There is no form “{node.form}”.", fix, node.span)
            return Compiled(_UNKNOWN, _constant(0.0))
        return self._form(node, form, scope)

    def _form(self, node: n.Call, form: Form, scope: Scope) -> Compiled:
        takes = _parts(form.takes, len(node.args))
        if takes is None:
            self.note(
                "drafting.parts",
                f"{form.name} does not take {len(node.args)} parts.",
                f"Write: {form.example}",
                node.span,
            )
            return Compiled(_UNKNOWN, _constant(0.0))
        parts = [self.wanted(arg, scope, kind) for arg, kind in zip(node.args, takes, strict=True)]
        kind = self._given(form, node, [part.kind for part in parts])
        runs = [p.run for p in parts]
        heavy = len(parts) > _FEW or any(part.kind.name in ("path", "shape", "unknown") for part in parts)
        return Compiled(kind, _weighed(form, runs) if heavy else _bound(form.draw, runs))

    @staticmethod
    def _given(form: Form, node: n.Call, kinds: list[Kind]) -> Kind:
        if isinstance(form.gives, str):
            return kinds[0] if form.gives == "same" else Kind(form.gives)
        if _UNKNOWN in kinds:
            return _UNKNOWN  # what it holds is not known either
        kind = form.gives(kinds, node.args)
        return Kind(kind.name, kind.options[:_MOST_HELD])

    def _folded(self, node: n.Call, scope: Scope) -> Compiled:
        """`folded(piece.edge)` or `folded(shape.side)`: its length less what pleats and tucks take in."""
        edge = node.args[0]
        if not isinstance(edge, n.Dotted) or len(node.args) != 1:
            said = "folded() takes an edge of a piece or a side of a shape."
            self.note("drafting.folded", said, "Write folded(piece.edge).", node.span)
            return Compiled(Kind("length"), _constant(0.0))
        path: Any = self.wanted(edge, scope, "path").run
        owner = scope.find(edge.owner)
        if owner is not None and owner.kind.name == "shape":
            shape: Any = _looked_up(owner.key, edge.owner)
            return Compiled(Kind("length"), lambda env: path(env).length - shape(env).side(edge.name).taken_in)
        key = f"{edge.owner}.{edge.name}"
        return Compiled(Kind("length"), lambda env: path(env).length - env.taken_in.get(key, 0.0))

    def _same(self, node: n.Call, scope: Scope) -> Compiled:
        parts = [self.expr(arg, scope) for arg in node.args]
        if node.form == "abs()" and len(parts) != 1:
            said = f"abs() does not take {len(parts)} parts."
            self.note("drafting.parts", said, "Write: abs(rise - fall)", node.span)
        # All are of the kind of the first that is a measure at all.
        measures = "number|length|angle|area"
        known = (part.kind for part in parts if part.kind != _UNKNOWN and part.kind.fits(measures))
        kind = next(known, _UNKNOWN)
        for arg, part in zip(node.args, parts, strict=True):
            if not part.kind.alike(kind) or not part.kind.fits(measures):
                self._wrong_kind(arg, part.kind, kind.name if kind.name in _DIMENSIONS else "length")
        pick: Any = _SAME[node.form]
        runs: list[Any] = [p.run for p in parts]
        if len(runs) == 1:
            return Compiled(kind, lambda env: abs(runs[0](env)) if pick is abs else runs[0](env))

        def picked(env: Env) -> Any:
            env.work.spend(len(runs) // _FEW)
            return pick(*(run(env) for run in runs))

        return Compiled(kind, picked)

    # ---- arithmetic
    def _arithmetic(self, node: n.Call, scope: Scope) -> Compiled:
        parts = [self.expr(arg, scope) for arg in node.args]
        for arg, part in zip(node.args, parts, strict=True):
            if not part.kind.fits("number|length|area|angle"):
                self._wrong_kind(arg, part.kind, "number|length")
                return Compiled(_UNKNOWN, _constant(0.0))
        if any(p.kind == _UNKNOWN for p in parts):
            return Compiled(_UNKNOWN, _constant(0.0))
        kind = self._result(node, [p.kind.name for p in parts])
        return Compiled(Kind(kind), _bound(OPERATORS[node.form], [p.run for p in parts]))

    def _result(self, node: n.Call, kinds: list[str]) -> str:
        if node.form == "negative":
            return kinds[0]
        if node.form in ("add", "subtract"):
            return self._sum(node, *kinds)
        if "angle" in kinds:
            return self._angle_product(node, *kinds)
        a, b = _DIMENSIONS[kinds[0]], _DIMENSIONS[kinds[1]]
        dimension = a + b if node.form == "multiply" else a - b
        if dimension not in _BY_DIMENSION:
            word = "times" if node.form == "multiply" else "over"
            self.note(
                "drafting.dimension",
                f"{say_kind(kinds[0])} {word} {say_kind(kinds[1])} is no measure.".capitalize(),
                "Check the formula.",
                node.span,
            )
            return "unknown"
        return _BY_DIMENSION[dimension]

    def _sum(self, node: n.Call, a: str, b: str) -> str:
        if a == b:
            return a
        for part, kind, other in ((node.args[1], b, a), (node.args[0], a, b)):
            if isinstance(part, n.Quantity) and kind == "number":
                if part.value != 0.0:
                    self._wrong_kind(part, Kind(kind), other)
                return other
        self.note(
            "drafting.sum",
            f"{say_kind(a)} and {say_kind(b)} cannot be added.".capitalize(),
            "Bring both to one kind.",
            node.span,
        )
        return "unknown"

    def _angle_product(self, node: n.Call, a: str, b: str) -> str:
        if (a, b) == ("angle", "angle") and node.form == "divide":
            return "number"
        if "number" in (a, b) and not (node.form == "divide" and b == "angle"):
            return "angle"
        self.note("drafting.dimension", "An angle goes only with a plain number.", "Check the formula.", node.span)
        return "unknown"


def _weighed(form: Form, runs: list[Run]) -> Run:
    """A call whose work grows with its parts: it is counted before it is done."""
    draw, least = form.draw, _PART * len(runs)

    def run(env: Env) -> Any:
        parts = [part(env) for part in runs]
        env.work.spend(least + sum(map(work_of, parts)))
        return draw(*parts)

    return run


def _bound(draw: Callable[..., Any], runs: list[Run]) -> Run:
    """A call with its parts; spelled out for the common counts, since this is the inner loop of drafting."""
    if len(runs) == 1:
        (a,) = runs
        return lambda env: draw(a(env))
    if len(runs) == 2:
        a, b = runs
        return lambda env: draw(a(env), b(env))
    return lambda env: draw(*[run(env) for run in runs])


@cache
def _parts(takes: tuple[str, ...], count: int) -> tuple[str, ...] | None:
    """The kinds of `count` parts of a form, or None when it cannot take so many."""
    fixed = [kind for kind in takes if not kind.endswith(("*", "?"))]
    extra = [kind for kind in takes if kind.endswith(("*", "?"))]
    more = count - len(fixed)
    if more == 0:
        return tuple(fixed)
    if more < 0 or not extra:
        return None
    if extra[0].endswith("*"):
        return (*fixed, *([extra[0][:-1]] * more))
    return (*fixed, *(kind[:-1] for kind in extra[:more])) if more <= len(extra) else None
