"""What a draft's girths leave unsaid, or say so that nothing follows: advice that needs no body.

A girth proves a pattern when its measured length is taken off the pieces and its ease is what the designer means. Where
the ease is reckoned as the drawn width less the body, body and ease together are the drawn width whatever was
drawn, and the check of the finished size cannot fail.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

from app.pattern.drafting.program import Program
from app.pattern.language import nodes as n
from app.pattern.language.walk import find_all
from app.pattern.problem import Problem

__all__ = ["girths_advice"]

#: Forms that take a length off what is drawn.
_TAKEN = ("length()", "width()", "folded()", "across()", "distance()", "drop()", "intake()")
_EITHER = ("max()", "min()")
#: A coefficient as near to a whole one is that.
_NEAR = 1e-9
#: Names are followed through so many figures and no further.
_DEEPEST = 40


def girths_advice(program: Program) -> Iterator[Problem]:
    """Girths of which none says how one gets in, or that prove nothing."""
    draft, tell = program.draft, program.source.problem
    girths = draft.girths
    if (girths or draft.fits) and not any(girth.passes is not None or girth.opens_fully for girth in girths):
        said = (
            "No girth says what of the body must go through it, so nobody has checked that the garment can be put on."
        )
        fix = "Add to the narrowest girth what opens it and what it passes, such as: opens zip_length  passes hip_girth"
        yield tell("drafting.getting-in-unsaid", said, fix, (girths or draft.fits)[0].span)
    for girth in girths:
        said_somewhere = any(other.passes is not None or other.opens_fully for other in girths)
        if said_somewhere and girth.opens is not None and girth.passes is None and not girth.opens_fully:
            said = f"“{girth.title or girth.name}” opens, and does not say what goes through it."
            fix = "Write behind it what of the body must go through, such as: passes hip_girth"
            yield tell("drafting.passes-unsaid", said, fix, girth.span)
        if (girth.body is None or girth.ease is None) and (girth.passes is None or girth.stretches is not None):
            continue
        reckoned = _Reckoned(program)
        name = girth.title or girth.name
        if isinstance(girth.body, n.Name) and girth.ease and reckoned.circular(girth.ease, girth.body.name):
            said = (
                f"The ease of “{name}” is reckoned as what was drawn less {girth.body.name}: whatever is drawn, body "
                "and ease come to it, so that this girth does not show that the garment fits."
            )
            fix = (
                "State the ease that is meant, such as: ease 4cm. Where another girth decides and this one may come "
                f'out in a range: fit {girth.name} "{name}" = ...  body {girth.body.name}  ease 2cm..30cm'
            )
            yield tell("drafting.ease-reckoned", said, fix, girth.span)
        elif not reckoned.drawn(girth.value):
            said = f"“{name}” is measured on nothing that is drawn, so that it proves nothing of the pieces."
            fix = "Take it off the pieces with length(PIECE.EDGE) or width(PIECE, POINT)."
            yield tell("drafting.girth-undrawn", said, fix, girth.span)


#: A sum: coefficients by what they multiply, and under "" what is added.
_Sum = dict[str, float]


@dataclass(slots=True)
class _Reckoned:
    """Expressions as sums of measurements, choices and things that are no sums, followed through figures and sheets."""

    program: Program
    opaque: dict[str, tuple[n.Expr, str]] = field(default_factory=dict)

    def circular(self, ease: n.Expr, body: str, sheet: str = "", depth: int = 0) -> bool:
        """Whether an ease is something that was drawn, less the measure itself; `max` and `min` of such too."""
        terms = self._sum(ease, sheet, depth)
        choices = {choice.name for choice in self.program.draft.choices}
        drawn = [
            key for key, share in terms.items() if key not in ("", body) and key not in choices and abs(share) > _NEAR
        ]
        if abs(terms.get(body, 0.0) + 1.0) < _NEAR and drawn:
            return True
        if depth > _DEEPEST or len(drawn) != 1 or drawn[0] not in self.opaque:
            return False
        node, within = self.opaque[drawn[0]]
        parts = node.args if isinstance(node, n.Call) and node.form in _EITHER else ()
        parts = (node.then, node.otherwise) if isinstance(node, n.When) else parts
        return any(self.circular(part, body, within, depth + 1) for part in parts)

    def drawn(self, node: n.Expr, sheet: str = "", depth: int = 0) -> bool:
        """Whether a length is taken off anything that is drawn, here or in a figure that it uses."""
        for part in find_all(node, n.Call, n.Name, n.Dotted):
            if isinstance(part, n.Call):
                if part.form in _TAKEN:
                    return True
                continue
            found = self._found(part, sheet)
            if found is None:
                if isinstance(part, n.Dotted):
                    return True
                continue
            if isinstance(found[0], n.Solve) or (depth < _DEEPEST and self.drawn(found[0], found[1], depth + 1)):
                return True
        return False

    def _found(self, node: n.Name | n.Dotted, sheet: str) -> tuple[n.Expr | n.Solve, str] | None:
        """What a name stands for, and the sheet in which that is written; None for what is no step of the draft."""
        draft = self.program.draft
        owner = node.owner if isinstance(node, n.Dotted) else sheet
        steps = next((one.steps for one in draft.sheets if one.name == owner), ())
        places = ((steps, owner),) if isinstance(node, n.Dotted) else ((steps, owner), (draft.figures, ""))
        for some, within in places:
            for step in some:
                if isinstance(step, n.Assign) and step.name == node.name:
                    return step.value, within
                for solve in find_all(step, n.Solve):
                    if solve.name == node.name or any(a.name == node.name for a in find_all(solve.steps, n.Assign)):
                        return solve, within
                for inner in find_all(step, n.Assign):
                    if inner.name == node.name:
                        return inner.value, within
        return None

    def _sum(self, node: n.Expr, sheet: str, depth: int) -> _Sum:
        if isinstance(node, n.Quantity):
            return {"": node.value}
        if isinstance(node, n.Name | n.Dotted) and depth < _DEEPEST:
            found = self._found(node, sheet)
            if found is not None and not isinstance(found[0], n.Solve):
                return self._sum(found[0], found[1], depth + 1)
            if found is None and isinstance(node, n.Name):
                return {node.name: 1.0}
        if isinstance(node, n.Call) and node.form in ("add", "subtract", "multiply", "divide", "negative"):
            return self._arithmetic(node, [self._sum(part, sheet, depth + 1) for part in node.args])
        return self._opaque(node, sheet)

    def _opaque(self, node: n.Expr, sheet: str) -> _Sum:
        key = f"#{len(self.opaque)}"
        self.opaque[key] = (node, sheet)
        return {key: 1.0}

    def _arithmetic(self, node: n.Call, parts: list[_Sum]) -> _Sum:
        if node.form == "negative":
            return _scaled(parts[0], -1.0)
        one, other = parts
        if node.form in ("add", "subtract"):
            other = _scaled(other, 1.0 if node.form == "add" else -1.0)
            return {key: one.get(key, 0.0) + other.get(key, 0.0) for key in (*one, *other)}
        if node.form == "multiply" and set(one) <= {""}:
            return _scaled(other, one.get("", 0.0))
        by = other.get("", 0.0)
        if set(other) <= {""} and (node.form == "multiply" or by != 0.0):
            return _scaled(one, by if node.form == "multiply" else 1.0 / by)
        return self._opaque(node, "")


def _scaled(terms: _Sum, by: float) -> _Sum:
    return {key: share * by for key, share in terms.items()}
