"""The commands of the running shop: `serve`, `work`, `run` and `password`."""

from __future__ import annotations

import argparse
from collections.abc import Callable

from app.cli_words import say, tell
from app.documents.pack import build_pack
from app.errors import SlotTaken
from app.pattern.problem import Problem
from app.serve import SLOT_TAKEN, new_password_link, run_shop, run_web
from app.settings import Settings
from app.worker import run_worker

__all__ = ["COMMANDS"]


def _password_options(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("email")
    parser.set_defaults(run=_password)


def _plain(run: Callable[[argparse.Namespace], int]) -> Callable[[argparse.ArgumentParser], None]:
    """The options of a command that has none."""
    return lambda parser: parser.set_defaults(run=run)


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


COMMANDS = {"password": _password_options, "serve": _plain(_serve), "work": _plain(_work), "run": _plain(_run)}
