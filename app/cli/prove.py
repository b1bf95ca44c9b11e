"""The command `prove`: every check of a draft on the bodies of a file."""

from __future__ import annotations

import argparse
import json
import os
from collections.abc import Sequence
from pathlib import Path

from tqdm import tqdm

from app.cli.card import card_of
from app.cli.words import add_choices, choices_of, counted, say, tell, text_of, writing
from app.pattern.body import read_bodies_csv
from app.pattern.problem import Refused, has_errors
from app.pattern.proof import Failure, ProofReport, ProofSubject, prove, report_values

__all__ = ["COMMANDS"]

_NAMED = 5  # bodies that are named where a check fails


def _prove_options(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("draft", type=Path, help="the draft's file")
    parser.add_argument(
        "--bodies",
        type=Path,
        required=True,
        help="CSV with columns by ISO 8559-1 name, mm, and their names under id or name",
    )
    add_choices(parser)
    parser.add_argument("--report", type=Path, required=True, help="JSON to write")
    parser.add_argument("--processes", type=int, default=os.cpu_count() or 1, help="default: every core")
    parser.set_defaults(run=writing(_prove))


def _prove(options: argparse.Namespace) -> int:
    read = card_of(options.draft)
    choices = choices_of(options.choice)
    bodies_text = text_of(options.bodies)
    if read is None or choices is None or bodies_text is None:
        return 1
    # Asked before the work, which may take hours.
    if options.report.is_dir() or not options.report.parent.is_dir():
        return say(f"--report {options.report}: name a file in a folder that is there.")
    bodies = read_bodies_csv(bodies_text, options.bodies.name, read[1].group)
    tell(bodies.problems)
    if not bodies.bodies:
        return say("no body could be read.")
    named = [(body.id, body.body) for body in bodies.bodies]
    with tqdm(total=len(named), unit=" bodies", disable=None) as bar:
        subject = ProofSubject(read[0], options.draft.name, choices)

        def progress(done: int) -> None:
            bar.update(done - bar.n)

        report = prove(subject, named, options.processes, progress)
    if isinstance(report, Refused):
        tell(report.problems)
        return 1
    options.report.write_text(json.dumps(report_values(report), indent=1, ensure_ascii=False) + "\n", "utf-8")
    _print(report)
    return 0 if report.passed == len(report.bodies) and not has_errors(bodies.problems) else 1


def _print(report: ProofReport) -> None:
    """How many hold, what fails, what is warned of and on how many bodies, and what the draft leaves unsaid."""
    warnings = report.warnings()
    warned = len(warnings) + len(report.advice)
    kinds = f", with {counted(warned, 'warning')} to read" if warned else ""
    whole = "body holds" if len(report.bodies) == 1 else "bodies hold"
    print(f"{report.passed} of {len(report.bodies)} {whole}{kinds}.")
    for check, count in report.by_check().items():
        failing = report.failing(check)
        print(f"{count:6} {'fails' if count == 1 else 'fail'} at {check}: {_named(failing)}")
        _print_example(next(f for body in report.bodies for f in body.failures if f.check == check))
    for warning in warnings:
        count = len(warning.bodies)
        print(f"{count:6} {'is' if count == 1 else 'are'} warned by {warning.check}: {_named(warning.bodies)}")
        _print_example(warning.example)
    for problem in report.advice:
        print(f"   all are warned by {problem.code}\n       {problem.message}\n       fix: {problem.fix}")


def _named(bodies: Sequence[str]) -> str:
    more = f" and {len(bodies) - _NAMED} more" if len(bodies) > _NAMED else ""
    return f"{', '.join(bodies[:_NAMED])}{more}"


def _print_example(found: Failure) -> None:
    print(f"       {found.place}: {found.message}\n       fix: {found.fix}")


COMMANDS = {"prove": _prove_options}
