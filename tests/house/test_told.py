"""What is told of the project is true: commands, flags, files and figures of the READMEs beside what runs."""

from __future__ import annotations

import argparse
import re
from importlib import import_module

import pytest

from app import cli
from app.demo.shop import DRAFTS
from app.pattern.body import draw_bodies
from app.pattern.make import read_draft
from app.pattern.proof import case
from tests.house.source import APP, ROOT

README = (ROOT / "README.md").read_text("utf-8")
DEVELOPERS = (ROOT / "DEVELOPERS.md").read_text("utf-8")
CASE = (ROOT / "app" / "pattern" / "proof" / "case.md").read_text("utf-8")
ANEW = (
    "run `python -m app.pattern.proof.case app/demo/drafts/*.draft > app/pattern/proof/case.md`, "
    "then tell its figures in the README"
)
#: Where files of others lie.
OTHERS = ("app/pattern/body/data", "static/fonts", "tests/outside/packing", "tests/outside/surveys")
COMMAND_LINE = README.partition("## The command line")[2].partition("## A draft")[0]


# ---- the case for made to measure


def shares() -> dict[str, float]:
    """What the table of the case says, in percent."""
    return {what: float(share) for what, share in re.findall(r"^\| (.+) \| ([\d.]+)% \|$", CASE, re.M)}


def test_the_readme_tells_the_figures_of_the_case():
    told = README.partition("## Why made to measure")[2].partition("##")[0]
    found = shares()
    sizes = found["fixed size, chosen by bust"], found[f"fixed size, {len(case.SIZES)} chosen for these very women"]
    least = min(share for what, share in found.items() if what.endswith("made to measure"))
    assert re.search(r"fits (\d+) % within 2 cm", told)[1] == f"{sizes[0]:.0f}", ANEW
    assert re.search(r"these very women fit (\d+) %", told)[1] == f"{sizes[1]:.0f}", ANEW
    assert re.search(r"on ([\d.]+) % of them or more", told)[1] == f"{least:.1f}", ANEW
    assert f"Over {case.BODIES:,} women drawn" in told


def test_the_table_of_the_case_has_every_draft_for_women():
    cards = {path.stem: read_draft(path.read_text("utf-8"), path.name) for path in DRAFTS.glob("*.draft")}
    drafts = {f"{stem.replace('_', ' ')}, made to measure" for stem, card in cards.items() if card.group == "women"}
    assert drafts == {what for what in shares() if what.endswith("made to measure")}, ANEW


def test_the_fixed_sizes_of_the_case_are_what_the_command_works_out_today():
    """Without drafts it takes a second; that drafts hold where it is told is tried in `tests/demo/test_prove.py`."""
    today = case.table_of(case.case_for({}, draw_bodies(case.BODIES, case.SEED)))
    assert CASE.startswith(today), ANEW


# ---- the command line


def parser_of(command: str) -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser()
    import_module(cli._COMMANDS[command][0]).COMMANDS[command](parser)
    return parser


def test_the_readme_lists_the_commands_that_there_are():
    assert set(re.findall(r"^ {4}tapeline (\w+)", COMMAND_LINE, re.M)) == set(cli._COMMANDS)


@pytest.mark.parametrize("command", cli._COMMANDS)
def test_every_flag_that_the_readme_tells_is_one_of_its_command(command):
    told = re.search(rf"^ {{4}}tapeline {command}\b.*\n(?: {{5,}}.*\n)*", COMMAND_LINE, re.M)[0]
    known = {flag for action in parser_of(command)._actions for flag in action.option_strings}
    assert set(re.findall(r"--[a-z-]+", told)) <= known


@pytest.mark.parametrize("command", ["build", "prove", "draw", "format", "guide", "check"])
def test_no_flag_goes_untold(command):
    told = re.search(rf"^ {{4}}tapeline {command}\b.*\n(?: {{5,}}.*\n)*", COMMAND_LINE, re.M)[0]
    flags = [action.option_strings[-1] for action in parser_of(command)._actions if action.option_strings]
    untold = [flag for flag in flags if flag not in told and flag not in ("--help", "--no-projector", "--projector")]
    assert not untold, f"say in the README what these do: {untold}"


# ---- files and make's commands


@pytest.mark.parametrize("target", re.findall(r"\]\((?!http)([^)#]+)\)", README + DEVELOPERS))
def test_every_link_leads_somewhere(target):
    assert (ROOT / target).exists()


@pytest.mark.parametrize("command", sorted(set(re.findall(r"\bmake ([a-z-]+)\b {2,}", README + DEVELOPERS))))
def test_every_command_of_make_that_is_told_is_one(command):
    makefile = (ROOT / "Makefile").read_text("utf-8")
    assert re.search(rf"^{command}:", makefile, re.M)


def test_every_room_says_what_it_holds():
    """A folder inside a room is told in the room's own page, and `app/pattern` in DEVELOPERS.md."""
    roofs = (APP, APP / "pattern", APP / "shop")
    rooms = [path.parent for roof in roofs for path in roof.glob("*/__init__.py")]
    silent = [str(room.relative_to(ROOT)) for room in rooms if not (room / "README.md").is_file()]
    assert silent == ["app/pattern"], "write a README.md that says what the room is for"


@pytest.mark.parametrize("folder", OTHERS)
def test_every_file_of_others_is_told_with_its_origin_and_licence(folder):
    told = (ROOT / folder / "README.md").read_text("utf-8")
    stems = {path.name for path in (ROOT / folder).iterdir() if path.suffix in (".csv", ".ttf", ".woff2")}
    assert stems
    for name in stems:
        general = re.sub(r"^(women|men)-", "", name)
        assert name in told or f"-{general}" in told or f"*{name[name.index('.') :]}" in told or "1988-*" in told, name
    assert re.search(r"licen[cs]e|public|work of the US Government|facts", told, re.I)
    assert folder in README.partition("## Licences")[2]
