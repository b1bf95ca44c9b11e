"""Two designs from one draft, made in the studio: the form, what goes wrong in it, and the design that comes of it."""

import pytest

from app.shop.catalogue.service import newest_version
from app.shop.studio.desk.service import listing as listing_of
from tests.proved import stand_proved
from tests.web.test_accessibility import assert_usable

PIMPERNEL = "/studio/listings/pimpernel-bodice"
ANOTHER = f"{PIMPERNEL}/another"
WORDS = {"title": "Burnet bodice", "level": "confident", "price": "15", "description": "With <b>seams</b>."}
SETTLED = {"choice-line": "princess", "choice-scoop": "2,5"}
DRAFT = "/studio/listings/burnet-bodice/draft"


@pytest.fixture
def made(designer):
    """The draft page of a design that was just made from another one's draft."""
    return designer.submit(designer.get(ANOTHER), **WORDS, **SETTLED)


def test_the_way_leads_from_the_draft_and_from_the_words_to_the_form(designer):
    for page in ("draft", "words"):
        assert f'href="{ANOTHER}">Make another design from this draft' in designer.get(f"{PIMPERNEL}/{page}").html
    form = designer.get(ANOTHER)
    assert "From the draft of Pimpernel bodice, version 1." in form.words
    assert "Pimpernel bodice settles it: darted." in form.words
    assert "leave it to the customer" in form.words
    sent = form.form()
    assert {name: sent[name] for name in ("choice-line", "choice-scoop", "title")} == {
        "choice-line": "", "choice-scoop": "", "title": "",
    }  # fmt: skip
    assert_usable(form)


def test_a_design_made_so_has_the_draft_on_trial_and_tells_what_it_settles(designer, database, visitor, made):
    assert made.path == DRAFT
    assert "Burnet bodice is added with the draft of Pimpernel bodice." in made.words
    assert "Settled: line princess, scoop 2.5 cm" in made.words
    assert "Version 1 is on trial: waits for a worker." in made.words
    for path in ("/studio", "/studio/listings/burnet-bodice/words"):
        assert "Settled: line princess, scoop 2.5 cm" in designer.get(path).words
    with database.reading() as session:
        one, other = (listing_of(session, slug) for slug in ("pimpernel-bodice", "burnet-bodice"))
        assert newest_version(session, one).text == newest_version(session, other).text
        assert (one.settled, other.settled) == ({"line": "darted"}, {"line": "princess", "scoop": 25.0})
    assert visitor.get("/patterns/burnet-bodice").status == 404
    assert_usable(made)


def test_proved_it_is_put_on_sale_and_its_customers_are_asked_only_the_rest(designer, database, visitor, made):
    with database.writing() as session:
        stand_proved(session, newest_version(session, listing_of(session, "burnet-bodice")))
    sold = designer.submit(designer.get(DRAFT), to="/studio/listings/burnet-bodice/versions/1/sell")
    assert "Burnet bodice is on sale." in sold.words
    assert "4 pattern pieces" in visitor.get("/patterns/burnet-bodice").words
    form = "/patterns/burnet-bodice/measure"
    asked = visitor.get(form).form(form)
    assert "choice-bust_ease" in asked
    assert not {"choice-line", "choice-scoop"} & set(asked)
    filled = visitor.submit(visitor.get(form), to=form, action="size", size="92")
    review = visitor.submit(filled, to=form, action="check")
    assert "Your Burnet bodice" in review.words


def test_what_is_amiss_is_told_at_its_field_and_nothing_typed_is_lost(designer, database):
    page = designer.submit(designer.get(ANOTHER), **WORDS, **{**SETTLED, "choice-scoop": "60", "choice-line": "raglan"})
    assert page.status == 422
    assert "The design is not added yet" in page.words
    for field in ("choice-scoop", "choice-line"):
        assert f'href="#{field}"' in page.html
        assert f'id="{field}-error"' in page.html
    kept, typed = page.form(), {"title": WORDS["title"], "level": "confident", "price": "15"}
    assert kept == {**kept, **typed, "choice-scoop": "60", "choice-line": "raglan"}
    assert "With &lt;b&gt;seams&lt;/b&gt;." in page.html
    assert_usable(page)
    with database.reading() as session:
        assert listing_of(session, "burnet-bodice") is None
    mended = designer.submit(page, description="x", **SETTLED)
    assert mended.path == DRAFT


def test_a_choice_the_draft_has_lost_meanwhile_is_told_and_can_be_let_go(designer):
    page = designer.submit(designer.get(ANOTHER), **WORDS, **{"choice-collar": "stand"})
    assert page.status == 422
    assert "This draft has no choice “collar”." in page.words
    assert page.form()["choice-collar"] == "stand"
    assert_usable(page)
    assert designer.submit(page, description="", **{"choice-collar": ""}).path == DRAFT


def test_a_design_without_a_draft_leads_back_to_it(designer):
    designer.submit(designer.get("/studio/new-design"), to="/studio/new-design", **WORDS)
    assert "Make another design" not in designer.get(DRAFT).words
    assert "Make another design" not in designer.get(DRAFT.replace("draft", "words")).words
    page = designer.get(DRAFT.replace("draft", "another"))
    assert page.path == DRAFT
    assert "Burnet bodice has no draft yet that can be read." in page.words


def test_a_stranger_makes_no_design(visitor, database):
    assert visitor.get(ANOTHER).path == "/studio/sign-in"
    token = visitor.get("/studio/sign-in").form()["form_token"]
    assert visitor.post(ANOTHER, {"form_token": token, **WORDS}).path == "/studio/sign-in"
    with database.reading() as session:
        assert listing_of(session, "burnet-bodice") is None


def test_a_design_that_is_not_there_gives_no_other(designer):
    assert designer.get("/studio/listings/none/another").status == 404
