"""The draft room in the browser: a design added, its draft written, checked, kept, played back and put on sale."""

import re

import pytest

from app.shop.catalogue.service import add_draft_version, newest_version, put_on_sale
from app.shop.orders.service import Customer, FittingEntry, place_order, save_fitting
from app.shop.studio.desk.service import listing as listing_of
from app.shop.studio.drafts.form import MOST_CHARACTERS
from app.shop.studio.guide.view import PAGES
from tests.places import APRON
from tests.proved import stand_proved
from tests.web.test_accessibility import assert_usable

NEW = "/studio/new-design"
LISTING = "/studio/listings/garden-apron"
DRAFT = f"{LISTING}/draft"
WORDS = {"title": "Garden apron", "level": "confident", "price": "7", "description": "For <b>mud</b>."}


@pytest.fixture
def apron(designer):
    """The page of a design that was just added."""
    return designer.submit(designer.get(NEW), to=NEW, **WORDS)


@pytest.fixture
def kept(designer, apron):
    """The draft page after a first version was kept."""
    return send(designer, apron, APRON, "/keep")


def send(designer, page, text, way="", file=None, **more):
    """Send the editor's form by one of its buttons, as a browser does: in parts, with or without a file."""
    files = {"file": ("", b"")} if file is None else {"file": ("a.draft", file)}
    fields = {**page.form(f"{DRAFT}#found"), "text": text.replace("\n", "\r\n"), **more}
    return designer.post(f"{DRAFT}{way}", fields, files=files)


def editor(page):
    return re.search(r'<textarea id="text"[^>]*>\n(.*?)</textarea>', page.html, re.S)[1]


def in_database(database, ask):
    with database.reading() as session:
        return ask(session, listing_of(session, "garden-apron"))


# ---- the words


def test_a_design_is_added_by_its_words_and_is_not_on_sale(designer, visitor, apron):
    assert apron.path == DRAFT
    assert "Garden apron is added. It is not on sale yet" in apron.words
    assert "No version is kept yet." in apron.words
    assert editor(apron) == "draft &#34;Garden apron&#34;\n"
    assert "Garden apron" not in visitor.get("/").words
    assert visitor.get("/patterns/garden-apron").status == 404
    assert 'href="/studio/listings/garden-apron/draft"' in designer.get("/studio").html


def test_what_is_amiss_is_told_at_its_field_and_nothing_typed_is_lost(designer):
    page = designer.submit(designer.get(NEW), to=NEW, **{**WORDS, "price": "much", "level": ""})
    assert page.status == 422
    assert "Choose how much sewing it asks for." in page.words
    assert page.form()["title"] == "Garden apron"
    assert page.form()["price"] == "much"
    assert "For &lt;b&gt;mud&lt;/b&gt;." in page.html
    assert_usable(page)


def test_two_designs_do_not_share_an_address(designer, apron):
    page = designer.submit(designer.get(NEW), to=NEW, **WORDS)
    assert page.status == 422
    assert "Another design has this address." in page.words
    other = designer.submit(page, to=NEW, slug="garden-apron-2", description="x")
    assert other.path == "/studio/listings/garden-apron-2/draft"


def test_the_words_can_be_changed_and_the_address_stays(designer, database, apron):
    page = designer.get(f"{LISTING}/words")
    assert_usable(page)
    changed = designer.submit(page, title="Potting apron", description="For clay.")
    assert "The words of Potting apron are saved." in changed.words
    assert in_database(database, lambda _, listing: (listing.title, listing.slug, listing.price_cents)) == (
        "Potting apron",
        "garden-apron",
        700,
    )
    refused = designer.submit(designer.get(f"{LISTING}/words"), title="", description="kept as typed")
    assert refused.status == 422
    assert "kept as typed" in refused.html


# ---- the text


def test_a_first_draft_may_begin_with_the_guides_skirt(designer, apron):
    page = designer.get(f"{DRAFT}?begin=first-skirt")
    assert editor(page).startswith("draft &#34;Garden apron&#34;\n")
    assert "The text reads well and can be drawn." in page.words


def test_checking_tells_everything_wrong_with_line_column_and_remedy_and_keeps_nothing(designer, database, apron):
    text = APRON.replace("hip_girth", "hip_girht").replace("top_fold down", "top_fold dwon")
    page = send(designer, apron, text)
    assert page.status == 200
    assert "2 things to mend in the text." in page.words
    assert "Line 6, column 18" in page.words
    assert "Did you mean “down”?" in page.words
    assert "<mark>dwon</mark>" in page.html
    assert 'href="#line-6"' in page.html
    assert editor(page) == text.replace('"', "&#34;")
    assert in_database(database, newest_version) is None
    assert_usable(page)


def test_a_text_that_holds_is_drawn_for_the_size_she_picks(designer, apron):
    page = send(designer, apron, APRON, size="size 110")
    assert "Drawn for size 110" in page.words
    assert "checks hold." in page.words
    assert "of cloth 140 cm wide" in page.words
    assert 'class="pattern-preview"' in page.html
    assert page.form(f"{DRAFT}#found")["size"] == "size 110"
    assert "skirt.top to band.lower" in page.words
    assert_usable(page)


def test_setting_out_gives_the_one_layout_and_leaves_alone_what_cannot_be_read(designer, apron):
    loose = APRON.replace("across   =", "across =").replace("    top_fold = at", "    top_fold=at")
    assert editor(send(designer, apron, loose, action="layout")) == APRON.replace('"', "&#34;")
    wrong = loose.replace("at 0, 0", "at 0,")
    page = send(designer, apron, wrong, action="layout")
    assert "It is set out once it can be read" in page.words
    assert editor(page) == wrong.replace('"', "&#34;")


def test_a_file_is_taken_in_place_of_the_text_and_what_stood_there_can_be_copied_back(designer, apron):
    page = send(designer, apron, 'draft "Half written"\n', file=b"\xef\xbb\xbf" + APRON.replace("\n", "\r\n").encode())
    assert editor(page) == APRON.replace('"', "&#34;")
    assert "What stood in the editor before your file" in page.words
    assert "Half written" in page.html


def test_a_file_that_is_no_text_is_told_and_the_editor_stays(designer, apron):
    page = send(designer, apron, 'draft "Half written"\n', file=b"\xff\xd8\xff\xe0JFIF")
    assert "is not plain text" in page.words
    assert "Half written" in editor(page)


def test_markup_in_a_draft_is_shown_as_it_was_typed(designer, apron):
    page = send(designer, apron, 'draft "</textarea><script>alert(1)</script>"\nsheet <i>\n')
    assert "<script>alert" not in page.html
    assert "<i>" not in page.html


def test_a_text_too_long_is_told_plainly_and_given_back(designer, apron):
    long = APRON + "# a long remark\n" * 8_000
    for way in ("", "/keep", "/lines"):
        page = send(designer, apron, long, way)
        assert f"{MOST_CHARACTERS:,} are the most" in page.words, way
        assert editor(page).endswith("# a long remark\n"), way


def test_a_sign_that_nobody_can_see_in_a_file_is_told_with_its_line(designer, apron):
    page = send(designer, apron, APRON, "/keep", file=b'draft "A"\n\nneeds\x00\n')
    assert "Line 3 holds a sign that nobody can see." in page.words


def test_a_sign_that_nobody_can_see_never_comes_from_the_editor(designer, apron):
    page = send(designer, apron, APRON.replace("needs", "ne\x00eds\x0c", 1))
    assert "nobody can see" not in page.words
    assert editor(page) == editor(send(designer, apron, APRON))


def test_advice_is_told_beside_its_line_and_hinders_nothing(designer, database, apron):
    text = APRON.replace("waist_to_hip\n", "waist_to_hip, knee_girth\n")
    page = send(designer, apron, text)
    assert "Advice on it stands below; it can be kept all the same." in page.words
    assert "The measurement knee_girth is asked for and never used." in page.words
    assert '<li class="slight">' in page.html
    assert "to mend in the text" not in page.words
    assert_usable(page)
    assert "Version 1 is kept." in send(designer, page, text, "/keep").words
    assert "Advice on it" not in send(designer, page, APRON.replace(", hip_girth, waist_to_hip", "")).words


BEGUN = APRON[: APRON.index("piece skirt")]


def test_a_draft_without_a_piece_can_be_kept_and_is_told_that_it_is_no_pattern_yet(designer, database, apron):
    page = send(designer, apron, BEGUN)
    assert "There is no piece to cut yet, so this is not a pattern" in page.words
    assert "Trace a piece off a sheet" in page.words
    kept = send(designer, page, BEGUN, "/keep")
    assert "Version 1 is kept. There is no piece to cut yet" in kept.words
    assert "A worker proves it" not in kept.words
    with database.writing() as session:
        listing = listing_of(session, "garden-apron")
        version = newest_version(session, listing)
        stand_proved(session, version)
        assert put_on_sale(session, listing, version).problems[0].code == "catalogue.no-pattern"


# ---- versions


def test_a_text_is_kept_as_a_version_on_trial(designer, database, kept):
    assert kept.path == DRAFT
    assert "Version 1 is kept. A worker proves it by itself." in kept.words
    assert "Version 1 is on trial: waits for a worker." in kept.words
    assert in_database(database, newest_version).text == APRON
    assert in_database(database, lambda _, listing: listing.current_version) is None
    assert "Put version 1 on sale" not in kept.words
    assert_usable(kept)


def test_a_text_that_changes_nothing_is_told_as_that(designer, database, kept):
    again = send(designer, kept, APRON, "/keep")
    assert "Nothing has changed: version 1 is this very text." in again.words
    assert "A worker proves it by itself." not in again.words
    assert in_database(database, newest_version).number == 1


def test_a_text_that_cannot_be_read_is_not_kept_and_not_lost(designer, database, kept):
    wrong = APRON.replace("top_fold down", "top_fold dwon")
    page = send(designer, kept, wrong, "/keep")
    assert page.status == 422
    assert "Nothing was kept" in page.words
    assert "Did you mean “down”?" in page.words
    assert editor(page) == wrong.replace('"', "&#34;")
    assert in_database(database, newest_version).number == 1


def test_a_proved_version_goes_on_sale_by_one_button_and_a_newer_one_waits_beside_it(designer, visitor, database, kept):
    with database.writing() as session:
        stand_proved(session, newest_version(session, listing_of(session, "garden-apron")))
    page = designer.get(DRAFT)
    assert "Version 1 is proved and can go on sale." in page.words
    sold = designer.submit(page, to=f"{LISTING}/versions/1/sell")
    assert "Garden apron is on sale." in sold.words
    assert "Garden apron" in visitor.get("/").words

    longer = APRON.replace("62cm", "64cm")
    page = send(designer, designer.get(DRAFT), longer, "/keep")
    assert "Version 2 is on trial" in page.words
    assert "Version 1 stays on sale meanwhile." in page.words
    assert "What version 2 changes in version 1" in page.words
    assert re.search(r"<del>.*62cm.*</del>", page.html)
    assert re.search(r"<ins>.*64cm.*</ins>", page.html)
    assert in_database(database, lambda _, listing: listing.current_version.number) == 1
    refused = designer.post(f"{LISTING}/versions/2/sell", page.form("/studio/sign-out"))
    assert "This version of the draft is not proved." in refused.words
    assert_usable(page)


def test_an_older_version_can_be_opened_and_sold_again(designer, database, kept):
    with database.writing() as session:
        listing = listing_of(session, "garden-apron")
        old = newest_version(session, listing)
        new = add_draft_version(session, listing, APRON.replace("62cm", "64cm"))
        for version in (old, new):
            stand_proved(session, version)
        put_on_sale(session, listing, new)
    page = designer.get(f"{DRAFT}?version=1")
    assert editor(page) == APRON.replace('"', "&#34;")
    assert "Version 1, an older one." in page.words
    designer.submit(page, to=f"{LISTING}/versions/1/sell")
    assert in_database(database, lambda _, listing: listing.current_version.number) == 1


def test_orders_that_stand_keep_their_version(designer, app, database, kept):
    with database.writing() as session:
        listing = listing_of(session, "garden-apron")
        old = newest_version(session, listing)
        stand_proved(session, old)
        put_on_sale(session, listing, old)
        entry = FittingEntry({}, {"bust_girth": 900.0}, {}, "cm", "a4", {})
        order = place_order(session, app.state.queue, save_fitting(session, listing, entry), Customer())
        new = add_draft_version(session, listing, APRON.replace("62cm", "64cm"))
        stand_proved(session, new)
        put_on_sale(session, listing, new)
        assert order.draft_version is old


def test_what_a_design_settles_is_told_and_a_draft_that_lacks_it_is_not_kept(designer, database):
    path = "/studio/listings/tormentil-bodice/draft"
    page = designer.get(path)
    assert "Settled: line princess. That stays for good" in page.words
    sent = {**page.form(f"{path}#found"), "text": APRON}
    checked, lacking = designer.post(path, sent), designer.post(f"{path}/keep", sent)
    assert (checked.status, lacking.status) == (200, 422)
    for told in (checked, lacking):
        assert "“line” is to be settled as “princess”. This draft has no choice “line”." in told.words
        assert "Settled: line princess" in told.words


# ---- play-back


def test_the_text_in_the_editor_is_played_up_to_any_line(designer, apron):
    line = APRON.split("\n").index("    across   = waist_girth * 0.3") + 1
    page = send(designer, apron, APRON, "/lines", line=str(line), size="size 92")
    assert f"Line {line} across = waist_girth * 0.3" in page.words
    assert "1 of 9" in page.words
    assert re.search(r"<dt>across</dt><dd>\d+(\.\d)? cm</dd>", page.html)
    assert 'data-way="next"' in page.html
    assert 'data-way="previous"' not in page.html
    assert_usable(page)
    following = designer.post(
        f"{DRAFT}/lines", {**page.form(f"{DRAFT}/lines#sheet"), "text": APRON, "line": str(line + 1)}
    )
    assert f"Line {line + 1} top_fold = at 0, 0" in following.words
    back = designer.post(DRAFT, {**following.form(f"{DRAFT}/lines#sheet"), "text": APRON})
    assert editor(back) == APRON.replace('"', "&#34;")


def test_a_kept_version_is_played_by_links(designer, kept):
    page = designer.get(f"{LISTING}/versions/1/lines?size=size+110")
    assert "1 of 9" in page.words
    for way, words in (("next", "2 of 9"), ("last", "9 of 9"), ("previous", "8 of 9"), ("first", "1 of 9")):
        address = re.search(rf'href="([^"]+)" data-way="{way}"', page.html)[1].replace("&amp;", "&")
        assert "size=size+110" in address
        page = designer.get(address.partition("#")[0])
        assert words in page.words
        assert 'class="frame"' in page.html
    band = re.search(r'href="([^"]+)"[^>]*>band</a>', page.html)[1].replace("&amp;", "&")
    assert "1 of 7" in designer.get(band.partition("#")[0]).words
    assert_usable(page)


def test_a_line_between_two_steps_shows_what_stood_before_it(designer, kept):
    piece = APRON.split("\n").index("sheet band") + 1
    assert "9 of 9" in designer.get(f"{LISTING}/versions/1/lines?line={piece}").words
    assert "1 of 9" in designer.get(f"{LISTING}/versions/1/lines?line=nonsense").words
    assert "7 of 7" in designer.get(f"{LISTING}/versions/1/lines?line=99999").words


def test_where_drawing_stops_the_rest_can_still_be_played(designer, apron):
    text = APRON.replace("hem_side = top_side down length", "hem_side = top_side down length * sin(arccos(2))")
    page = send(designer, apron, text, "/lines", line="24")
    assert "For this body drawing stops. Line" in page.words
    assert "of 4" in page.words


def test_a_text_that_cannot_be_read_is_not_played_but_told(designer, apron):
    page = send(designer, apron, APRON.replace("top_fold down", "top_fold dwon"), "/lines", line="20")
    assert page.status == 422
    assert "There is nothing to play yet" in page.words
    assert "Did you mean “down”?" in page.words


# ---- who may enter, and the guide


@pytest.mark.parametrize(
    "path", [NEW, "/studio/listings/fernhill-skirt/draft", "/studio/listings/fernhill-skirt/words",
             "/studio/listings/fernhill-skirt/versions/1/lines", "/studio/guide", "/studio/guide/first-skirt.html"]
)  # fmt: skip
def test_a_stranger_sees_nothing_of_the_draft_room(visitor, path):
    assert visitor.get(path).path == "/studio/sign-in"


def test_a_strangers_check_is_not_answered(visitor):
    token = visitor.get("/studio/sign-in").form()["form_token"]
    page = visitor.post("/studio/listings/fernhill-skirt/draft", {"form_token": token, "text": "draft"})
    assert page.path == "/studio/sign-in"


@pytest.mark.parametrize(
    "path", ["/studio/listings/none/draft", "/studio/listings/none/words", "/studio/guide/none.html",
             "/studio/listings/fernhill-skirt/versions/9/lines"]
)  # fmt: skip
def test_what_is_not_there_is_not_found(designer, path):
    assert designer.get(path).status == 404


@pytest.mark.parametrize("name", ["", *(f"/{name}" for name in PAGES)])
def test_the_guide_stands_in_the_studio(designer, name):
    page = designer.get(f"/studio/guide{name}")
    assert page.status == 200
    assert 'href="/studio/guide/first-skirt.html"' in page.html
    assert "<script" not in page.html
    assert page.html.count('aria-current="page"') == 1
    assert len(re.findall(r"<h1>", page.html)) == 1


def test_a_design_without_a_picture_shows_its_main_piece(designer, visitor, database, kept):
    with database.writing() as session:
        listing = listing_of(session, "garden-apron")
        version = newest_version(session, listing)
        stand_proved(session, version)
        put_on_sale(session, listing, version)
    for path in ("/", "/patterns/garden-apron"):
        page = visitor.get(path)
        assert page.html.count('class="piece-thumbnail"') == 1, path
        assert_usable(page)
