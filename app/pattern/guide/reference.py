"""The reference: an entry for every form and every kind of line, made from the language's own tables."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum
from functools import cache
from math import degrees
from typing import TypeVar

from app.pattern.drafting.forms import FORMS, Form
from app.pattern.drafting.forms.numbers import NUMBERS
from app.pattern.drafting.forms.points import POINTS
from app.pattern.drafting.forms.shapes import SHAPES
from app.pattern.drafting.kinds import say_kind
from app.pattern.drafting.playback import Frame
from app.pattern.drafting.shapes.changes import change_in_words
from app.pattern.guide.examples import (
    PlayedExample,
    cut_example,
    piece_drawing,
    play_example,
    seam_drawing,
    sheet_drawing,
)
from app.pattern.guide.lines import GARMENT, LINE_MEANINGS, PLUMBING, LineMeaning
from app.pattern.guide.meanings import FORM_MEANINGS, FormMeaning
from app.pattern.guide.reckoning import RECKONINGS, UNITS, Reckoning, unit_key
from app.pattern.language.format import format_draft
from app.pattern.language.grammar import line_grammar
from app.pattern.pieces.model import Pattern
from app.pattern.problem import Refused
from app.pattern.units import Unit, show_length

__all__ = ["Entry", "Group", "grammar_lines", "reference"]

_T = TypeVar("_T")


class Group(StrEnum):
    """The chapters of the reference, in order."""

    POINTS = "Points"
    PATHS = "Lines and curves"
    DIRECTIONS = "Directions"
    NUMBERS = "Measuring and reckoning"
    UNITS = "Numbers and units"
    SHAPES = "Pattern work"
    SECTIONS = "Sections and their lines"
    STEPS = "Steps, blocks and tests"
    PIECES = "Pieces"
    SEAMS = "Seams, girths and instructions"


@dataclass(frozen=True, slots=True)
class Entry:
    """One form or line: how it is written, what it means, of what kinds its parts are, and a drawn example.

    `lines` are those to show, `text` is the whole draft they were run in; `drawing` is
    SVG, "" where nothing is drawn; `comes_to` says what a measuring form gave, or which lengths pattern work changed.
    """

    key: str
    group: Group
    written: str
    says: str
    parts: tuple[str, ...]
    gives: str
    lines: tuple[str, ...]
    text: str
    drawing: str
    comes_to: str = ""


@cache
def reference() -> tuple[Entry, ...]:
    """Every form of the language, every operator and unit, then every kind of line, each with its example run."""
    forms = [_form_entry(form, FORM_MEANINGS[name]) for name, form in FORMS.items() if name in FORM_MEANINGS]
    lines = [_line_entry(key, meaning) for key, meaning in LINE_MEANINGS.items()]
    sums = [_reckoning_entry(key, Group.NUMBERS, sum_) for key, sum_ in RECKONINGS.items()]
    units = [_reckoning_entry(unit_key(unit), Group.UNITS, sum_) for unit, sum_ in UNITS.items()]
    return (*forms, *sums, *units, *lines)


def grammar_lines() -> tuple[str, ...]:
    """The grammar's kinds of line and clause, by rule; forms and mere parts of lines left out."""
    names = {str(rule.alias or rule.origin.name) for rule in line_grammar().rules}
    own = {name for name in names if not name.startswith(("f_", "d_", "_"))}
    return tuple(sorted(own - PLUMBING))


# ---- forms


def _form_entry(form: Form, meaning: FormMeaning) -> Entry:
    rows = [*meaning.ground.strip().split("\n"), *meaning.lines]
    text = _formatted('draft "Example"\nsheet paper\n' + "\n".join("    " + row for row in rows) + "\n")
    played = _sound(play_example(text), form.name)
    frame, drawing = sheet_drawing(played, text.rstrip("\n").count("\n") + 1)
    gives = "the same kind of thing" if form.gives == "same" else "a traced shape"
    gives = say_kind(form.gives) if isinstance(form.gives, str) and form.gives != "same" else gives
    parts = tuple(_part(kind) for kind in form.takes)
    return Entry(
        form.name,
        _group_of(form),
        meaning.written,
        meaning.says,
        parts,
        gives,
        meaning.lines,
        text,
        drawing if _is_pictured(form, frame) else "",
        _comes_to(frame, form),
    )


def _is_pictured(form: Form, frame: Frame) -> bool:
    """True where the picture shows something of the form: plain reckoning with numbers is not to be seen."""
    kinds = {kind for part in form.takes for kind in part.rstrip("*?").split("|")}
    return bool(kinds - {"number", "length", "angle", "area"}) or any(thing.newest for thing in frame.things)


def _part(kind: str) -> str:
    """A part in words: `a point`, `a point, if wanted` and so on; texts are the names of sides and darts."""
    plain = kind.rstrip("*?")
    said = "a name" if plain == "text" else say_kind(plain)
    ending = {"*": ", once or more often", "?": ", if wanted"}
    return said + ending.get(kind[len(plain) :], "")


def _group_of(form: Form) -> Group:
    if form.name.startswith("direction "):
        return Group.DIRECTIONS
    for group, forms in ((Group.POINTS, POINTS), (Group.NUMBERS, NUMBERS), (Group.SHAPES, SHAPES)):
        if form in forms:
            return group
    return Group.PATHS


def _comes_to(frame: Frame, form: Form) -> str:
    if frame.changes:
        return "; ".join(change_in_words(change, Unit.CM) for change in frame.changes)
    if not frame.measures:
        return ""
    name, value = frame.measures[-1]
    return f"{name.replace('_', ' ')} is {_said(value, str(form.gives))}"


# ---- operators, units, functions


def _reckoning_entry(key: str, group: Group, meaning: Reckoning) -> Entry:
    text = _formatted(_garment(LineMeaning(meaning.written, meaning.says, meaning.section, meaning.lines)))
    played = _sound(play_example(text), key)
    name = meaning.lines[0].split()[0]
    drawing = ""
    if meaning.section.startswith("sheet"):
        end = text[: text.index("\npiece ")].rstrip("\n").count("\n") + 1
        value, drawing = played.env.values[f"sheet cloth.{name}"], sheet_drawing(played, end)[1]
    else:
        pattern: Pattern = _sound(cut_example(played), key)
        name, value = pattern.girths[0].title, pattern.girths[0].measured
    comes_to = f"{name.replace('_', ' ')} is {_said(value, meaning.gives)}"
    gives = say_kind(meaning.gives) if meaning.takes else ""
    return Entry(
        key, group, meaning.written, meaning.says, meaning.takes, gives, meaning.lines, text, drawing, comes_to
    )


def _said(value: object, kind: str) -> str:
    """A value of a kind in words for people."""
    number = float(value) if isinstance(value, int | float) else 0.0
    return {"length": show_length(number, Unit.CM), "angle": f"{degrees(number):.1f}°"}.get(kind, f"{number:.3g}")


# ---- lines


def _garment(meaning: LineMeaning) -> str:
    """The guide's garment with the example's lines in their section."""
    sections = {**GARMENT, meaning.section: _with(GARMENT.get(meaning.section, ()), meaning.lines)}
    order = [*GARMENT] if meaning.section in GARMENT else ["draft", meaning.section, *list(GARMENT)[1:]]
    rows: list[str] = []
    for section in order:
        loose = section in ("draft", "for", "sew", "girth", "fit")
        head = meaning.head if meaning.head and section == meaning.section else section
        rows += [] if loose else [head]
        rows += [row if loose else "    " + row for row in sections[section]]
    return "\n".join(rows) + "\n"


def _with(own: Sequence[str], lines: Sequence[str]) -> tuple[str, ...]:
    """The section's own lines, those that begin with the word of an example's line replaced, the others added."""
    words = {line.split()[0] for line in lines}
    added = [line for line in lines if line.startswith(" ") or line.split()[0] not in {o.split()[0] for o in own}]
    first = {line.split()[0]: line for line in reversed(lines) if line not in added}
    kept = [first.get(row.split()[0], row) for row in own]
    if words & {"##"}:
        return tuple(lines)
    return (*kept, *added)


def _line_entry(key: str, meaning: LineMeaning) -> Entry:
    text = _formatted(_garment(meaning))
    played = _sound(play_example(text), key)
    shown = tuple(line for line in (meaning.head, *meaning.lines) if line)
    group, drawing = _line_drawing(key, meaning, played, text)
    return Entry(key, group, meaning.written, meaning.says, (), "", shown, text, drawing)


def _line_drawing(key: str, meaning: LineMeaning, played: PlayedExample, text: str) -> tuple[Group, str]:
    if meaning.section.startswith("sheet"):
        end = text[: text.index("\npiece ")].rstrip("\n").count("\n") + 1
        return Group.SECTIONS if key == "sheet_head" else Group.STEPS, sheet_drawing(played, end)[1]
    pattern: Pattern = _sound(cut_example(played), key)
    if meaning.section.startswith("piece"):
        return Group.PIECES, piece_drawing(pattern)
    if meaning.section == "sew":
        return Group.SEAMS, seam_drawing(pattern)
    return Group.SEAMS if meaning.section in ("girth", "fit", "steps") else Group.SECTIONS, ""


# ---- examples that fail are our own mistakes


def _sound(made: _T | Refused, key: str) -> _T:
    if isinstance(made, Refused):
        raise ValueError(f"the example of {key} does not hold: " + "; ".join(map(str, made.problems)))
    return made


def _formatted(text: str) -> str:
    out = format_draft(text, "guide.draft")
    return _sound(out, text)
