"""The versions: every package that is installed here is the one that constraints.txt names, and it names them all.

An install is repeatable when nothing is left to the day it is made on: what pyproject.toml asks for, what that asks
for in turn, and the tool that builds the project itself.
"""

from __future__ import annotations

import re
import subprocess
import sys
import tomllib
from collections.abc import Iterator
from functools import cache
from importlib.metadata import PackageNotFoundError, packages_distributions, requires, version

import pytest
from packaging.markers import default_environment
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

from tests.house.source import APP, ROOT, files, imported_names

PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))
LINES = [line for line in (ROOT / "constraints.txt").read_text("utf-8").splitlines() if not line.startswith("#")]
LOCKED = {canonicalize_name(name): exact for name, _, exact in (line.partition("==") for line in LINES)}
ANEW = "run `make versions`, then the tests, and commit constraints.txt"
#: The Pythons of Debian 12 and 13, as far as markers ask for them.
PYTHONS = {
    "12": {"python_version": "3.11", "python_full_version": "3.11.2"},
    "13": {"python_version": "3.13", "python_full_version": "3.13.5"},
}


def asked_for() -> list[Requirement]:
    project = PROJECT["project"]
    lines = (*PROJECT["build-system"]["requires"], *project["dependencies"], *project["optional-dependencies"]["test"])
    return [Requirement(line) for line in lines]


@cache
def needed(debian: str) -> frozenset[str]:
    """All packages that running and testing need with the Python of a Debian release, those of packages included."""
    environment = {**default_environment(), **PYTHONS[debian]}
    found: set[str] = set()
    seen: set[tuple[str, frozenset[str]]] = set()
    waiting = [(str(canonicalize_name(one.name)), frozenset(one.extras)) for one in asked_for()]
    while waiting:
        one = waiting.pop()
        if one in seen:
            continue
        seen.add(one)
        found.add(one[0])
        waiting += _asked_by(*one, environment)
    return frozenset(found)


def _asked_by(name: str, extras: frozenset[str], environment) -> Iterator[tuple[str, frozenset[str]]]:
    try:
        lines = requires(name) or []
    except PackageNotFoundError:
        lines = []  # told by the test that looks at what is installed
    for each in map(Requirement, lines):
        wanted = each.marker is None or any(each.marker.evaluate({**environment, "extra": x}) for x in ("", *extras))
        if wanted:
            yield str(canonicalize_name(each.name)), frozenset(each.extras)


@pytest.mark.parametrize("debian", PYTHONS)
def test_the_exact_version_of_every_package_is_kept(debian):
    missing = sorted(needed(debian) - LOCKED.keys())
    assert not missing, f"constraints.txt does not say which {', '.join(missing)} to take: {ANEW}"


def test_no_version_is_kept_of_what_nothing_needs():
    idle = sorted(LOCKED.keys() - needed("12") - needed("13"))
    assert not idle, f"nothing needs {', '.join(idle)} any more: {ANEW}"


def test_what_is_installed_here_is_what_is_kept():
    here = f"{sys.version_info[0]}.{sys.version_info[1]}"
    debian = next((name for name, python in PYTHONS.items() if python["python_version"] == here), "12")
    other = {}
    for name in needed(debian) & LOCKED.keys():
        try:
            installed = version(name)
        except PackageNotFoundError:
            installed = "none"
        if installed != LOCKED[name]:
            other[name] = f"{installed} instead of {LOCKED[name]}"
    assert not other, f"these differ from constraints.txt; `make setup-test` installs the right ones: {other}"


def test_the_kept_versions_are_allowed_ones():
    wrong = {str(one): LOCKED[canonicalize_name(one.name)] for one in asked_for() if not _allows(one)}
    assert not wrong, f"pyproject.toml rules these versions out: {wrong}; {ANEW}"


def _allows(one: Requirement) -> bool:
    return one.specifier.contains(LOCKED.get(canonicalize_name(one.name), "0"), prereleases=True)


@pytest.mark.parametrize("line", LINES)
def test_a_line_is_a_name_and_its_exact_version_and_nothing_of_where_it_came_from(line):
    assert re.fullmatch(r"[A-Za-z0-9_.-]+==[A-Za-z0-9.+!]+", line), f"{line}: {ANEW}"


@pytest.mark.parametrize(("folder", "extra"), [(APP, ()), (ROOT / "migrations", ()), (ROOT / "tests", ("test",))])
def test_whatever_is_imported_is_asked_for_by_name(folder, extra):
    """What comes along with something else today need not come along tomorrow."""
    project = PROJECT["project"]
    lines = [*project["dependencies"], *(line for name in extra for line in project["optional-dependencies"][name])]
    named = {canonicalize_name(Requirement(line).name) for line in lines}
    tops = {name.partition(".")[0] for path in files(folder) for name in imported_names(path)}
    foreign = tops - sys.stdlib_module_names - {"app", "tests"}
    packages = packages_distributions()
    nameless = sorted(top for top in foreign if not {canonicalize_name(p) for p in packages.get(top, ())} & named)
    assert not nameless, f"name these in pyproject.toml: {nameless}"


@pytest.mark.parametrize("command", ["run", "test"])
def test_a_new_version_is_installed_by_both_commands(command, tmp_path):
    """`make` itself says what it would do: nothing where all is ready, an install after a change."""
    for name in (".run-ready", ".test-ready"):
        (tmp_path / name).touch()

    def would(*changed: str) -> str:
        what_if = [part for file in changed for part in ("-W", file)]
        asked = ["make", "-n", command, f"VENV={tmp_path}", *what_if]
        return subprocess.run(asked, cwd=ROOT, capture_output=True, text=True, check=True).stdout

    assert ".ci/install" not in would()
    assert ".ci/install run" in would("constraints.txt")
    assert (".ci/install test" in would("constraints.txt")) is (command == "test")
