"""The draft page as a designer meets it: blank, checked, refused, on trial, proved, sold, and beside older versions."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from app.pattern.checks import CHECKS
from app.pattern.make import DraftCard, read_draft
from app.shop.proofs.models import ProofState
from app.shop.studio.designs.form import read_design
from app.shop.studio.desk.service import VersionRow
from app.shop.studio.drafts.check import draft_source, read_text
from app.shop.studio.drafts.form import DraftEntry, read_entry
from app.shop.studio.drafts.service import DraftHistory, KeptText
from app.shop.studio.drafts.view import begun_text, draft_page, first_text, formatted_entry, label_of, size_field
from tests.places import APRON
from tests.proved import SMALL_DRAFT, small_draft
from tests.shop.unsaved import MOMENT, a_listing, a_proof, a_version

PROVED = a_proof()
WAITING = a_proof(ProofState.WAITING, summary={})
RUNNING = a_proof(ProofState.RUNNING, summary={}, done=37)
FAILED = a_proof(ProofState.FAILED, summary={})
SHORT = a_proof(share=0.9)


def row(number, proof=PROVED):
    return VersionRow(number, MOMENT, proof)


def desk(*rows, sold=None, text=SMALL_DRAFT, **listing):
    """A listing with these versions, newest first, on sale by the one numbered `sold`."""
    versions = {each.number: a_version(each.number, f"{text}# {each.number}\n") for each in rows}
    current = versions[sold] if sold else None
    newest = versions[rows[0].number] if rows else None
    return DraftHistory(a_listing(current, **listing), newest, rows)


def page(desk, text=SMALL_DRAFT, **more):
    return draft_page(desk, DraftEntry(text, **more))


# ---- how the newest version stands


@pytest.mark.parametrize(
    ("where", "standing", "sell"),
    [
        (desk(), "No version is kept yet.", 0),
        (desk(row(1, None)), "Version 1 is on trial: not asked for yet. This version of the draft is not proved.", 0),
        (
            desk(row(1, WAITING)),
            "Version 1 is on trial: waits for a worker. This version of the draft is not proved.",
            0,
        ),
        (
            desk(row(1, RUNNING)),
            "Version 1 is on trial: 37 % worked out. This version of the draft is not proved.",
            0,
        ),
        (
            desk(row(1, FAILED)),
            "Version 1 is on trial: could not be worked out. This version of the draft could not be proved.",
            0,
        ),
        (desk(row(1)), "Version 1 is proved and can go on sale.", 1),
        (desk(row(1), sold=1), "Version 1 is on sale.", 0),
        (desk(row(1), sold=1, published=False), "Version 1 is proved and can go on sale.", 1),
        (
            desk(row(2), row(1), sold=1),
            "Version 2 is proved and can go on sale. Version 1 stays on sale meanwhile.",
            2,
        ),
        (
            desk(row(3, WAITING), row(2), row(1), sold=2),
            "Version 3 is on trial: waits for a worker. This version of the draft is not proved. "
            "Version 2 stays on sale meanwhile.",
            0,
        ),
        (
            desk(row(2, WAITING), row(1), sold=1, published=False),
            "Version 2 is on trial: waits for a worker. This version of the draft is not proved.",
            0,
        ),
        (
            desk(row(2, SHORT), row(1), sold=1),
            "Version 2 is on trial: 90 of 100 bodies hold (90 %). This draft held on 90.0% of the bodies, "
            "and 100.0% are asked for. Version 1 stays on sale meanwhile.",
            0,
        ),
    ],
)
def test_it_is_told_how_the_newest_version_stands_and_whether_it_can_be_sold(where, standing, sell):
    shown = page(where)
    assert (shown.standing, shown.sell) == (standing, sell)


def test_every_version_is_listed_with_its_proof_and_the_way_to_sell_it():
    shown = page(desk(row(4, WAITING), row(3), row(2), row(1, FAILED), sold=2))
    assert [(each.number, each.on_sale, each.sells) for each in shown.versions] == [
        (4, False, False),
        (3, False, True),
        (2, True, False),
        (1, False, False),
    ]
    assert [each.proof for each in shown.versions][3] == "could not be worked out"
    assert {each.kept for each in shown.versions} == {"5 March 2026"}


def test_off_sale_no_version_is_on_sale_and_each_proved_one_can_be():
    shown = page(desk(row(2), row(1), sold=1, published=False))
    assert [(each.on_sale, each.sells) for each in shown.versions] == [(False, True), (False, True)]


# ---- what became of the text


def test_a_blank_page_is_neither_checked_nor_drawn():
    for text in ("", "  \n\n", first_text(a_listing())):
        shown = page(desk(), text)
        assert (shown.checked, shown.told, shown.tone) == (False, "", "good")
        assert (shown.problems, shown.rows, shown.outline, shown.look) == ((), (), (), None)
        assert shown.size is None


def test_a_text_that_holds_is_told_so_with_its_rows_outline_and_drawing():
    shown = page(desk(), size="size 104")
    assert shown.told.startswith("The text reads well and can be drawn. All ")
    assert shown.tone == "good"
    assert shown.size_words == "size 104"
    assert len(shown.rows) == len(SMALL_DRAFT.split("\n"))
    assert next(group.title for group in shown.outline) == "Measurements"


def test_a_text_that_cannot_be_read_counts_what_is_to_mend_and_marks_the_rows():
    text = SMALL_DRAFT.replace("a right", "a rihgt").replace("d down", "d").replace("cut 1 main", "cut 1 mian")
    shown = page(desk(), text)
    assert shown.tone == "wrong"
    assert shown.told == f"{len(shown.problems)} things to mend in the text."
    assert {each.number for each in shown.rows if each.wrong} == {problem.line for problem in shown.problems}
    assert shown.look is None
    assert shown.size is None


def test_one_thing_to_mend_is_one_thing():
    assert page(desk(), SMALL_DRAFT.replace("a right", "a rihgt")).told == "1 thing to mend in the text."


def test_a_text_that_cannot_be_drawn_for_the_body_is_warned_of_and_not_called_wrong():
    shown = page(desk(), SMALL_DRAFT.replace("hip_girth / 4", "hip_girth * sin(arccos(hip_girth / 50cm))"))
    assert shown.told == "The text reads well, but nothing can be drawn from it for this body."
    assert (shown.tone, shown.problems) == ("warn", ())


def test_a_check_that_fails_is_warned_of():
    shown = page(desk(), APRON.replace("gather 1.2..2.1", "gather 2.5..3"))
    assert shown.tone == "warn"
    assert f"1 of {len(CHECKS) + 1} checks does not hold." in shown.told


def test_advice_hinders_nothing_and_is_told_below():
    shown = page(desk(), APRON)
    assert {advice.kind for advice in shown.advice} == {"slight"}
    assert shown.told.endswith(" Advice on it stands below; it can be kept all the same.")
    assert shown.tone == "good"


def test_what_was_not_done_is_told_instead_of_what_was_found():
    shown = draft_page(desk(), DraftEntry(SMALL_DRAFT), label="Not kept yet", refused="Nothing was kept.")
    assert (shown.told, shown.tone, shown.label) == ("Nothing was kept.", "wrong", "Not kept yet")


def test_a_text_with_a_sign_that_nobody_can_see_is_told_and_neither_read_nor_drawn():
    entry = read_entry({"text": SMALL_DRAFT + "\x07"}, b"", 0)
    shown = draft_page(desk(), entry)
    assert [problem.message for problem in shown.problems] == ["Line 23 holds a sign that nobody can see."]
    assert (shown.told, shown.tone, shown.outline) == ("1 thing to mend in the text.", "wrong", ())
    assert shown.text == entry.text


def test_what_a_file_took_the_place_of_stands_below():
    assert page(desk(), instead="draft").instead == "draft"


# ---- settled choices


def test_what_is_settled_is_told_with_what_it_means_for_the_draft():
    where = desk(row(1), text=APRON, settled={"length": 620.0})
    shown = page(where, APRON)
    assert shown.settled == (
        "Settled: length 62 cm. That stays for good: its draft must offer it, and is drawn so here."
    )
    assert page(desk(row(1), text=APRON), APRON).settled == ""


def test_a_text_that_lacks_what_is_settled_is_told_so():
    shown = page(desk(settled={"length": 620.0}), SMALL_DRAFT)
    assert shown.tone == "wrong"
    assert "This draft has no choice “length”." in shown.problems[0].message


# ---- changes, labels and sizes


def test_changes_are_those_of_the_newest_version_to_the_one_that_orders_use():
    shown = page(desk(row(3, WAITING), row(2), row(1), sold=1))
    assert shown.changes_words == "What version 3 changes in version 1"
    assert [(each.kind, each.text) for each in shown.changes if each.kind in ("gone", "new")] == [
        ("gone", "# 1"), ("new", "# 3"),
    ]  # fmt: skip


@pytest.mark.parametrize("where", [desk(), desk(row(1)), desk(row(1), sold=1)])
def test_without_two_versions_there_is_no_change_to_show(where):
    shown = page(where)
    assert (shown.changes_words, shown.changes) == ("", ())


@pytest.mark.parametrize(
    ("shown", "label"),
    [
        (None, "A first draft"),
        (2, "Version 2"),
        (1, "Version 1, an older one. Kept again, it becomes the newest."),
    ],
)
def test_what_stands_in_the_editor_is_named(shown, label):
    where = desk(row(2), row(1))
    assert label_of(where, a_version(shown) if shown else None) == label


def test_the_sizes_are_offered_in_order_with_the_middle_one_picked():
    reading = read_text(draft_source(SMALL_DRAFT, "x.draft", {}))
    field = size_field(reading, "size of the moon")
    values = [option.value for option in field.options]
    assert values == [size.id for size in reading.sizes]
    [picked] = [option.value for option in field.options if option.chosen]
    assert values.index(picked) == (len(values) - 1) // 2
    assert next(option.title for option in field.options) == values[0].capitalize()


# ---- how a draft begins


@pytest.mark.parametrize("title", ["Garden apron", 'The "Linnet"', "Käthe’s Straßen-Kleid", "50% {off} # \\ apron"])
def test_a_draft_begins_under_its_designs_own_title_and_can_be_read(title):
    listing = a_listing(title=title)
    card = read_draft(begun_text(listing), "x.draft")
    assert isinstance(card, DraftCard), [str(problem) for problem in card]
    assert card.title == title.replace('"', "”")


@settings(max_examples=40, deadline=None)
@given(st.text(min_size=1, max_size=120))
def test_a_draft_can_begin_under_any_title_that_the_shop_takes(title):
    entry = read_design({"title": title, "slug": "x", "level": "confident", "price": "1"}, None, "EUR", 1)
    if entry.words is not None:
        card = read_draft(begun_text(a_listing(title=entry.words.title)), "x.draft")
        assert isinstance(card, DraftCard), [str(problem) for problem in card]


# ---- setting out


def test_a_text_is_set_out_and_everything_else_of_the_entry_stays():
    messy = SMALL_DRAFT.replace("    a = at 0, 0", "    a    =   at 0,0")
    entry, refused = formatted_entry(DraftEntry(messy, "size 92", 3, instead="mine"), "x.draft")
    assert "a = at 0, 0" in " ".join(entry.text.split())
    assert (entry.size, entry.line, entry.instead, refused) == ("size 92", 3, "mine", "")
    again, _ = formatted_entry(entry, "x.draft")
    assert again.text == entry.text


def test_a_text_that_cannot_be_read_is_left_alone_and_told():
    before = DraftEntry(SMALL_DRAFT.replace("a right", "a rihgt"))
    assert formatted_entry(before, "x.draft") == (before, "It is set out once it can be read: mend these lines first.")
    unseen = read_entry({"text": SMALL_DRAFT + "\x07"}, b"", 0)
    assert formatted_entry(unseen, "x.draft")[0] is unseen


# ---- what is told of a kept version


@pytest.mark.parametrize(
    ("kept", "words"),
    [
        (KeptText(a_version(4), changed=True), "Version 4 is kept. A worker proves it by itself."),
        (KeptText(a_version(4), changed=False), "Nothing has changed: version 4 is this very text."),
        (KeptText(a_version(4), changed=True, lacking="There is no piece."), "Version 4 is kept. There is no piece."),
        (
            KeptText(a_version(4), changed=False, lacking="There is no piece."),
            "Nothing has changed: version 4 is this very text.",
        ),
    ],
)
def test_what_became_of_a_kept_text_is_told(kept, words):
    assert kept.notice == words


def test_two_notes_make_two_texts():
    assert small_draft("one") != small_draft("two")
