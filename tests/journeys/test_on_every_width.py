"""The pages hold on a phone and at a desk: nothing runs out of the page, everything can be hit with a thumb.

Outside: Web Content Accessibility Guidelines 2.2, criteria 1.4.10 (reflow at 320 CSS pixels) and 2.5.8 (targets of
at least 24 by 24 CSS pixels, or links within a sentence).
"""

import pytest

pytestmark = pytest.mark.browser

PATHS = [
    "/",
    "/patterns/larkspur-tunic",
    "/patterns/saltmarsh-blouse/measure",
    "/how-it-works",
    "/privacy",
    "/about",
    "/studio/sign-in",
    "/nothing-here",
]
SMALL_TARGETS = """() => [...document.querySelectorAll("button, input, select, summary, nav a, footer a, .button")]
  .filter((part) => part.type !== "hidden" && !part.closest("[aria-hidden=true]"))
  .map((part) => [part.outerHTML.slice(0, 80), part.getBoundingClientRect()])
  .filter(([, box]) => box.width < 24 || box.height < 24)
  .map(([words]) => words)"""


@pytest.mark.parametrize("width", [320, 375, 1280])
def test_no_page_runs_out_of_its_width(open_page, width):
    page = open_page(width)
    for path in PATHS:
        page.goto(path)
        assert page.evaluate("document.documentElement.scrollWidth") <= width, path


def test_everything_to_press_is_large_enough(open_page):
    page = open_page(375)
    for path in PATHS:
        page.goto(path)
        assert page.evaluate(SMALL_TARGETS) == [], path


def test_the_keyboard_reaches_the_main_part_at_once(open_page):
    page = open_page(1280)
    page.goto("/patterns/fernhill-skirt/measure")
    page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.className") == "skip"
    page.keyboard.press("Enter")
    assert page.evaluate("document.activeElement.id") == "main"
