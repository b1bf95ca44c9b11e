"""An order as its customer sees it in every state: the heading, what she is told, her files, and what she entered."""

import pytest

from app.pattern.problem import Place, Problem, Severity
from app.shop.orders.findings import stored_finding
from app.shop.orders.models import OrderState
from app.shop.orders.progress.view import pack_remarks, progress_page, progress_state
from tests.shop.unsaved import MOMENT, a_fitting, an_order

WAITING = (OrderState.PLACED, OrderState.BUILDING)
CAP = Problem("checks.seam-walk", "front.cap is 412 mm.", "Raise the cap.", Place("panel", "side"))
OUTSIDE = Problem("proof.outside", "The hip girth is 145 cm.", "Measure.", Place(point="hip_girth"), Severity.WARNING)
NOT_YET = Problem("proof.not-yet", "It is still being proved.", "Wait.", None, Severity.WARNING)
SUMMARY = {
    "sheets": 23,
    "cloths": [{"title": "Cloth", "buy": "1.85 m", "width_mm": 1400.0}],
    "notes": ["The hem is shaped."],
    "left_out": ["No projector file."],
}


def file(name, size):
    return {"name": name, "title": name.capitalize(), "bytes": size, "sha256": "ab"}


def facts(order):
    return {pair.title: pair.words for pair in progress_page(order).facts}


# ---- what she is told


@pytest.mark.parametrize(
    ("state", "heading", "lead"),
    [
        (OrderState.PLACED, "Your pattern is being made", "It is drafted, checked, laid out and written to files"),
        (OrderState.BUILDING, "Your pattern is being made", "It is drafted, checked, laid out and written to files"),
        (OrderState.READY, "Ready to print", "Your pattern is ready to download."),
        (OrderState.NEEDS_DESIGNER, "This needs the designer", "Your pattern did not pass one of our checks"),
        (OrderState.FAILED, "The build stopped", "Your pattern could not be made because of a fault on our side."),
        (OrderState.CANCELLED, "This order was cancelled", "This order was cancelled."),
    ],
)
def test_each_state_has_its_heading_and_its_sentence(state, heading, lead):
    page = progress_page(an_order(state))
    assert page.heading == heading
    assert page.lead.startswith(lead)
    assert page.waiting == (state in WAITING)


@pytest.mark.parametrize("state", WAITING)
def test_an_order_that_is_made_again_says_so_at_its_head(state):
    page = progress_page(an_order(state, built_at=MOMENT))
    assert page.heading == "Your pattern is being made again"
    assert page.lead.startswith("It is being made again, from the same draft")


@pytest.mark.parametrize(
    ("state", "words"),
    [
        (OrderState.NEEDS_DESIGNER, "wait for her answer before you cut"),
        (OrderState.FAILED, "that stopped because of a fault on our side"),
    ],
)
def test_an_order_that_stopped_when_it_was_made_again_minds_the_files_she_has(state, words):
    assert words in progress_page(an_order(state, built_at=MOMENT)).lead
    assert words not in progress_page(an_order(state)).lead


@pytest.mark.parametrize(
    ("found", "words"),
    [
        ([OUTSIDE], "Your measurements lie outside those on which this design was proved"),
        ([OUTSIDE, NOT_YET], "Your measurements lie outside those on which this design was proved"),
        ([NOT_YET], "This version of the design is not proved for you yet"),
        ([OUTSIDE, CAP], "Your pattern did not pass one of our checks"),
    ],
)
def test_an_order_that_waits_for_the_designer_says_for_what(found, words):
    page = progress_page(an_order(OrderState.NEEDS_DESIGNER, findings=[stored_finding(one) for one in found]))
    assert page.lead.startswith(words)


def test_what_was_found_is_told_in_her_words_and_only_while_it_stands():
    found = [stored_finding(CAP)]
    [told] = progress_page(an_order(OrderState.NEEDS_DESIGNER, findings=found)).findings
    assert told.startswith("Panel: ")
    assert "412" not in told
    for state in (OrderState.FAILED, OrderState.CANCELLED, OrderState.PLACED):
        assert progress_page(an_order(state, findings=found)).findings == ()


# ---- how far it is


@pytest.mark.parametrize(
    ("order", "state"),
    [
        (an_order(OrderState.PLACED), (True, "Waiting for a free worker", 0)),
        (an_order(OrderState.PLACED, stage="Waiting for room on the disk"), (True, "Waiting for room on the disk", 0)),
        (an_order(OrderState.BUILDING), (True, "Beginning", 0)),
        (an_order(OrderState.BUILDING, stage="Laying the pieces", progress=0.256), (True, "Laying the pieces", 26)),
        (an_order(OrderState.READY, progress=1.0), (False, "Beginning", 100)),
        (an_order(OrderState.FAILED, progress=0.4), (False, "Beginning", 40)),
    ],
)
def test_a_page_that_follows_an_order_is_told_how_far_it_is_and_when_to_stop(order, state):
    assert tuple(progress_state(order).values()) == state
    page = progress_page(order)
    assert (page.waiting, page.stage, page.percent) == state


# ---- the files


def test_a_ready_order_lists_its_files_with_their_kind_and_size():
    files = [file("pattern.pdf", 1_250_000), file("report.json", 999), file("cut.dxf", 1), file("a.svg", 999_499)]
    shown = progress_page(an_order(OrderState.READY, files=files)).files
    assert [(each.name, each.words) for each in shown] == [
        ("pattern.pdf", "PDF, 1.2 MB"),
        ("report.json", "JSON, 1 kB"),
        ("cut.dxf", "DXF, 1 kB"),
        ("a.svg", "SVG, 999 kB"),
    ]


@pytest.mark.parametrize("state", [state for state in OrderState if state is not OrderState.READY])
def test_no_other_order_lists_files_or_what_they_hold(state):
    page = progress_page(an_order(state, files=[file("pattern.pdf", 5)], summary=SUMMARY))
    assert (page.files, page.left_out, page.notes, page.notes_title) == ((), (), (), "")
    assert not page.one_sheet
    assert "To print" not in {pair.title for pair in page.facts}


def test_a_file_of_which_the_row_tells_nonsense_is_not_offered():
    files = [file("a.pdf", 5), {"name": "b.pdf"}, "c.pdf", {**file("d.pdf", 5), "bytes": "5"}, None]
    assert [each.name for each in progress_page(an_order(OrderState.READY, files=files)).files] == ["a.pdf"]


@pytest.mark.parametrize(
    ("names", "one_sheet", "projector"),
    [
        ([], False, False),
        (["pattern-one-sheet.pdf"], True, False),
        (["pattern-projector.pdf"], False, True),
        (["pattern-one-sheet.pdf", "pattern-projector.pdf"], True, True),
    ],
)
def test_advice_is_given_for_the_files_that_are_there(names, one_sheet, projector):
    page = progress_page(an_order(OrderState.READY, files=[file(name, 9) for name in names]))
    assert (page.one_sheet, page.projector) == (one_sheet, projector)


def test_what_a_ready_pack_holds_and_what_to_buy_stands_among_the_facts():
    told = facts(an_order(OrderState.READY, summary=SUMMARY))
    assert told["To print"] == "23 sheets"
    assert told["Cloth to buy"] == "1.85 m, 140 cm wide"
    inches = a_fitting(unit="in")
    assert facts(an_order(OrderState.READY, inches, summary=SUMMARY))["Cloth to buy"] == "1.85 m, 55 1/8 in wide"


def test_a_pack_of_one_sheet_has_one_sheet_and_one_without_a_count_says_nothing():
    assert facts(an_order(OrderState.READY, summary={"sheets": 1}))["To print"] == "1 sheet"
    assert "To print" not in facts(an_order(OrderState.READY, summary={}))


@pytest.mark.parametrize(
    ("notes", "title"),
    [
        ([], ""),
        (["The hem is shaped."], "1 thing to look at before you cut"),
        (["One.", "Two."], "2 things to look at before you cut"),
    ],
)
def test_what_to_look_at_is_counted(notes, title):
    order = an_order(OrderState.READY, summary={"notes": notes})
    page = progress_page(order)
    assert (page.notes_title, page.notes) == (title, tuple(notes))
    assert pack_remarks(order, "notes") == tuple(notes)


def test_files_that_are_left_out_are_told_with_the_reason():
    assert progress_page(an_order(OrderState.READY, summary=SUMMARY)).left_out == ("No projector file.",)


# ---- what she entered


def test_what_she_entered_is_told_in_her_own_figures_and_unit():
    fitting = a_fitting(unit="in", entered={"hip_girth": " 38 1/2 "}, measurements={"hip_girth": 977.9})
    assert facts(an_order(fitting=fitting))["Hip girth"] == "38 1/2 in"
    named = a_fitting(unit="in", entered={"hip_girth": "97.8 cm"}, measurements={"hip_girth": 978.0})
    assert facts(an_order(fitting=named))["Hip girth"] == "97.8 cm"
    filled = a_fitting(entered={}, measurements={"hip_girth": 978.0})
    assert facts(an_order(fitting=filled))["Hip girth"] == "97.8 cm"


@pytest.mark.parametrize(
    ("cloth", "words"),
    [
        ({"width_mm": 1400.0, "folded": True, "one_way": False}, "140 cm wide, folded along its length"),
        ({"width_mm": 1125.0, "folded": False, "one_way": True}, "112.5 cm wide, laid open, all pieces one way"),
    ],
)
def test_her_cloth_is_told_by_its_title_in_the_draft(cloth, words):
    told = facts(an_order(fitting=a_fitting(cloths={"main": cloth, "old_lining": cloth})))
    assert told["Cloth"] == words
    assert told["old lining"] == words


def test_paper_and_printing_are_told_only_as_far_as_they_are_unusual():
    usual = facts(an_order(fitting=a_fitting(paper="a4", prints={"projector": True})))
    assert usual["Paper"] == "A4 (210 × 297 mm)"
    unusual = facts(an_order(fitting=a_fitting(paper="letter", prints={"join": "butt", "projector": False})))
    assert unusual["Paper"] == "US Letter (8 1/2 × 11 in)"
    assert unusual["Printing"] == "sheets edge to edge; no file for a projector"
    assert facts(an_order(fitting=a_fitting(paper="vellum")))["Paper"] == "vellum"


def test_choices_the_design_settles_are_none_of_hers():
    fitting = a_fitting(choices={"length": 620.0, "lined": True, "collar": "stand_up"})
    assert {"length", "lined", "collar"} <= set(facts(an_order(fitting=fitting)))
    fitting.listing.settled = {"length": 620.0}
    told = facts(an_order(fitting=fitting))
    assert "length" not in told
    assert (told["lined"], told["collar"]) == ("yes", "stand up")


def test_the_page_knows_its_order_and_the_way_back_to_the_pieces():
    page = progress_page(an_order())
    assert (page.number, page.placed, page.token, page.fitting) == (
        "TL-2345", "5 March 2026", "order-token", "fitting-token",
    )  # fmt: skip
