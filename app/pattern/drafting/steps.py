"""Drafting steps compiled: assignments, blocks under a condition, and solves."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from app.pattern.drafting.env import Env, RunEnded, Step, StepFailed, TraceEntry
from app.pattern.drafting.errors import CannotDraw, geometry_failure
from app.pattern.drafting.expressions import ExpressionCompiler, Known, Scope
from app.pattern.drafting.kinds import Kind
from app.pattern.drafting.limits import require_drawable, too_much_work, work_of
from app.pattern.drafting.solving import solved
from app.pattern.geometry import GeometryError, TooMuchWork
from app.pattern.language import nodes as n
from app.pattern.problem import Span

__all__ = ["RESERVED", "guarded", "lay_steps", "play"]

#: Words with which a form begins: as names they could never be read again.
RESERVED = frozenset(
    {
        "along",
        "and",
        "arc",
        "at",
        "between",
        "box",
        "crossing",
        "curve",
        "cut",
        "dart",
        "end",
        "face",
        "fan",
        "foot",
        "inverted",
        "join",
        "line",
        "meeting",
        "middle",
        "move",
        "no",
        "not",
        "or",
        "otherwise",
        "parallel",
        "part",
        "pivot",
        "pleat",
        "reach",
        "repeat",
        "shorten",
        "smooth",
        "solve",
        "spread",
        "start",
        "tape",
        "trace",
        "true",
        "tuck",
        "unite",
        "when",
        "yes",
    }
)
_SOLVED = "length|number|angle"  # the kinds that can be solved for
#: How often a block may be repeated.
MOST_REPEATS = 200


@dataclass(slots=True)
class _Place:
    """Where steps write: the prefix of their keys, and how deep in conditions and solves they stand."""

    prefix: str
    conditional: bool = False
    solves: int = 0


def lay_steps(steps: Sequence[n.StepNode], compiler: ExpressionCompiler, scope: Scope, prefix: str) -> list[Step]:
    """Compile steps in order; names they draw become known in `scope` from then on."""
    return _lay(steps, compiler, scope, _Place(prefix))


def _lay(steps: Sequence[n.StepNode], compiler: ExpressionCompiler, scope: Scope, place: _Place) -> list[Step]:
    return [_STEPS[type(step)](step, compiler, scope, place) for step in steps]


def guarded(span: Span, compiler: ExpressionCompiler, run: Step) -> Step:
    """`run`, with what it cannot draw told as a problem of the line at `span`."""
    source = compiler.source

    def step(env: Env) -> None:
        try:
            env.work.spend(1)
            run(env)
        except TooMuchWork:
            raise RunEnded(source.problem(*too_much_work(), span)) from None
        except CannotDraw as cannot:
            raise StepFailed(source.problem(cannot.code, cannot.message, cannot.fix, span)) from None
        except GeometryError as wrong:
            raise StepFailed(source.problem(*geometry_failure(wrong), span)) from None

    return step


def _assign(node: n.Assign, compiler: ExpressionCompiler, scope: Scope, place: _Place) -> Step:
    compiled = compiler.expr(node.value, scope)
    compiler.kinds[id(node)] = compiled.kind.name
    key = f"{place.prefix}.{node.name}"
    _define(node.name, Known(key, compiled.kind, node.span), compiler, scope, place)
    run, line = compiled.run, node.span.line

    def step(env: Env) -> None:
        value = run(env)
        require_drawable(value)
        env.work.spend(work_of(value))
        env.values[key] = value
        env.trace.append(TraceEntry(key, line, value))

    return guarded(node.span, compiler, step)


def _define(name: str, known: Known, compiler: ExpressionCompiler, scope: Scope, place: _Place) -> None:
    if name in RESERVED and known.span is not None:
        compiler.note(
            "drafting.reserved",
            f"“{name}” is a word of the language.",
            f"Choose another name, such as {name}_point.",
            known.span,
        )
    before = scope.find(name)
    local = name in scope.names
    if before is not None and before.key and known.span is not None and not (local and place.conditional):
        where = f" on line {before.span.line}" if before.span else ""
        compiler.note(
            "drafting.name-twice",
            f"“{name}” already stands for something{where}.",
            "Choose another name.",
            known.span,
        )
    if local and before is not None and not before.kind.alike(known.kind) and known.span is not None:
        compiler.note("drafting.kind", f"“{name}” changes its kind here.", "Keep one kind for one name.", known.span)
    scope.names[name] = known


def _when_block(node: n.WhenBlock, compiler: ExpressionCompiler, scope: Scope, place: _Place) -> Step:
    test = compiler.wanted(node.test, scope, "yesno").run
    steps = _lay(node.steps, compiler, scope, _Place(place.prefix, True, place.solves))

    def step(env: Env) -> None:
        if test(env):
            play(steps, env)

    return guarded(node.span, compiler, step)


def _repeat(node: n.Repeat, compiler: ExpressionCompiler, scope: Scope, place: _Place) -> Step:
    least: Any = compiler.wanted(node.least, scope, "number").run
    most: Any = compiler.wanted(node.most, scope, "number").run
    key = f"{place.prefix}.{node.name}"
    _define(node.name, Known(key, Kind("number"), node.span), compiler, scope, place)
    steps = _lay(node.steps, compiler, scope, _Place(place.prefix, True, place.solves))

    def step(env: Env) -> None:
        first, last = round(least(env)), round(most(env))
        if last - first >= MOST_REPEATS:
            raise CannotDraw(
                "drafting.repeats",
                f"These steps would be drawn {last - first + 1} times; {MOST_REPEATS} is the most.",
                "Bring the limits nearer.",
            )
        for number in range(first, last + 1):
            env.values[key] = float(number)
            play(steps, env)

    return guarded(node.span, compiler, step)


def _solve(node: n.Solve, compiler: ExpressionCompiler, scope: Scope, place: _Place) -> Step:
    least = compiler.wanted(node.least, scope, _SOLVED)
    from_nothing = isinstance(node.least, n.Quantity) and node.least.value == 0.0
    same = _SOLVED if from_nothing or least.kind.name not in _SOLVED.split("|") else least.kind.name
    most = compiler.wanted(node.most, scope, same)
    if place.solves >= 2:
        compiler.note("drafting.solves", "Solves stand more than two deep.", "Solve one after the other.", node.span)
    key = f"{place.prefix}.{node.name}"
    _define(node.name, Known(key, most.kind if from_nothing else least.kind, node.span), compiler, scope, place)
    inner = _lay(node.steps, compiler, scope, _Place(place.prefix, True, place.solves + 1))
    left, right = (compiler.wanted(side, scope, "length|number|angle|area") for side in (node.left, node.right))
    if left.kind.name != right.kind.name and "unknown" not in (left.kind.name, right.kind.name):
        compiler.note("drafting.compare", "The two sides are of different kinds.", "Bring both to one kind.", node.span)
    a: Any = left.run
    b: Any = right.run
    low: Any = least.run
    high: Any = most.run

    def gap(value: float, env: Env) -> float:
        env.values[key] = value
        play(inner, env)
        off = float(a(env) - b(env))
        require_drawable(off)
        return off

    def step(env: Env) -> None:
        kept = len(env.trace)
        value = solved(lambda v: gap(v, env), low(env), high(env), node.name)
        del env.trace[kept:]
        gap(value, env)
        env.trace.append(TraceEntry(key, node.span.line, value))

    return guarded(node.span, compiler, step)


_STEPS: dict[type, Any] = {n.Assign: _assign, n.WhenBlock: _when_block, n.Solve: _solve, n.Repeat: _repeat}


def play(steps: Sequence[Step], env: Env) -> None:
    """Play compiled steps in order; raises StepFailed at the first that cannot be drawn."""
    for step in steps:
        step(env)
