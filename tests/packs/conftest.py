"""A made skirt, its lay plans and a pack request, from a draft of our own catalogue."""

from __future__ import annotations

import pytest

from app.packs.request import PackRequest
from app.pattern.body import MEASURES
from app.pattern.lay import EFFORT_QUICK, LayPlan, items_for, lay_plan_for
from app.pattern.make import DraftCard, Made, make_pattern, read_draft
from app.pattern.pieces.model import Cloth
from app.pattern.units import Unit
from tests.places import DRAFTS

DRAFT = DRAFTS / "gore_skirt.draft"
BODY = {"waist_girth": 760.0, "hip_girth": 1010.0, "waist_to_hip": 205.0}


@pytest.fixture(scope="session")
def draft_text() -> str:
    """The skirt's draft."""
    return DRAFT.read_text("utf-8")


@pytest.fixture(scope="session")
def skirt(draft_text: str) -> Made:
    """The skirt made for one body."""
    made = make_pattern(draft_text, DRAFT.name, BODY, {"length": 620.0}, Unit.CM)
    assert isinstance(made, Made), made
    return made


@pytest.fixture(scope="session")
def lays(skirt: Made) -> dict[str, LayPlan]:
    """A quick lay for each cloth of the skirt."""
    found = {}
    for fabric in skirt.pattern.fabrics:
        lay = lay_plan_for(items_for(skirt.pattern, fabric.name), fabric, effort=EFFORT_QUICK)
        assert isinstance(lay, LayPlan), lay
        found[fabric.name] = lay
    return found


@pytest.fixture(scope="session")
def blouse() -> Made:
    """A blouse with darts, notches, buttons and an eased sleeve, for a body in the middle of every typical range."""
    draft = DRAFT.with_name("set_in_blouse.draft")
    text = draft.read_text("utf-8")
    card = read_draft(text, draft.name)
    assert isinstance(card, DraftCard), card
    body = {name: sum(MEASURES[name].typical) / 2.0 for name in card.needs}
    made = make_pattern(text, draft.name, body, {}, Unit.CM)
    assert isinstance(made, Made), made
    return made


@pytest.fixture(scope="session")
def order(draft_text: str) -> PackRequest:
    """An order for the skirt."""
    return PackRequest(
        draft_text=draft_text,
        draft_name=DRAFT.name,
        measurements=BODY,
        choices={"length": 620.0},
        unit="cm",
        paper="a4",
        cloths={"main": Cloth(1500.0, folded=True)},
        order_number="TL-0042",
        customer="Imke Falk",
        studio="Hollow Lane Studio",
        title="Fernhill skirt",
    )
