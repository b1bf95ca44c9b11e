"""What everybody needs to use the pages: labels, headings in order, words for pictures, linked errors."""

import re
from html.parser import HTMLParser
from pathlib import Path

import pytest

from tests.routes import all_routes

CSS = Path(__file__).parents[2] / "static" / "css"
FORM = "/patterns/fernhill-skirt/measure"
#: Pages that the application cannot name by itself: their address says of what they are.
PAGES = [
    "/patterns/fernhill-skirt",
    FORM,
    "/patterns/larkspur-tunic/measure",
    "/nothing-here",
    "/studio/listings/fernhill-skirt/draft",
    "/studio/listings/fernhill-skirt/words",
]
VOID = {"area", "base", "br", "col", "embed", "hr", "img", "input", "link", "meta", "source", "track", "wbr"}


def test_no_colour_is_used_that_is_not_a_token():
    for sheet in ("base.css", "forms.css", "pages.css"):
        assert not re.findall(r"#[0-9a-fA-F]{3,8}\b(?=[^{]*;)", (CSS / sheet).read_text()), sheet


class Outline(HTMLParser):
    """The parts of a page that accessibility hangs on."""

    def __init__(self, html):
        super().__init__()
        self.ids, self.labels, self.fields, self.images, self.headings, self.links = [], set(), [], [], [], []
        self.described, self.open, self.buttons = [], [], []
        self.language = ""
        self.feed(html)

    def handle_starttag(self, tag, attributes):
        found = dict(attributes)
        if tag not in VOID:
            self.open.append(tag)
        if "id" in found:
            self.ids.append(found["id"])
        self.described += [*found.get("aria-describedby", "").split(), *found.get("aria-labelledby", "").split()]
        if tag == "html":
            self.language = found.get("lang", "")
        if tag == "label":
            self.labels.add(found.get("for"))
        if tag in ("input", "select", "textarea") and found.get("type") != "hidden":
            self.fields.append((found.get("id"), "label" in self.open))
        if tag == "img":
            self.images.append(found)
        if re.fullmatch("h[1-6]", tag):
            self.headings.append(int(tag[1]))
        if tag == "a" and found.get("href", "").startswith("#"):
            self.links.append(found["href"][1:])

    def handle_endtag(self, tag):
        if tag in self.open:
            while self.open.pop() != tag:
                pass


def assert_usable(page):
    outline = Outline(page.html)
    assert outline.language == "en"
    assert len(outline.ids) == len(set(outline.ids)), "an id stands twice"
    assert outline.headings.count(1) == 1, "one h1, the page's own name"
    assert outline.headings[0] == 1
    steps = zip(outline.headings, outline.headings[1:], strict=False)
    assert all(after - before <= 1 for before, after in steps), f"a level is left out: {outline.headings}"
    for field, inside_label in outline.fields:
        assert inside_label or field in outline.labels, f"{field} has no label"
    for image in outline.images:
        assert "alt" in image, f"{image['src']} says nothing to whoever cannot see it"
        assert "width" in image and "height" in image, "the page would jump while it loads"
    assert set(outline.links) <= set(outline.ids), "a link within the page leads nowhere"
    assert set(outline.described) <= set(outline.ids), "a description is missing"
    assert "<title>" in page.html
    assert 'class="skip" href="#main"' in page.html


@pytest.fixture
def pages(app, designer, visitor):
    """Every page that the application has, as whoever may open it sees it."""
    named = {
        route.path
        for route in all_routes(app)
        if "GET" in (getattr(route, "methods", None) or ()) and "{" not in route.path and route.path != "/healthz"
    }
    assert {"/", "/privacy", "/studio", "/studio/new-design"} <= named
    people = {path: designer if path.startswith("/studio") else visitor for path in [*sorted(named), *PAGES]}
    return {path: person.get(path) for path, person in people.items()}


def test_a_page_can_be_used_by_everybody(pages):
    for path, page in pages.items():
        assert page.status == (404 if path == "/nothing-here" else 200), path
        assert_usable(page)


def test_the_forms_with_errors_and_doubts_can_be_used_by_everybody(visitor):
    form = visitor.get(FORM)
    assert_usable(visitor.submit(form))
    doubtful = {"measure-waist_girth": "114", "measure-hip_girth": "100", "measure-waist_to_hip": "21"}
    assert_usable(visitor.submit(form, **doubtful))
    assert_usable(visitor.submit(visitor.get("/studio/sign-in"), email="x", password="y"))


def test_the_pages_of_an_order_can_be_used_by_everybody(visitor, fitted):
    assert_usable(fitted)
    assert_usable(visitor.get(f"{fitted.path}/fabric"))
    assert_usable(visitor.submit(fitted, to=f"{fitted.path}/order", email="x"))
    assert_usable(visitor.submit(fitted, to=f"{fitted.path}/order"))


def test_a_drawing_wider_than_a_phone_says_so_and_is_moved_by_keys_too(fitted):
    """WCAG 2.2, 2.1.1: what is scrolled can be scrolled without a pointer."""
    figure, _, after = fitted.html.partition('<figure class="sheet drawing" tabindex="0">')[2].partition("</figure>")
    assert "<svg" in figure
    assert after.lstrip().startswith('<p class="sideways quiet small">Move the drawing sideways')
    style = (CSS / "pages.css").read_text()
    assert re.search(r"^\.sideways { display: none; }", style, re.M), "it is said only where the drawing is wider"
    assert re.search(r"@media \(max-width: 40rem\) {[^@]*\.drawing \+ \.sideways { display: block;", style)


def test_the_back_room_can_be_used_by_everybody(designer, visitor, fitted, database):
    visitor.submit(fitted, to=f"{fitted.path}/order")
    page = designer.get("/studio")
    assert_usable(page)
    order = re.search(r"/studio/orders/[\w-]+", page.html).group()
    assert_usable(designer.get(order))


def test_no_page_carries_a_script_or_a_style_of_its_own(pages):
    for path, page in pages.items():
        assert not re.search(r"<script(?![^>]*\bsrc=)", page.html), path
        assert not re.search(r"<style|\sstyle=|\son\w+=", page.html), path
