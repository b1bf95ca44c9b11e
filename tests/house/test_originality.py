"""What the project must not carry: paths of a machine, registry hosts, words about how it was made."""

from __future__ import annotations

import re
import subprocess

from tests.house.source import ROOT

UNWANTED = re.compile(r"/(?:root|farm)/|/work/[a-z]|registry\.npm|files\.pythonhosted|pypi\.org/simple|\b[Ii]ssue #?\d")


def test_no_tracked_text_file_names_a_machine_or_a_registry():
    names = subprocess.run(["git", "ls-files", "-z"], cwd=ROOT, capture_output=True, check=True).stdout.decode()
    found = []
    for name in filter(None, names.split("\0")):
        path = ROOT / name
        if path.suffix in (".ttf", ".woff2", ".png", ".pdf") or not path.is_file() or "house" in path.parts:
            continue
        for number, line in enumerate(path.read_text("utf-8", errors="ignore").splitlines(), 1):
            if UNWANTED.search(line):
                found.append(f"{name}:{number}")
    assert not found, f"a file of the project speaks of the project alone: {found}"
