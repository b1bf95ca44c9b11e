"""Between the pages and the core: a fitting's pattern and cloth, the same as the order will get."""

import re
from dataclasses import replace

import pytest

from app.packs.build import build_pack
from app.packs.request import PackReady, PackRequest
from app.pattern.body import size_body
from app.pattern.lay import LayPlan
from app.pattern.make import Made, Refused, read_draft
from app.pattern.pieces.model import Cloth
from app.pattern.plain_words import told_of
from app.pattern.problem import Place, Problem, Severity
from app.shop.catalogue.models import DraftVersion, Listing
from app.shop.orders.coverage import ProofCoverage
from app.shop.orders.models import Fitting, Order, OrderState
from app.shop.orders.progress.view import progress_state
from app.shop.orders.review.cloth_view import fabric_page
from app.shop.orders.review.narrow import too_narrow
from app.shop.orders.review.preview import (
    LEAST_SAVING,
    cloth_errors,
    cloth_needed,
    pattern_of,
    suggested_cloths,
)
from app.shop.orders.review.service import ReviewState
from app.shop.orders.review.view import review_page
from app.shop.orders.shown import entered_pairs
from tests.places import DRAFTS

DRAFT = (DRAFTS / "gore_skirt.draft").read_text()
OUTSIDE = Problem("proof.outside", "Outside.", "Measure.", Place(), Severity.WARNING)
BODY = {"waist_girth": 760.0, "hip_girth": 1000.0, "waist_to_hip": 210.0}
CLOTHS = {
    "main": {"width_mm": 1400.0, "folded": True, "one_way": False},
    "interfacing": {"width_mm": 900.0, "folded": False, "one_way": False},
}


def fitting_of(body=BODY, cloths=CLOTHS, unit="cm", text=DRAFT, entered=None):
    version = DraftVersion(text=text, number=1, sha256="")
    return Fitting(
        token="token",
        listing=Listing(slug="skirt", title="Skirt", settled={}, published=True, current_version=version),
        draft_version=version,
        entered=entered or {},
        measurements=dict(body),
        choices={},
        unit=unit,
        paper="a4",
        cloths=cloths,
        confirmed=[],
    )


def test_the_pattern_is_made_once_and_then_remembered():
    first, second = pattern_of(fitting_of()), pattern_of(fitting_of())
    assert isinstance(first, Made)
    assert first is second
    assert pattern_of(fitting_of({**BODY, "hip_girth": 1001.0})) is not first


def test_two_bodies_never_share_a_pattern():
    slim, full = pattern_of(fitting_of()), pattern_of(fitting_of({**BODY, "waist_girth": 860.0, "hip_girth": 1100.0}))
    assert {girth.name: girth.body for girth in slim.pattern.girths}["hip"] == 1000.0
    assert {girth.name: girth.body for girth in full.pattern.girths}["hip"] == 1100.0


def test_the_cloth_shown_before_the_order_is_enough_for_the_order(tmp_path):
    fitting = fitting_of()
    shown = {needed.fabric.name: needed.plan.buy for needed in cloth_needed(fitting)}
    request = PackRequest(
        draft_text=DRAFT,
        draft_name="skirt.draft",
        measurements=BODY,
        choices={},
        unit="cm",
        paper="a4",
        cloths={
            name: Cloth(values["width_mm"], values["folded"], values["one_way"]) for name, values in CLOTHS.items()
        },
        order_number="TL-2222",
        customer="",
        studio="Studio",
        title="Skirt",
    )
    outcome = build_pack(request, tmp_path, lambda stage, share: None)
    assert isinstance(outcome, PackReady)
    # The build looks harder and may find a shorter lay, never a longer one.
    assert {cloth["name"] for cloth in outcome.summary["cloths"]} == set(shown)
    for cloth in outcome.summary["cloths"]:
        assert cloth["buy_mm"] <= shown[cloth["name"]]


def test_a_direction_of_the_cloth_needs_no_less_of_it():
    one_way = {name: {**cloth, "one_way": True} for name, cloth in CLOTHS.items()}
    free, bound = cloth_needed(fitting_of()), cloth_needed(fitting_of(cloths=one_way))
    assert all(isinstance(needed.plan, LayPlan) for needed in (*free, *bound))
    assert bound[0].plan.buy >= free[0].plan.buy - 50.0


def test_a_fabric_the_customer_said_nothing_of_is_laid_as_the_designer_suggests():
    plans = {needed.fabric.name: needed.plan for needed in cloth_needed(fitting_of(cloths={}))}
    assert plans["main"].cloth.width == 1400.0


def test_cloth_that_cannot_hold_a_piece_is_told_with_its_remedy():
    narrow = {**CLOTHS, "main": {"width_mm": 320.0, "folded": True, "one_way": False}}
    errors = cloth_errors(fitting_of(cloths=narrow))
    assert set(errors) == {"cloth"}
    assert "wide" in errors["cloth"]
    assert cloth_errors(fitting_of()) == {}
    assert "wide" in fabric_page(fitting_of(cloths=narrow)).cloths[0].problem


def test_a_narrow_cloth_and_a_narrow_sheet_are_told_with_the_one_width_that_will_do():
    cloth = {**CLOTHS, "main": {"width_mm": 320.0, "folded": True, "one_way": False}}
    told = too_narrow(fitting_of(cloths=cloth))
    assert [(each.name, each.field) for each in told] == [("main", "cloth-main-width")]
    dress = demo_fitting("wrap_dress", folded=False)
    assert too_narrow(dress) == ()
    dress.prints = {"roll_mm": 594.0}
    (sheet,) = too_narrow(dress)
    assert sheet.field == "print-roll"
    assert "must be at least 78 cm wide, for the piece “Front skirt”" in sheet.words
    page = review_page(dress, {}, {})
    assert not page.can_order
    assert page.narrow_title == "Your paper is too narrow"


def demo_fitting(draft="shirred_tunic", **main):
    text = (DRAFTS / f"{draft}.draft").read_text()
    body = {name: size_body("92")[name] for name in read_draft(text, draft).needs}
    cloth = {"width_mm": 1400.0, "folded": True, "one_way": False, **main}
    return fitting_of(body, {"main": cloth}, text=text)


def test_the_other_way_to_lay_the_cloth_is_offered_where_it_buys_noticeably_less():
    main = cloth_needed(demo_fitting())[0]
    assert main.better.cloth.folded is False
    assert main.plan.buy - main.better.buy >= LEAST_SAVING
    shown = fabric_page(demo_fitting()).cloths[0]
    assert shown.offer == "Laid open, you would need 0.90 m instead of 1.45 m."
    assert shown.offer_action == "Lay it open"


def test_the_better_way_is_not_talked_out_of():
    assert cloth_needed(demo_fitting(folded=False))[0].better is None
    assert fabric_page(demo_fitting(folded=False)).cloths[0].offer == ""


def test_a_saving_that_nobody_would_notice_is_not_mentioned():
    assert [needed.better for needed in cloth_needed(fitting_of())] == [None, None]


def test_where_only_the_other_way_goes_it_is_offered_with_what_it_needs():
    skirt = demo_fitting("pleated_skirt")
    assert cloth_needed(skirt)[0].problems
    shown = fabric_page(skirt).cloths[0]
    assert "wide" in shown.problem
    assert shown.offer.startswith("Laid open, the pieces do go on it: you would need ")
    assert shown.buy == ""


def test_a_body_the_draft_cannot_serve_has_no_cloth():
    refused = fitting_of({**BODY, "waist_to_hip": 800.0})
    assert isinstance(pattern_of(refused), Refused)
    assert cloth_needed(refused) == ()
    page = review_page(refused, {}, {})
    assert page.asks_designer
    assert page.can_order == refused.listing.published
    assert "does not hold every check" in page.lead
    assert page.refusals
    assert len(set(page.refusals)) == len(page.refusals)
    assert all(finding.words and finding.fix for finding in page.found)
    assert page.girths == ()


def test_the_designers_cloths_are_taken_from_a_sample():
    cloths = suggested_cloths(fitting_of().listing)
    assert cloths["main"] == Cloth(1400.0, folded=True)
    assert cloths["interfacing"] == Cloth(900.0, folded=False)
    assert suggested_cloths(Listing(slug="bare", current_version=None)) == {}


#: The same skirt for a cloth that is narrower than its panels, as its designer suggests it.
NARROW = re.sub(r"(main .*width )\d+cm", r"\g<1>25cm", DRAFT)


def test_what_holds_without_a_warning_is_said_to_hold():
    page = review_page(fitting_of(), {}, {})
    assert page.lead.startswith("Every check holds. ")
    assert (page.notes, page.notes_title) == ((), "")


def test_no_all_clear_stands_beside_a_warning_and_each_names_its_pieces_in_the_designers_words():
    page = review_page(fitting_of(text=NARROW), {}, {})
    assert "Every check holds" not in page.lead
    assert page.lead.startswith("This pattern can be cut and sewn, with 1 thing to look at first. ")
    assert page.notes_title == "1 thing to look at before you cut"
    (note,) = page.notes
    assert note.endswith(told_of("checks.cloth-width").words)
    titles = [piece.title for piece in pattern_of(fitting_of(text=NARROW)).pattern.pieces]
    assert set(note.partition(": ")[0].split("; ")) <= set(titles)
    assert not re.search(r"\bmm\b|\w\.\w", note), "no millimetres and no inner names"


@pytest.mark.parametrize("cloth", [CLOTHS, {**CLOTHS, "main": {**CLOTHS["main"], "width_mm": 100.0}}])
@pytest.mark.parametrize("published", [True, False])
@pytest.mark.parametrize("outside", [(), (OUTSIDE,)])
def test_whatever_else_stands_against_an_order_a_warning_never_hides_behind_an_all_clear(cloth, published, outside):
    fitting = fitting_of(text=NARROW, cloths=cloth)
    fitting.listing.published = published
    assert "Every check holds" not in review_page(fitting, {}, {}, ReviewState(ProofCoverage(outside, ""))).lead


def test_a_design_not_proved_yet_is_told_as_that_and_not_as_an_unlikely_body():
    unproved = ProofCoverage((replace(OUTSIDE, code="proof.not-yet"),), "")
    page = review_page(fitting_of(), {}, {}, ReviewState(unproved))
    assert page.lead == "Every check holds, but this version of the design is not proved for you yet."
    assert page.outside_title == "Not proved for you yet"
    assert "Nothing was found wrong with your numbers" in page.outside_words
    outside = review_page(fitting_of(), {}, {}, ReviewState(ProofCoverage((OUTSIDE,), "")))
    assert "unlike those on which this design was proved" in outside.lead
    assert "Measure these places once more" in outside.outside_words


def test_a_refused_pattern_says_what_stops_it_and_leaves_warnings_out():
    page = review_page(fitting_of({**BODY, "waist_to_hip": 800.0}, text=NARROW), {}, {})
    assert page.refusals
    assert not any(told_of("checks.cloth-width").words in refusal for refusal in page.refusals)


def test_a_lay_that_cannot_be_is_told_in_plain_words_to_whoever_thinks_in_inches():
    (needed, *_) = cloth_needed(demo_fitting("pleated_skirt"))
    (error,) = cloth_errors(demo_fitting("pleated_skirt")).values()
    assert needed.problems[0].message not in error
    assert told_of("lay.too-wide").words in error
    assert " cm" not in error


@pytest.mark.parametrize(("unit", "garment"), [("cm", "105"), ("in", "41 3/8")])
def test_finished_sizes_are_shown_in_the_customers_unit(unit, garment):
    page = review_page(fitting_of(unit=unit), {}, {})
    hip = next(girth for girth in page.girths if girth.title == "Hip")
    assert hip.garment == garment
    hem = next(girth for girth in page.girths if girth.title == "Hem")
    assert (hem.body, hem.ease) == ("", "")
    assert page.girths_words.endswith({"cm": "centimetres", "in": "inches"}[unit])


def test_entries_are_listed_in_words():
    fitting = fitting_of(entered={"waist_girth": "76", "hip_girth": "39 3/8 in"})
    pairs = {pair.title: pair.words for pair in entered_pairs(fitting, fitting.draft_version)}
    assert pairs["Waist girth"] == "76 cm"
    assert pairs["Hip girth"] == "39 3/8 in"
    assert pairs["Waist to hip"] == "21 cm"
    assert pairs["Skirt cloth"] == "140 cm wide, folded along its length"
    assert pairs["Interfacing"] == "90 cm wide, laid open"
    assert pairs["Paper"].startswith("A4")


def test_entries_are_listed_even_when_the_draft_can_no_longer_be_read(caplog):
    fitting = fitting_of(text="draft nothing")
    pairs = {pair.title: pair.words for pair in entered_pairs(fitting, fitting.draft_version)}
    assert pairs["main"] == "140 cm wide, folded along its length"


@pytest.mark.parametrize(
    ("state", "stage", "share", "told"),
    [
        (OrderState.PLACED, "", 0.0, {"waiting": True, "stage": "Waiting for a free worker", "percent": 0}),
        (OrderState.BUILDING, "", 0.0, {"waiting": True, "stage": "Beginning", "percent": 0}),
        (OrderState.BUILDING, "Laying", 0.456, {"waiting": True, "stage": "Laying", "percent": 46}),
        (OrderState.READY, "Done", 1.0, {"waiting": False, "stage": "Done", "percent": 100}),
    ],
)
def test_the_state_of_an_order_is_told_in_three_figures(state, stage, share, told):
    assert progress_state(Order(state=state, stage=stage, progress=share)) == told
