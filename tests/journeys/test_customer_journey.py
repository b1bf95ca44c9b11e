"""A customer on her phone: from the catalogue to the files of her own pattern."""

import re

import pytest
from playwright.sync_api import expect

pytestmark = pytest.mark.browser

PHONE = 375
BUILD_MS = 90_000


def take_measures(page):
    page.get_by_label("Waist girth").fill("76.3")
    page.get_by_label("Hip girth").fill("101")
    page.get_by_label("Waist to hip").fill("21")


def order(page):
    page.get_by_label("Name (if you like)").fill("Rosa Quill")
    page.get_by_role("button", name="Order my free sample").click()
    page.wait_for_url("**/orders/*")


def test_a_customer_measures_reviews_orders_and_downloads(open_page):
    page = open_page(PHONE)
    page.goto("/")
    page.get_by_role("link", name="Fernhill skirt").click()
    page.get_by_role("link", name="Make it to my measure").click()

    page.get_by_role("button", name="Show me my pattern").click()
    expect(page.locator("#field-errors")).to_be_focused()
    page.locator("#field-errors").get_by_role("link").first.click()
    expect(page.get_by_label("Waist girth")).to_be_focused()

    take_measures(page)
    page.get_by_role("button", name="Inches").click()
    expect(page.get_by_label("Waist girth")).to_have_value("30")
    expect(page.get_by_role("button", name="Inches")).to_be_focused()
    page.get_by_role("button", name="Centimetres").click()
    expect(page.get_by_label("Waist girth")).to_have_value("76.3")

    page.get_by_role("button", name="Show me my pattern").click()
    expect(page.get_by_role("heading", level=1)).to_have_text("Your Fernhill skirt")
    expect(page.locator("figure svg")).to_be_visible()
    expect(page.get_by_text(re.compile(r"of cloth 140 cm wide"))).to_be_visible()

    order(page)
    expect(page.get_by_role("heading", level=1)).to_have_text("Ready to print", timeout=BUILD_MS)
    with page.expect_download() as download:
        page.get_by_role("link", name="Download Pattern for A4 paper").click()
    assert download.value.path().read_bytes().startswith(b"%PDF-")


def test_without_javascript_the_whole_way_works_too(open_page):
    page = open_page(PHONE, scripts=False)
    page.goto("/patterns/fernhill-skirt/measure")
    take_measures(page)
    page.get_by_role("button", name="Inches").click()
    expect(page.get_by_label("Waist girth")).to_have_value("30")
    page.get_by_role("button", name="Centimetres").click()
    expect(page.get_by_label("Waist girth")).to_have_value("76.3")
    page.get_by_text("How to take it").first.click()
    page.get_by_role("button", name="Show me my pattern").click()
    page.get_by_role("link", name="Work out the cloth for me").click()
    expect(page.get_by_role("heading", level=1)).to_have_text("The cloth you need")
    page.get_by_role("link", name="Back to your pattern").click()
    order(page)
    expect(page.get_by_role("heading", level=1)).to_have_text("Ready to print", timeout=BUILD_MS)


def test_a_size_fills_the_form_and_a_doubt_is_confirmed(open_page):
    page = open_page(PHONE)
    page.goto("/patterns/fernhill-skirt/measure")
    page.get_by_label("Start from a size").select_option("92")
    page.get_by_role("button", name="Fill in").click()
    expect(page.get_by_text("As in size 92").first).to_be_visible()
    page.get_by_label("Waist girth").fill("114")
    page.get_by_role("button", name="Show me my pattern").click()
    expect(page.locator("#asks")).to_be_focused()
    expect(page.get_by_label("Waist girth")).to_have_value("114")
    for box in page.get_by_label("This is right, I measured twice").all():
        box.check()
    page.get_by_role("button", name="Show me my pattern").click()
    page.wait_for_url("**/fittings/*")


def test_enter_in_a_field_checks_the_form_and_changes_no_unit(open_page):
    page = open_page(PHONE)
    page.goto("/patterns/fernhill-skirt/measure")
    take_measures(page)
    page.get_by_label("Waist girth").press("Enter")
    page.wait_for_url("**/fittings/*")


@pytest.mark.parametrize("scripts", [True, False])
def test_a_cloth_too_narrow_is_told_in_view_before_anything_is_ordered_and_mended_at_its_field(open_page, scripts):
    page = open_page(PHONE, scripts=scripts)
    page.goto("/patterns/fernhill-skirt/measure")
    take_measures(page)
    page.locator("#cloth-main-width").fill("30")
    page.get_by_role("button", name="Show me my pattern").click()
    expect(page.get_by_role("heading", name="Your cloth is too narrow")).to_be_in_viewport()
    expect(page.get_by_text("30 cm is too narrow. Folded along its length").first).to_be_in_viewport()
    expect(page.get_by_role("button", name="Order my free sample")).to_have_count(0)
    page.get_by_role("link", name="Change the cloth").click()
    expect(page.locator("#cloth-main-width")).to_be_in_viewport()
    page.locator("#cloth-main-width").fill("140")
    page.get_by_role("button", name="Show me my pattern").click()
    expect(page.get_by_text("Every check holds.")).to_be_visible()


@pytest.mark.parametrize("scripts", [True, False])
def test_what_is_wrong_with_an_order_comes_into_view(open_page, scripts):
    page = open_page(PHONE, scripts=scripts)
    page.goto("/patterns/fernhill-skirt/measure")
    take_measures(page)
    page.get_by_role("button", name="Show me my pattern").click()
    page.get_by_label("E-mail (if you like)").fill("rosa at example")
    page.get_by_role("button", name="Order my free sample").click()
    if scripts:
        expect(page.get_by_text(re.compile(r"of cloth 140 cm wide"))).to_be_visible()
    expect(page.locator("#field-errors")).to_be_in_viewport()


def test_a_pattern_is_printed_as_it_was_asked_for(open_page):
    page = open_page(PHONE)
    page.goto("/patterns/fernhill-skirt/measure")
    take_measures(page)
    page.get_by_text("Other ways to print").click()
    page.get_by_label("How the sheets meet").select_option("butt")
    page.get_by_label("Add a file for a projector").uncheck()
    page.get_by_role("button", name="Show me my pattern").click()
    expect(page.get_by_text("sheets edge to edge; no file for a projector")).to_be_visible()
    order(page)
    expect(page.get_by_role("heading", level=1)).to_have_text("Ready to print", timeout=BUILD_MS)
    expect(page.get_by_role("link", name="Download Instructions")).to_have_count(1)
    expect(page.get_by_role("link", name="projector")).to_have_count(0)
