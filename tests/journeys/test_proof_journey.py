"""The designer and the gate: a design that fails somewhere is on sale only with a share she accepted, eyes open."""

import re

import pytest
from playwright.sync_api import expect

pytestmark = pytest.mark.browser

DESK = 1280
PASSWORD = "four quiet unrelated words"
TITLE = "Saltmarsh blouse"


def sign_in(page, shop):
    """By the one-time link, or with the password that another journey has set by it."""
    page.goto(shop.password_link)
    if page.get_by_label("New password").count():
        page.get_by_label("New password").fill(PASSWORD)
        page.get_by_role("button", name="Set password and sign in").click()
    else:
        page.goto("/studio/sign-in")
        page.get_by_label("E-mail").fill("ottilie@cotter-row.example")
        page.get_by_label("Password").fill(PASSWORD)
        page.get_by_role("button", name="Sign in").click()
    expect(page.get_by_role("heading", level=1)).to_have_text("Studio")


def accept(page, share):
    page.get_by_label("Share of the bodies that is enough").fill(share)
    page.get_by_label(re.compile("I have looked at the bodies that fail")).check()
    page.get_by_role("button", name="Accept this share").click()
    expect(page.get_by_role("status")).to_contain_text(f"{share} % of the bodies is enough, by Ottilie Brack.")


def test_the_designer_looks_at_what_fails_and_decides_what_is_enough(open_page, shop):
    page = open_page(DESK)
    sign_in(page, shop)
    page.get_by_role("link", name=f"Proof of {TITLE}").click()
    expect(page.get_by_text(re.compile(r"\d+ of \d+ bodies hold"))).to_be_visible()

    page.locator("svg.bodies a.failed").first.click()
    expect(page.locator("#body .findings li").first).to_be_visible()
    page.locator("svg.bodies a.held").first.click()
    expect(page.locator("#body svg")).to_be_visible()

    accept(page, "100")
    page.goto("/studio")
    page.get_by_role("button", name=f"Take off sale {TITLE}").click()
    page.get_by_role("button", name=f"Put on sale {TITLE}").click()
    expect(page.get_by_role("status")).to_contain_text("100.0% are asked for")

    page.get_by_role("link", name=f"Proof of {TITLE}").click()
    accept(page, "98")
    page.goto("/studio")
    page.get_by_role("button", name=f"Put on sale {TITLE}").click()
    expect(page.get_by_role("status")).to_contain_text(f"{TITLE} is on sale.")
    page.goto("/patterns/saltmarsh-blouse")
    expect(page.get_by_text(re.compile("Proved on .* bodies from bust"))).to_be_visible()
