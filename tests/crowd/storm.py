"""Kills at random moments while customers order and download.

`python -m tests.crowd.storm [sqlite|postgresql] [kills] [seed]`.

The pages and two workers run as they do in a shop, with real builds. Again and again one of them is killed (-9) and
started anew. Afterwards every order that a customer was told of must be there once, ready, with whole files; and no
download may ever have brought other bytes than the order's row promises.
"""

import asyncio
import random
import re
import sys
import tempfile
from collections import Counter
from hashlib import sha256
from pathlib import Path

import httpx
import sqlalchemy as sa

from app.shop.orders.models import Fitting, Order, OrderState
from tests.crowd.__main__ import SLUG, bodies
from tests.crowd.customers import Customer, Seen
from tests.crowd.shop import opened

QUICK = {
    "TAPELINE_HEARTBEAT_SECONDS": "0.5",
    "TAPELINE_LEASE_SECONDS": "3",
    "TAPELINE_SWEEP_SECONDS": "1",
    "TAPELINE_RETRY_SECONDS": "0.5",
    "TAPELINE_BUILD_ATTEMPTS": "20",
    "TAPELINE_PROOF_PROCESSES": "1",
}
#: Customers at a time, and the pause of each between two orders, seconds: about what two workers can build.
CUSTOMERS, PAUSE = 6, 8.0
#: From one kill to the next, seconds.
BETWEEN = (0.5, 7.0)
_FILES = re.compile(r'href="(/orders/[^"]+/files/[^"]+)"')


class Storm:
    """The shop, its processes by name, and what was seen."""

    def __init__(self, shop, dice):
        self.shop, self.dice = shop, dice
        self.running = {}
        self.seen, self.kills, self.downloads = Seen(), Counter(), []
        self.over = asyncio.Event()

    def start(self, name):
        command, slot = ("serve", "") if name == "pages" else ("work", name)
        self.running[name] = self.shop.start(command, **({"TAPELINE_WORKER_SLOT": slot} if slot else {}))

    async def kill(self, number):
        """Kill one process after the other and start it again."""
        for _ in range(number):
            await asyncio.sleep(self.dice.uniform(*BETWEEN))
            name = self.dice.choice(sorted(self.running))
            self.shop.kill(self.running[name])
            self.kills[name] += 1
            self.start(name)
        self.over.set()

    async def order(self, client, entries):
        """A customer who orders again and again, and tries once more where a page did not come."""
        while not self.over.is_set():
            customer = Customer(client, self.seen, entries, SLUG)
            review = await customer.measure()
            if review is not None:
                await customer.order(review)
            await asyncio.sleep(self.dice.uniform(0.2, 2 * PAUSE))

    async def download(self, client):
        """Somebody who downloads every file of orders that are ready, and notes what came."""
        while not self.over.is_set():
            await asyncio.sleep(0.3)
            if self.seen.orders:
                await self._download(client, self.dice.choice(self.seen.orders))

    async def _download(self, client, order):
        try:
            page = await client.get(order)
            for address in _FILES.findall(page.text):
                answer = await client.get(address)
                token, _, name = address.removeprefix("/orders/").partition("/files/")
                if answer.status_code == 200 and "html" not in answer.headers["content-type"]:
                    self.downloads.append((token, name, sha256(answer.content).hexdigest()))
        except httpx.HTTPError:
            return


async def weather(storm, number):
    """The storm itself."""
    limits = httpx.Limits(max_connections=None, max_keepalive_connections=0)
    async with httpx.AsyncClient(base_url=storm.shop.base, timeout=60, limits=limits) as client:
        people = [storm.order(client, entries) for entries in bodies(CUSTOMERS)]
        await asyncio.gather(storm.kill(number), storm.download(client), *people)


async def calm(storm, seconds=600):
    """Wait until nothing waits or is built any more."""
    for _ in range(seconds * 2):
        if not storm.shop.count(Order, Order.state.in_((OrderState.PLACED, OrderState.BUILDING))):
            return
        await asyncio.sleep(0.5)


def looked_through(storm):
    """What is amiss after the storm, in words; nothing is hoped for."""
    amiss = []
    with storm.shop.database.reading() as session:
        orders = {order.token: order for order in session.scalars(sa.select(Order))}
    for address in storm.seen.orders:
        if address.removeprefix("/orders/") not in orders:
            amiss.append(f"{address} was promised and is not there")
    for order in orders.values():
        if order.state is not OrderState.READY:
            amiss.append(f"{order.number} is {order.state}: {order.reason}")
            continue
        for file in order.files:
            path = storm.shop.folder / "packs" / order.pack_folder / file["name"]
            if not path.is_file() or sha256(path.read_bytes()).hexdigest() != file["sha256"]:
                amiss.append(f"{order.number} {file['name']} is damaged")
    promised = {(token, file["name"]): file["sha256"] for token, order in orders.items() for file in order.files}
    amiss += [
        f"{name} of {token} came otherwise"
        for token, name, digest in storm.downloads
        if promised.get((token, name)) != digest
    ]
    return orders, amiss


def tell(storm, kind, orders):
    """Print what was met."""
    ready = sum(order.state is OrderState.READY for order in orders.values())
    packs = len(list((storm.shop.folder / "packs").iterdir()))
    print(f"{sum(storm.kills.values())} kills on {kind}: {dict(storm.kills)}")
    for (what, status), times in sorted(storm.seen.statuses().items(), key=str):
        print(f"  {what} {status}: {times}")
    print(f"  fittings {storm.shop.count(Fitting)}, promised to customers {len(set(storm.seen.orders))}")
    print(f"  orders {len(orders)}, ready {ready}, folders of packs {packs}, files downloaded {len(storm.downloads)}")


def main(kind="sqlite", kills="100", seed="1"):
    """Run it and print what was met."""
    with tempfile.TemporaryDirectory() as folder, opened(Path(folder), kind, **QUICK) as shop:
        storm = Storm(shop, random.Random(int(seed)))
        storm.running["pages"] = shop.open()
        for name in ("worker-1", "worker-2"):
            storm.start(name)
        asyncio.run(weather(storm, int(kills)))
        asyncio.run(calm(storm))
        orders, amiss = looked_through(storm)
        tell(storm, kind, orders)
        print("\n".join(f"  AMISS: {one}" for one in amiss) or "  nothing amiss")
    return 1 if amiss else 0


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
