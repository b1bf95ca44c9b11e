"""Figures of a crowd: `python -m tests.crowd [sqlite|postgresql] [customers] [seconds]`; with seconds, builds run."""

import asyncio
import sys
import tempfile
from pathlib import Path

from app.shop.orders.models import Fitting, Order, OrderState
from tests.crowd.customers import Seen, come_at_once, look_round
from tests.crowd.shop import opened

SLUG = "fernhill-skirt"
LOOKED_AT = ("/", f"/patterns/{SLUG}", "/how-it-works")


def bodies(number):
    """As many bodies as customers, none like another, all where the skirt was proved."""
    return [
        {
            "measure-waist_girth": f"{70 + index % 17 + index / 1000:.3f}",
            "measure-hip_girth": f"{94 + index % 19 + index / 1000:.3f}",
            "measure-waist_to_hip": "20.5",
        }
        for index in range(number)
    ]


async def idle(shop, seconds=4.0):
    """How the pages answer while nobody else is there."""
    seen, until = Seen(), asyncio.Event()
    looker = asyncio.create_task(look_round(shop.base, seen, LOOKED_AT, until))
    await asyncio.sleep(seconds)
    until.set()
    await looker
    return seen


async def busy(shop, number, seconds):
    """The crowd, and how the pages answer somebody else meanwhile."""
    others, until = Seen(), asyncio.Event()
    looker = asyncio.create_task(look_round(shop.base, others, LOOKED_AT, until))
    crowd = await come_at_once(shop.base, bodies(number), SLUG, keep_coming=seconds)
    until.set()
    await looker
    return crowd, others


def share(seconds, part):
    """The time within which this part of the requests was answered."""
    return seconds[min(len(seconds) - 1, int(part * len(seconds)))] if seconds else float("nan")


def told(name, seconds):
    """One line of figures, in milliseconds."""
    figures = (f"{1000 * share(seconds, part):8.0f}" for part in (0.5, 0.95, 1.0))
    return f"{name:>10} {len(seconds):6} {' '.join(figures)}"


def main(kind="sqlite", customers="200", seconds="0"):
    """Run it and print what was met."""
    with tempfile.TemporaryDirectory() as folder, opened(Path(folder), kind) as shop:
        pages = shop.open()
        worker = shop.start("work") if float(seconds) else None
        before = asyncio.run(idle(shop))
        crowd, others = asyncio.run(busy(shop, int(customers), float(seconds)))
        print(f"{customers} customers at once on {kind}" + (f", coming back for {seconds} s" if worker else ""))
        for (what, status), times in sorted(crowd.statuses().items(), key=str):
            print(f"  {what} {status}: {times}")
        print(f"  fittings {shop.count(Fitting)}, orders {shop.count(Order)}, told of {len(set(crowd.orders))}")
        print(f"  ready {shop.count(Order, Order.state == OrderState.READY)}")
        print("  asked for       of   median      95%      all  (ms)")
        for what in ("form", "measure", "review", "cloth", "order", "progress"):
            print(" ", told(what, crowd.seconds(what)))
        print(" ", told("idle look", before.seconds("look")))
        print(" ", told("busy look", others.seconds("look")), dict(others.statuses()))
        print(
            f"  memory of the pages {shop.memory(pages):.0f} MB"
            + (f", of the worker {shop.memory(worker):.0f} MB" if worker else "")
        )


if __name__ == "__main__":
    main(*sys.argv[1:])
