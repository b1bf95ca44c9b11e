"""The part of the measurement form about printing: its fields, what was chosen as values, and the same in words."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from math import floor

from app.packs.request import PrintChoices
from app.pattern.drawing import Lines
from app.pattern.problem import Refused
from app.pattern.sheets import LEAST_PRINTABLE, ROLLS, Join, Paper, paper_of
from app.pattern.sheets import PAPERS as ALL_PAPERS
from app.pattern.units import MM_PER, LengthError, Unit, show_length
from app.shop.orders.measure.typed import TypedForm
from app.web.fields import Field, Option

__all__ = [
    "MARGIN",
    "PAPER",
    "PAPERS",
    "ROLL",
    "USUAL_PAPERS",
    "is_usual",
    "other_print_fields",
    "paper_field",
    "prints_in_words",
    "read_paper",
    "read_prints",
    "with_prints",
]

PAPER, JOIN, LINES = "paper", "print-join", "print-lines"
MARGIN, ROLL, PROJECTOR = "print-margin", "print-roll", "print-projector"
_JOINS = {Join.TRIM.value: "overlapping", Join.BUTT.value: "edge to edge"}
_LINES = {
    Lines.BOTH.value: "to cut along and to sew along",
    Lines.CUTTING.value: "to cut along only",
    Lines.STITCHING.value: "to sew along only, no allowance",
}
_HINTS = {
    JOIN: "Overlapping, two edges of each sheet are trimmed and glued over the next; edge to edge, all four are.",
    LINES: "Without seam allowance you add your own when you cut.",
    MARGIN: "What your printer leaves blank at each edge; most need less than this.",
    ROLL: "The whole pattern on one sheet, as wide as the paper your copy shop or plotter has.",
    PROJECTOR: "One page without margins, over a grid, to be thrown onto the cloth. Never look into the beam; fasten "
    "the projector, its stand and its cables, and follow its handbook.",
}
_USUAL = PrintChoices()
#: The paper that lies in the printer of most people who measure in a unit (common practice).
USUAL_PAPERS = {Unit.CM: "a4", Unit.INCH: "letter"}


def _paper_words(paper: Paper) -> str:
    """A paper's title with its size in the unit it is defined in."""
    unit = "mm" if paper.width.is_integer() and paper.height.is_integer() else "in"
    size = (paper.width, paper.height)
    wide, high = (f"{x:g}" if unit == "mm" else show_length(x, Unit.INCH, named=False) for x in size)
    return f"{paper.title} ({wide} × {high} {unit})"


#: Every paper a pattern can be printed on, in words, by the name that builds use.
PAPERS = {name: _paper_words(paper) for name, paper in ALL_PAPERS.items()}


def with_prints(sent: TypedForm, paper: str, prints: PrintChoices) -> TypedForm:
    """The form with these choices written into it."""
    roll = next((name for name, mm in ROLLS.items() if mm == prints.roll_mm), "")
    texts = {PAPER: paper, JOIN: prints.join, LINES: prints.lines, ROLL: roll}
    texts[PROJECTOR] = "yes" if prints.projector else ""
    return TypedForm({**sent.texts, **texts}, sent.unit).with_length(MARGIN, prints.margin_mm)


def paper_field(sent: TypedForm, error: str) -> Field:
    """The choice of paper."""
    chosen = sent.texts.get(PAPER, "")
    options = tuple(Option(name, title, name == chosen) for name, title in PAPERS.items())
    return Field(name=PAPER, label="Paper for your printer", kind="select", options=options, error=error)


def other_print_fields(sent: TypedForm, errors: Mapping[str, str]) -> tuple[Field, ...]:
    """The choices that most people leave as they are."""
    margin = Field(
        name=MARGIN,
        label="Blank margin of your printer",
        value=sent.texts.get(MARGIN, ""),
        hint=_HINTS[MARGIN],
        unit=sent.unit.value,
        mode="decimal" if sent.unit is Unit.CM else "text",
        error=errors.get(MARGIN, ""),
    )
    projector = Field(
        name=PROJECTOR,
        label="Add a file for a projector",
        kind="tick",
        hint=_HINTS[PROJECTOR],
        ticked=sent.texts.get(PROJECTOR) == "yes",
    )
    return (
        _select(JOIN, "How the sheets meet", _JOINS, sent, errors),
        _select(LINES, "Lines on the pieces", _LINES, sent, errors),
        margin,
        _select(ROLL, "Width of the one-sheet file", _rolls(sent.unit), sent, errors),
        projector,
    )


def is_usual(sent: TypedForm) -> bool:
    """True while nothing but the paper was chosen otherwise than most people have it."""
    return read_prints(sent, {}) == _USUAL


def read_paper(sent: TypedForm, errors: dict[str, str]) -> str:
    """The paper chosen, by its name; what is wrong with it goes into `errors`."""
    paper = sent.texts.get(PAPER, "")
    if paper not in PAPERS:
        errors[PAPER] = "Choose the paper you print on."
    return paper


def read_prints(sent: TypedForm, errors: dict[str, str]) -> PrintChoices:
    """How the pattern is to be printed; what is wrong goes into `errors` by field."""
    return PrintChoices(
        join=_one_of(JOIN, _JOINS, sent, errors),
        lines=_one_of(LINES, _LINES, sent, errors),
        margin_mm=_margin(sent, errors),
        roll_mm=ROLLS.get(_one_of(ROLL, _rolls(sent.unit), sent, errors)),
        projector=sent.texts.get(PROJECTOR) == "yes",
    )


def prints_in_words(prints: PrintChoices, unit: Unit) -> str:
    """What was chosen otherwise than most people have it, as one line; empty when nothing was."""
    said = []
    if prints.join != _USUAL.join:
        said.append("sheets edge to edge")
    if prints.lines != _USUAL.lines:
        said.append(f"lines {_LINES[prints.lines]}")
    if prints.margin_mm != _USUAL.margin_mm:
        said.append(f"margin {show_length(prints.margin_mm, unit)}")
    if prints.roll_mm is not None:
        said.append(f"one sheet {show_length(prints.roll_mm, unit)} wide")
    if not prints.projector:
        said.append("no file for a projector")
    return "; ".join(said)


def _rolls(unit: Unit) -> dict[str, str]:
    named = {name: f"{name.upper()}, {show_length(ROLLS[name], unit)}" for name in ("a1", "a0")}
    inches = {name: f"{name.removesuffix('in')} in roll" for name in ROLLS if name.endswith("in")}
    metric = {name: f" ({show_length(ROLLS[name], Unit.CM)})" if unit is Unit.CM else "" for name in inches}
    rolls = named | {name: words + metric[name] for name, words in inches.items()}
    return {"": "as wide as the pieces need", **{name: rolls[name] for name in sorted(rolls, key=ROLLS.__getitem__)}}


def _select(name: str, label: str, titles: dict[str, str], sent: TypedForm, errors: Mapping[str, str]) -> Field:
    chosen = sent.texts.get(name, "")
    options = tuple(Option(value, title, value == chosen) for value, title in titles.items())
    plain = Field(name=name, label=label, kind="select", options=options, hint=_HINTS[name])
    return replace(plain, error=errors.get(name, ""))


def _one_of(name: str, titles: dict[str, str], sent: TypedForm, errors: dict[str, str]) -> str:
    """The option sent; a form that never had the field means the first, which is the usual one."""
    first = next(iter(titles))
    value = sent.texts.get(name, first)
    if value in titles:
        return value
    errors[name] = "Choose one of the list."
    return first


def _margin(sent: TypedForm, errors: dict[str, str]) -> float:
    if MARGIN not in sent.texts:
        return _USUAL.margin_mm
    try:
        margin = sent.length(MARGIN)
    except LengthError as error:
        errors[MARGIN] = f"Margin: {error}"
        return _USUAL.margin_mm
    most = _most_margin(sent.texts.get(PAPER, ""))
    if not 0.0 <= margin <= most:
        errors[MARGIN] = (
            f"With a margin of {show_length(margin, sent.unit)} the first page has no room for its test squares: "
            f"enter {_rounded_down(most, sent.unit)} or less."
        )
    return margin


def _rounded_down(mm: float, unit: Unit) -> str:
    step = 1.0 if unit is Unit.CM else MM_PER["in"] / 8.0
    return show_length(floor(mm / step) * step, unit)


def _most_margin(name: str) -> float:
    """The widest margin in mm between which the first page still has room for its test squares."""
    paper = paper_of(name)
    if isinstance(paper, Refused):
        return _USUAL.margin_mm
    upright = paper.upright
    return min((side - need) / 2.0 for side, need in zip((upright.width, upright.height), LEAST_PRINTABLE, strict=True))
