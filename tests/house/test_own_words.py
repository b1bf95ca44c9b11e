"""What a file of the project may name: no folder of somebody's machine, no index of packages, no number of a talk."""

from __future__ import annotations

import re
import subprocess
from pathlib import Path

import pytest

from tests.house.source import ROOT

#: Pictures and fonts, in which letters may stand together by chance.
BINARY = (".ttf", ".woff2", ".png", ".pdf")
HOMES = r"/home/\w|/Users/\w|\b[A-Z]:\\Users\b"
INDEXES = r"\bindex-url\b|\bfind-links\b|https?://\S*(?:registry|/simple/)"
NUMBERS = r"\b(?:[Ii]ssue|[Tt]icket|PR) ?#\d|\b[Ii]ssue \d"


def folders_of_this_machine() -> list[str]:
    """Where its reader is at home, and where this checkout stands, unless that is a folder like `/app`."""
    here = [str(place) for place in (ROOT, ROOT.parent) if str(place).count("/") > 1]
    return [f"{place}/" for place in (str(Path.home()), *here) if place != "/"]


def unwanted() -> re.Pattern[str]:
    return re.compile("|".join((HOMES, INDEXES, NUMBERS, *map(re.escape, folders_of_this_machine()))))


def test_no_tracked_text_file_names_a_machine_or_an_index():
    listed = subprocess.run(["git", "ls-files", "-z"], cwd=ROOT, capture_output=True, check=True).stdout.decode()
    found, pattern = [], unwanted()
    for name in filter(None, listed.split("\0")):
        path = ROOT / name
        if path.suffix in BINARY or not path.is_file() or path == Path(__file__):
            continue
        for number, line in enumerate(path.read_text("utf-8", errors="ignore").splitlines(), 1):
            if pattern.search(line):
                found.append(f"{name}:{number}")
    assert not found, f"a file of the project speaks of the project alone: {found}"


@pytest.mark.parametrize("line", ["see /home/ann/notes", r"C:\Users\ann", "--index-url x", "as in issue #12", "PR #7"])
def test_what_only_its_writer_can_follow_is_seen(line):
    assert unwanted().search(line)


@pytest.mark.parametrize("line", ["/studio/home", "/tmp/pack.pdf", "the issue of 1911", "users of a proof"])
def test_what_everybody_can_follow_is_not(line):
    assert not unwanted().search(line)
