"""The designer in her draft room: a design of her own from its words to a kept version, with and without scripts."""

import pytest
from playwright.sync_api import expect

from tests.journeys.test_on_every_width import SMALL_TARGETS
from tests.journeys.test_proof_journey import sign_in
from tests.places import APRON

pytestmark = pytest.mark.browser

DESK, PHONE = 1280, 375
WRONG = APRON.replace("top_fold down length", "top_fold dwon length")
#: The line that is spoiled: its number, and the column of its slip.
LINE = WRONG[: WRONG.index("dwon")].count("\n") + 1
COLUMN = WRONG.split("\n")[LINE - 1].index("dwon") + 1
TEXT = "The draft’s text"
#: The pages of one design.
ROOMS = ("draft", "words", "another", "versions/1/lines?line=60")


def add_design(page, name):
    page.get_by_role("link", name="Add a design").click()
    page.get_by_label("Name").fill(name)
    page.get_by_label("How much sewing it asks for").select_option("Good for a first garment")
    page.get_by_label("Price").fill("7")
    page.get_by_role("button", name="Add it and write its draft").click()
    expect(page.get_by_role("heading", level=1)).to_have_text(f"Draft of {name}")


def check(page, text):
    page.get_by_label(TEXT).fill(text)
    page.get_by_role("button", name="Check").click()


def press(page, key):
    """A key on the whole page, once its scripts listen."""
    page.wait_for_load_state()
    page.keyboard.press(key)


def test_a_draft_is_written_mended_played_and_kept(open_page, shop):
    page = open_page(DESK)
    sign_in(page, shop)
    page.get_by_role("link", name="Add a design").click()
    page.get_by_label("Name").fill("Käthe’s apron")
    expect(page.get_by_label("Address in the shop")).to_have_value("kathes-apron")
    page.goto("/studio")
    add_design(page, "Heath apron")

    check(page, WRONG)
    expect(page.get_by_text("1 thing to mend in the text.")).to_be_visible()
    page.get_by_role("link", name=f"Line {LINE}, column {COLUMN}").click()
    picked = page.evaluate("(t => t.value.slice(t.selectionStart, t.selectionEnd))(document.getElementById('text'))")
    assert picked == "dwon length"

    check(page, APRON)
    expect(page.get_by_role("heading", name="Drawn for size 96")).to_be_visible()
    page.get_by_label("Body it is drawn for").select_option("Size 110")
    page.get_by_role("button", name="Check").click()
    expect(page.get_by_role("heading", name="Drawn for size 110")).to_be_visible()

    page.get_by_role("button", name="draw skirt").first.click()
    expect(page.get_by_text("1 of 9")).to_be_visible()
    press(page, "ArrowRight")
    expect(page.get_by_text("2 of 9")).to_be_visible()
    press(page, "End")
    expect(page.get_by_text("9 of 9")).to_be_visible()
    page.get_by_role("button", name="Back to the text").click()
    expect(page.get_by_label(TEXT)).to_have_value(APRON)

    page.get_by_role("button", name="Keep as a new version").click()
    expect(page.get_by_text("Version 1 is kept.")).to_be_visible()
    expect(page.get_by_role("region", name="Versions of the draft")).to_contain_text("1")
    page.get_by_role("link", name="Play version 1").click()
    expect(page.get_by_text("1 of 9")).to_be_visible()
    press(page, "ArrowRight")
    expect(page.get_by_text("2 of 9")).to_be_visible()


def test_another_design_is_made_from_a_draft_and_settles_a_choice(open_page, shop):
    page = open_page(PHONE)
    sign_in(page, shop)
    page.get_by_role("link", name="Draft of Pimpernel bodice").click()
    page.get_by_role("link", name="Make another design from this draft").click()
    expect(page.get_by_text("From the draft of Pimpernel bodice, version 1.")).to_be_visible()
    page.get_by_label("Name").fill("Burnet bodice")
    page.get_by_label("How much sewing it asks for").select_option("For a confident sewer")
    page.get_by_label("Price").fill("15")
    page.get_by_label("Shaped by darts, or by princess seams").select_option("princess")
    page.get_by_label("Depth of the front neckline").fill("60")
    page.get_by_role("button", name="Add it with this draft").click()
    page.get_by_role("link", name="Depth of the front neckline").click()
    neckline = page.get_by_label("Depth of the front neckline")
    expect(neckline).to_be_focused()
    expect(neckline).to_have_value("60")
    neckline.fill("2.5")
    page.get_by_role("button", name="Add it with this draft").click()
    expect(page.get_by_role("heading", level=1)).to_have_text("Draft of Burnet bodice")
    expect(page.get_by_text("Settled: line princess, scoop 2.5 cm.")).to_be_visible()
    expect(page.get_by_text("Version 1 is on trial")).to_be_visible()
    page.goto("/studio")
    expect(page.get_by_text("Settled: line princess, scoop 2.5 cm")).to_be_visible()
    expect(page.get_by_role("link", name="Proof of Burnet bodice, version 1")).to_be_visible()


def test_the_editor_steps_in_with_tab_and_lets_go_after_escape(open_page, shop):
    page = open_page(DESK)
    sign_in(page, shop)
    page.goto("/studio/listings/fernhill-skirt/draft")
    editor = page.get_by_label(TEXT)
    editor.fill("sheet a\nx = at 0, 0\ny = x right 1cm")
    editor.press("Control+End")
    editor.press("Home")
    editor.press("Tab")
    assert editor.input_value().endswith("\n    y = x right 1cm")
    editor.press("Shift+Tab")
    assert editor.input_value().endswith("\ny = x right 1cm")
    editor.press("Escape")
    editor.press("Tab")
    expect(editor).not_to_be_focused()
    assert page.locator(".numbers").inner_text().split() == ["1", "2", "3"]
    page.on("dialog", lambda dialog: dialog.accept())
    page.goto("/studio")


def test_a_file_comes_into_the_editor_and_can_be_undone(open_page, shop, tmp_path):
    page = open_page(DESK)
    sign_in(page, shop)
    page.goto("/studio/listings/fernhill-skirt/draft")
    before = page.get_by_label(TEXT).input_value()
    (tmp_path / "apron.draft").write_text(APRON)
    page.get_by_label("Or take the text of a file").set_input_files(tmp_path / "apron.draft")
    expect(page.get_by_label(TEXT)).to_have_value(APRON)
    page.get_by_label(TEXT).press("Control+z")
    expect(page.get_by_label(TEXT)).to_have_value(before)


def test_all_of_it_works_on_a_phone_without_scripts(open_page, shop, tmp_path):
    page = open_page(PHONE, scripts=False)
    sign_in(page, shop)
    add_design(page, "Moor apron")
    check(page, WRONG)
    expect(page.get_by_text("1 thing to mend in the text.")).to_be_visible()
    expect(page.get_by_label(TEXT)).to_have_value(WRONG)
    page.get_by_role("link", name=f"Line {LINE}, column {COLUMN}").click()
    expect(page.locator(f"#line-{LINE}")).to_be_in_viewport()

    (tmp_path / "apron.draft").write_text(APRON)
    page.get_by_label("Or take the text of a file").set_input_files(tmp_path / "apron.draft")
    page.get_by_role("button", name="Check").click()
    expect(page.get_by_label(TEXT)).to_have_value(APRON)
    page.get_by_text("What stood in the editor before your file").click()
    expect(page.get_by_label("The text before")).to_have_value(WRONG)
    page.get_by_role("button", name=f"Draw up to line {LINE}").click()
    expect(page.get_by_text("3 of 9")).to_be_visible()
    page.get_by_role("button", name="Next").click()
    expect(page.get_by_text("4 of 9")).to_be_visible()
    page.get_by_role("button", name="Back to the text").click()
    page.get_by_role("button", name="Keep as a new version").click()
    expect(page.get_by_text("Version 1 is kept.")).to_be_visible()


@pytest.mark.parametrize("width", [320, PHONE, DESK])
def test_no_page_of_the_draft_room_runs_out_of_its_width(open_page, shop, width):
    page = open_page(width)
    sign_in(page, shop)
    paths = ("/studio", "/studio/new-design", "/studio/guide", "/studio/guide/first-skirt.html")
    listing = "/studio/listings/quillwort-shirt"
    for path in (*paths, *(f"{listing}/{one}" for one in ROOMS)):
        page.goto(path)
        assert page.evaluate("document.documentElement.scrollWidth") <= width, path
        assert page.evaluate(SMALL_TARGETS) == [], path
    page.goto("/studio/listings/fernhill-skirt/draft")
    check(page, WRONG)
    expect(page.get_by_text("to mend in the text").first).to_be_visible()
    assert page.evaluate("document.documentElement.scrollWidth") <= width
