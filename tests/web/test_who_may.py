"""Every address of the shop, asked for by everybody: who may look, who may change, and what is not there for anyone."""

import re

import pytest

from app.shop.catalogue.service import listing_by_slug
from app.shop.orders.service import Customer, FittingEntry, place_order, save_fitting
from app.shop.studio.desk.service import listing as listing_of
from tests.routes import all_routes
from tests.standing import standing_shop

ENTRY = FittingEntry({}, {"waist_girth": 760.0, "hip_girth": 1000.0, "waist_to_hip": 210.0}, {}, "cm", "a4", {})
SIGN_IN = "/studio/sign-in"

#: Every address, with its parts put in: who may get it. "all" is everybody, "designer" is she alone.
ADDRESSES = {
    ("GET", "/healthz"): "all",
    ("GET", "/"): "all",
    ("GET", "/patterns/{slug}"): "all",
    ("GET", "/how-it-works"): "all",
    ("GET", "/privacy"): "all",
    ("GET", "/about"): "all",
    ("GET", "/patterns/{slug}/measure"): "all",
    ("POST", "/patterns/{slug}/measure"): "all",
    ("GET", "/fittings/{token}/edit"): "all",
    ("POST", "/fittings/{token}/renew"): "all",
    ("GET", "/fittings/{token}"): "all",
    ("GET", "/fittings/{token}/fabric"): "all",
    ("POST", "/fittings/{token}/fold/{fabric}"): "all",
    ("POST", "/fittings/{token}/order"): "all",
    ("GET", "/orders/{token}"): "all",
    ("GET", "/orders/{token}/state"): "all",
    ("GET", "/orders/{token}/files/{name}"): "all",
    ("GET", "/studio/sign-in"): "all",
    ("POST", "/studio/sign-in"): "all",
    ("POST", "/studio/sign-out"): "all",
    ("GET", "/password/{token}"): "all",
    ("POST", "/password/{token}"): "all",
    ("GET", "/studio/sign-ins"): "designer",
    ("POST", "/studio/sign-out-everywhere"): "designer",
    ("GET", "/studio"): "designer",
    ("POST", "/studio/listings/{slug}/versions/{number}/sell"): "designer",
    ("POST", "/studio/listings/{slug}/unpublish"): "designer",
    ("POST", "/studio/listings/{slug}/price"): "designer",
    ("GET", "/studio/orders/{number}"): "designer",
    ("POST", "/studio/orders/{number}/rebuild"): "designer",
    ("POST", "/studio/orders/{number}/current-draft"): "designer",
    ("POST", "/studio/orders/{number}/cancel"): "designer",
    ("GET", "/studio/new-design"): "designer",
    ("POST", "/studio/new-design"): "designer",
    ("GET", "/studio/listings/{slug}/another"): "designer",
    ("POST", "/studio/listings/{slug}/another"): "designer",
    ("GET", "/studio/listings/{slug}/words"): "designer",
    ("POST", "/studio/listings/{slug}/words"): "designer",
    ("GET", "/studio/listings/{slug}/draft"): "designer",
    ("POST", "/studio/listings/{slug}/draft"): "designer",
    ("POST", "/studio/listings/{slug}/draft/keep"): "designer",
    ("POST", "/studio/listings/{slug}/draft/lines"): "designer",
    ("GET", "/studio/listings/{slug}/versions/{number}/lines"): "designer",
    ("GET", "/studio/listings/{slug}/versions/{number}/proof"): "designer",
    ("GET", "/studio/listings/{slug}/versions/{number}/proof/state"): "designer",
    ("POST", "/studio/listings/{slug}/versions/{number}/proof/again"): "designer",
    ("POST", "/studio/listings/{slug}/versions/{number}/proof/accept"): "designer",
    ("POST", "/studio/listings/{slug}/versions/{number}/proof/accept-warning"): "designer",
    ("GET", "/studio/guide"): "designer",
    ("GET", "/studio/guide/{name}"): "designer",
}
HERS = [key for key, who in ADDRESSES.items() if who == "designer"]
PUBLIC_PAGES = [path for (method, path), who in ADDRESSES.items() if who == "all" and method == "GET"]
POSTS = [path for method, path in ADDRESSES if method == "POST"]
#: Addresses with a part in them that names something: with another name there is nothing.
NAMING = [path for method, path in ADDRESSES if method == "GET" and "{" in path]
TITLES = [path.replace("{", "").replace("}", "") for path in NAMING]


@pytest.fixture(scope="module")
def shop(migrated, tmp_path_factory):
    """One shop for all tests here: none of them gets anything changed."""
    with standing_shop(migrated, tmp_path_factory.mktemp("shop")) as shop:
        yield shop


@pytest.fixture(scope="module")
def parts(shop):
    """What stands for each part of an address: a real design, order and fitting of this shop."""
    with shop.database.writing() as session:
        listing = listing_by_slug(session, "fernhill-skirt")
        fitting = save_fitting(session, listing, ENTRY)
        order = place_order(session, shop.app.state.queue, fitting, Customer("Ana Quill"))
        return {
            "slug": "fernhill-skirt", "number": "1", "fabric": "main", "name": "parts.html",
            "order": order.number, "order_token": order.token, "token": fitting.token,
        }  # fmt: skip


def address(path, parts):
    """The address with every part put in."""
    given = dict(parts)
    if path.startswith("/orders/"):
        given |= {"token": parts["order_token"], "name": "report.json"}
    if path.startswith("/studio/orders/"):
        given["number"] = parts["order"]
    if path.startswith("/password/"):
        given["token"] = "x" * 32
    return path.format(**given)


def test_every_address_of_the_shop_is_looked_at_here(app):
    found = {
        (method, route.path) for route in all_routes(app) if hasattr(route, "endpoint") for method in route.methods
    }
    assert found == set(ADDRESSES)


# ---- a stranger


@pytest.mark.parametrize(("method", "path"), HERS, ids=lambda value: value)
def test_a_stranger_is_led_to_the_sign_in_page_and_changes_nothing(shop, parts, method, path):
    where = address(path, parts)
    if method == "GET":
        assert shop.visitor.get(where).path == SIGN_IN
        return
    token = shop.visitor.get(SIGN_IN).form()["form_token"]
    assert shop.visitor.post(where, {"form_token": token, "price": "1", "title": "x"}).path == SIGN_IN


@pytest.mark.parametrize("path", PUBLIC_PAGES)
def test_anybody_may_look_at_what_is_public(shop, parts, path):
    page = shop.visitor.get(address(path, parts))
    gone = path.startswith("/password/") or path.endswith("/files/{name}")
    # Nobody builds in this shop, of which its health warns; the link is none, and the order has no files yet.
    assert page.status == (404 if gone else 200)
    assert "Traceback" not in page.html


def test_nothing_public_tells_of_a_customer(shop, parts):
    for path in ("/", "/patterns/fernhill-skirt", "/how-it-works", "/privacy", "/about", "/healthz", SIGN_IN):
        html = shop.visitor.get(path).html
        assert "Ana Quill" not in html
        assert parts["order"] not in html
        assert parts["order_token"] not in html


# ---- forms


@pytest.mark.parametrize("path", POSTS)
@pytest.mark.parametrize("token", [None, "", "planted"])
def test_no_form_is_taken_without_its_own_token_whoever_sends_it(shop, parts, path, token):
    """Held against a page of another site that sends the form with the visitor's cookies."""
    fields = {} if token is None else {"form_token": token}
    for person in (shop.visitor, shop.designer):
        page = person.post(address(path, parts), fields)
        assert page.status == 403, page.status
        assert shop.designer.get("/studio").status == 200, "nobody was signed out by it"


@pytest.mark.parametrize("path", sorted(set(POSTS) - {path for method, path in ADDRESSES if method == "GET"}))
def test_what_only_takes_forms_shows_nothing(shop, parts, path):
    assert shop.designer.get(address(path, parts)).status in (404, 405)


@pytest.mark.parametrize(("method", "path"), list(ADDRESSES), ids=lambda value: value)
def test_no_address_takes_a_method_that_it_does_not_know(shop, parts, method, path):
    answer = shop.visitor.ask("DELETE", address(path, parts))
    assert answer.status == 405
    assert "GET" in answer.headers["allow"] or "POST" in answer.headers["allow"]


# ---- what is not there


@pytest.mark.parametrize("path", NAMING, ids=TITLES)
def test_what_is_not_there_is_not_found_by_anybody(shop, path):
    for name in ("nothing", "..%2f..%2fetc%2fpasswd", "%00", "'%20OR%20'1'='1", "x" * 300, "%F0%9F%A7%B5"):
        where = re.sub(r"\{\w+\}", name, path)
        page = shop.designer.get(where)
        assert page.status == 404, where
        assert "Traceback" not in page.html
        assert "passwd" not in page.words


@pytest.mark.parametrize("number", ["0", "2", "-1", "1.0", "١", "1e0", "9" * 20])
@pytest.mark.parametrize("page", ["lines", "proof", "proof/state"])
def test_a_version_is_found_by_its_number_alone(shop, number, page):
    assert shop.designer.get(f"/studio/listings/fernhill-skirt/versions/{number}/{page}").status == 404
    assert shop.designer.get(f"/studio/listings/fernhill-skirt/versions/1/{page}").status == 200


def test_a_token_with_one_letter_changed_opens_nothing(shop, parts):
    for kind, token in (("fittings", parts["token"]), ("orders", parts["order_token"])):
        assert shop.visitor.get(f"/{kind}/{token}").status == 200
        for other in (token[:-1], token + "A", token.swapcase(), token[::-1]):
            assert shop.visitor.get(f"/{kind}/{other}").status == 404


def test_after_all_of_this_the_shop_stands_as_it_did(shop, parts):
    with shop.database.reading() as session:
        listing = listing_of(session, "fernhill-skirt")
        assert (listing.published, listing.price_cents, listing.title) == (True, 1200, "Fernhill skirt")
        assert listing_of(session, "x") is None
    assert "placed" in shop.designer.get(f"/studio/orders/{parts['order']}").words
