"""The commands of the running shop: `serve`, `work`, `run` and `password`."""

from __future__ import annotations

import argparse
from collections.abc import Callable

from pydantic import ValidationError

from app.base.errors import SetUpError, SlotTaken
from app.base.settings import Settings
from app.cli.words import say, tell
from app.packs.build import build_pack
from app.pattern.problem import Refused
from app.run.serve import CANNOT_START, SLOT_TAKEN, new_password_link, run_shop, run_web
from app.work.worker import run_worker

__all__ = ["COMMANDS"]


def _password_options(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("email")
    _plain(_password)(parser)


def _plain(run: Callable[[argparse.Namespace], int]) -> Callable[[argparse.ArgumentParser], None]:
    """The options of a command that has none; what the keeper must mend is told in plain lines, without a traceback."""

    def told(options: argparse.Namespace) -> int:
        try:
            return run(options)
        except SetUpError as error:
            say(str(error))
            return SLOT_TAKEN if isinstance(error, SlotTaken) else CANNOT_START

    return lambda parser: parser.set_defaults(run=told)


def _serve(_options: argparse.Namespace) -> int:
    run_web(_settings())
    return 0


def _work(_options: argparse.Namespace) -> int:
    run_worker(_settings(), build_pack)
    return 0


def _password(options: argparse.Namespace) -> int:
    link = new_password_link(_settings(), options.email)
    if isinstance(link, Refused):
        tell(link.problems)
        return 1
    print(f"Set the password within a day: {link}")
    return 0


def _settings() -> Settings:
    try:
        return Settings()
    except ValidationError as error:
        # Only where and why: the value may be a key or a password.
        lines = ["The settings cannot be used."]
        for each in error.errors():
            setting = f"TAPELINE_{str(each['loc'][0]).upper()}: " if each["loc"] else ""
            lines.append(f"{setting}{each['msg'].removeprefix('Value error, ')}.")
        raise SetUpError("\n".join(lines)) from None
    except (OSError, UnicodeDecodeError) as error:
        raise SetUpError(f"The file .env cannot be read: {error}.\nMend it, or remove it.") from None


COMMANDS = {
    "password": _password_options,
    "serve": _plain(_serve),
    "work": _plain(_work),
    "run": _plain(lambda _options: run_shop(_settings())),
}
