"""A visitor of the demo shop, who goes from page to page and fills in forms as a browser without JavaScript does."""

import asyncio
import re
from functools import cache
from html.parser import HTMLParser

import httpx
import sqlalchemy as sa
from sqlalchemy.orm import joinedload

from app.demo.shop import load_demo
from app.shop.catalogue.models import Listing
from app.shop.catalogue.service import newest_version, put_on_sale
from app.shop.people.passwords import hash_password
from tests.proved import stand_proved

#: Where the demo designs stand proved in these tests, mm.
PROVED = {"hip_girth": (760.0, 1400.0)}
PASSWORD = "four quiet unrelated words"
MEASURES = {"measure-waist_girth": "76", "measure-hip_girth": "100", "measure-waist_to_hip": "21"}
FORM = "/patterns/fernhill-skirt/measure"


class Forms(HTMLParser):
    """Every form of a page with the values that a browser would send back untouched."""

    def __init__(self, html):
        super().__init__()
        self.forms = {}
        self._fields = None
        self._select = None
        self.feed(html)

    def handle_starttag(self, tag, attributes):
        found = dict(attributes)
        if tag == "form":
            self._fields = self.forms.setdefault(found.get("action", ""), {})
        if self._fields is None:
            return
        if tag == "input":
            if found.get("type") != "checkbox" or "checked" in found:
                self._fields[found["name"]] = found.get("value", "")
        elif tag == "select":
            self._select = found["name"]
        elif tag == "option" and self._select and ("selected" in found or self._select not in self._fields):
            self._fields[self._select] = found["value"]

    def handle_endtag(self, tag):
        if tag == "form":
            self._fields = None
        elif tag == "select":
            self._select = None


class Page:
    """An answer as a visitor sees it."""

    def __init__(self, answer):
        self.status = answer.status_code
        self.headers = answer.headers
        self.html = answer.text
        self.path = answer.url.raw_path.decode().partition("?")[0]
        self.forms = Forms(answer.text).forms if "html" in answer.headers.get("content-type", "") else {}
        self.answer = answer

    def form(self, action=None):
        return dict(self.forms[action or self.path])

    @property
    def words(self):
        return re.sub(r"\s+", " ", re.sub(r"<[^>]+>", " ", self.html))


class Visitor:
    """Goes from page to page as a browser without JavaScript does: cookies kept, redirects followed."""

    def __init__(self, app, address="127.0.0.1"):
        self._runner = asyncio.Runner()
        transport = httpx.ASGITransport(app=app, raise_app_exceptions=False, client=(address, 51000))
        self.client = httpx.AsyncClient(transport=transport, base_url="http://shop.test", follow_redirects=True)

    def get(self, path, **more):
        return Page(self._runner.run(self.client.get(path, **more)))

    def post(self, path, fields, **more):
        return Page(self._runner.run(self.client.post(path, data=fields, **more)))

    def ask(self, method, path):
        """Any method at any address, as somebody does who is no browser."""
        return Page(self._runner.run(self.client.request(method, path)))

    def submit(self, page, to=None, **changes):
        """Send a form of the page back with some fields changed; None takes a field out."""
        to = to or page.path
        fields = {**page.form(to), **changes}
        return self.post(to, {name: value for name, value in fields.items() if value is not None})

    def close(self):
        self._runner.run(self.client.aclose())
        self._runner.close()


def load_proved_demo(session):
    """The demo shop, its designs on sale."""
    load_demo(session)
    # Whether the proofs that come with the drafts are up to date is asked in tests/demo/test_prove.py.
    for listing in session.scalars(sa.select(Listing).options(joinedload(Listing.current_version))):
        version = newest_version(session, listing)
        stand_proved(session, version, **PROVED)
        put_on_sale(session, listing, version)


@cache
def stored_password():
    """The designer's password as it is stored, worked out once: hashing is slow on purpose."""
    return hash_password(PASSWORD)
