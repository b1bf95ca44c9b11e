"""What is kept of findings with an order: told plainly, and the reason without the customer's figures."""

from app.pattern.plain_words import REMOVED, told_of
from app.pattern.problem import Place, Problem, Severity, Span
from app.shop.orders.findings import (
    findings_for_customer,
    only_not_proved,
    only_outside_proof,
    reason_of,
    stored_finding,
)

SIDE = Problem("checks.seam-walk", "front.side is 605.9 mm, its partner 611 mm.", "Redraw it.", Place("front", "side"))
KINK = Problem("checks.kink", "front.side has a kink.", "Draw it anew.", Place("front", "side"), Severity.WARNING)
OUTSIDE = Problem("proof.outside", "The hip girth is 145 cm.", "Measure.", Place(point="hip_girth"), Severity.WARNING)


def test_a_customer_reads_what_stopped_her_pattern_with_the_piece_by_its_title():
    told = findings_for_customer([stored_finding(KINK), stored_finding(SIDE)], {"front": "Front skirt"})
    assert told == (f"Front skirt: {told_of('checks.seam-walk').words}",)


def test_measurements_outside_the_proof_are_told_with_their_figures_before_the_rest():
    assert (
        findings_for_customer([stored_finding(SIDE), stored_finding(OUTSIDE), stored_finding(OUTSIDE)])[0]
        == "The hip girth is 145 cm."
    )
    assert only_outside_proof([stored_finding(OUTSIDE)])
    assert not only_outside_proof([stored_finding(OUTSIDE), stored_finding(SIDE)])


def test_a_design_that_is_not_proved_yet_says_nothing_of_her_body():
    assert only_not_proved(["proof.not-yet"])
    assert not only_not_proved(["proof.not-yet", "proof.outside"])
    assert not only_not_proved([])


def test_findings_kept_by_an_older_shop_are_still_told():
    assert findings_for_customer([{"code": "checks.seam-walk", "message": "x"}]) == (told_of("checks.seam-walk").words,)
    assert findings_for_customer([{"code": "checks.gone", "severity": "error"}, {}]) == (REMOVED,)


def test_a_place_in_the_draft_is_kept_as_a_line_and_has_no_piece():
    kept = stored_finding(Problem("drafting.arc", "x", "y", Span("a.draft", 3, 5, 9)))
    assert (kept["where"], kept["piece"], kept["at"]) == ("a.draft:3:5", "", None)


def test_the_reason_names_the_check_that_stopped_it_and_none_of_the_customers_figures():
    assert reason_of([OUTSIDE, SIDE]) == f"Seam walk: {told_of('checks.seam-walk').words} (and 1 more)"
    assert reason_of([OUTSIDE]).startswith("Proof: One of your measurements")
    for problems in ([OUTSIDE], [SIDE], [OUTSIDE, SIDE]):
        assert not any(sign.isdigit() for sign in reason_of(problems).removesuffix("(and 1 more)"))
