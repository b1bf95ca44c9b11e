"""What every command of the command line needs: telling problems, reading files and choices."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Callable, Sequence
from pathlib import Path

from app.pattern.problem import Problem

__all__ = ["add_choices", "choices_of", "counted", "say", "tell", "text_of", "writing"]

Run = Callable[[argparse.Namespace], int]


def tell(problems: Sequence[Problem]) -> None:
    """Problems on stderr, one after another."""
    for problem in problems:
        print(problem, file=sys.stderr)


def counted(count: int, thing: str) -> str:
    """`1 choice`, `2 choices`."""
    return f"{count} {thing}{'' if count == 1 else 's'}"


def say(words: str) -> int:
    """A sentence on stderr; the exit status of a failure."""
    print(f"tapeline: {words}", file=sys.stderr)
    return 1


def text_of(path: Path) -> str | None:
    """A text file as UTF-8; None, told on stderr, when it cannot be read."""
    try:
        return path.read_text("utf-8")
    except OSError as wrong:
        say(f"{path}: {wrong.strerror}.")
    except UnicodeDecodeError:
        say(f"{path} is not a UTF-8 text file.")
    return None


def writing(run: Run) -> Run:
    """A command that writes files: one that cannot be written where it was asked for is told in a line."""

    def told(options: argparse.Namespace) -> int:
        try:
            return run(options)
        except OSError as wrong:
            if wrong.filename is None:  # no file of hers: such as a reader of our output that went away
                raise
            return say(f"{wrong.filename}: {wrong.strerror}.")

    return told


def add_choices(parser: argparse.ArgumentParser) -> None:
    """The option `--choice` of a command that draws."""
    parser.add_argument("--choice", action="append", default=[], metavar="NAME=VALUE", help="may be given many times")


def choices_of(pairs: Sequence[str]) -> dict[str, str] | None:
    """`name=value` pairs; None, told on stderr, when one is not."""
    wrong = [pair for pair in pairs if "=" not in pair]
    if wrong:
        say(f"--choice {wrong[0]}: write it as name=value.")
        return None
    return {name.strip(): value.strip() for name, _, value in (pair.partition("=") for pair in pairs)}
