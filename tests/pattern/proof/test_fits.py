"""What a proof tells of fit: the ease at each place over its bodies, beside what is wanted there, and its picture."""

from __future__ import annotations

import json
import re
from xml.etree import ElementTree

import pytest

from app.pattern.body import size_body
from app.pattern.drafting import compiled
from app.pattern.make import make_pattern
from app.pattern.proof import Population, ProofBody, fit_svg, plan_proof, prove_units, summarise, summary_values
from app.pattern.proof.fits import fit_tallies, fit_tally_values, fits_found
from app.pattern.units import Unit

TEXT = """draft "Square"
needs
    bust_girth, waist_girth
choices
    wide = no "Wide"
    gathered = no "Gathered"
fabrics
    main "Cloth" width 140cm
sheet flat
    a = at 0, 0
    b = a right (bust_girth + 6cm when wide otherwise bust_girth + 3cm)
    low = line a to b
    side = line b to (b up 60cm)
    top = line (a up 60cm) to (b up 60cm)
    near = line a to (a up 60cm)
piece panel "Panel" cut 1 main
    outline low, side, top, near
    grain (a right 10cm up 5cm) to (a right 10cm up 50cm)
    allowance 1cm
girth round = length(panel.top)  opens fully
fit chest "Chest" = length(panel.top)  body bust_girth  ease 2cm..4cm
fit waist_line = length(panel.top)  body waist_girth  ease 0cm..12cm  when gathered
"""
PROGRAM = compiled(TEXT, "square.draft")


@pytest.fixture(scope="module")
def proof():
    plan = plan_proof(TEXT, "square.draft", Population(amount=3))
    return summarise(plan, prove_units(TEXT, "square.draft", plan.units))


def test_each_place_is_told_over_all_bodies_as_offered_and_at_every_setting(proof):
    chest, _ = proof.fits
    assert (chest.name, chest.title, chest.measure, chest.at) == ("chest", "Chest", "bust_girth", "as offered")
    assert (chest.mean, chest.sd, chest.least, chest.most) == pytest.approx((30.0, 0.0, 30.0, 30.0))
    assert (chest.wanted, chest.bodies, chest.outside) == ((20.0, 40.0), proof.bodies, 0)
    # Half of the settings draw it 6 cm wider than the body, which nobody wanted.
    assert chest.patterns == proof.patterns
    assert chest.outside_anywhere == sum(t.bodies for t in proof.settings if "wide yes" in t.setting) > 0


def test_a_place_that_is_there_only_sometimes_is_told_at_a_setting_that_has_it(proof):
    _, waist = proof.fits
    assert waist.title == "Waist line" and "gathered yes" in waist.at
    assert 0 < waist.bodies <= proof.bodies and waist.patterns < proof.patterns
    assert waist.outside > 0


def test_the_figures_of_a_place_are_those_of_its_eases():
    found = [("as offered", {"chest": (ease, 0.0, 20.0)}) for ease in (5.0, 10.0, 30.0, -5.0)]
    [chest] = fit_tallies(PROGRAM, [*found, ("wide yes", {"chest": (90.0, 0.0, 20.0)})])
    assert (chest.mean, chest.least, chest.most) == (10.0, -5.0, 30.0)
    assert chest.sd == pytest.approx((25 + 0 + 400 + 225) ** 0.5 / 2)
    assert (chest.bodies, chest.outside, chest.patterns, chest.outside_anywhere) == (4, 2, 5, 3)


def test_a_range_that_hangs_on_the_body_is_told_from_its_least_to_its_most():
    found = [("as offered", {"chest": (10.0, low, high)}) for low, high in ((0.0, 20.0), (5.0, 25.0))]
    assert fit_tallies(PROGRAM, found)[0].wanted == (0.0, 25.0)


def test_a_draft_of_which_nothing_was_drawn_tells_of_no_place():
    assert fit_tallies(PROGRAM, [("as offered", {})]) == ()


def test_a_girth_that_states_its_ease_is_such_a_place_too_unless_a_fit_line_has_its_name():
    stated = TEXT.replace("girth round = length(panel.top)", "girth round = length(panel.top) body bust_girth ease 3cm")
    program = compiled(stated, "square.draft")
    made = make_pattern(stated, "square.draft", size_body("92"), {"wide": True})
    assert fits_found(made.pattern)["round"] == (60.0, 30.0, 30.0)
    tallies = fit_tallies(program, [("as offered", fits_found(made.pattern))])
    assert [(t.name, t.measure, t.wanted, t.outside) for t in tallies[:1]] == [("round", "bust_girth", (30.0, 30.0), 1)]
    both = stated.replace("girth round", "girth chest")
    named = fit_tallies(compiled(both, "t.draft"), [("as offered", {"chest": (30.0, 20.0, 40.0)})])
    assert [t.title for t in named] == ["Chest"]


def test_the_summary_keeps_them_as_json_with_the_measure_in_words(proof):
    values = json.loads(json.dumps(summary_values(proof)))["fits"]
    assert values[0]["measure"] == "Bust girth"
    assert (values[0]["mean"], values[0]["wanted"]) == (30.0, [20.0, 40.0])


# ---- the picture


def values(**changes):
    found = [("as offered", {"chest": (ease, 10.0, 20.0)}) for ease in (11.0, 15.0, 19.0)]
    return {**fit_tally_values(fit_tallies(PROGRAM, found)[0]), **changes}


def test_the_picture_shows_every_place_on_one_scale_with_nothing_at_all_on_it():
    picture = ElementTree.fromstring(fit_svg([values(), values(title="Neck & back", most=88.0)], Unit.CM))
    words = ["".join(text.itertext()) for text in picture.iter("{http://www.w3.org/2000/svg}text")]
    assert "Chest" in words and "Neck & back" in words
    assert any(word.startswith("0") for word in words)
    assert len(list(picture.iter("{http://www.w3.org/2000/svg}circle"))) == 2


def test_a_place_with_bodies_outside_is_drawn_in_another_colour():
    inside, outside = (fit_svg([values(outside=n)], Unit.CM) for n in (0, 2))
    assert set(re.findall(r"#[0-9a-f]{6}", outside)) - set(re.findall(r"#[0-9a-f]{6}", inside)) == {"#9b2c1f"}


@pytest.mark.parametrize("unit", Unit)
@pytest.mark.parametrize("most", [20.0, 200.0, 2500.0, 9000.0])
def test_the_scale_never_has_more_figures_than_can_be_read(unit, most):
    picture = fit_svg([values(most=most)], unit)
    assert 2 <= picture.count('text-anchor="middle"') <= 14


def test_what_the_bodies_got_stands_where_the_scale_says():
    picture = ElementTree.fromstring(fit_svg([values()], Unit.CM))
    band = picture.find("{http://www.w3.org/2000/svg}rect")
    dot = picture.find("{http://www.w3.org/2000/svg}circle")
    middle = float(band.get("x")) + float(band.get("width")) / 2
    assert float(dot.get("cx")) == pytest.approx(middle, abs=0.1)


def test_a_draft_without_fit_lines_has_no_picture():
    assert fit_svg([], Unit.CM) == ""


def test_a_place_over_a_measure_that_nobody_is_asked_for_counts_by_the_bodys_own_figure():
    body = dict(size_body("92"))
    units = [
        plan_proof(TEXT.replace("body waist_girth", "body hip_girth"), "square.draft", population(changed)).units[-1]
        for changed in (
            body,
            {**body, "hip_girth": body["hip_girth"] + 1.0},
            {**body, "knee_girth": body["knee_girth"] + 1.0},
        )
    ]
    first, other, same = (unit.fingerprint for unit in units)
    assert first == same != other


def population(body):
    return Population(amount=0, given=(ProofBody("mine", "given", body),))
