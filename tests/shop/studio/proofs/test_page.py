"""The proof of a listing for its designer: the gate before a sale, the chart, one body, and a share accepted."""

import re

import pytest

from app.pattern.proof import Population
from app.shop.catalogue.models import Level
from app.shop.catalogue.service import ListingWords, add_draft_version, save_listing
from app.shop.proofs.models import ProofState
from app.shop.proofs.service import proof_of
from app.work.prover import Prover
from tests.places import SLIP

PROOF = "/studio/listings/test-slip/versions/1/proof"
SECOND = "/studio/listings/test-slip/versions/2/proof"
SELL = "/studio/listings/test-slip/versions/1/sell"


@pytest.fixture
def slip(app, database):
    """A listing whose draft holds on 68 of 77 bodies and is not proved yet."""
    with database.writing() as session:
        listing = save_listing(session, ListingWords("test-slip", "Test slip", "", "", Level.CONFIDENT, 0, "EUR", ""))
        return add_draft_version(session, listing, SLIP).id


@pytest.fixture
def prove(database, settings, slip):
    """Work out what waits, as the worker does, on a small population."""
    prover = Prover(settings.model_copy(update={"proof_processes": 1}), database, lambda: False, Population(amount=40))
    return lambda: prover.prove_next()


def proof_in(database, slip):
    with database.reading() as session:
        return proof_of(session, slip)


def test_a_draft_is_not_sold_before_it_is_proved(designer, slip):
    page = designer.submit(designer.get("/studio"), to=SELL)
    assert "This version of the draft is not proved." in page.words
    assert "Test slip" not in designer.get("/").words
    waiting = designer.get(PROOF)
    assert "Waits for a worker." in waiting.words
    assert "data-poll" in waiting.html
    assert designer.get(f"{PROOF}/state").answer.json() == {
        "waiting": True,
        "stage": "Waiting for a worker",
        "percent": 0,
    }


def test_a_draft_that_fails_somewhere_is_sold_only_once_its_share_is_accepted(designer, database, slip, prove):
    prove()
    page = designer.submit(designer.get("/studio"), to=SELL)
    assert "held on 88.3% of the bodies, and 100.0% are asked for" in page.words
    page = designer.get(PROOF)
    assert "68 of 77 bodies hold (88.3 %)." in page.words
    assert "Every body must hold. Nobody has accepted less." in page.words

    unseen = designer.submit(page, to=f"{PROOF}/accept")
    assert "tick that you have" in unseen.words
    assert proof_in(database, slip).accepted_share == 1.0

    accepted = designer.submit(page, to=f"{PROOF}/accept", seen="yes")
    assert "Ottilie Brack accepted 88.3 % on" in accepted.words
    assert "This is enough to put it on sale." in accepted.words
    assert "Test slip is on sale." in designer.submit(designer.get("/studio"), to=SELL).words
    listing = designer.get("/patterns/test-slip")
    assert "Proved on 57 bodies from hip 84 to 119.7 cm" in listing.words
    assert "Of all bodies tried 88.3 % hold; beyond them the designer looks at your order first." in listing.words


@pytest.mark.parametrize("typed", ["", "all", "-1", "1e2", "100.0.0"])
def test_what_is_no_share_is_not_accepted(designer, database, slip, prove, typed):
    prove()
    page = designer.submit(designer.get(PROOF), to=f"{PROOF}/accept", share=typed, seen="yes")
    assert "not a share" in page.words
    assert proof_in(database, slip).accepted_by == ""


def test_more_than_everybody_cannot_be_asked_for(designer, slip, prove):
    prove()
    page = designer.submit(designer.get(PROOF), to=f"{PROOF}/accept", share="120", seen="yes")
    assert "120.0% is not a share of the bodies." in page.words


def test_the_chart_leads_to_a_body_with_its_finding_and_the_piece_marked(designer, slip, prove):
    prove()
    page = designer.get(PROOF)
    assert page.html.count('<a class="failed"') == 9
    assert page.html.count('<a class="held"') == 68
    assert "Seam walk 9" in page.words
    body = designer.get(f"{PROOF}?body=corner+very+large")
    assert "Corner very large" in body.words
    assert "It holds at 0 of 3 settings." in body.words
    assert "and they are sewn together" in body.words
    assert 'class="finding-picture"' in body.html
    assert "back, edge side, as offered: the place is marked." in body.words
    assert " style=" not in body.html


def test_a_body_that_holds_shows_its_pieces(designer, slip, prove):
    prove()
    body = designer.get(f"{PROOF}?body=size+92")
    assert "It holds at 3 of 3 settings." in body.words
    assert "Its pieces, with every choice as offered." in body.words
    assert "Waist girth" in body.words


def test_a_body_that_is_not_in_the_proof_shows_where_it_fails_instead(designer, slip, prove):
    prove()
    assert "corner very large: fails at 3 of 3" in designer.get(f"{PROOF}?body=nobody").words


def test_a_proof_is_worked_out_again_on_demand(designer, database, slip, prove):
    prove()
    page = designer.submit(designer.get(PROOF), to=f"{PROOF}/again")
    assert "The proof is worked out again." in page.words
    assert proof_in(database, slip).state is ProofState.WAITING
    assert "is being worked out" in designer.submit(page, to=f"{PROOF}/again").words
    prove()
    assert proof_in(database, slip).state is ProofState.READY


def test_a_new_version_is_proved_before_it_can_be_put_on_sale_again(designer, database, slip, prove):
    prove()
    with database.writing() as session:
        listing = save_listing(session, ListingWords("test-slip", "Test slip", "", "", Level.CONFIDENT, 0, "EUR", ""))
        add_draft_version(session, listing, SLIP.replace("hip_girth - 120cm", "hip_girth - 220cm"))
    trial = designer.get("/studio")
    assert "Version 2, on trial" in trial.words
    assert "is not proved" in designer.submit(trial, to=SELL.replace("/1/", "/2/")).words
    prove()
    page = designer.get(SECOND)
    assert "77 of 77 bodies hold (100 %)." in page.words
    assert "Nowhere: every body holds at every setting." in page.words
    assert "is on sale" in designer.submit(page, to=SELL.replace("/1/", "/2/")).words
    assert "Put version 2 on sale" not in designer.get(SECOND).words


def test_a_draft_that_cannot_be_read_is_told_on_its_proof(designer, database, slip, prove):
    prove()
    with database.writing() as session:
        listing = save_listing(session, ListingWords("test-slip", "Test slip", "", "", Level.CONFIDENT, 0, "EUR", ""))
        add_draft_version(session, listing, SLIP.replace("hip_girth - 120cm", "hip_girht - 120cm"))
    prove()
    page = designer.get(SECOND)
    assert "hip_girht" in page.words
    assert "Could not be worked out" in page.words


@pytest.mark.parametrize("path", [PROOF, f"{PROOF}/state"])
def test_a_stranger_sees_no_proof(visitor, slip, path):
    assert "Sign in" in visitor.get(path).words


def test_a_listing_that_is_not_there_has_no_proof(designer):
    assert designer.get("/studio/listings/nothing/versions/1/proof").status == 404


@pytest.mark.parametrize("number", ["0", "2", "x", "9" * 40])
def test_a_version_that_is_not_there_has_no_proof(designer, slip, number):
    assert designer.get(f"/studio/listings/test-slip/versions/{number}/proof").status == 404


def test_the_dashboard_says_how_each_proof_stands(designer, slip, prove):
    assert "Proof of Test slip, version 1 : waits for a worker." in designer.get("/studio").words
    prove()
    assert "68 of 77 bodies hold (88.3 %)." in designer.get("/studio").words


def test_a_body_that_cannot_be_drawn_shows_the_line_at_which_drafting_stops(designer, database, slip, prove):
    prove()
    with database.writing() as session:
        listing = save_listing(session, ListingWords("test-slip", "Test slip", "", "", Level.CONFIDENT, 0, "EUR", ""))
        # An arc cosine of more than one, once the hip is wider than 135 cm.
        add_draft_version(
            session, listing, SLIP.replace("- 120cm) / 10)", "- 120cm) * cos(arccos(hip_girth / 135cm)))")
        )
    prove()
    body = designer.get(f"{SECOND}?body=corner+very+large")
    assert "Nothing can be drawn at this setting: drafting stops at line " in body.words
    assert 'class="finding-picture"' not in body.html


def test_the_line_at_which_drafting_stops_is_that_of_the_text_as_it_stands(designer, database, slip, prove):
    stops = SLIP.replace("- 120cm) / 10)", "- 120cm) * cos(arccos(hip_girth / 135cm)))")
    for number, text in enumerate((stops, f"# A comment above,\n# and one more.\n{stops}"), start=2):
        with database.writing() as session:
            listing = save_listing(
                session, ListingWords("test-slip", "Test slip", "", "", Level.CONFIDENT, 0, "EUR", "")
            )
            add_draft_version(session, listing, text)
        prove()
        page = designer.get(f"/studio/listings/test-slip/versions/{number}/proof?body=corner+very+large")
        line, words = re.search(r"drafting stops at line (\d+), “(.+?)”", page.words).groups()
        assert "arccos" in text.splitlines()[int(line) - 1]
        assert "arccos" in words


def test_a_warning_stands_on_the_proof_until_it_is_accepted_by_its_name(designer, database, slip, prove):
    with database.writing() as session:
        listing = save_listing(session, ListingWords("test-slip", "Test slip", "", "", Level.CONFIDENT, 0, "EUR", ""))
        text = SLIP.replace("hip_girth - 120cm", "hip_girth - 220cm").replace(" passes hip_girth", "")
        add_draft_version(session, listing, text)
    prove()
    page = designer.get(SECOND)
    assert "77 of 77 bodies hold (100 %). 1 warning to read." in page.words
    assert "nobody has checked that the garment can be put on" in page.words
    assert "not read yet" in designer.submit(designer.get("/studio"), to=SELL.replace("/1/", "/2/")).words
    without = designer.submit(page, to=f"{SECOND}/accept-warning", note="")
    assert "Say in 4 to 600 letters why it may stand" in without.words
    accepted = designer.submit(page, to=f"{SECOND}/accept-warning", note="It is drawn on over the head, and wide.")
    assert "Ottilie Brack accepted it on" in accepted.words
    assert "“It is drawn on over the head, and wide.”" in accepted.words
    assert "This is enough to put it on sale." in accepted.words
    assert "is on sale" in designer.submit(accepted, to=SELL.replace("/1/", "/2/")).words
