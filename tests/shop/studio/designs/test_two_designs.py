"""Two designs from one draft: each page, form, order and pattern is of the one design alone."""

import pytest

from app.demo.shop import DEMO
from app.pattern.make import Made, make_pattern
from app.shop.catalogue.service import listing_by_slug
from app.shop.orders.builds import claim_build
from app.shop.orders.service import fitting_by_token, order_by_token
from app.shop.orders.shown import entered_pairs
from app.shop.proofs.models import Proof
from app.shop.proofs.values import read_shipped
from app.shop.studio.proofs.view import ProvedVersion, body_of
from tests.proved import stand_proved

DARTED, PRINCESS = "pimpernel-bodice", "tormentil-bodice"


@pytest.fixture
def proved(app, database):
    """Both designs stand proved for every bust, so that their orders are built at once."""
    with database.writing() as session:
        for slug in (DARTED, PRINCESS):
            stand_proved(session, listing_by_slug(session, slug).current_version)


def fitted(visitor, slug):
    form = f"/patterns/{slug}/measure"
    filled = visitor.submit(visitor.get(form), to=form, action="size", size="92")
    return visitor.submit(filled, to=form, action="check", **{"choice-scoop": "4"})


def pattern_ordered(database, visitor, page):
    """The pattern that a worker makes for the order placed from a review page."""
    placed = visitor.submit(page, to=f"{page.path}/order")
    with database.writing() as session:
        order = order_by_token(session, placed.path.rpartition("/")[2])
        request = claim_build(session, order.id, "worker-1", "Studio").request
    made = make_pattern(request.draft_text, request.draft_name, request.measurements, request.choices)
    assert isinstance(made, Made)
    return request, made.pattern


def test_their_pages_differ_in_words_picture_pieces_and_shopping(visitor):
    darted, princess = (visitor.get(f"/patterns/{slug}") for slug in (DARTED, PRINCESS))
    assert "fitted-bodice.svg" in darted.html and "princess-bodice.svg" in princess.html
    assert "2 pattern pieces" in darted.words and "4 pattern pieces" in princess.words
    for page in (darted, princess):
        assert "Depth of the front neckline" in page.words
        assert "Shaped by darts, or by princess seams" not in page.words
        assert page.words.count("Separating zip") == 1


@pytest.mark.parametrize("slug", [DARTED, PRINCESS])
def test_what_is_settled_is_not_asked_and_cannot_be_sent(database, visitor, slug):
    form = f"/patterns/{slug}/measure"
    page = visitor.get(form)
    assert "choice-line" not in page.form(form)
    filled = visitor.submit(page, to=form, action="size", size="92")
    review = visitor.submit(filled, to=form, action="check", **{"choice-line": "neither"})
    assert review.path.startswith("/fittings/")
    with database.reading() as session:
        fitting = fitting_by_token(session, review.path.rpartition("/")[2])
    assert fitting.choices["line"] == {DARTED: "darted", PRINCESS: "princess"}[slug]


@pytest.mark.usefixtures("proved")
@pytest.mark.parametrize(("slug", "seam"), [(DARTED, False), (PRINCESS, True)])
def test_an_order_carries_what_is_settled_and_its_pattern_is_made_so(database, visitor, slug, seam):
    review = fitted(visitor, slug)
    request, pattern = pattern_ordered(database, visitor, review)
    assert request.choices["line"] == ("princess" if seam else "darted")
    assert request.choices["scoop"] == 40.0
    assert request.settled == ("line",)
    names = {edge.name for piece in pattern.pieces for edge in piece.edges}
    assert ("princess" in names) is seam
    assert bool([dart for piece in pattern.pieces for dart in piece.darts]) is not seam


def test_the_review_speaks_of_the_design_that_was_chosen(database, visitor):
    review = fitted(visitor, PRINCESS)
    assert "Your Tormentil bodice" in review.words
    assert "Pimpernel" not in review.html
    assert "Depth of the front neckline 4 cm" in review.words
    with database.reading() as session:
        fitting = fitting_by_token(session, review.path.rpartition("/")[2])
        told = [f"{pair.title} {pair.words}" for pair in entered_pairs(fitting, fitting.draft_version)]
    assert not [words for words in told if "princess" in words]


@pytest.mark.parametrize(("slug", "pieces"), [(DARTED, 2), (PRINCESS, 4)])
def test_the_designer_sees_a_body_of_the_proof_drawn_as_the_design_settles(app, database, slug, pieces):
    shipped = next(read_shipped(design.proof_file()) for design in DEMO if design.words.slug == slug)
    proof = Proof(summary=shipped.summary, bodies=list(shipped.bodies))
    with database.reading() as session:
        listing = listing_by_slug(session, slug)
    page = body_of(ProvedVersion(listing=listing, version=listing.current_version, proof=proof), "size 92")
    assert page.caption == "Its pieces, with every choice as offered."
    assert f"<title>{listing.title}: {pieces} pieces" in page.drawing


def test_an_entry_is_opened_again_without_what_is_settled(visitor):
    review = fitted(visitor, PRINCESS)
    again = visitor.get(f"{review.path}/edit").form(f"/patterns/{PRINCESS}/measure")
    assert again["choice-scoop"] == "4"
    assert "choice-line" not in again
