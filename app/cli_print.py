"""The command line's side of printing: the options of a print, and `tapeline grade` for a run of fixed sizes."""

from __future__ import annotations

import argparse
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from app.cli_words import card_of, choices_of, say, tell, text_of
from app.orders.pack import PrintChoices
from app.pattern.body import SIZES, read_bodies_csv, size_body
from app.pattern.drawing import Lines
from app.pattern.make import Refused, make_pattern
from app.pattern.pieces.model import Pattern
from app.pattern.problem import Problem, has_errors
from app.pattern.sheets import (
    ROLLS,
    Join,
    Nest,
    Paper,
    PrintInfo,
    PrintStyle,
    RollPlan,
    grading_csv,
    nest_of,
    paper_of,
    paper_problems,
    plan_artwork,
    plan_artwork_roll,
    write_grading_pdf,
    write_roll_artwork,
    write_tiled_artwork,
)
from app.pattern.units import LengthError, Unit, read_length

__all__ = ["add_grade", "add_print_options", "print_choices"]


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
    margin, roll = _length("--margin", options.margin), _roll(options.roll)
    paper = _paper(options.paper, margin) if margin is not None else None
    if margin is None or paper is None or (options.roll is not None and roll is None):
        return None
    return PrintChoices(options.join, options.sheets, margin, roll, options.projector)


def _length(option: str, words: str) -> float | None:
    try:
        return read_length(words, Unit.CM)
    except LengthError as wrong:
        say(f"{option}: {wrong}")
        return None


def _roll(words: str | None) -> float | None:
    """The width of a roll in mm; None when none is asked for, or when it is wrong."""
    if words is None:
        return None
    return ROLLS.get(words.strip().lower()) or _length("--roll", words)


def _paper(words: str, margin: float) -> Paper | None:
    paper = paper_of(words, margin)
    problems = (paper,) if isinstance(paper, Problem) else paper_problems(paper)
    tell(problems)
    return None if problems or isinstance(paper, Problem) else paper


def add_grade(commands: Any) -> None:
    """The command `grade`."""
    parser = commands.add_parser("grade", help="one draft over a size chart: nested sizes, each a layer, and a table")
    parser.add_argument("draft", type=Path, help="the draft's file")
    parser.add_argument("--sizes", required=True, help="names of sizes, smallest first: 84,88,92")
    parser.add_argument("--chart", type=Path, help="CSV: id is the size, columns by ISO 8559-1 name, mm; default: ours")
    parser.add_argument("--choice", action="append", default=[], metavar="NAME=VALUE", help="may be given many times")
    parser.add_argument("--unit", default="cm", choices=["cm", "in"], help="unit of the printed figures")
    parser.add_argument("--out", type=Path, required=True, help="folder for the files")
    add_print_options(parser, Lines.CUTTING)
    parser.set_defaults(run=_grade, projector=False)


def _grade(options: argparse.Namespace) -> int:
    read, choices, prints = card_of(options.draft), choices_of(options.choice), print_choices(options)
    bodies = _bodies(options)
    if read is None or choices is None or prints is None or bodies is None:
        return 1
    sizes = _patterns(read[0], options.draft.name, bodies, choices)
    if sizes is None:
        return say("nothing was written.")
    names = tuple(sizes)
    title = (
        f"{read[1].title}, sizes {names[0]} to {names[-1]}" if len(names) > 1 else f"{read[1].title}, size {names[0]}"
    )
    return _write_sizes(sizes, PrintInfo(title, unit=Unit(options.unit)), prints, options)


def _bodies(options: argparse.Namespace) -> dict[str, Mapping[str, float]] | None:
    """The body of each size asked for, mm; None, told on stderr, when a size is in no chart."""
    chart = _chart(options.chart)
    if chart is None:
        return None
    wanted = [name.strip() for name in options.sizes.split(",") if name.strip()]
    unknown = [name for name in wanted if name not in chart]
    if unknown or not wanted:
        say(f"--sizes {options.sizes}: the chart has {', '.join(chart)}.")
        return None
    return {name: chart[name] for name in wanted}


def _chart(path: Path | None) -> dict[str, Mapping[str, float]] | None:
    if path is None:
        return {name: size_body(name) for name in SIZES}
    text = text_of(path)
    if text is None:
        return None
    read = read_bodies_csv(text, path.name)
    tell(read.problems)
    return None if has_errors(read.problems) else {body.id: body.body for body in read.bodies}


def _patterns(
    text: str, name: str, bodies: Mapping[str, Mapping[str, float]], choices: Mapping[str, str]
) -> dict[str, Pattern] | None:
    """The pattern of each size; None, every problem told with its size, when one cannot be made."""
    made = {size: make_pattern(text, name, body, choices) for size, body in bodies.items()}
    refused = {size: one for size, one in made.items() if isinstance(one, Refused)}
    for size, one in refused.items():
        say(f"size {size}:")
        tell(one.problems)
    return None if refused else {size: one.pattern for size, one in made.items() if not isinstance(one, Refused)}


def _write_sizes(
    sizes: Mapping[str, Pattern], info: PrintInfo, prints: PrintChoices, options: argparse.Namespace
) -> int:
    nest = nest_of(sizes, info, PrintStyle(lines=Lines(prints.lines)))
    paper = paper_of(options.paper, prints.margin_mm)
    if not isinstance(nest, Nest) or isinstance(paper, Problem):
        tell((paper,) if isinstance(paper, Problem) else nest if isinstance(nest, tuple) else ())
        return say("nothing was written.")
    roll = plan_artwork_roll(nest, prints.roll_mm)
    if not isinstance(roll, RollPlan):
        tell(roll)
        return say("nothing was written.")
    folder: Path = options.out
    folder.mkdir(parents=True, exist_ok=True)
    names = (f"sizes-{paper.name}.pdf", "sizes-one-sheet.pdf", "grading.pdf", "grading.csv")
    tiled, whole, table, figures = (folder / name for name in names)
    write_tiled_artwork(plan_artwork(nest, paper, Join(prints.join)), nest, info, tiled)
    write_roll_artwork(roll, nest, info, whole)
    write_grading_pdf(sizes, info, paper, table)
    figures.write_text(grading_csv(sizes), "utf-8")
    for path in (tiled, whole, table, figures):
        print(f"{path}  {path.stat().st_size / 1000:.0f} kB")
    return 0
