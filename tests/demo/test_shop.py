"""The demo shop: loaded as often as you like, and never over the designer's own changes."""

import re
from dataclasses import replace
from datetime import timedelta

import pytest
import sqlalchemy as sa

from app.demo.meant import MEANT
from app.demo.shop import DEMO, DRAFTS, load_demo, password_links
from app.pattern.body import SIZES, size_body
from app.pattern.body.populations_standard import standard_bodies
from app.pattern.lay import cannot_lay
from app.pattern.lay.convert import items_for
from app.pattern.make import Made, make_pattern
from app.pattern.proof import offer_mark
from app.shop.catalogue.models import DraftVersion
from app.shop.catalogue.service import (
    add_draft_version,
    listing_by_slug,
    newest_version,
    published_listings,
    put_on_sale,
    save_listing,
)
from app.shop.people.models import Designer
from app.shop.people.service import studio
from app.shop.people.sign_ins import NewSignIn, SignInLifetime, set_password
from app.shop.proofs.models import ProofState
from app.shop.proofs.service import proof_of, share_of
from app.shop.proofs.values import read_shipped, write_shipped
from app.shop.proofs.warnings import open_warnings, warnings_of
from tests.proved import stand_proved


def test_the_shop_opens_with_its_designs_on_sale_in_their_order(session):
    load_demo(session)
    found = {listing.slug: listing for listing in published_listings(session)}
    assert list(found) == [design.words.slug for design in sorted(DEMO, key=lambda d: d.words.position)]
    assert list(found)[:3] == ["fernhill-skirt", "larkspur-tunic", "saltmarsh-blouse"]
    for design in DEMO:
        assert found[design.words.slug].current_version.text == design.text()
        assert found[design.words.slug].settled == design.settled
    assert studio(session).name


def test_every_warning_of_a_demo_proof_is_read_and_no_note_is_of_a_warning_that_is_gone(session):
    load_demo(session)
    for listing in published_listings(session):
        proof = proof_of(session, listing.current_version_id)
        assert open_warnings(proof) == ()
        told = {(one["check"], one["about"]) for one in warnings_of(proof)}
        assert told == set(MEANT.get(listing.slug, {})), listing.slug


@pytest.mark.parametrize("draft", sorted({design.draft for design in DEMO}))
def test_a_listing_bears_the_name_its_draft_gives(draft):
    first, *others = (design for design in DEMO if design.draft == draft)
    assert first.text().splitlines()[0] == f'draft "{first.words.title}"'
    told = [design.settled for design in (first, *others)]
    assert not others or all(told), "where a draft serves several designs, each settles what it differs by"


def test_every_draft_of_the_catalogue_is_sold_and_one_of_them_twice():
    drafts = [design.draft for design in DEMO]
    assert set(drafts) == {path.name for path in DRAFTS.glob("*.draft")}
    assert [name for name in set(drafts) if drafts.count(name) > 1] == ["fitted_bodice.draft"]
    assert len({design.proof_file() for design in DEMO}) == len({design.words.picture for design in DEMO}) == len(DEMO)


def test_a_design_that_settles_what_its_draft_lacks_is_not_loaded(session):
    design = next(design for design in DEMO if design.words.slug == "tormentil-bodice")
    with pytest.raises(ValueError, match=r"tormentil-bodice: .*“line” is to be settled as “raglan”"):
        load_demo(session, [replace(design, settled={"line": "raglan"})])


def test_a_design_that_leaves_all_open_takes_no_proof_of_one_that_settles_something(session):
    design = next(design for design in DEMO if design.words.slug == "pimpernel-bodice")
    listing = save_listing(session, design.words)
    listing.published = True
    load_demo(session, [design])
    version = newest_version(session, listing)
    assert listing.current_version is None, "it waits to be proved with every choice open"
    assert share_of(proof_of(session, version.id)) is None


@pytest.mark.parametrize("design", DEMO, ids=lambda design: design.words.slug)
def test_a_listing_has_its_picture(design):
    assert (DRAFTS.parents[2] / "static" / "garments" / design.words.picture).is_file()


def test_loading_again_changes_nothing(session):
    load_demo(session)
    session.flush()
    listing = listing_by_slug(session, "fernhill-skirt")
    listing.price_cents, listing.published = 9900, False
    load_demo(session)
    assert (listing.price_cents, listing.published) == (9900, False)
    assert session.scalar(sa.select(sa.func.count()).select_from(DraftVersion)) == len(DEMO)
    assert session.scalar(sa.select(sa.func.count()).select_from(Designer)) == 1


def test_a_draft_the_shop_has_never_had_becomes_the_new_version(session, tmp_path, monkeypatch):
    load_demo(session)
    monkeypatch.setattr("app.demo.shop.DRAFTS", tmp_path)
    (tmp_path / "gore_skirt.draft").write_text('draft "Fernhill skirt"\n# mended\n')
    load_demo(session, DEMO[:1])
    load_demo(session, [replace(DEMO[0])])
    listing = listing_by_slug(session, "fernhill-skirt")
    assert newest_version(session, listing).number == 2
    assert listing.current_version.number == 1, "it came without a proof, so that it is on trial"


def test_a_mended_draft_that_comes_with_its_proof_is_on_sale_at_once(session, tmp_path, monkeypatch):
    text = DEMO[0].text()
    proof = read_shipped(DEMO[0].proof_file())
    load_demo(session)
    monkeypatch.setattr("app.demo.shop.DRAFTS", tmp_path)
    mended = text.replace("length     = 68cm", "length     = 69cm")
    assert mended != text
    (tmp_path / DEMO[0].draft).write_text(mended)
    write_shipped(replace(proof, draft_mark=offer_mark(mended, {})), DEMO[0].proof_file())
    load_demo(session, DEMO[:1])
    assert listing_by_slug(session, "fernhill-skirt").current_version.number == 2


def test_a_draft_with_another_comment_keeps_the_proof_that_it_came_with(session, tmp_path, monkeypatch):
    text = DEMO[0].text()
    proof = read_shipped(DEMO[0].proof_file())
    monkeypatch.setattr("app.demo.shop.DRAFTS", tmp_path)
    (tmp_path / DEMO[0].draft).write_text(f"# Sewn three times by now.\n{text}")
    write_shipped(proof, DEMO[0].proof_file())
    load_demo(session, DEMO[:1])
    listing = listing_by_slug(session, "fernhill-skirt")
    assert proof_of(session, listing.current_version_id).state is ProofState.READY


def test_loading_again_never_moves_a_version_that_the_designer_chose(session):
    load_demo(session)
    listing = listing_by_slug(session, "fernhill-skirt")
    own = add_draft_version(session, listing, listing.current_version.text + "\n# her own\n")
    stand_proved(session, own)
    put_on_sale(session, listing, own)
    load_demo(session)
    assert listing.current_version is own


def test_nobody_has_a_password_until_a_one_time_link_was_used(database):
    with database.writing() as session:
        load_demo(session)
    [line] = database.write(password_links, "https://shop.example/")
    token = re.fullmatch(r"Set the password of \S+ within a day: https://shop\.example/password/(\S+)", line)[1]
    lasting = SignInLifetime(timedelta(days=1), timedelta(days=1))
    assert isinstance(set_password(database, token, "pewter lantern oat meadow", lifetime=lasting), NewSignIn)
    assert database.write(password_links, "https://shop.example/") == []


@pytest.mark.parametrize("design", DEMO, ids=lambda design: design.words.slug)
def test_a_design_goes_on_its_own_cloths_as_they_are_offered(design):
    """At every size of the chart, at default choices: no customer is sent back for a wider cloth."""
    bodies = {size: size_body(size) for size in SIZES}
    if design.draft == "childs_pinafore.draft":
        bodies = {body.id: body.body for body in standard_bodies("children", 6, 1, None)}
    for name, body in bodies.items():
        made = make_pattern(design.text(), design.draft, body, dict(design.settled))
        assert isinstance(made, Made), made.problems
        for fabric in made.pattern.fabrics:
            if items := items_for(made.pattern, fabric.name):
                problems = cannot_lay(items, fabric)
                assert not problems, f"{name}, {fabric.title}: {problems[0].message}"
