"""Parts drafted from the lengths of seams already drawn: each a short example that is run, cut and drawn."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cache
from importlib.resources import files

from app.pattern.drafting.playback import drawing_lines
from app.pattern.drawing import preview_svg, seam_svg
from app.pattern.guide.examples import Played, cut_example, play_example, sheet_drawing
from app.pattern.guide.layers import Section, laid_over, sections_of, whole_text, written
from app.pattern.guide.part_words import PART_CHAPTERS, PartWords
from app.pattern.pieces.model import Pattern
from app.pattern.steps import seam_in_words, seam_notes
from app.pattern.units import Unit, show_length

__all__ = ["Part", "own_sections", "parts"]

#: Sections that draw a part, and those that sew it; the steps are seen in the whole example.
_DRAWS = ("needs", "choices", "fabrics", "notions", "figures", "sheet", "piece")
_SEWS = ("sew", "girth")


@dataclass(frozen=True, slots=True)
class Part:
    """A part of a garment: what to know of it, the lines that draw and that sew it, and the whole draft they stand in.

    `pieces` is its own pieces to one scale and `beside` the sheet or the seam that explains
    them, both SVG; `comes_to` tells each of its seams and girths in figures, for the guide's body.
    """

    name: str
    chapter: str
    title: str
    says: str
    lines: tuple[str, ...]
    seams: tuple[str, ...]
    text: str
    pieces: str
    beside: str
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
    played, pattern = _sound(text, words.name)
    return Part(
        words.name,
        chapter,
        pattern.title,
        words.says,
        _rows(own, _DRAWS),
        _rows(own, _SEWS),
        text,
        _own_pieces(pattern, own),
        _beside(played, pattern, words, laid, own),
        tuple(_comes_to(pattern, laid, own)),
    )


def _sound(text: str, name: str) -> tuple[Played, Pattern]:
    played = play_example(text)
    pattern = cut_example(played) if isinstance(played, Played) else played
    if not isinstance(played, Played) or not isinstance(pattern, Pattern):
        raise ValueError(f"the part {name} does not hold: {pattern}")
    return played, pattern


def _rows(own: Sequence[Section], words: Sequence[str]) -> tuple[str, ...]:
    """The rows of the sections that begin with these words, in order."""
    return tuple(written([section for section in own if section.word in words]).split("\n"))


def _own_pieces(pattern: Pattern, own: Sequence[Section]) -> str:
    """The pieces that the part adds, or traces anew, side by side to one scale."""
    names = [section.head.split()[1] for section in own if section.word == "piece"]
    return preview_svg(replace(pattern, pieces=tuple(pattern.piece(name) for name in names)), Unit.CM)


def _beside(played: Played, pattern: Pattern, words: PartWords, laid: Sequence[Section], own: Sequence[Section]) -> str:
    if words.sheet:
        return sheet_drawing(played, drawing_lines(played.env, words.sheet)[-1])[1]
    return seam_svg(pattern, pattern.seams[_seams_of(laid, own)[-1]])


def _seams_of(laid: Sequence[Section], own: Sequence[Section]) -> tuple[int, ...]:
    """Which of the pattern's seams the part itself writes: no example has a seam that is there only sometimes."""
    sewn = [section for section in laid if section.word == "sew"]
    return tuple(index for index, section in enumerate(sewn) if section in own)


def _comes_to(pattern: Pattern, laid: Sequence[Section], own: Sequence[Section]) -> Iterator[str]:
    notes = seam_notes(pattern)
    yield from (seam_in_words(notes[index], Unit.CM) for index in _seams_of(laid, own))
    girths = {section.head.split()[1] for section in own if section.word == "girth"}
    for girth in pattern.girths:
        if girth.name in girths:
            yield f"{girth.title}: {show_length(girth.measured, Unit.CM)}."
