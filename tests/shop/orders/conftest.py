"""A fitting of the listing, for tests of orders."""

import pytest

from app.packs.request import PrintChoices
from app.pattern.pieces.model import Cloth
from app.shop.orders.service import FittingEntry, save_fitting

ENTRY = FittingEntry(
    entered={"bust_girth": "36 1/4", "hip_girth": "98"},
    measurements={"bust_girth": 920.75, "hip_girth": 980.0},
    choices={"length": 680.0, "lined": True, "collar": "stand"},
    unit="in",
    paper="A4",
    cloths={"main": Cloth(1400.0, folded=True, one_way=True), "lining": Cloth(900.0, folded=False)},
    confirmed=("body.unlikely",),
    prints=PrintChoices(join="butt", lines="without", roll_mm=914.4),
)


@pytest.fixture
def fitting(session, listing):
    return save_fitting(session, listing, ENTRY)
