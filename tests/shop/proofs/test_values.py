"""A proof kept small: every body with what stopped it, written beside a draft and read back the same."""

import pytest

from app.pattern.proof import Population, Region, offer_mark, plan_proof, prove_units, summarise, summary_values
from app.pattern.units import Unit
from app.shop.proofs.chart import Chart, axes_of, chart_svg
from app.shop.proofs.values import ShippedProof, body_results, read_shipped, write_shipped
from tests.places import SLIP

PLAN = plan_proof(SLIP, "slip.draft", Population(amount=4))
RESULTS = prove_units(PLAN.text, PLAN.name, PLAN.units)
BODIES = body_results(PLAN, RESULTS)
SUMMARY = summarise(PLAN, RESULTS)


def test_bodies_tell_what_stopped_them_at_how_many_settings():
    assert [body["id"] for body in BODIES] == [body.id for body in PLAN.bodies]
    failed = [body for body in BODIES if body["failed"]]
    assert len(failed) == SUMMARY.bodies - SUMMARY.held
    assert all(body["failed"] == 3 for body in failed)
    assert {one["finding"]["check"] for body in failed for one in body["failures"]} == {"checks.seam-walk"}
    assert all(set(body["body"]) == {"waist_girth", "hip_girth"} for body in BODIES)


def test_results_of_an_older_version_are_told_under_the_names_of_this_one():
    renamed = [{**result, "body": "somebody", "setting": "something"} for result in RESULTS]
    assert body_results(PLAN, renamed) == BODIES


def test_a_shipped_proof_is_read_back_as_it_was_written(tmp_path):
    path = tmp_path / "slip.proof.json"
    write_shipped(ShippedProof("ab", {"line": "princess"}, summary_values(SUMMARY), BODIES), path)
    again = read_shipped(path)
    assert (again.draft_mark, again.settled, again.bodies) == ("ab", {"line": "princess"}, BODIES)
    assert again.summary["held"] == SUMMARY.held
    assert len(path.read_text().splitlines()) > len(BODIES)
    assert read_shipped(tmp_path / "none.json") is None


def test_a_shipped_proof_is_of_one_text_with_the_same_choices_settled():
    proof = ShippedProof(offer_mark(SLIP, {}), {}, {}, ())
    assert proof.is_of(SLIP, {})
    assert not proof.is_of(SLIP, {"line": "darted"})
    assert not proof.is_of("no draft", {})
    settled = ShippedProof(offer_mark(SLIP, {"ease": "5cm"}), {"ease": "5cm"}, {}, ())
    assert settled.is_of(SLIP, {"ease": "5cm"})
    assert not settled.is_of(SLIP, {})


@pytest.mark.parametrize(
    ("old", "new", "same"),
    [
        ("# A tube of two panels.", "# Two panels, sewn to a tube.", True),
        ("    corner = at 0, 0\n    across", "    corner = at  0,0\n\n    across", True),
        ("Room at the hip", "Ease", True),
        ("ease = 6cm", "ease = 5cm", False),
        ("to 10cm", "to 12cm", False),
        ("up 60cm)\n    top", "up 61cm)\n    top", False),
    ],
)
def test_a_shipped_proof_outlives_words_and_layout_and_nothing_else(old, new, same):
    assert old in SLIP
    assert ShippedProof(offer_mark(SLIP, {}), {}, {}, ()).is_of(SLIP.replace(old, new), {}) is same


def test_the_chart_shows_every_body_and_its_state():
    picture = chart_svg(Chart(BODIES, SUMMARY.region))
    failed = sum(body["failed"] > 0 for body in BODIES)
    assert picture.count('<g class="failed">') == failed
    assert picture.count('<g class="held">') == len(BODIES) - failed
    assert 'class="region"' in picture
    assert f"{len(BODIES)} bodies by waist girth and hip girth; {failed} of them did not hold." in picture
    assert " style=" not in picture


def test_every_body_of_the_designers_chart_leads_to_its_findings_and_the_keyboard_to_those_that_failed():
    picture = chart_svg(Chart(BODIES, SUMMARY.region, linked=True, chosen=BODIES[0]["id"]))
    assert picture.count("<a ") == len(BODIES)
    assert picture.count("<a ") - picture.count("tabindex") == sum(body["failed"] > 0 for body in BODIES)
    assert picture.count('class="ring"') == 1
    assert 'href="?body=size+92#body"' in picture


def test_a_customer_far_outside_is_still_on_the_chart_in_her_unit():
    here = {"waist_girth": 1900.0, "hip_girth": 2000.0}
    picture = chart_svg(Chart(BODIES, SUMMARY.region, Unit.INCH, here=here))
    assert ">You</text>" in picture
    assert "hip girth, in</text>" in picture


def test_without_bodies_or_region_there_is_no_chart_or_no_field():
    assert chart_svg(Chart([], Region(()))) == ""
    assert 'class="region"' not in chart_svg(Chart(BODIES, Region(())))


def test_the_axes_are_the_girths_that_tell_bodies_apart_best():
    assert axes_of(["neck_girth", "hip_girth", "bust_girth", "waist_girth"]) == ("bust_girth", "hip_girth")
    assert axes_of(["bust_girth", "waist_girth"]) == ("bust_girth", "waist_girth")
    assert axes_of(["stature", "neck_girth"]) == ("stature", "neck_girth")
    assert axes_of(["head_girth"]) == ("head_girth", "head_girth")
