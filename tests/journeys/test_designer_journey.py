"""The designer at her desk: first password, a listing off sale and back, an order looked up."""

import pytest
from playwright.sync_api import expect

pytestmark = pytest.mark.browser

DESK = 1280
PASSWORD = "four quiet unrelated words"


def test_the_designer_sets_her_password_and_minds_her_shop(open_page, shop):
    customer, page = open_page(375), open_page(DESK)
    customer.goto("/patterns/fernhill-skirt/measure")
    for label, value in (("Waist girth", "80"), ("Hip girth", "104"), ("Waist to hip", "21")):
        customer.get_by_label(label).fill(value)
    customer.get_by_role("button", name="Show me my pattern").click()
    customer.get_by_label("Name (if you like)").fill("Philippa Marl")
    customer.get_by_role("button", name="Order my free sample").click()
    customer.wait_for_url("**/orders/*")

    page.goto(shop.password_link)
    page.get_by_label("New password").fill(PASSWORD)
    page.get_by_role("button", name="Set password and sign in").click()
    expect(page.get_by_role("heading", level=1)).to_have_text("Studio")
    page.get_by_role("button", name="Sign out").click()

    page.goto("/studio")
    page.get_by_label("E-mail").fill("ottilie@cotter-row.example")
    page.get_by_label("Password").fill(PASSWORD)
    page.get_by_role("button", name="Sign in").click()

    page.get_by_role("button", name="Take off sale Saltmarsh blouse").click()
    expect(page.get_by_role("status")).to_contain_text("Saltmarsh blouse is no longer on sale.")
    customer.goto("/")
    expect(customer.get_by_role("link", name="Saltmarsh blouse")).to_have_count(0)
    page.get_by_role("button", name="Put on sale Saltmarsh blouse").click()
    customer.goto("/")
    expect(customer.get_by_role("link", name="Saltmarsh blouse")).to_be_visible()

    page.get_by_label("Number, pattern, name or e-mail").fill("marl")
    page.get_by_role("button", name="Find").click()
    page.get_by_role("region", name="Orders found").get_by_role("link").click()
    expect(page.get_by_text("Philippa Marl")).to_be_visible()
