"""Compiling what concerns measurements of the body that need not be asked for: naming one, and its likely figure."""

from __future__ import annotations

from collections.abc import Iterable

from app.pattern.body import MEASURES, likely, tells
from app.pattern.drafting.kinds import Kind
from app.pattern.drafting.scope import Compiled
from app.pattern.language import nodes as n
from app.pattern.problem import Span

__all__ = ["MeasureCompiler"]


class MeasureCompiler:
    """The part of `ExpressionCompiler` that knows the register: `asked` of a customer of the `group` are these."""

    asked: tuple[str, ...]
    group: str

    def note(self, code: str, message: str, fix: str, span: Span) -> None:
        """Note a problem; given by `ExpressionCompiler`."""
        raise NotImplementedError

    def suggest(self, word: str, names: Iterable[str], otherwise: str) -> str:
        """A remedy; given by `ExpressionCompiler`."""
        raise NotImplementedError

    def measure(self, node: n.Expr, span: Span) -> str:
        """The measurement of the register that `node` names, and that can be told of a customer; "" with a problem."""
        name = node.name if isinstance(node, n.Name) else ""
        if name not in MEASURES:
            said = f"“{name}” is no measurement of the register." if name else "The name of a measurement belongs here."
            fix = self.suggest(name, MEASURES, "Use the names of ISO 8559-1, such as armscye_girth.")
            self.note("drafting.unknown-measurement", said, fix, node.span)
            return ""
        if not tells(self.group, self.asked, name):
            said = f"What a child's {name} is can only be told by its stature, which this draft does not ask for."
            self.note("drafting.untold", said, f"List stature or {name} under needs.", span)
            return ""
        return name

    def _likely(self, node: n.Call) -> Compiled:
        """`likely(measure)`: the measure told from those asked for, for whatever body is drawn."""
        if len(node.args) != 1:
            said = f"likely() does not take {len(node.args)} parts."
            self.note("drafting.parts", said, "Write: likely(armscye_girth)", node.span)
            return Compiled(Kind("length"), lambda env: 0.0)
        name = self.measure(node.args[0], node.span)
        if not name:
            return Compiled(Kind("length"), lambda env: 0.0)
        asked, value = self.asked, likely(self.group, self.asked, name).of
        return Compiled(Kind("length"), lambda env: value(env.body(asked)))
