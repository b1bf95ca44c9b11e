"""The demo catalogue's drafts as text: what a customer reads follows her unit."""

from __future__ import annotations

import re

import pytest

from app.pattern.body import size_body
from app.pattern.make import make_pattern
from app.pattern.units import Unit
from tests.places import DRAFT_FILES


@pytest.mark.parametrize("path", DRAFT_FILES, ids=lambda p: p.stem)
def test_no_step_names_a_length_that_stays_metric_for_inches(path):
    steps = path.read_text("utf-8").split("\nsteps\n")[1]
    outside_braces = re.sub(r"\{[^{}]*\}", "", steps)
    found = re.findall(r"\d+(?:\.\d+)? ?(?:cm|mm|in)\b", outside_braces)
    assert not found, f"write these as figures, such as {{1.5cm}}: {found}"


@pytest.mark.parametrize("path", DRAFT_FILES, ids=lambda p: p.stem)
def test_the_steps_in_inches_speak_of_inches_alone(path):
    made = make_pattern(path.read_text("utf-8"), path.name, size_body("92"), {}, Unit.INCH)
    words = " ".join(step.markdown for step in made.pattern.steps)
    # A width to sew by is exact: in millimetres, with the nearest eighth beside it.
    words = re.sub(r"[\d.]+\smm\s\((?:about|under)\s[\d/\s]+in\)", "", words)
    assert not re.search(r"\d\s?(cm|mm)\b", words)
    assert re.search(r"\d\s?in\b", words)
