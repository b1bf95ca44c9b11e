"""Compiling what concerns traced shapes: tracing one, and naming what it holds."""

from __future__ import annotations

from typing import Any

from app.pattern.drafting.env import Env
from app.pattern.drafting.kinds import Kind
from app.pattern.drafting.scope import Compiled, Known, Scope, name_list
from app.pattern.drafting.shapes import ShapeDart, Side, trace
from app.pattern.language import nodes as n
from app.pattern.language import suggest
from app.pattern.problem import Span

__all__ = ["ShapeCompiler", "held_names"]


def held_names(kind: Kind) -> dict[str, str]:
    """What a shape holds: kind ("path", "dart" or "point") by name."""
    return {name: what for name, _, what in (option.partition(":") for option in kind.options)}


class ShapeCompiler:
    """The part of `ExpressionCompiler` that knows shapes."""

    def note(self, code: str, message: str, fix: str, span: Span) -> None:
        """Note a problem; given by `ExpressionCompiler`."""
        raise NotImplementedError

    def wanted(self, node: n.Expr, scope: Scope, wanted: str) -> Compiled:
        """Compile an expression of a kind; given by `ExpressionCompiler`."""
        raise NotImplementedError

    def _trace(self, node: n.Trace, scope: Scope) -> Compiled:
        sides = [(item.name, self.wanted(item.source, scope, "path|dart")) for item in node.items]
        held = [(name.name, self.wanted(name, scope, "point|path")) for name in node.holding]
        seen: set[str] = set()
        for name, span in [*((i.name, i.span) for i in node.items), *((h.name, h.span) for h in node.holding)]:
            if name in seen:
                self.note("drafting.name-twice", f"“{name}” is on the shape twice.", "Rename one with “as”.", span)
            seen.add(name)
        options = tuple(f"{name}:{compiled.kind.name}" for name, compiled in (*sides, *held))

        def run(env: Env) -> Any:
            items: list[Any] = [(name, compiled.run(env)) for name, compiled in sides]
            inside: list[Any] = [(name, compiled.run(env)) for name, compiled in held]
            return trace(items, inside)

        return Compiled(Kind("shape", options), run)

    def _held(self, node: n.Dotted, owner: Known, shape: Compiled) -> Compiled:
        """`shape.name`: a side's path, a dart, or what lies inside."""
        names = held_names(owner.kind)
        if node.name not in names and "unknown" in names.values():
            return Compiled(Kind("unknown"), shape.run)  # pattern work on an unknown side may have made it
        if node.name not in names:
            fix = suggest(node.name, names, f"It holds: {name_list(list(names))}.")
            self.note("drafting.unknown-edge", f"The shape {node.owner} holds no “{node.name}”.", fix, node.span)
            return Compiled(Kind("unknown"), shape.run)
        name = node.name

        def run(env: Env) -> Any:
            whole: Any = shape.run(env)
            found = whole.find(name)
            if isinstance(found, Side):
                return found.path
            return found.dart if isinstance(found, ShapeDart) else found.what

        return Compiled(Kind(names[name]), run)
