"""The command line's side of printing: the options of a print, and what was chosen with them."""

from __future__ import annotations

import argparse

from app.cli.words import say, tell
from app.packs.request import PrintChoices
from app.pattern.drawing import Lines
from app.pattern.problem import Refused
from app.pattern.sheets import ROLLS, Join, paper_of, paper_problems
from app.pattern.units import LengthError, Unit, read_length

__all__ = ["add_print_options", "length_of", "print_choices"]


def add_print_options(parser: argparse.ArgumentParser, lines: Lines = Lines.BOTH) -> None:
    """The options of everything that prints a pattern; `lines` are the outlines drawn unless others are asked for."""
    parser.add_argument("--paper", default="a4", help="a4, a3, letter, legal, tabloid, 210x330mm, a4-landscape ...")
    parser.add_argument("--margin", default="10mm", help="what the printer leaves blank at every edge")
    parser.add_argument("--join", default="trim", choices=[way.value for way in Join], help="how sheets are joined")
    parser.add_argument(
        "--sheets", default=lines.value, choices=[each.value for each in Lines], help="with or without seam allowance"
    )
    parser.add_argument("--roll", help=f"width of the one sheet: {', '.join(ROLLS)}, 914mm ...; default: as needed")


def print_choices(options: argparse.Namespace) -> PrintChoices | None:
    """The choices of a print; None, told on stderr, when an option is wrong."""
    margin, roll = length_of("--margin", options.margin), None
    if options.roll is not None:
        roll = ROLLS.get(options.roll.strip().lower()) or length_of("--roll", options.roll)
    if margin is None:
        return None
    paper = paper_of(options.paper, margin)
    problems = paper.problems if isinstance(paper, Refused) else paper_problems(paper)
    tell(problems)
    if problems or (options.roll is not None and roll is None):
        return None
    return PrintChoices(options.join, options.sheets, margin, roll, options.projector)


def length_of(option: str, words: str) -> float | None:
    """A length in mm (cm where no unit is named); None, told on stderr, when it is none."""
    try:
        return read_length(words, Unit.CM)
    except LengthError as wrong:
        say(f"{option}: {wrong}")
        return None
