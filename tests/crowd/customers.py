"""Customers who come at once: each opens the form, sends her measurements, looks at her pattern, and orders."""

import asyncio
import html
import re
import time
from collections import Counter
from dataclasses import dataclass, field

import httpx

#: Nobody waits longer than this for a page, seconds: what takes longer counts as unanswered.
PATIENCE = 300.0
#: One customer in so many has the cloth she needs worked out before she orders.
CLOTH_EVERY = 10
_FIELD = re.compile(r"<input\b[^>]*>")
_TEXT = re.compile(r'(\w[\w-]*)="([^"]*)"')


@dataclass
class Seen:
    """What a crowd met with: (what was asked, status or kind of failure, seconds) of each request, and the orders."""

    answers: list = field(default_factory=list)
    orders: list = field(default_factory=list)

    def statuses(self):
        """How often each answer was given to each kind of request."""
        return Counter((what, status) for what, status, _ in self.answers)

    def seconds(self, what):
        """How long each request of this kind took, shortest first."""
        return sorted(took for kind, _, took in self.answers if kind == what)


class Customer:
    """One browser of the crowd, with cookies of its own."""

    def __init__(self, client, seen, entries, slug):
        self.client, self.seen, self.entries, self.slug = client, seen, entries, slug
        self.cookies = {}

    async def ask(self, what, method, path, fields=None):
        """Ask for a page and note how it was answered; None where it was not."""
        headers = {"cookie": "; ".join(f"{name}={value}" for name, value in self.cookies.items())}
        begun = time.perf_counter()
        try:
            answer = await self.client.request(method, path, data=fields, headers=headers)
        except httpx.HTTPError as error:
            self.seen.answers.append((what, type(error).__name__, time.perf_counter() - begun))
            return None
        self.seen.answers.append((what, answer.status_code, time.perf_counter() - begun))
        self.cookies |= dict(answer.cookies.items())
        return answer

    async def measure(self):
        """Open the form and send it filled; the address of the review, or None."""
        path = f"/patterns/{self.slug}/measure"
        form = await self.ask("form", "GET", path)
        if form is None or form.status_code != 200:
            return None
        sent = await self.ask("measure", "POST", path, {**fields_of(form.text, path), **self.entries})
        return sent.headers.get("location") if sent is not None and sent.status_code == 303 else None

    async def order(self, review, *, cloth=False):
        """Look at the review, perhaps at the cloth, and order; the address of the order, or None."""
        page = await self.ask("review", "GET", review)
        if page is None or page.status_code != 200:
            return None
        if cloth:
            await self.ask("cloth", "GET", f"{review}/fabric")
        placed = await self.ask("order", "POST", f"{review}/order", fields_of(page.text, f"{review}/order"))
        if placed is None or placed.status_code != 303:
            return None
        where = placed.headers["location"]
        if not where.startswith("/orders/"):
            self.seen.answers.append(("turned away", 303, 0.0))
            return None
        await self.ask("progress", "GET", where)
        self.seen.orders.append(where)
        return where


def fields_of(page, action):
    """The fields of the form with this action as a browser would send them back untouched."""
    start = page.index(f'action="{action}"')
    form = page[start : page.index("</form>", start)]
    fields = {}
    for tag in _FIELD.findall(form):
        found = {name: html.unescape(value) for name, value in _TEXT.findall(tag)}
        if found.get("type") != "checkbox" and "name" in found:
            fields[found["name"]] = found.get("value", "")
    for select in re.findall(r'<select[^>]*name="([^"]*)"(.*?)</select>', form, re.S):
        chosen = re.search(r'<option value="([^"]*)" selected', select[1]) or re.search(
            r'<option value="([^"]*)"', select[1]
        )
        fields[select[0]] = html.unescape(chosen[1]) if chosen else ""
    return fields


async def come_at_once(base, bodies, slug, *, keep_coming=0.0):
    """All customers of `bodies` (entries by field) at the same moment; again and again for `keep_coming` seconds."""
    seen, until = Seen(), time.perf_counter() + keep_coming
    limits = httpx.Limits(max_connections=None, max_keepalive_connections=50)
    async with httpx.AsyncClient(base_url=base, timeout=PATIENCE, limits=limits) as client:

        async def one(number, entries):
            while True:
                customer = Customer(client, seen, entries, slug)
                review = await customer.measure()
                if review is not None:
                    await customer.order(review, cloth=number % CLOTH_EVERY == 0)
                if time.perf_counter() >= until:
                    return

        await asyncio.gather(*(one(number, entries) for number, entries in enumerate(bodies)))
    return seen


async def look_round(base, seen, paths, until):
    """Somebody who looks at these pages in turn until the event is set, as others do meanwhile."""
    async with httpx.AsyncClient(base_url=base, timeout=PATIENCE) as client:
        looker = Customer(client, seen, {}, "")
        while not until.is_set():
            for path in paths:
                await looker.ask("look", "GET", path)
                await asyncio.sleep(0.05)
