"""Templates stay small and hold no logic but `if` and `for`."""

from __future__ import annotations

import re
from statistics import median

import pytest

from tests.house.source import ROOT

TEMPLATES = sorted((ROOT / "templates").rglob("*.html"))
TAG = re.compile(r"{%-?\s*(\w+)")
ALLOWED = {
    "if", "elif", "else", "endif", "for", "endfor", "block", "endblock", "extends", "include", "import", "from",
    "macro", "endmacro", "call", "endcall", "with", "endwith",
}  # fmt: skip


def test_templates_are_short():
    lengths = [len(p.read_text("utf-8").splitlines()) for p in TEMPLATES]
    assert median(lengths) <= 40
    assert max(lengths) <= 150


@pytest.mark.parametrize("path", TEMPLATES, ids=lambda p: str(p.relative_to(ROOT)))
def test_a_template_decides_nothing(path):
    tags = set(TAG.findall(path.read_text("utf-8")))
    assert tags <= ALLOWED, f"work this out in the page's context instead: {tags - ALLOWED}"


@pytest.mark.parametrize("path", TEMPLATES, ids=lambda p: str(p.relative_to(ROOT)))
def test_a_template_carries_no_inline_script_or_style(path):
    text = path.read_text("utf-8")
    assert not re.search(r"<script(?![^>]*\bsrc=)", text), (
        "scripts live in static/js: the content policy blocks them here"
    )
    assert "<style" not in text
    assert not re.search(r"\sstyle=", text)
    assert not re.search(r"\son[a-z]+=", text)
