"""The catalogue's drafts hold on a whole population: what a customer may measure, the pattern must stand."""

from __future__ import annotations

import json
from functools import cache
from pathlib import Path

import pytest

from app.pattern.body import corner_bodies, draw_bodies, size_body
from app.pattern.body.populations_children import child, child_corners, draw_children
from app.pattern.checks.seam_walk import TOLERANCE
from app.pattern.make import Made, make_pattern, read_draft
from app.pattern.pieces.measure import seam_lengths
from app.pattern.problem import Refused
from app.pattern.proof import ProofSubject, prove, report_values
from tests.places import DRAFT_FILES

BODIES = draw_bodies(500, seed=1988)


@cache
def text_of(path: Path) -> str:
    return path.read_text("utf-8")


def statures_of_children(path: Path) -> tuple[float, float] | None:
    """The statures that a draft for children is offered for; None when it is for grown women."""
    card = read_draft(text_of(path), path.name)
    assert not isinstance(card, Refused), "\n".join(map(str, card.problems))
    return card.statures if card.group == "children" else None


@pytest.mark.parametrize("path", DRAFT_FILES, ids=lambda p: p.stem)
def test_five_hundred_bodies_hold_every_check_seam_and_girth(path):
    statures = statures_of_children(path)
    for body in draw_children(500, 1988, statures) if statures else BODIES:
        made = make_pattern(text_of(path), path.name, body, {})
        assert isinstance(made, Made), f"{body}\n" + "\n".join(map(str, made.problems))
        for seam in made.pattern.seams:
            a, b = seam_lengths(made.pattern, seam)
            if seam.kind == "plain":
                assert abs(a - b) < TOLERANCE
            elif seam.kind == "ease":
                assert seam.ease[0] - TOLERANCE < a - b < seam.ease[1] + TOLERANCE
        for girth in made.pattern.girths:
            assert girth.measured == pytest.approx(girth.body + girth.ease, abs=1.0)


@pytest.mark.parametrize("path", DRAFT_FILES, ids=lambda p: p.stem)
def test_the_corners_of_the_population_hold_or_say_plainly_why(path):
    statures = statures_of_children(path)
    corners = child_corners(statures) if statures else corner_bodies()
    for body in corners.values():
        made = make_pattern(text_of(path), path.name, body, {})
        if not isinstance(made, Made):
            assert all(p.message and p.fix and p.where for p in made.problems)


@pytest.mark.parametrize("path", DRAFT_FILES, ids=lambda p: p.stem)
def test_every_choice_holds_at_both_its_limits(path):
    card = read_draft(text_of(path), path.name)
    sizes = {size: size_body(size) for size in ("76", "92", "122")}
    if statures := statures_of_children(path):
        sizes = {f"{stature / 10:.0f} cm": child(stature) for stature in (statures[0], sum(statures) / 2, statures[1])}
    for choice in card.choices:
        limits = {"yesno": [True, False], "option": list(choice.options)}.get(choice.kind, [choice.least, choice.most])
        for value in limits:
            for size, body in sizes.items():
                made = make_pattern(text_of(path), path.name, body, {choice.name: value})
                assert isinstance(made, Made), f"{choice.name} = {value} at {size}:\n" + "\n".join(
                    map(str, made.problems)
                )


def test_a_proof_keeps_the_order_of_the_bodies_on_many_cores():
    path = next(p for p in DRAFT_FILES if p.stem == "gore_skirt")
    named = [(f"b{i}", body) for i, body in enumerate(BODIES[:24])]
    heard: list[int] = []
    two = prove(ProofSubject(text_of(path), path.name, {}), named, 2, heard.append)
    one = prove(ProofSubject(text_of(path), path.name, {}), named, 1, heard.append)
    assert two == one
    assert [b.id for b in two.bodies] == [name for name, _ in named]
    assert heard[:24] == list(range(1, 25))


def test_a_body_that_cannot_hold_is_reported_with_its_check_and_figures():
    body = dict(size_body("92"), upper_arm_girth=620.0)
    path = next(p for p in DRAFT_FILES if p.stem == "set_in_blouse")
    report = prove(
        ProofSubject(text_of(path), path.name, {}), [("odd", body), ("even", size_body("92"))], 1, lambda n: None
    )
    values = report_values(report)
    assert (values["passed"], values["bodies"]) == (1, 2)
    row = values["rows"][0]
    assert not row["ok"]
    assert row["findings"][0]["message"]
    assert values["failed_checks"]
    assert values["rows"][1]["finished_mm"]["bust"] == pytest.approx(size_body("92")["bust_girth"] + 120, abs=0.01)
    json.dumps(values)


def test_a_draft_that_cannot_be_read_is_not_proved():
    refused = prove(ProofSubject("drat", "x.draft", {}), [("a", size_body("92"))], 1, lambda n: None)
    assert refused.problems[0].code == "language.section"
