"""The command `guide`: the guide to the draft language as pages."""

from __future__ import annotations

import argparse
from pathlib import Path

from app.cli.words import writing
from app.shop.studio.guide.view import write_guide

__all__ = ["COMMANDS"]


def _guide_options(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("--out", type=Path, required=True, help="folder for the pages")
    parser.set_defaults(run=writing(_guide))


def _guide(options: argparse.Namespace) -> int:
    for page in write_guide(options.out):
        print(page)
    return 0


COMMANDS = {"guide": _guide_options}
