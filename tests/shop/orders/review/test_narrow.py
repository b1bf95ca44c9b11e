"""What is too narrow for the pieces: told with a width that will do, never a hair's breadth too soon or too late."""

import pytest

from app.pattern.units import Unit, read_length
from app.shop.orders.review.cloth_view import fabric_page
from app.shop.orders.review.narrow import left_out, narrow_cloths, too_narrow
from app.shop.orders.review.preview import cloth_errors, pieces_by_cloth, refused_of, suggested_cloths
from app.shop.orders.review.view import review_page
from tests.proved import SMALL_DRAFT
from tests.shop.unsaved import a_fitting, a_listing, a_version

#: The panel for a hip of 98 cm: a quarter of it wide, with a centimetre to sew by on either side.
PANEL = 245.0 + 20.0
#: Folded, a panel lies on half the width, 9 mm clear of the fold.
FOLDED = 2 * (PANEL + 9.0)
REFUSED = SMALL_DRAFT.replace("hip_girth / 4", "hip_girth * sin(arccos(hip_girth / 50cm))")


def cloth(width, folded=False):
    return {"main": {"width_mm": width, "folded": folded, "one_way": False}}


def fitting(width=1400.0, *, folded=False, unit="cm", text=SMALL_DRAFT, **prints):
    version = a_version(1, text)
    return a_fitting(version, a_listing(version), unit=unit, cloths=cloth(width, folded), prints=prints)


# ---- cloth


@pytest.mark.parametrize(
    ("width", "folded", "narrow"),
    [
        (1400.0, False, False),
        (1400.0, True, False),
        (PANEL, False, False),
        (PANEL - 0.1, False, True),
        (FOLDED, True, False),
        (FOLDED - 0.2, True, True),
        (PANEL, True, True),
    ],
)
def test_a_cloth_is_too_narrow_only_when_a_piece_does_not_go_on_it(width, folded, narrow):
    assert bool(narrow_cloths(fitting(width, folded=folded))) is narrow


def test_a_narrow_cloth_is_told_by_its_title_with_the_piece_and_where_to_change_it():
    [found] = too_narrow(fitting(200.0))
    assert (found.name, found.title, found.field) == ("main", "Cloth", "cloth-main-width")
    assert found.words == (
        "20 cm is too narrow. Laid open, this cloth must be at least 27 cm wide, for the piece “Panel”."
    )
    assert (found.change, found.goes_open) == ("Change the cloth", False)


def test_a_folded_cloth_that_would_do_laid_open_says_so():
    [found] = too_narrow(fitting(400.0, folded=True))
    assert found.goes_open
    assert found.words == (
        "40 cm is too narrow. Folded along its length, this cloth must be at least 55 cm wide, for the piece “Panel”. "
        "Laid open, in one layer, your 40 cm are enough."
    )


def test_a_folded_cloth_too_narrow_either_way_does_not_send_her_round_in_a_circle():
    [found] = too_narrow(fitting(200.0, folded=True))
    assert not found.goes_open
    assert "Laid open" not in found.words


@pytest.mark.parametrize("unit", list(Unit))
@pytest.mark.parametrize("folded", [False, True])
def test_the_width_that_is_told_is_enough(unit, folded):
    [found] = too_narrow(fitting(150.0, folded=folded, unit=str(unit)))
    told = read_length(found.words.partition("at least ")[2].partition(" wide")[0], unit)
    assert too_narrow(fitting(told, folded=folded, unit=str(unit))) == ()


# ---- paper


def test_without_a_roll_no_paper_is_too_narrow():
    assert too_narrow(fitting()) == ()


def test_a_roll_too_narrow_for_a_piece_is_told_with_a_width_that_will_do():
    [found] = too_narrow(fitting(roll_mm=200.0))
    assert (found.name, found.title, found.field) == ("", "The one-sheet file", "print-roll")
    assert found.words.startswith("20 cm is too narrow. It must be at least ")
    assert found.words.endswith("for the piece “Panel”.")
    assert found.change == "Change the printing"
    told = read_length(found.words.partition("at least ")[2].partition(" wide")[0], Unit.CM)
    assert too_narrow(fitting(roll_mm=told)) == ()


def test_cloth_and_paper_are_told_together_the_cloth_first():
    assert [found.name for found in too_narrow(fitting(200.0, roll_mm=200.0))] == ["main", ""]


# ---- no pattern at all


def test_without_a_pattern_nothing_is_too_narrow_and_the_reason_is_another():
    found = fitting(1.0, text=REFUSED, roll_mm=1.0)
    assert (too_narrow(found), left_out(found), cloth_errors(found), pieces_by_cloth(found)) == ((), (), {}, [])
    assert refused_of(found)
    page = fabric_page(found)
    assert (page.cloths, page.notions) == ((), ())


def test_no_cloth_is_suggested_where_no_sample_can_be_drawn():
    assert suggested_cloths(a_listing(a_version(1, REFUSED))) == {}
    suggested = suggested_cloths(a_listing(a_version()))
    assert suggested["main"].width == 1400.0


# ---- on the pages


@pytest.mark.parametrize(
    ("width", "roll", "title"),
    [
        (1400.0, None, ""),
        (200.0, None, "Your cloth is too narrow"),
        (1400.0, 200.0, "Your paper is too narrow"),
        (200.0, 200.0, "Your cloth is too narrow"),
    ],
)
def test_the_review_names_what_is_too_narrow_and_takes_no_order_meanwhile(width, roll, title):
    page = review_page(fitting(width, roll_mm=roll), {}, {})
    assert page.narrow_title == title
    assert page.can_order is (title == "")
    said = ", but what you have is too narrow for the pieces, so it cannot be ordered yet."
    assert page.lead.endswith(said) is (title != "")


def test_the_cloth_page_says_why_there_is_no_plan_in_the_same_words():
    narrow = fitting(200.0)
    [shown] = fabric_page(narrow).cloths
    assert shown.problem == too_narrow(narrow)[0].words
    assert (shown.buy, shown.words, shown.drawing, shown.offer) == ("", "", "", "")


def test_the_cloth_page_says_how_much_to_buy_and_how_it_lies():
    [shown] = fabric_page(fitting(1400.0)).cloths
    assert shown.words == "of cloth 140 cm wide, laid open"
    assert shown.buy.endswith(" m")
    assert 0.62 <= float(shown.buy.removesuffix(" m")) <= 0.8, "one panel of 60 cm with its allowances"
    assert (shown.problem, shown.drawing[:4]) == ("", "<svg")
    [inches] = fabric_page(fitting(1400.0, unit="in")).cloths
    assert inches.words == "of cloth 55 1/8 in wide, laid open"
    assert inches.buy.endswith(" yd")


def test_a_cloth_with_a_direction_says_that_all_pieces_lie_one_way():
    found = fitting()
    found.cloths = {"main": {"width_mm": 1400.0, "folded": True, "one_way": True}}
    [shown] = fabric_page(found).cloths
    assert shown.words == "of cloth 140 cm wide, folded along its length, all pieces one way"


def test_the_only_way_the_pieces_go_is_offered_with_one_press():
    [shown] = fabric_page(fitting(400.0, folded=True)).cloths
    assert shown.offer.startswith("Laid open, the pieces do go on it: you would need ")
    assert shown.offer_action == "Lay it open"
