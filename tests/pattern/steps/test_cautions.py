"""Cautions: the usual ones always, the rest when the work or the wearer calls for them, local rules last."""

from dataclasses import replace

import pytest

from app.pattern.checks import run_checks
from app.pattern.pieces.model import Notion, Pattern, StepText
from app.pattern.steps import cautions_for

CHILD, ADULT = 1100.0, 1680.0


def topics(pattern: Pattern, stature: float | None = ADULT) -> list[str]:
    return [caution.topic for caution in cautions_for(replace(pattern, stature=stature))]


def with_step(pattern: Pattern, markdown: str) -> Pattern:
    return replace(pattern, steps=(StepText("Finish", markdown),))


def test_iron_blades_pins_and_machine_are_always_there_and_local_rules_come_last(tunic):
    found = topics(tunic)
    assert found == ["Iron", "Blades", "Pins and needles", "Machine", "Where you live"]
    assert topics(tunic, None) == found


def test_every_caution_says_where_it_comes_from(tunic):
    risky = with_step(tunic, "Sew on the buttons, thread the drawstring and seal the ends with a flame. A nightdress.")
    assert all(
        caution.source and caution.words.endswith(".") for caution in cautions_for(replace(risky, stature=CHILD))
    )


@pytest.mark.parametrize("words", ["Singe the fibres.", "Seal the cut edges.", "Pass it by a candle."])
def test_work_with_a_flame_brings_its_caution_and_the_safer_ways_first(tunic, words):
    (flame,) = [c for c in cautions_for(with_step(tunic, words)) if c.topic == "Flame and heat"]
    assert flame.words.index("zigzag") < flame.words.index("catch fire")


def test_a_drawstring_brings_the_caution_on_childrens_cords_whoever_it_is_for(tunic):
    assert "Cords and ties on children" in topics(with_step(tunic, "Thread the drawstring."))


def test_a_cord_among_the_notions_counts_and_the_irons_own_cord_does_not(tunic):
    corded = replace(tunic, notions=(Notion("cord", "Cotton cord", length=900.0),))
    assert "Cords and ties on children" in topics(corded)
    assert "Cords and ties on children" not in topics(with_step(tunic, "Keep the iron's cord out of reach."))


def test_buttons_matter_on_a_childs_garment_only(tunic):
    buttoned = replace(tunic, notions=(Notion("button", "Buttons, 12 mm", count=5),))
    assert "Small parts" in topics(buttoned, CHILD)
    assert "Small parts" not in topics(buttoned)
    assert "Small parts" not in topics(buttoned, None)


@pytest.mark.parametrize("stature", [None, 1100.0, 1500.0])
def test_a_draft_for_children_has_the_caution_whether_or_not_it_asks_for_the_stature(tunic, stature):
    buttoned = replace(tunic, group="children", notions=(Notion("button", "Buttons, 12 mm", count=5),))
    assert "Small parts" in topics(buttoned, stature)


@pytest.mark.parametrize("title", ["Sash", "String tie", "Ribbon, 1 cm", "Ties"])
def test_the_caution_and_the_check_call_the_same_things_cords(tunic, title):
    notion = Notion("n", title, length=900.0)
    corded = replace(tunic, group="children", notions=(notion,))
    assert "Cords and ties on children" in topics(corded)
    assert {problem.code for problem in run_checks(corded)} >= {"checks.child-cord"}


def test_nightwear_brings_the_flammability_caution(tunic):
    assert "Nightwear" in topics(replace(tunic, title="Moth nightshirt"))


def test_words_that_only_look_alike_bring_nothing(tunic):
    assert "Cords and ties on children" not in topics(with_step(tunic, "Record the necktied figure."))
