"""Another design from one draft: what it settles is read, told in words, and kept with the draft as its version 1."""

import pytest

from app.pattern.make import read_draft
from app.shop.catalogue.models import Level
from app.shop.catalogue.service import ListingWords, add_draft_version, newest_version, save_listing
from app.shop.proofs.models import ProofState
from app.shop.proofs.service import proof_of
from app.shop.studio.designs.form import DesignEntry
from app.shop.studio.designs.service import add_design, origin_of
from app.shop.studio.designs.settled_form import read_settled
from app.shop.studio.designs.settled_view import settled_fields, settled_words
from app.shop.studio.desk import service
from app.shop.studio.desk.service import newest_versions
from app.shop.studio.drafts.check import draft_source, read_text
from app.shop.studio.drafts.service import keep_text
from tests.places import APRON, DRAFTS

BODICE = (DRAFTS / "fitted_bodice.draft").read_text("utf-8")
TUNIC = (DRAFTS / "shirred_tunic.draft").read_text("utf-8")
WORDS = {"title": "Long apron", "level": "confident", "price": "9"}


def choices_of(text):
    return read_draft(text, "t.draft").choices


@pytest.fixture
def apron(session):
    """A design whose draft offers a length and a number."""
    made = save_listing(session, ListingWords("apron", "Apron", "", "", Level.CONFIDENT, 700, "EUR", ""))
    add_draft_version(session, made, APRON)
    return made


def another(session, listing, **posted):
    return add_design(session, {**WORDS, **posted}, origin_of(listing, newest_versions(session, listing)))


# ---- read


@pytest.mark.parametrize(
    ("text", "typed", "value"),
    [
        (BODICE, {"choice-line": "princess"}, {"line": "princess"}),
        (TUNIC, {"choice-lined": "yes"}, {"lined": True}),
        (TUNIC, {"choice-lined": "no"}, {"lined": False}),
        (APRON, {"choice-length": " 62,5 "}, {"length": 625.0}),
        (APRON, {"choice-length": "20in"}, {"length": 508.0}),
        (APRON, {"choice-gathering": "1.5"}, {"gathering": 1.5}),
        (APRON, {"choice-length": "", "title": "x"}, {}),
    ],
)
def test_what_is_picked_or_typed_becomes_a_settled_value(text, typed, value):
    entry = read_settled(typed, choices_of(text))
    assert (entry.values, entry.errors) == (value, {})


@pytest.mark.parametrize(
    ("text", "field", "typed", "said"),
    [
        (BODICE, "choice-line", "raglan", "darted, princess"),
        (TUNIC, "choice-lined", "perhaps", "Say yes or no."),
        (APRON, "choice-length", "81", "choose from 45 to 80 cm"),
        (APRON, "choice-length", "long", "is not a length"),
        (APRON, "choice-gathering", "3", "choose from 1.3 to 2"),
        (APRON, "choice-gathering", "nan", "is not a number"),
        (APRON, "choice-pockets", "two", "This draft has no choice “pockets”."),
        (APRON, "choice-", "two", "This draft has no choice"),
    ],
)
def test_what_the_draft_does_not_allow_is_told_at_its_field_and_stays_there(session, apron, text, field, typed, said):
    entry = read_settled({field: typed}, choices_of(text))
    assert said in entry.errors[field]
    assert entry.values == {}
    shown = {one.name: one for one in settled_fields(choices_of(text), apron, entry.typed, entry.errors)}
    assert said in shown[field].error
    assert typed in (shown[field].value, *(option.value for option in shown[field].options if option.chosen))


def test_each_choice_begins_left_to_the_customer_with_its_limits_and_what_the_other_design_settles(session):
    words = ListingWords("tormentil", "Tormentil", "", "", Level.CONFIDENT, 700, "EUR", "")
    origin = save_listing(session, words, {"line": "princess", "scoop": 20.0})
    fields = {field.name: field for field in settled_fields(choices_of(BODICE), origin, {}, {})}
    line, scoop = fields["choice-line"], fields["choice-scoop"]
    assert [(option.value, option.chosen) for option in line.options] == [
        ("", True), ("darted", False), ("princess", False),
    ]  # fmt: skip
    assert line.hint == "Tormentil settles it: princess."
    assert (scoop.value, scoop.unit) == ("", "cm")
    assert "left to the customer" in scoop.hint
    assert "Tormentil settles it: 2 cm." in scoop.hint
    assert "settles it" not in fields["choice-bust_ease"].hint


# ---- made


def test_a_design_is_made_from_the_newest_text_with_what_it_settles(session, apron):
    longer = APRON.replace("62cm", "64cm")
    add_draft_version(session, apron, longer)
    made = another(session, apron, **{"choice-length": "70", "choice-gathering": ""})
    assert (made.slug, made.settled, made.published) == ("long-apron", {"length": 700.0}, False)
    version = newest_version(session, made)
    assert (version.number, version.text) == (1, longer)
    assert proof_of(session, version.id).state is ProofState.WAITING
    assert apron.settled == {}


def test_what_one_design_settles_is_open_again_for_the_next(session, apron):
    made = another(session, apron, **{"choice-length": "70"})
    third = another(session, made, title="Short apron", **{"choice-length": "50"})
    assert third.settled == {"length": 500.0}


def test_a_version_that_cannot_be_read_is_passed_over_for_the_one_before(session, apron):
    add_draft_version(session, apron, "drat")
    assert origin_of(apron, newest_versions(session, apron)).version.number == 1


def test_a_design_without_a_draft_that_can_be_read_gives_no_other(session, listing):
    bare = save_listing(session, ListingWords("bare", "Bare", "", "", Level.CONFIDENT, 500, "EUR", ""))
    assert origin_of(bare, newest_versions(session, bare)) is None


def test_nothing_is_made_where_words_or_settled_values_are_amiss_and_both_are_told(session, apron):
    entry = another(session, apron, price="much", **{"choice-length": "7 km"})
    assert isinstance(entry, DesignEntry)
    assert set(entry.errors) == {"price", "choice-length"}
    assert entry.typed["choice-length"] == "7 km"
    taken = another(session, apron, slug="apron", **{"choice-length": "70"})
    assert set(taken.errors) == {"slug"}
    assert apron.settled == {}
    assert [row.listing.slug for row in service.listings(session)] == ["apron"]


# ---- told


def test_what_is_settled_is_told_in_words_by_the_kind_of_each_choice(session, apron):
    made = another(session, apron, **{"choice-length": "70", "choice-gathering": "1.5"})
    offered = choices_of(APRON)
    assert settled_words(made, offered) == "Settled: gathering 1.5, length 70 cm"
    assert settled_words(apron, offered) == ""
    made.settled = {"lined": False, "side_line": "close_fit", "length": 700.0}
    assert settled_words(made, ()) == "Settled: length, lined no, side line close fit"


def test_the_list_knows_the_choices_of_a_design_that_settles_some(session, apron):
    another(session, apron, **{"choice-length": "70"})
    rows = {row.listing.slug: [choice.name for choice in row.offered] for row in service.listings(session)}
    assert rows == {"apron": [], "long-apron": ["length", "gathering"]}


def test_a_text_that_no_longer_fits_what_is_settled_is_told_plainly_and_not_kept(database, session, apron):
    made = another(session, apron, **{"choice-length": "70"})
    session.commit()
    session.close()
    shorter = APRON.replace("from 45cm to 80cm", "from 45cm to 65cm")
    (problem,) = keep_text(database, made, shorter)
    assert problem.message == "“length” is to be settled. Length below the waist: “70 cm” is not possible."
    assert "between 45 cm and 65 cm" in problem.fix
    assert database.read(newest_version, made).number == 1
    assert keep_text(database, apron, shorter).version.number == 2


def test_advice_on_a_text_hinders_nothing(database, session, apron):
    session.commit()
    session.close()
    unused = APRON.replace("waist_to_hip", "waist_to_hip, knee_girth")
    reading = read_text(draft_source(unused, "apron.draft", {}))
    assert reading.problems == ()
    assert "knee_girth is asked for and never used" in " ".join(one.message for one in reading.advice)
    assert keep_text(database, apron, unused).version.number == 2
