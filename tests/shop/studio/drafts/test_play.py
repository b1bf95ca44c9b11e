"""Playing a draft back: which frame a line leads to, what it says it drew, and the ways to the other frames."""

import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from app.shop.studio.access import ListingVersion
from app.shop.studio.drafts.check import draft_source, draw_source
from app.shop.studio.drafts.form import DraftEntry
from app.shop.studio.drafts.parts import lines_of
from app.shop.studio.drafts.play import MOST_OLDER, work_out_frame
from app.shop.studio.drafts.play_view import kept_play_page, sent_play_page
from tests.places import APRON
from tests.proved import SMALL_DRAFT
from tests.shop.unsaved import a_listing, a_version

ROWS = APRON.split("\n")
SUBJECT = draft_source(APRON, "apron.draft", {})
LINES = lines_of(draw_source(SUBJECT, "size 92"))
#: A sheet in which every kind of figure is named.
FIGURES = SMALL_DRAFT.replace(
    "    a = at 0, 0\n",
    "    a = at 0, 0\n    quarter = hip_girth / 4\n    turn = 30deg\n    twice = 2\n    patch = quarter * quarter\n",
)


def line_of(words, rows=ROWS):
    return next(number for number, row in enumerate(rows, 1) if words in row)


def play(words, text=APRON, size="size 92"):
    return work_out_frame(draft_source(text, "apron.draft", {}), size, line_of(words, text.split("\n")))


# ---- one frame


def test_a_line_that_draws_shows_its_own_frame():
    played = play("top_side = top_fold")
    assert played.line == line_of("top_side = top_fold")
    assert played.words == "top_side = top_fold right across * gathering"
    assert (played.sheet, played.stopped) == ("skirt", "")
    assert played.drawing.startswith("<svg")


def test_a_line_that_draws_nothing_shows_the_last_one_before_it_in_its_sheet():
    assert play("piece skirt").line == LINES["band"][-1]
    assert play("sheet band").line == LINES["skirt"][-1]


@pytest.mark.parametrize("line", [0, 1, 5])
def test_a_line_above_the_first_sheet_shows_its_first_frame(line):
    played = work_out_frame(SUBJECT, "size 92", line)
    assert (played.sheet, played.line) == ("skirt", LINES["skirt"][0])


@settings(max_examples=25, deadline=None)
@given(st.integers(0, 999_999))
def test_any_line_leads_to_a_frame_of_its_sheet(line):
    played = work_out_frame(SUBJECT, "size 92", line)
    assert played.line in played.lines == LINES[played.sheet]
    assert played.line <= max(line, LINES["skirt"][0])


def test_the_sheets_are_listed_each_with_the_line_it_begins_to_draw_at():
    assert play("across ").sheets == (("skirt", LINES["skirt"][0]), ("band", LINES["band"][0]))


def test_what_a_line_measured_is_told_as_what_it_is():
    # The chart's size 92 has hips of 98 cm: a quarter of them is 24.5 cm.
    told = {pair.title: pair.words for words in ("quarter =", "turn =", "twice =", "patch =")
            for pair in play(words, FIGURES).measures}  # fmt: skip
    quarter = float(told["quarter"].removesuffix(" cm"))
    assert told["turn"] == "30.0°"
    assert told["twice"] == "2"
    assert float(told["patch"].removesuffix(" cm²")) == pytest.approx(quarter**2, rel=0.01)


def test_a_name_of_several_words_is_told_as_words():
    text = FIGURES.replace("quarter", "quarter_hip")
    assert [pair.title for pair in play("quarter_hip =", text).measures] == ["quarter hip"]


def test_a_figure_is_drawn_for_the_size_that_was_asked_for():
    small, large = (play("quarter =", FIGURES, size).measures[0].words for size in ("size 80", "size 110"))
    assert float(small.removesuffix(" cm")) < float(large.removesuffix(" cm"))
    assert play("quarter =", FIGURES, "size 7").measures == play("quarter =", FIGURES, "").measures


def test_a_later_frame_shows_all_that_an_earlier_one_does():
    first, last = (work_out_frame(SUBJECT, "size 92", LINES["skirt"][at]) for at in (1, -1))
    labels = [set(re.findall(r">([^<>]+)</text>", played.drawing)) for played in (first, last)]
    assert labels[0] == {"top fold"}
    assert {"top fold", "hem fold", "top side"} <= labels[1]
    box = [re.search(r'viewBox="([^"]+)"', played.drawing)[1] for played in (first, last)]
    assert box[0] == box[1], "the frame stands still while the drawing grows"


def test_where_drawing_stops_the_line_and_the_remedy_are_told_at_every_frame():
    text = APRON.replace("hem_side = top_side down length", "hem_side = top_side down length * sin(arccos(2))")
    for words in ("across ", "top_side ="):
        played = play(words, text)
        assert played.stopped.startswith(f"Line {line_of('hem_side', text.split(chr(10)))}: ")
        assert played.stopped.endswith(".")
    assert play("centre   =", text).line == line_of("top_side =")


@pytest.mark.parametrize("text", ["", "draft", APRON.replace("top_fold down", "top_fold dwon"), 'draft "x"\n'])
def test_a_text_that_cannot_be_read_or_draws_nothing_has_no_frame(text):
    assert work_out_frame(draft_source(text, "x.draft", {}), "", 1) is None


def test_a_line_repeated_without_end_shows_only_so_much():
    rows = "".join(f"    p{number} = at {number}mm, 0\n" for number in range(MOST_OLDER + 40))
    text = SMALL_DRAFT.replace("    a = at 0, 0\n", f"{rows}    a = at 0, 0\n")
    drawing = play("a = at 0, 0", text).drawing
    assert drawing.count('class="fill-ink"') == MOST_OLDER
    assert drawing.count('class="fill-accent"') == 1


# ---- the page round it


def kept(line, size="size 92", text=APRON):
    version = a_version(3, text)
    return kept_play_page(ListingVersion(a_listing(version), version), line, size)


def test_a_kept_version_is_played_by_links_that_keep_the_size():
    page = kept(LINES["skirt"][2], "size 110")
    assert (page.of, page.sent, page.text) == ("Version 3", False, "")
    assert page.address == "/studio/listings/linnet-apron/versions/3/lines"
    way = {step.way: step for step in page.ways}
    assert way["next"].address == f"{page.address}?line={LINES['skirt'][3]}&size=size+110#sheet"
    assert way["previous"].address.startswith(f"{page.address}?line={LINES['skirt'][1]}&")
    assert [option.value for option in page.size.options if option.chosen] == ["size 110"]


def test_the_first_and_the_last_frame_have_no_way_beyond_them():
    first, last = kept(LINES["skirt"][0]), kept(LINES["skirt"][-1])
    count = len(LINES["skirt"])
    assert [step.line for step in first.ways] == [0, 0, LINES["skirt"][1], LINES["skirt"][-1]]
    assert [step.line for step in last.ways] == [LINES["skirt"][0], LINES["skirt"][-2], 0, 0]
    assert [bool(step.address) for step in first.ways] == [False, False, True, True]
    assert (first.place, last.place) == (f"1 of {count}", f"{count} of {count}")
    assert [step.title for step in first.ways] == ["First", "Previous", "Next", "Last"]


def test_every_line_of_the_sheet_is_listed_as_it_is_written_and_the_shown_one_is_marked():
    page = kept(LINES["band"][1])
    assert [step.line for step in page.lines] == list(LINES["band"])
    assert [step.title for step in page.lines] == [" ".join(ROWS[line - 1].split()) for line in LINES["band"]]
    assert [step.line for step in page.lines if step.here] == [LINES["band"][1]]
    assert [(step.title, step.here) for step in page.sheets] == [("skirt", False), ("band", True)]


def test_a_text_that_was_sent_is_played_by_buttons_and_comes_along():
    page = sent_play_page(a_listing(), DraftEntry(APRON, "size 92", LINES["skirt"][2]))
    assert (page.of, page.sent, page.text) == ("The text in the editor", True, APRON)
    assert page.address == "/studio/listings/linnet-apron/draft/lines"
    assert not any(step.address for step in (*page.ways, *page.lines, *page.sheets))
    assert {step.way: step.line for step in page.ways}["next"] == LINES["skirt"][3]


def test_what_a_listing_settles_is_played_as_settled():
    long = sent_play_page(a_listing(settled={"length": 800.0}), DraftEntry(APRON, "size 92", line_of("hem_fold =")))
    open_ = sent_play_page(a_listing(), DraftEntry(APRON, "size 92", line_of("hem_fold =")))
    assert long.drawing != open_.drawing


def test_a_text_with_a_sign_that_nobody_can_see_is_not_played():
    assert kept(1, text="") is None
    assert sent_play_page(a_listing(), DraftEntry("dr\x00aft")) is None
