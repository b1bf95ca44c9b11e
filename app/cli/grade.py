"""The command `grade`: a run of fixed sizes, nested on the same sheets, and the table of what each gains."""

from __future__ import annotations

import argparse
from collections.abc import Mapping
from pathlib import Path

from app.cli.card import card_of
from app.cli.printing import add_print_options, print_choices
from app.cli.words import add_choices, choices_of, say, tell, text_of, writing
from app.packs.request import PrintChoices
from app.pattern.body import MeasureKind, read_bodies_csv
from app.pattern.body.sizes import sizes_for
from app.pattern.body.wording import measures_for
from app.pattern.drawing import Lines
from app.pattern.make import DraftCard, make_pattern
from app.pattern.pieces.model import Pattern
from app.pattern.problem import Refused, has_errors
from app.pattern.sheets import (
    Join,
    PrintInfo,
    PrintStyle,
    grading_csv,
    nest_of,
    paper_of,
    plan_artwork,
    plan_artwork_roll,
    write_grading_pdf,
    write_roll_artwork,
    write_tiled_artwork,
)
from app.pattern.units import Unit, show_length

__all__ = ["COMMANDS"]


def _grade_options(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("draft", type=Path, help="the draft's file")
    parser.add_argument(
        "--sizes", required=True, help="smallest first: 84,88,92 (women), S,M (men), 104,110 (children)"
    )
    parser.add_argument("--chart", type=Path, help="CSV: id is the size, columns by ISO 8559-1 name, mm; default: ours")
    add_choices(parser)
    parser.add_argument("--unit", default="cm", choices=["cm", "in"], help="unit of the printed figures")
    parser.add_argument("--out", type=Path, required=True, help="folder for the files")
    add_print_options(parser, Lines.CUTTING)
    parser.set_defaults(run=writing(_grade), projector=False)


def _grade(options: argparse.Namespace) -> int:
    read, choices, prints = card_of(options.draft), choices_of(options.choice), print_choices(options)
    if read is None or choices is None or prints is None:
        return 1
    bodies = _bodies(options, read[1])
    if bodies is None:
        return 1
    sizes = _patterns(read[0], options.draft.name, bodies, choices)
    if sizes is None:
        return say("nothing was written.")
    _tell_sizes(bodies, read[1], options)
    names = tuple(sizes)
    title = (
        f"{read[1].title}, sizes {names[0]} to {names[-1]}" if len(names) > 1 else f"{read[1].title}, size {names[0]}"
    )
    return _write_sizes(sizes, PrintInfo(title, unit=Unit(options.unit)), prints, options)


def _tell_sizes(bodies: Mapping[str, Mapping[str, float]], card: DraftCard, options: argparse.Namespace) -> None:
    """What each size stands for in the girths that this draft is drawn from: a skirt goes by waist and hip."""
    known = measures_for(card.group)
    girths = [name for name in card.needs if known[name].kind is MeasureKind.GIRTH]
    unit = Unit(options.unit)
    for size, body in bodies.items():
        said = [f"{known[name].title.lower()} {show_length(body[name], unit)}" for name in girths if name in body]
        print(f"Size {size}: {', '.join(said) or 'no girth is asked for'}.")
    if options.chart is None and card.group == "women" and girths and "bust_girth" not in girths:
        print("Sizes are named by bust, which this draft does not use: choose by the girths above.")


def _bodies(options: argparse.Namespace, card: DraftCard) -> dict[str, Mapping[str, float]] | None:
    """The body of each size asked for, mm; None, told on stderr, when a size is in no chart."""
    chart = dict(sizes_for(card.group, card.statures))
    if options.chart is not None:
        text = text_of(options.chart)
        if text is None:
            return None
        read = read_bodies_csv(text, options.chart.name, card.group)
        tell(read.problems)
        if has_errors(read.problems):
            return None
        chart = {body.id: body.body for body in read.bodies}
    wanted = [name.strip() for name in options.sizes.split(",") if name.strip()]
    unknown = [name for name in wanted if name not in chart]
    if unknown or not wanted:
        say(f"--sizes {options.sizes}: the chart has {', '.join(chart)}.")
        return None
    return {name: chart[name] for name in wanted}


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
    if isinstance(paper, Refused):
        tell(paper.problems)
        return say("nothing was written.")
    if isinstance(nest, Refused):
        tell(nest.problems)
        return say("nothing was written.")
    roll = plan_artwork_roll(nest, prints.roll_mm)
    if isinstance(roll, Refused):
        tell(roll.problems)
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


COMMANDS = {"grade": _grade_options}
