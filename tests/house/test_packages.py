"""Debian's packages: where they are missing and cannot be installed, the reader is told what to do."""

from __future__ import annotations

import shutil
import subprocess
from pathlib import Path

import pytest

from tests.house.source import ROOT

SCRIPT = ROOT / ".ci" / "packages"


@pytest.fixture
def bare(tmp_path):
    """A bare machine's commands: its tools, a package list that is empty, and a reader who is not root."""
    for name in ("sh", "grep"):
        found = shutil.which(name)
        assert found is not None
        (tmp_path / name).symlink_to(found)
    command(tmp_path, "dpkg-query", "exit 1")
    command(tmp_path, "id", "echo 1000")
    return tmp_path


def command(folder: Path, name: str, does: str) -> None:
    path = folder / name
    path.write_text(f"#!/bin/sh\n{does}\n")
    path.chmod(0o755)


def told(folder: Path) -> subprocess.CompletedProcess[str]:
    return subprocess.run([str(SCRIPT), "test"], env={"PATH": str(folder)}, capture_output=True, text=True, check=False)


def test_without_apt_get_the_packages_are_named(bare):
    answer = told(bare)
    assert answer.returncode == 1
    assert "there is no apt-get here" in answer.stderr
    assert "apt-get install python3 python3-venv" in answer.stderr


def test_who_is_not_root_and_has_no_sudo_is_told_to_ask_root(bare):
    command(bare, "apt-get", "exit 0")
    answer = told(bare)
    assert answer.returncode == 1
    assert "only root may install them" in answer.stderr
    assert "chromium" in answer.stderr


def test_where_sudo_is_refused_the_same_is_told(bare):
    command(bare, "apt-get", "exit 0")
    command(bare, "sudo", "echo 'not in the sudoers file' >&2; exit 1")
    answer = told(bare)
    assert answer.returncode == 1
    assert "apt-get could not look for them" in answer.stderr


def test_where_all_are_there_nothing_is_said_and_nothing_run(bare):
    command(bare, "dpkg-query", "echo 'install ok installed'")
    answer = told(bare)
    assert (answer.returncode, answer.stdout, answer.stderr) == (0, "", "")
