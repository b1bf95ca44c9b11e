"""The commands that read drafts: `check` and `format`; they need neither pieces nor shop."""

from __future__ import annotations

import argparse
from pathlib import Path

from app.cli.words import counted, say, tell, text_of, writing
from app.pattern.drafting import compiled
from app.pattern.drafting.advice import advice_of
from app.pattern.language.format import format_draft
from app.pattern.problem import Refused

__all__ = ["COMMANDS"]


def _check_options(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("draft", type=Path)
    parser.set_defaults(run=_check)


def _check(options: argparse.Namespace) -> int:
    text = text_of(options.draft)
    if text is None:
        return 1
    program = compiled(text, options.draft.name)
    if isinstance(program, Refused):
        tell(program.problems)
        return 1
    tell(advice_of(program))
    draft = program.draft
    pieces, asked = counted(len(draft.pieces), "piece"), counted(len(draft.choices), "choice")
    print(f"{options.draft}: “{draft.title}” reads well: {pieces}, {asked}.")
    print(f"It needs: {', '.join(need.name for need in draft.needs) or 'no measurement'}.")
    return 0


def _format_options(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("drafts", type=Path, nargs="+", metavar="DRAFT")
    parser.add_argument("--check", action="store_true", help="change nothing; fail where a draft has another layout")
    parser.set_defaults(run=writing(_format))


def _format(options: argparse.Namespace) -> int:
    return max(_formatted(path, check=options.check) for path in options.drafts)


def _formatted(path: Path, *, check: bool) -> int:
    text = text_of(path)
    if text is None:
        return 1
    laid = format_draft(text, path.name)
    if isinstance(laid, Refused):
        tell(laid.problems)
        return 1
    if laid != text and check:
        return say(f"{path} would be laid out anew.")
    if laid != text:
        path.write_text(laid, "utf-8")
        print(f"{path}: laid out anew.")
    return 0


COMMANDS = {"check": _check_options, "format": _format_options}
