"""The command line `tapeline`: build, prove, check, serve and work; wiring only.

Exit status: 0 when all went well, 1 when something failed, 2 when the command was
not understood.
"""

from __future__ import annotations

import argparse
import json
import os
import sys
from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from pathlib import Path
from typing import Any

from tqdm import tqdm

from app.cli_print import add_grade, add_print_options, print_choices
from app.cli_words import card_of, choices_of, say, tell, text_of
from app.documents.guide import write_guide
from app.documents.pack import build_pack
from app.errors import SlotTaken
from app.orders.pack import Cloth, PackRefused, PackRequest
from app.pattern.body import CheckedBody, read_bodies_csv, read_body_file
from app.pattern.guide.drawing import draw_draft
from app.pattern.language.format import format_draft
from app.pattern.make import DraftCard
from app.pattern.problem import Problem, has_errors
from app.pattern.proof import Subject, prove, report_values
from app.pattern.units import LengthError, Unit, read_length
from app.serve import SLOT_TAKEN, new_password_link, run_shop, run_web
from app.settings import Settings
from app.worker import run_worker

__all__ = ["main"]


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command; `arguments` default to the process's own."""
    try:
        return _parsed(arguments)
    except BrokenPipeError:  # the reader of our output went away, as with `| head`
        sys.stdout = open(os.devnull, "w")  # noqa: PTH123, SIM115  (so that closing it at exit does not fail again)
        return 1


def _parsed(arguments: Sequence[str] | None) -> int:
    options = _parser().parse_args(arguments)
    run: Callable[[argparse.Namespace], int] = options.run
    return run(options)


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(prog="tapeline", description="Made-to-measure patterns from parametric drafts.")
    commands = parser.add_subparsers(required=True, metavar="COMMAND")
    _build_options(commands.add_parser("build", help="build the pack of one draft for one body"))
    _prove_options(commands.add_parser("prove", help="run every check of a draft on many bodies"))
    check = commands.add_parser("check", help="read a draft and tell everything wrong with it, without a body")
    check.add_argument("draft", type=Path)
    check.set_defaults(run=_check)
    password = commands.add_parser("password", help="print a one-time link with which a designer sets her password")
    password.add_argument("email")
    password.set_defaults(run=_password)
    _draft_options(commands)
    add_grade(commands)
    for name, run, says in (
        ("serve", _serve, "serve the shop's pages"),
        ("work", _work, "build the packs of orders"),
        ("run", _run, "set up the shop with its demo catalogue, then serve and work together"),
    ):
        commands.add_parser(name, help=says).set_defaults(run=run)
    return parser


def _build_options(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("draft", type=Path, help="the draft's file")
    parser.add_argument("--body", type=Path, required=True, help='JSON: {"bust_girth": "96.5cm", ...}')
    parser.add_argument("--choice", action="append", default=[], metavar="NAME=VALUE", help="may be given many times")
    add_print_options(parser)
    parser.add_argument(
        "--projector", action=argparse.BooleanOptionalAction, default=True, help="a file for projectors (default: yes)"
    )
    parser.add_argument("--cloth", default="140cm", help="usable width of the cloth")
    parser.add_argument("--open", action="store_true", help="lay the cloth open instead of folded")
    parser.add_argument("--one-way", action="store_true", help="all pieces lie one way up (nap or print)")
    parser.add_argument("--unit", default="cm", choices=["cm", "in"], help="unit of the printed figures")
    parser.add_argument("--out", type=Path, required=True, help="folder for the files")
    parser.set_defaults(run=_build)


def _draft_options(commands: Any) -> None:
    """The commands that help to write drafts."""
    layout = commands.add_parser("format", help="give drafts the one canonical layout")
    layout.add_argument("drafts", type=Path, nargs="+", metavar="DRAFT")
    layout.add_argument("--check", action="store_true", help="change nothing; fail where a draft has another layout")
    layout.set_defaults(run=_format)
    draw = commands.add_parser("draw", help="draw a sheet up to one of the draft's lines, or all of them line by line")
    draw.add_argument("draft", type=Path)
    draw.add_argument("--body", type=Path, required=True, help='JSON: {"bust_girth": "96.5cm", ...}')
    draw.add_argument("--choice", action="append", default=[], metavar="NAME=VALUE", help="may be given many times")
    which = draw.add_mutually_exclusive_group(required=True)
    which.add_argument("--line", type=int, help="draw up to this line, to the file --out")
    which.add_argument("--all", action="store_true", help="draw every line of every sheet, into the folder --out")
    draw.add_argument("--out", type=Path, required=True, help="SVG file, or a folder with --all")
    draw.set_defaults(run=_draw)
    guide = commands.add_parser("guide", help="write the guide to the draft language as pages")
    guide.add_argument("--out", type=Path, required=True, help="folder for the pages")
    guide.set_defaults(run=_guide)


def _prove_options(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("draft", type=Path, help="the draft's file")
    parser.add_argument("--bodies", type=Path, required=True, help="CSV with columns by ISO 8559-1 name, mm")
    parser.add_argument("--choice", action="append", default=[], metavar="NAME=VALUE", help="may be given many times")
    parser.add_argument("--report", type=Path, required=True, help="JSON to write")
    parser.add_argument("--processes", type=int, default=os.cpu_count() or 1, help="default: every core")
    parser.set_defaults(run=_prove)


# ---- the commands


def _check(options: argparse.Namespace) -> int:
    read = card_of(options.draft)
    if read is None:
        return 1
    card = read[1]
    print(f"{options.draft}: “{card.title}” reads well: {len(card.pieces)} pieces, {len(card.choices)} choices.")
    print(f"It needs: {', '.join(card.needs)}.")
    return 0


def _format(options: argparse.Namespace) -> int:
    return max(_formatted(path, check=options.check) for path in options.drafts)


def _formatted(path: Path, *, check: bool) -> int:
    text = text_of(path)
    laid = format_draft(text, path.name) if text is not None else ()
    if text is None or not isinstance(laid, str):
        tell(() if isinstance(laid, str) else laid)
        return 1
    if laid != text and check:
        return say(f"{path} would be laid out anew.")
    if laid != text:
        path.write_text(laid, "utf-8")
        print(f"{path}: laid out anew.")
    return 0


def _draw(options: argparse.Namespace) -> int:
    text, choices = text_of(options.draft), choices_of(options.choice)
    body_text = text_of(options.body)
    if text is None or choices is None or body_text is None:
        return 1
    body = read_body_file(body_text, options.body.name)
    tell(body.problems)
    if has_errors(body.problems):
        return 1
    drawing = draw_draft(text, options.draft.name, body.body, choices)
    if isinstance(drawing, tuple):
        tell(drawing)
        return 1
    tell(drawing.problems)
    pictures = drawing.all_pictures() if options.all else {"": drawing.picture(options.line)}
    for name, picture in pictures.items():
        path = options.out / name if name else options.out
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(picture, "utf-8")
    print(f"{options.out}: {len(pictures)} drawn.")
    return 1 if drawing.problems else 0


def _guide(options: argparse.Namespace) -> int:
    for page in write_guide(options.out):
        print(page)
    return 0


def _build(options: argparse.Namespace) -> int:
    read = card_of(options.draft)
    choices = choices_of(options.choice)
    body_text = text_of(options.body)
    if read is None or choices is None or body_text is None:
        return 1
    prints = print_choices(options)
    if prints is None:
        return 1
    text, card = read
    body = read_body_file(body_text, options.body.name)
    tell(body.problems)
    if has_errors(body.problems):
        return 1
    cloths = _cloths(options, card)
    if cloths is None:
        return 1
    request = _request(options, text, card, body, choices, cloths)
    return _write(replace(request, prints=prints), options.out)


def _cloths(options: argparse.Namespace, card: DraftCard) -> dict[str, Cloth] | None:
    try:
        width = read_length(options.cloth, Unit.CM)
    except LengthError as wrong:
        say(f"--cloth: {wrong}")
        return None
    return {name: Cloth(width, not options.open, options.one_way) for name, _, _ in card.fabrics}


def _request(
    options: argparse.Namespace,
    text: str,
    card: DraftCard,
    body: CheckedBody,
    choices: Mapping[str, Any],
    cloths: Mapping[str, Cloth],
) -> PackRequest:
    return PackRequest(
        draft_text=text,
        draft_name=options.draft.name,
        measurements=body.body,
        choices=choices,
        unit=options.unit,
        paper=options.paper,
        cloths=cloths,
        order_number="sample",
        customer="",
        studio="",
        title=card.title,
    )


def _write(request: PackRequest, folder: Path) -> int:
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as wrong:
        return say(f"--out {folder}: {wrong.strerror}.")
    with tqdm(total=100, bar_format="{desc:<34} {bar} {percentage:3.0f}%", disable=None) as bar:

        def progress(stage: str, share: float) -> None:
            bar.set_description_str(stage, refresh=False)
            bar.update(max(0.0, share * 100 - bar.n))

        outcome = build_pack(request, folder, progress)
        if not isinstance(outcome, PackRefused):
            progress("Done", 1.0)
    if isinstance(outcome, PackRefused):
        tell(outcome.problems)
        return say("nothing was written.")
    for file in outcome.files:
        print(f"{folder / file.name}  {file.bytes / 1000:.0f} kB")
    return 0


def _prove(options: argparse.Namespace) -> int:
    read = card_of(options.draft)
    choices = choices_of(options.choice)
    bodies_text = text_of(options.bodies)
    if read is None or choices is None or bodies_text is None:
        return 1
    bodies = read_bodies_csv(bodies_text, options.bodies.name)
    tell(bodies.problems)
    if not bodies.bodies:
        return say("no body could be read.")
    named = [(body.id, body.body) for body in bodies.bodies]
    with tqdm(total=len(named), unit=" bodies", disable=None) as bar:
        subject = Subject(read[0], options.draft.name, choices)

        def progress(done: int) -> None:
            bar.update(done - bar.n)

        report = prove(subject, named, options.processes, progress)
    if isinstance(report, tuple):
        tell(report)
        return 1
    options.report.write_text(json.dumps(report_values(report), indent=1, ensure_ascii=False) + "\n", "utf-8")
    print(f"{report.passed} of {len(report.bodies)} bodies hold.")
    for check, count in report.by_check().items():
        print(f"{count:6} fail at {check}")
    return 0 if report.passed == len(report.bodies) and not has_errors(bodies.problems) else 1


def _serve(_options: argparse.Namespace) -> int:
    run_web(Settings())
    return 0


def _work(_options: argparse.Namespace) -> int:
    try:
        run_worker(Settings(), build_pack)
    except SlotTaken as taken:
        say(str(taken))
        return SLOT_TAKEN
    return 0


def _password(options: argparse.Namespace) -> int:
    link = new_password_link(Settings(), options.email)
    if isinstance(link, Problem):
        tell([link])
        return 1
    print(f"Set the password within a day: {link}")
    return 0


def _run(_options: argparse.Namespace) -> int:
    return run_shop(Settings())
