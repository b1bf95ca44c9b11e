"""What a review says before the order: each sentence true for this body, this cloth, this proof and this shop."""

import pytest

from app.pattern.problem import Place, Problem, Severity
from app.shop.orders.coverage import COVERED, ProofCoverage
from app.shop.orders.review.cloth_view import fabric_page
from app.shop.orders.review.form import read_customer
from app.shop.orders.review.service import ReviewState
from app.shop.orders.review.view import notes_title, review_page
from tests.proved import SMALL_DRAFT
from tests.shop.unsaved import a_fitting, a_listing, a_version

OUTSIDE = ProofCoverage(
    (Problem("proof.outside", "The hip girth is 145 cm.", "Measure.", Place(point="hip_girth"), Severity.WARNING),),
    "<svg></svg>",
)
NOT_YET = ProofCoverage((Problem("proof.not-yet", "It is still being proved.", "Wait.", None, Severity.WARNING),), "")
BOTH = ProofCoverage((*OUTSIDE.outside, *NOT_YET.outside), "")
#: An arc cosine of more than one: nothing can be drawn for anybody.
BROKEN = SMALL_DRAFT.replace("hip_girth / 4", "hip_girth * sin(arccos(hip_girth / 50cm))")
#: The pieces are drawn, and a check does not hold.
FAILING = SMALL_DRAFT + "sew panel.top to panel.side\n"
HOLDS = "Every check holds"


def fitting(text=SMALL_DRAFT, *, published=True, sold=None, **more):
    version = a_version(1, text)
    return a_fitting(version, a_listing(sold or version, published=published, title="Wren apron"), **more)


def page(standing=COVERED, posted=None, errors=None, **more):
    return review_page(fitting(**more), posted or {}, errors or {}, ReviewState(standing))


# ---- the sentence at the head


def test_a_pattern_that_holds_is_hers_to_order():
    shown = page()
    assert shown.heading == "Your Wren apron"
    assert shown.lead == f"{HOLDS}. Look at the sizes once more before you order."
    assert (shown.can_order, shown.asks_designer) == (True, False)
    assert shown.box.button == "Order my free sample"
    assert shown.drawing.startswith("<svg")
    assert shown.drawing_words == "1 piece, all to one scale, drawn for your measurements."


@pytest.mark.parametrize(
    ("standing", "lead", "title"),
    [
        (
            OUTSIDE,
            ", but your body is unlike those on which this design was proved.",
            "Outside what this design was proved on",
        ),
        (NOT_YET, ", but this version of the design is not proved for you yet.", "Not proved for you yet"),
        (
            BOTH,
            ", but your body is unlike those on which this design was proved.",
            "Outside what this design was proved on",
        ),
    ],
)
def test_a_body_outside_the_proof_is_sent_to_the_designer_and_told_why(standing, lead, title):
    shown = page(standing)
    assert shown.lead == HOLDS + lead
    assert (shown.outside_title, shown.asks_designer, shown.can_order) == (title, True, True)
    assert shown.outside == tuple(problem.message for problem in standing.outside)
    assert shown.box.button == "Send it to the designer"
    assert "Nothing is charged." in shown.box.words


def test_nobody_is_told_to_measure_again_where_only_the_proof_is_missing():
    assert "Measure these places once more" in page(OUTSIDE).outside_words
    assert "Nothing was found wrong with your numbers." in page(NOT_YET).outside_words
    assert "Measure" not in page(NOT_YET).outside_words


def test_the_chart_is_shown_where_there_is_one():
    assert page(OUTSIDE).where == "<svg></svg>"
    assert page(NOT_YET).where == page().where == ""


def test_a_pattern_that_does_not_hold_is_not_sold_as_it_stands():
    shown = page(text=FAILING)
    assert shown.heading == "This needs the designer"
    assert shown.lead == (
        "Drawn to your measurements, this pattern does not hold every check, so it is not sold as it stands."
    )
    assert shown.asks_designer
    assert shown.refusals
    assert shown.found, "the designer reads the same in full"
    assert shown.drawing.startswith("<svg"), "the pieces are shown all the same"
    assert shown.girths == ()


def test_what_cannot_be_drawn_at_all_shows_no_pieces():
    shown = page(text=BROKEN)
    assert (shown.drawing, shown.drawing_words, shown.girths) == ("", "", ())
    assert shown.refusals
    assert not any("arccos" in words or "cosine" in words for words in shown.refusals), "in a maker's words"
    assert any("cosine" in finding.words for finding in shown.found)


# ---- what stands in the way of an order


def test_a_pattern_off_sale_can_be_looked_at_and_not_ordered():
    shown = page(published=False)
    assert shown.lead == f"{HOLDS}, but this pattern is not on sale at the moment, so it cannot be ordered now."
    assert (shown.can_order, shown.changed) == (False, "")


def test_a_design_that_was_changed_meanwhile_offers_to_draw_it_anew():
    shown = page(sold=a_version(2))
    assert shown.lead == f"{HOLDS}, but the design has been changed meanwhile: this is how it was."
    assert shown.changed.startswith("The designer has changed Wren apron since you entered your measurements.")
    assert not shown.can_order


def test_off_sale_is_told_before_a_change_and_a_change_before_what_is_narrow():
    narrow = {"main": {"width_mm": 150.0, "folded": False, "one_way": False}}
    both = page(published=False, sold=a_version(2), cloths=narrow)
    assert "not on sale" in both.lead
    changed = page(sold=a_version(2), cloths=narrow)
    assert "has been changed meanwhile" in changed.lead
    assert changed.narrow_title == "Your cloth is too narrow"


def test_what_is_narrow_stands_before_what_is_outside_the_proof():
    narrow = {"main": {"width_mm": 150.0, "folded": False, "one_way": False}}
    shown = page(OUTSIDE, cloths=narrow)
    assert shown.lead.endswith("so it cannot be ordered yet.")
    assert not shown.can_order
    assert shown.asks_designer


# ---- sizes, entries and who orders


def test_finished_sizes_are_told_in_her_unit():
    wider = SMALL_DRAFT.replace("hip_girth / 4", "(hip_girth + 6cm) / 4")
    text = wider + 'girth hip "Hip" = 4 * length(panel.top) body hip_girth ease 6cm opens fully\n'
    for unit, words, figures in (
        ("cm", "centimetres", ("98", "6", "104")),
        ("in", "inches", ("38 5/8", "2 3/8", "41")),
    ):
        shown = page(text=text, unit=unit)
        assert shown.girths_words == f"Measured on your pieces, along the stitching lines, in {words}"
        [hip] = shown.girths
        assert (hip.body, hip.ease, hip.garment) == figures


def test_her_entries_stand_as_she_typed_them():
    told = {pair.title: pair.words for pair in page(entered={"hip_girth": "98,0"}).entered}
    assert told["Hip girth"] == "98,0 cm"
    assert told["Cloth"] == "140 cm wide, folded along its length"


def test_what_is_wrong_with_name_or_mail_is_counted_and_both_stay_as_typed():
    posted = {"name": "a" * 130, "email": "rosa"}
    _, errors = read_customer(posted)
    shown = page(posted=posted, errors=errors)
    assert shown.errors_title == "Please look at 2 entries"
    assert [slip.field for slip in shown.errors] == ["name", "email"]
    assert {field.name: field.value for field in shown.customer} == posted
    assert page().errors == ()


@pytest.mark.parametrize(
    ("notes", "title"),
    [((), ""), (("a",), "1 thing to look at before you cut"), (("a", "b"), "2 things to look at before you cut")],
)
def test_things_to_look_at_are_counted_or_not_spoken_of(notes, title):
    assert notes_title(notes) == title


# ---- the cloth page


def test_the_cloth_page_is_of_the_same_fitting():
    shown = fabric_page(fitting())
    assert (shown.token, shown.title) == ("fitting-token", "Wren apron")
    assert [cloth.title for cloth in shown.cloths] == ["Cloth"]
    assert shown.notions == ()


def test_things_to_buy_are_told_with_their_amounts_where_the_draft_gives_them():
    text = SMALL_DRAFT.replace(
        "sheet panel\n", 'notions\n    button "Button" count 1\n    thread "Thread"\nsheet panel\n'
    )
    assert fabric_page(fitting(text)).notions == ("Button: 1", "Thread")
