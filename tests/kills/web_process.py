"""A web process to be killed: places one order as a request would, and waits where TEST_WAIT says."""

import os
import time

from app.base.database import Database, make_engine
from app.base.jobs.dbos_queue import DbosQueue
from app.base.settings import Settings
from app.shop.catalogue.service import listing_by_slug
from app.shop.orders.service import Customer, FittingEntry, place_order, save_fitting

ENTRY = FittingEntry({"bust girth": "92"}, {"bust girth": 920.0}, {}, "cm", "A4", {})


def wait_to_be_killed(order):
    print(order.number, flush=True)
    time.sleep(60)


if __name__ == "__main__":
    address = Settings().database_address()
    database, queue = Database(make_engine(address)), DbosQueue(address)
    with database.writing() as session:
        listing = listing_by_slug(session, "demo")
        order = place_order(session, queue, save_fitting(session, listing, ENTRY), Customer())
        if os.environ["TEST_WAIT"] == "before commit":
            wait_to_be_killed(order)
    wait_to_be_killed(order)
