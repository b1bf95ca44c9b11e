"""What several pages of fittings and orders show alike: findings, and what was entered, in words."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from app.packs.sides import side_pairs
from app.pattern.body.wording import measures_for
from app.pattern.lay import cloth_in_words
from app.pattern.names import in_words
from app.pattern.problem import Problem
from app.pattern.units import Unit, show_length
from app.shop.catalogue.cards import card_of
from app.shop.catalogue.models import DraftVersion
from app.shop.orders.measure.print_form import PAPERS, prints_in_words
from app.shop.orders.measure.sides_form import kept_sides
from app.shop.orders.models import Fitting
from app.shop.orders.service import cloths_of, prints_of

__all__ = ["Finding", "Pair", "chosen_words", "entered_pairs", "findings_of", "girths_caption"]

_UNITS = {Unit.CM: "centimetres", Unit.INCH: "inches"}


@dataclass(frozen=True, slots=True)
class Pair:
    """A name and its value."""

    title: str
    words: str


@dataclass(frozen=True, slots=True)
class Finding:
    """What a check found, and what to do about it."""

    words: str
    fix: str


def findings_of(problems: Iterable[Problem]) -> tuple[Finding, ...]:
    """Problems as people read them: what is wrong and what to do."""
    return tuple(Finding(problem.message, problem.fix) for problem in problems)


def girths_caption(unit: Unit) -> str:
    """What stands over a table of finished girths, whose figures have no unit beside them."""
    return f"Measured on your pieces, along the stitching lines, in {_UNITS[unit]}"


def entered_pairs(fitting: Fitting, version: DraftVersion) -> tuple[Pair, ...]:
    """Everything a customer entered, in words; the version of the draft tells the titles.

    What the design settles is no choice of hers, and goes unsaid.
    """
    card = card_of(version, fitting.listing)
    unit = Unit(fitting.unit)
    choices = {choice.name: choice for choice in card.choices} if card else {}
    titles = {name: title for name, title, _width in card.fabrics} if card else {}
    typed = fitting.entered
    known = measures_for(card.group if card else None)
    measures = (
        Pair(known[name].title, _as_typed(str(typed.get(name, "")), mm, unit))
        for name, mm in fitting.measurements.items()
    )
    chosen = []
    for name, value in fitting.choices.items():
        if name not in fitting.listing.settled:
            choice = choices.get(name)
            words = chosen_words(value, unit, measured=choice is None or choice.kind == "length")
            chosen.append(Pair(choice.title if choice else in_words(name), words))
    cloths = (
        Pair(titles.get(name, in_words(name)), cloth_in_words(cloth, unit))
        for name, cloth in cloths_of(fitting).items()
    )
    prints = prints_in_words(prints_of(fitting), unit)
    printing = (Pair("Printing", prints),) if prints else ()
    sides = (Pair(title, by) for title, by in side_pairs(kept_sides(typed), unit))
    return (*measures, *sides, *chosen, *cloths, Pair("Paper", PAPERS.get(fitting.paper, fitting.paper)), *printing)


def _as_typed(text: str, mm: float, unit: Unit) -> str:
    """The entry in the customer's own figures, with the unit it was taken in; never rounded again."""
    if not text.strip():
        return show_length(mm, unit)
    return f"{text.strip()} {unit}" if text.strip()[-1].isnumeric() else text.strip()


def chosen_words(value: float | str | bool, unit: Unit, *, measured: bool) -> str:
    """The value of a choice in words; a figure is a length in mm where it is `measured`, else a plain number."""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, str):
        return in_words(value)
    return show_length(value, unit) if measured else f"{value:g}"
