"""Drafting steps compiled: assignments, blocks under a condition, and solves."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Any

from app.pattern.drafting.cannot import CannotDraw, told
from app.pattern.drafting.env import Env, RunEnded, Step, StepFailed, Trace
from app.pattern.drafting.expressions import Known, Scope, Words
from app.pattern.drafting.kinds import Kind
from app.pattern.drafting.sound import size_of, sound, too_much
from app.pattern.geometry import GeometryError, OutOfEffort
from app.pattern.geometry.roots import root_between
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
        "when",
        "yes",
    }
)
_SOLVED = "length|number|angle"  # the kinds that can be solved for
#: How often a block may be repeated.
MOST_REPEATS = 200
_SOLVE_TRIES = 24  # bracket search
_SOLVE_CLOSE = 1e-4  # mm: a solved condition holds this closely


@dataclass(slots=True)
class _Place:
    """Where steps write: the prefix of their keys, and how deep in conditions and solves they stand."""

    prefix: str
    conditional: bool = False
    solves: int = 0


def lay_steps(steps: Sequence[n.StepNode], words: Words, scope: Scope, prefix: str) -> list[Step]:
    """Compile steps in order; names they draw become known in `scope` from then on."""
    return _lay(steps, words, scope, _Place(prefix))


def _lay(steps: Sequence[n.StepNode], words: Words, scope: Scope, place: _Place) -> list[Step]:
    return [_STEPS[type(step)](step, words, scope, place) for step in steps]


def guarded(span: Span, words: Words, run: Step) -> Step:
    """`run`, with what it cannot draw told as a problem of the line at `span`."""
    source = words.source

    def step(env: Env) -> None:
        try:
            env.effort.spend(1)
            run(env)
        except OutOfEffort:
            raise RunEnded(source.problem(*too_much(), span)) from None
        except CannotDraw as cannot:
            raise StepFailed(source.problem(cannot.code, cannot.message, cannot.fix, span)) from None
        except GeometryError as wrong:
            raise StepFailed(source.problem(*told(wrong), span)) from None

    return step


def _assign(node: n.Assign, words: Words, scope: Scope, place: _Place) -> Step:
    compiled = words.expr(node.value, scope)
    words.kinds[id(node)] = compiled.kind.name
    key = f"{place.prefix}.{node.name}"
    _define(node.name, Known(key, compiled.kind, node.span), words, scope, place)
    run, line = compiled.run, node.span.line

    def step(env: Env) -> None:
        value = run(env)
        sound(value)
        env.effort.spend(size_of(value))
        env.values[key] = value
        env.trace.append(Trace(key, line, value))

    return guarded(node.span, words, step)


def _define(name: str, known: Known, words: Words, scope: Scope, place: _Place) -> None:
    if name in RESERVED and known.span is not None:
        words.note(
            "drafting.reserved",
            f"“{name}” is a word of the language.",
            f"Choose another name, such as {name}_point.",
            known.span,
        )
    before = scope.find(name)
    local = name in scope.names
    if before is not None and before.key and known.span is not None and not (local and place.conditional):
        where = f" on line {before.span.line}" if before.span else ""
        words.note(
            "drafting.name-twice",
            f"“{name}” already stands for something{where}.",
            "Choose another name.",
            known.span,
        )
    if local and before is not None and not before.kind.alike(known.kind) and known.span is not None:
        words.note("drafting.kind", f"“{name}” changes its kind here.", "Keep one kind for one name.", known.span)
    scope.names[name] = known


def _when_block(node: n.WhenBlock, words: Words, scope: Scope, place: _Place) -> Step:
    test = words.wanted(node.test, scope, "yesno").run
    steps = _lay(node.steps, words, scope, _Place(place.prefix, True, place.solves))

    def step(env: Env) -> None:
        if test(env):
            play(steps, env)

    return guarded(node.span, words, step)


def _repeat(node: n.Repeat, words: Words, scope: Scope, place: _Place) -> Step:
    least: Any = words.wanted(node.least, scope, "number").run
    most: Any = words.wanted(node.most, scope, "number").run
    key = f"{place.prefix}.{node.name}"
    _define(node.name, Known(key, Kind("number"), node.span), words, scope, place)
    steps = _lay(node.steps, words, scope, _Place(place.prefix, True, place.solves))

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

    return guarded(node.span, words, step)


def _solve(node: n.Solve, words: Words, scope: Scope, place: _Place) -> Step:
    least = words.wanted(node.least, scope, _SOLVED)
    from_nothing = isinstance(node.least, n.Quantity) and node.least.value == 0.0
    same = _SOLVED if from_nothing or least.kind.name not in _SOLVED.split("|") else least.kind.name
    most = words.wanted(node.most, scope, same)
    if place.solves >= 2:
        words.note("drafting.solves", "Solves stand more than two deep.", "Solve one after the other.", node.span)
    key = f"{place.prefix}.{node.name}"
    _define(node.name, Known(key, most.kind if from_nothing else least.kind, node.span), words, scope, place)
    inner = _lay(node.steps, words, scope, _Place(place.prefix, True, place.solves + 1))
    left, right = (words.wanted(side, scope, "length|number|angle|area") for side in (node.left, node.right))
    if left.kind.name != right.kind.name and "unknown" not in (left.kind.name, right.kind.name):
        words.note("drafting.compare", "The two sides are of different kinds.", "Bring both to one kind.", node.span)
    a: Any = left.run
    b: Any = right.run
    low: Any = least.run
    high: Any = most.run

    def gap(value: float, env: Env) -> float:
        env.values[key] = value
        play(inner, env)
        off = float(a(env) - b(env))
        sound(off)
        return off

    def step(env: Env) -> None:
        kept = len(env.trace)
        value = _find(lambda v: gap(v, env), low(env), high(env), node.name)
        del env.trace[kept:]
        gap(value, env)
        env.trace.append(Trace(key, node.span.line, value))

    return guarded(node.span, words, step)


def _find(gap: Any, low: float, high: float, name: str) -> float:
    """The value between `low` and `high` where `gap` is nothing; the first such from below.

    A trial value at which the inside cannot be drawn is passed over; when none can be
    drawn, the first failure is told.
    """
    if not low < high:
        raise CannotDraw("drafting.solve-limits", "The lower limit is not below the upper.", "Swap or widen them.")
    tried: list[tuple[float, float]] = []
    failures: list[StepFailed] = []
    for value in _trials(low, high):
        try:
            tried.append((value, gap(value)))
        except RunEnded:
            raise
        except StepFailed as failed:
            failures.append(failed)
            continue
        bracket = _bracket(tried)
        if bracket is not None:
            return _settle(gap, *bracket, name)
    if not tried:
        raise failures[0]
    raise _unsolved(name, low, high, tried)


def _trials(low: float, high: float) -> Iterator[float]:
    """Both limits first, since most conditions change sign between them; then even steps from below."""
    yield low
    yield high
    for index in range(1, _SOLVE_TRIES):
        yield low + (high - low) * index / _SOLVE_TRIES


def _bracket(tried: list[tuple[float, float]]) -> tuple[float, float] | None:
    """The lowest two neighbouring trials between which the sign changes."""
    for (a, at_a), (b, at_b) in pairwise(sorted(tried)):
        if at_a * at_b <= 0.0:
            return a, b
    return None


def _unsolved(name: str, low: float, high: float, tried: list[tuple[float, float]]) -> CannotDraw:
    value, off = min(tried, key=lambda pair: abs(pair[1]))
    return CannotDraw(
        "drafting.no-solution",
        f"No “{name}” between {low:.1f} and {high:.1f} mm fits: at best, at {value:.1f}, "
        f"the sides differ by {abs(off):.2f} mm.",
        "Widen the limits, or change what is drawn inside.",
    )


def _settle(gap: Any, low: float, high: float, name: str) -> float:
    # Where it does not settle, the check below says so.
    value = root_between(gap, low, high, close=1e-9, share=1e-12)
    if abs(off := gap(value)) > _SOLVE_CLOSE:
        raise CannotDraw(
            "drafting.solve-jumps",
            f"The sides of the condition jump at {name} = {value:.1f} mm and differ by {abs(off):.2f} mm there.",
            "Draw the inside so that it changes without a break.",
        )
    return value


_STEPS: dict[type, Any] = {n.Assign: _assign, n.WhenBlock: _when_block, n.Solve: _solve, n.Repeat: _repeat}


def play(steps: Sequence[Step], env: Env) -> None:
    """Play compiled steps in order; raises StepFailed at the first that cannot be drawn."""
    for step in steps:
        step(env)
