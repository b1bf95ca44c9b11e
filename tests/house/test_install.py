"""The virtual environment: an install that was broken off begins again, and nobody else's folder is cleared."""

from __future__ import annotations

import subprocess
from pathlib import Path

import pytest

from tests.house.source import ROOT

#: A Python that only writes down what it is asked; `-m venv` puts a copy of itself where the environment's would be.
NOTES = """#!/bin/sh
echo "$@" >> "{log}"
case "$*" in
*"-m venv"*)
    for folder in "$@"; do :; done
    mkdir -p "$folder/bin"
    cp "$0" "$folder/bin/python"
    touch "$folder/pyvenv.cfg"
    ;;
*"pip install"*) exit {pip} ;;
esac
"""


class Install:
    """One run of the script in a folder of its own."""

    def __init__(self, folder: Path) -> None:
        self.log, self.python, self.venv = folder / "log", folder / "python", folder / "a b ü" / "venv"
        self.pip_ends(0)

    def pip_ends(self, status: int) -> None:
        text = NOTES.format(log=self.log, pip=status)
        for python in (self.python, self.venv / "bin" / "python"):
            if python == self.python or python.exists():
                python.write_text(text)
                python.chmod(0o755)

    def run(self, kind: str) -> tuple[int, str]:
        self.log.write_text("")
        done = subprocess.run(
            [str(ROOT / ".ci" / "install"), kind, str(self.venv), str(self.python)], cwd=ROOT, check=False
        )
        return done.returncode, self.log.read_text()

    def has(self, name: str) -> bool:
        return (self.venv / name).exists()


@pytest.fixture
def install(tmp_path):
    return Install(tmp_path)


def test_every_package_is_installed_at_the_kept_version_and_nothing_is_built_apart(install):
    status, did = install.run("test")
    assert status == 0
    installs = [line for line in did.splitlines() if "pip install" in line]
    assert all("--constraint constraints.txt" in line for line in installs)
    assert installs[0].endswith("setuptools")
    assert "--no-build-isolation --editable .[test]" in installs[1]
    assert install.has(".run-ready") and install.has(".test-ready") and not install.has(".unfinished")


def test_an_environment_that_is_whole_is_kept(install):
    install.run("run")
    status, did = install.run("run")
    assert status == 0
    assert "-m venv" not in did


def test_an_install_that_was_broken_off_begins_again_in_an_empty_environment(install):
    install.pip_ends(1)
    status, _ = install.run("run")
    assert status == 1
    assert install.has(".unfinished") and not install.has(".run-ready")
    install.pip_ends(0)
    status, did = install.run("run")
    assert status == 0
    assert "-m venv --clear" in did
    assert install.has(".run-ready") and not install.has(".unfinished")


def test_a_folder_that_is_no_virtual_environment_is_never_cleared(install):
    install.venv.mkdir(parents=True)
    (install.venv / "a letter").write_text("Dear Ottilie")
    status, did = install.run("run")
    assert status == 0
    assert "--clear" not in did
    assert install.has("a letter")
