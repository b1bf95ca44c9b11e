"""Fingerprints: what is only layout or words repeats nothing; what is measured repeats just what it touches."""

from __future__ import annotations

from pathlib import Path

import pytest

from app.pattern.body import size_body
from app.pattern.problem import Refused
from app.pattern.proof import Population, ProofBody, plan_proof
from app.pattern.proof.behaviour import digest
from app.pattern.proof.fingerprint import code_mark

TEXT = (Path(__file__).parent / "square.draft").read_text("utf-8")
FEW = Population(amount=4, seed=1)


def plan(text):
    made = plan_proof(text, "square.draft", FEW)
    assert not isinstance(made, Refused), "\n".join(map(str, made.problems))
    return made


def touched(old, new):
    """The settings of the units of the changed draft that must be worked out anew."""
    before = {unit.fingerprint for unit in plan(TEXT).units}
    after = plan(TEXT.replace(old, new))
    assert TEXT.count(old) == 1
    return {tuple(sorted(unit.setting.choices.items())) for unit in after.left(before)}


def lined(settings):
    return {dict(setting)["lined"] for setting in settings}


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ('draft "Square"', 'draft "Rectangle"'),
        ("    a    = at 0, 0", "    # The corner.\n    a = at  0,0"),
        ('"Panel" cut', '"Great panel" cut'),
        ('note "Cut whole."', 'note "Cut it whole."'),
        ("Press the seam open, and", "Press the seam flat with a cool iron, and"),
        ('"Ease"', '"Room"'),
        (
            "allowance 1cm\n    finish low, top hemmed\npiece under",
            "allowance 10mm\n    finish low, top hemmed\npiece under",
        ),
    ],
)
def test_words_and_layout_repeat_nothing(old, new):
    assert touched(old, new) == set()


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("half = (waist_girth + ease) / 2", "half = (waist_girth + ease) / 2 + 0mm"),
        (
            "allowance 1cm\n    finish low, top hemmed\npiece under",
            "allowance 1.2cm\n    finish low, top hemmed\npiece under",
        ),
        ("notch at 1/2", "notch at 1/3"),
        ('main   "Cloth" width 320cm', 'main   "Cloth" width 150cm'),
        ("opens fully", "opens 20cm passes waist_girth"),
        ("Press the seam open, and hem", "Bind the seam, and hem"),
    ],
)
def test_a_line_that_always_holds_repeats_everything(old, new):
    assert touched(old, new) == {tuple(sorted(s.choices.items())) for s in plan(TEXT).settings}


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("sew under.side to under.near when lined", "sew under.side to under.near notch at 1/2 when lined"),
        ('lining "Lining" width 320cm', 'lining "Lining" width 90cm'),
        ("{length(under.side)}", "{length(under.near)}"),
    ],
)
def test_a_line_under_a_condition_repeats_only_where_it_holds(old, new):
    assert lined(touched(old, new)) == {True}


def test_a_branch_repeats_only_where_it_is_taken():
    lengths = {dict(setting)["length"] for setting in touched("otherwise 80cm", "otherwise 81cm")}
    assert lengths == {"calf"}


def test_a_wider_limit_repeats_only_settings_at_that_limit():
    eases = {dict(setting)["ease"] for setting in touched("from 1cm to 4cm", "from 1cm to 5cm")}
    assert eases == {50.0}


def test_a_body_that_differs_where_the_draft_does_not_look_is_the_same_body():
    body = size_body("92")
    twins = tuple(
        ProofBody(name, "given", {**body, "wrist_girth": wrist}) for name, wrist in (("a", 150.0), ("b", 170.0))
    )
    made = plan_proof(TEXT, "square.draft", Population(amount=0, given=twins))
    prints = {unit.body.id: unit.fingerprint for unit in made.units if unit.setting.name == "as offered"}
    assert prints["a"] == prints["b"] == prints["size 92"]
    assert prints["size 96"] != prints["a"]


def test_a_digest_keeps_its_parts_apart():
    assert digest("ab", "c") != digest("a", "bc")
    assert digest("a") == digest("a")


def test_the_code_that_checks_is_part_of_every_fingerprint():
    assert len(code_mark()) == 24
    assert code_mark() == code_mark()
