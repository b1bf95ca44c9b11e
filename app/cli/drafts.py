"""The commands that read drafts: `check` and `format`."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Sequence
from pathlib import Path

from app.cli.words import counted, say, tell, text_of, writing
from app.pattern.drafting import compiled
from app.pattern.drafting.advice import advice_of
from app.pattern.language.format import format_draft
from app.pattern.problem import Refused
from app.pattern.proof import FindingValues, Population, plan_proof, prove_unit
from app.pattern.proof.findings import stops

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
    return _try(text, options.draft.name) if draft.pieces else 0


def _try(text: str, name: str) -> int:
    """Draw and check the draft for the middle size of its chart at every setting of its choices; 1 where it fails."""
    plan = plan_proof(text, name, Population(amount=0))
    if isinstance(plan, Refused):
        tell(plan.problems)
        return 1
    sizes = [body for body in plan.bodies if body.kind == "size"] or list(plan.bodies)
    middle = sizes[(len(sizes) - 1) // 2]
    found: dict[tuple[str, str], tuple[FindingValues, list[str]]] = {}
    for unit in plan.units:
        if unit.body.id == middle.id:
            for finding in prove_unit(text, name, unit)["findings"]:
                found.setdefault((finding["check"], finding["place"]), (finding, []))[1].append(unit.setting.name)
    mend = counted(len(found), "thing") if found else "nothing"
    tried = counted(len(plan.settings), "setting")
    print(f"Drawn for {middle.id} at {tried} of its choices: {mend} to mend.")
    for finding, settings in found.values():
        _tell_finding(finding, settings)
    return 1 if any(stops(finding) for finding, _ in found.values()) else 0


def _tell_finding(finding: FindingValues, settings: Sequence[str]) -> None:
    more = f" and at {counted(len(settings) - 1, 'setting')} more" if len(settings) > 1 else ""
    said = f"{finding['place']}: {finding['severity']}: {finding['message']} ({settings[0]}{more})"
    print(f"{said}\n  fix: {finding['fix']}", file=sys.stderr)


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
