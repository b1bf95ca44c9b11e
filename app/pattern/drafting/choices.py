"""Choices: what the customer may choose, with limits, and the checking of what was chosen."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from app.pattern.drafting.expressions import ExpressionCompiler, Scope
from app.pattern.drafting.kinds import Given
from app.pattern.language import nodes as n
from app.pattern.language import suggest
from app.pattern.names import titled
from app.pattern.problem import Place, Problem, Refused
from app.pattern.units import LengthError, Unit, has_unit, read_change, show_length

__all__ = ["Choice", "choose", "read_choices"]


@dataclass(frozen=True, slots=True)
class Choice:
    """A choice the customer makes. `kind` is "length", "number", "option" or "yesno".

    For a length (mm) or a number: `least`, `most` and `default` are floats. For an
    option: `options` in order and `default` one of them. For yes/no: `default` bool.
    """

    name: str
    title: str
    kind: str
    default: Given
    least: float | None = None
    most: float | None = None
    options: tuple[str, ...] = ()


def read_choices(lines: tuple[n.ChoiceLine, ...], compiler: ExpressionCompiler) -> tuple[Choice, ...]:
    """The choices of a draft; wrong ones are noted by `compiler` and still listed, so that names stay known."""
    return tuple(_read(line, compiler) for line in lines)


def _read(line: n.ChoiceLine, compiler: ExpressionCompiler) -> Choice:
    title = titled(line.title, line.name)
    if line.options:
        option = line.default.name if isinstance(line.default, n.Name) else ""
        if option not in line.options:
            fix = compiler.suggest(option, line.options, f"Begin with one of: {', '.join(line.options)}.")
            compiler.note("drafting.option", "The default is none of the options.", fix, line.default.span)
        return Choice(line.name, title, "option", option or line.options[0], options=line.options)
    kind, default = _default(line, compiler)
    if kind == "yesno":
        return Choice(line.name, title, "yesno", bool(default))
    if line.least is None or line.most is None:
        compiler.note("drafting.limits", "A measured choice needs its limits.", "Write: from 2cm to 8cm.", line.span)
        return Choice(line.name, title, kind, default, default, default)
    noted = len(compiler.problems)
    least, most = (_fixed(node, kind, compiler)[1] for node in (line.least, line.most))
    if len(compiler.problems) > noted:
        return Choice(line.name, title, kind, default, least, most)
    if least > most:
        fix = f"Write: from {compiler.written(line.most.span)} to {compiler.written(line.least.span)}."
        compiler.note("drafting.limits", "The limits stand the wrong way round: the lower comes first.", fix, line.span)
    elif not (least <= default <= most or _lacks_unit(line.default, kind)):
        compiler.note("drafting.limits", "The default lies outside its own limits.", "Widen the limits.", line.span)
    return Choice(line.name, title, kind, default, least, most)


def _default(line: n.ChoiceLine, compiler: ExpressionCompiler) -> tuple[str, float]:
    """Kind and value of the default; a bare number beside limits that are lengths lacks its unit (0 needs none)."""
    bare = isinstance(line.default, n.Quantity) and line.default.kind == "number"
    long = any(isinstance(node, n.Quantity) and node.kind == "length" for node in (line.least, line.most))
    if bare and long:
        return "length", _fixed(line.default, "length", compiler)[1]
    return _fixed(line.default, "length|number|yesno", compiler)


def _fixed(node: n.Expr, wanted: str, compiler: ExpressionCompiler) -> tuple[str, float]:
    """Kind and value of an expression that hangs on nothing else; 0, with a problem noted, when it has none."""
    noted = len(compiler.problems)
    compiled = compiler.wanted(node, Scope(), wanted)
    value: Any = compiler.fixed(node) if len(compiler.problems) == noted else 0.0
    return compiled.kind.name, value if isinstance(value, int | float) else 0.0


def _lacks_unit(default: n.Expr, kind: str) -> bool:
    """True for a default whose missing unit is told: how it lies to its limits is not known."""
    return isinstance(default, n.Quantity) and default.kind != kind and default.value != 0.0


def choose(choices: tuple[Choice, ...], given: Mapping[str, Any]) -> dict[str, Given] | Refused:
    """The value of every choice: what was given for it, else its default; or everything given that is not allowed.

    Lengths may come as mm (float) or as text with a unit.
    """
    problems = [_unknown(name, choices) for name in given if all(name != c.name for c in choices)]
    chosen: dict[str, Given] = {}
    for choice in choices:
        value = _chosen(choice, given.get(choice.name))
        if isinstance(value, Refused):
            problems += value.problems
        else:
            chosen[choice.name] = value
    return Refused(tuple(problems)) if problems else chosen


def _unknown(name: str, choices: tuple[Choice, ...]) -> Problem:
    names = [c.name for c in choices]
    fix = suggest(name, names, "It has: " + (", ".join(names) or "none") + ".")
    return Problem("choice.unknown", f"This draft has no choice “{name}”.", fix, Place(point=name))


def _chosen(choice: Choice, given: Any) -> Given | Refused:
    if given is None or given == "":
        return choice.default
    if choice.kind == "yesno":
        yes = {True: True, False: False, "yes": True, "no": False}
        return yes[given] if given in yes else _wrong(choice, given, "Say yes or no.")
    if choice.kind == "option":
        if given in choice.options:
            return str(given)
        return _wrong(choice, given, suggest(str(given), choice.options, "One of: " + ", ".join(choice.options)))
    try:
        value = _number(choice, given)
    except LengthError as wrong:
        return _wrong(choice, given, str(wrong))
    least, most = choice.least or 0.0, choice.most or 0.0
    if not least - 1e-6 <= value <= most + 1e-6:
        return _wrong(choice, given, f"Keep it between {_say(choice, least)} and {_say(choice, most)}.")
    return value


def _number(choice: Choice, given: Any) -> float:
    if isinstance(given, int | float):
        return float(given)
    text = str(given).strip()
    if choice.kind == "number":
        try:
            return float(text.replace(",", "."))
        except ValueError:
            raise LengthError("Write a plain number such as 2 or 1.5.") from None
    if not has_unit(text):
        read_change(text, Unit.CM)  # what is no length at all is told as that
        raise LengthError(f"{text} what? Write {text}cm, or {text}in.")
    return read_change(text, Unit.CM)


def _say(choice: Choice, value: float) -> str:
    return show_length(value, Unit.CM) if choice.kind == "length" else f"{value:g}"


def _wrong(choice: Choice, given: Any, fix: str) -> Refused:
    if isinstance(given, bool):
        said = "yes" if given else "no"
    elif choice.kind == "length" and isinstance(given, float):
        said = show_length(given, Unit.CM)
    else:
        said = str(given)[:40]
    message = f"{choice.title}: “{said}” is not possible."
    return Refused.of(Problem("choice.wrong", message, fix, Place(point=choice.name)))
