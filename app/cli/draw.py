"""The command `draw`: a sheet up to one of the draft's lines, or every line of every sheet."""

from __future__ import annotations

import argparse
from pathlib import Path

from app.cli.words import add_choices, choices_of, say, tell, text_of, writing
from app.pattern.body import read_body_file
from app.pattern.drafting import compiled
from app.pattern.guide.drawing import draw_draft
from app.pattern.problem import Refused, has_errors

__all__ = ["COMMANDS"]


def _draw_options(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("draft", type=Path)
    parser.add_argument("--body", type=Path, required=True, help='JSON: {"bust_girth": "96.5cm", ...}')
    add_choices(parser)
    which = parser.add_mutually_exclusive_group(required=True)
    which.add_argument("--line", type=int, help="draw up to this line, to the file --out")
    which.add_argument("--all", action="store_true", help="draw every line of every sheet, into the folder --out")
    parser.add_argument("--out", type=Path, required=True, help="SVG file, or a folder with --all")
    parser.set_defaults(run=writing(_draw))


def _draw(options: argparse.Namespace) -> int:
    text, choices = text_of(options.draft), choices_of(options.choice)
    body_text = text_of(options.body)
    if text is None or choices is None or body_text is None:
        return 1
    last = len(text.rstrip().splitlines())
    if options.line is not None and not 1 <= options.line <= last:
        return say(f"--line {options.line}: the last line of {options.draft} is {last}.")
    program = compiled(text, options.draft.name)
    group = None if isinstance(program, Refused) else program.draft.group
    body = read_body_file(body_text, options.body.name, group)
    tell(body.problems)
    if has_errors(body.problems):
        return 1
    drawing = draw_draft(text, options.draft.name, body.body, choices)
    tell(drawing.problems)
    if isinstance(drawing, Refused):
        return 1
    pictures = drawing.all_pictures() if options.all else {"": drawing.picture(options.line)}
    for name, picture in pictures.items():
        path = options.out / name if name else options.out
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(picture, "utf-8")
    for line, words in drawing.changes(None if options.all else options.line).items():
        print(f"line {line}: {'; '.join(words)}")
    print(f"{options.out}: {len(pictures)} drawn.")
    # Pictures and all, it failed where the drawing stopped before its end.
    return 1 if drawing.problems else 0


COMMANDS = {"draw": _draw_options}
