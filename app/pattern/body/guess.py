"""Guessing what went wrong with one entry: the other unit, half a girth, metres, a slipped decimal point."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from app.pattern.body.measures import Measure, MeasureKind
from app.pattern.units import MM_PER, Unit, show_length

__all__ = ["Guess", "guesses"]


@dataclass(frozen=True, slots=True)
class Guess:
    """A likely slip: its name, a sentence for the person, and what the entry would have been, in mm."""

    slip: str
    sentence: str
    meant: float


def guesses(measure: Measure, mm: float, unit: Unit, fits: Callable[[float], bool]) -> tuple[Guess, ...]:
    """The slips that turn an entry of `mm` into a value that `fits`, the likeliest first."""
    middle = sum(measure.typical) / 2
    found = [guess for guess in _all(measure, mm, unit) if fits(guess.meant)]
    return tuple(sorted(found, key=lambda guess: abs(guess.meant / middle - 1.0)))


def _all(measure: Measure, mm: float, unit: Unit) -> Iterator[Guess]:
    if unit is Unit.CM:
        yield _guess("inch-as-cm", "Was the tape in inches? {typed} in would be {meant}.", mm, mm * 2.54, unit)
    else:
        yield _guess("cm-as-inch", "Was the tape in centimetres? {typed} cm would be {meant}.", mm, mm / 2.54, unit)
    if measure.kind is MeasureKind.GIRTH:
        yield _guess("half-girth", "Is this half of it? All the way round would be {meant}.", mm, mm * 2, unit)
    if measure.kind is MeasureKind.HEIGHT and unit is Unit.CM:
        yield _guess("metres", "Is it in metres? {typed} m would be {meant}.", mm, mm * 100, unit)
    yield _guess("too-large-by-ten", "Is the decimal point missing? A tenth of it would be {meant}.", mm, mm / 10, unit)
    yield _guess(
        "too-small-by-ten", "Has the decimal point slipped? Ten times as much would be {meant}.", mm, mm * 10, unit
    )


def _guess(slip: str, sentence: str, mm: float, meant: float, unit: Unit) -> Guess:
    typed = f"{mm / MM_PER[unit]:.4g}" if unit is Unit.CM else show_length(mm, unit, named=False)
    return Guess(slip, sentence.format(typed=typed, meant=show_length(meant, unit)), meant)
