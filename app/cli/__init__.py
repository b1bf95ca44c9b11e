"""The command line `tapeline`: which commands there are; each is imported only when it is called.

Exit status: 0 when all went well, 1 when something failed, 2 when the command was
not understood.
"""

from __future__ import annotations

import argparse
import gc
import os
import sys
from collections.abc import Sequence
from importlib import import_module
from typing import Any

__all__ = ["main"]

#: Every command: the module that holds it in its own `COMMANDS`, and what it does. To read a draft needs no shop.
_COMMANDS = {
    "build": ("app.cli.build", "build the pack of one draft for one body"),
    "bodies": ("app.cli.bodies", "write a file of bodies to prove on: women, men or children"),
    "prove": ("app.cli.prove", "run every check of a draft on many bodies"),
    "check": ("app.cli.drafts", "read a draft, draw it for a middle size, and tell all that is wrong"),
    "format": ("app.cli.drafts", "give drafts the one canonical layout"),
    "draw": ("app.cli.draw", "draw a sheet up to one of the draft's lines, or all of them line by line"),
    "guide": ("app.cli.guide", "write the guide to the draft language as pages"),
    "grade": ("app.cli.grade", "one draft over a size chart: nested sizes, each a layer, and a table"),
    "password": ("app.cli.shop", "print a one-time link with which a designer sets her password"),
    "serve": ("app.cli.shop", "serve the shop's pages"),
    "work": ("app.cli.shop", "build the packs of orders"),
    "run": ("app.cli.shop", "set up the shop with its demo catalogue, then serve and work together"),
}


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command; `arguments` default to the process's own."""
    try:
        given = sys.argv[1:] if arguments is None else arguments
        options = _parser(given).parse_args(given)
        status: int = options.run(options)
        return status
    except BrokenPipeError:  # the reader of our output went away, as with `| head`
        sys.stdout = open(os.devnull, "w")  # noqa: PTH123, SIM115  (so that closing it at exit does not fail again)
        return 1


def _parser(arguments: Sequence[str]) -> argparse.ArgumentParser:
    """A parser that knows every command by name, and the options of the one that is called."""
    parser = argparse.ArgumentParser(prog="tapeline", description="Made-to-measure patterns from parametric drafts.")
    commands = parser.add_subparsers(required=True, metavar="COMMAND")
    called = next((word for word in arguments if not word.startswith("-")), "")
    for name, (module, says) in _COMMANDS.items():
        command = commands.add_parser(name, help=says)
        if name == called:
            _imported(module).COMMANDS[name](command)
    return parser


def _imported(module: str) -> Any:
    """A command's module. What an import makes stays to the end, so nobody looks through it for rubbish, then or later.

    Such looks took an eighth of the time of a whole pack.
    """
    gc.disable()
    imported = import_module(module)
    gc.freeze()
    gc.enable()
    return imported
