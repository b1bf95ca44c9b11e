"""Parts drafted from the lengths of seams already drawn: each a short example that is run, cut and drawn."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cache
from importlib.resources import files

from app.pattern.guide.examples import PlayedExample, cut_example, play_example
from app.pattern.guide.layers import Section, laid_over, sections_of, whole_text, written
from app.pattern.guide.part_pictures import PartPicture, pieces_pictured, seam_pictured, sheet_pictured
from app.pattern.guide.part_words import PART_CHAPTERS, PartWords
from app.pattern.pieces.model import Pattern
from app.pattern.steps import seam_in_words, seam_notes
from app.pattern.units import Unit, show_length

__all__ = ["Part", "own_sections", "parts"]

#: Sections that draw a part, and those that sew it; the steps are seen in the whole example.
_DRAWS = ("needs", "choices", "fabrics", "notions", "figures", "sheet", "piece")
_SEWS = ("sew", "girth", "fit")


@dataclass(frozen=True, slots=True)
class Part:
    """A part of a garment: what to know of it, the lines that draw and that sew it, and the whole draft they stand in.

    `comes_to` tells each of its seams and girths in figures, for the guide's body.
    """

    name: str
    chapter: str
    title: str
    says: str
    lines: tuple[str, ...]
    seams: tuple[str, ...]
    text: str
    pictures: tuple[PartPicture, ...]
    comes_to: tuple[str, ...]


@cache
def parts() -> tuple[Part, ...]:
    """Every part, drawn for the guide's body, in the order of the page."""
    return tuple(_part(chapter, words) for chapter, row in PART_CHAPTERS.items() for words in row)


def own_sections(name: str) -> tuple[Section, ...]:
    """The sections of one of the guide's files: a garment that is shared, or what one part adds to it."""
    return sections_of(files("app.pattern.guide").joinpath("drafts", f"{name}.draft").read_text("utf-8"))


def _part(chapter: str, words: PartWords) -> Part:
    own = own_sections(words.name)
    laid: tuple[Section, ...] = ()
    for name in (*words.under, words.name):
        laid = laid_over(laid, own_sections(name))
    text = whole_text(laid)
    drawn = _sound(text, words.name)
    pattern, seams = drawn[1], _seams_of(laid, own)
    return Part(
        words.name,
        chapter,
        pattern.title,
        words.says,
        _rows(own, _DRAWS),
        _rows(own, _SEWS),
        text,
        _pictures(drawn, words, own, seams),
        tuple(_comes_to(pattern, own, seams)),
    )


def _sound(text: str, name: str) -> tuple[PlayedExample, Pattern]:
    played = play_example(text)
    pattern = cut_example(played) if isinstance(played, PlayedExample) else played
    if not isinstance(played, PlayedExample) or not isinstance(pattern, Pattern):
        raise ValueError(f"the part {name} does not hold: {pattern}")
    return played, pattern


def _rows(own: Sequence[Section], words: Sequence[str]) -> tuple[str, ...]:
    """The rows of the sections that begin with these words, in order."""
    return tuple(written([section for section in own if section.word in words]).split("\n"))


def _pictures(
    drawn: tuple[PlayedExample, Pattern], words: PartWords, own: Sequence[Section], seams: Sequence[int]
) -> tuple[PartPicture, ...]:
    """The part's own pieces, then what explains them best: its shapes on the sheet, or its last seam if it has one."""
    played, pattern = drawn
    names = words.shows or [section.head.split()[1] for section in own if section.word == "piece"]
    pieces = pieces_pictured(pattern, names)
    if words.sheet:
        return (*pieces, sheet_pictured(played, words.sheet))
    return (*pieces, seam_pictured(pattern, seams[-1])) if seams else pieces


def _seams_of(laid: Sequence[Section], own: Sequence[Section]) -> tuple[int, ...]:
    """Which of the pattern's seams the part itself writes: no example has a seam that is there only sometimes."""
    sewn = [section for section in laid if section.word == "sew"]
    return tuple(index for index, section in enumerate(sewn) if section in own)


def _comes_to(pattern: Pattern, own: Sequence[Section], seams: Sequence[int]) -> Iterator[str]:
    notes = seam_notes(pattern)
    yield from (seam_in_words(notes[index], Unit.CM) for index in seams)
    girths = {section.head.split()[1] for section in own if section.word == "girth"}
    for girth in pattern.girths:
        if girth.name in girths:
            yield f"{girth.title}: {show_length(girth.measured, Unit.CM)}."
