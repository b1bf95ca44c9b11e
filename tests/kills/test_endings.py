"""Builds that end without a pack, in a real worker: checks that do not hold, and builders that fail."""

import re

import pytest

from app.shop.orders.models import OrderState
from app.shop.orders.service import status_words

pytestmark = pytest.mark.kills


def test_refusals_and_failures_reach_the_designer_with_figures_and_the_customer_in_plain_words(yard):
    refused_id, failed_id, good_id = yard.order(then="refuse"), yard.order(then="raise"), yard.order()
    yard.worker(TAPELINE_BUILD_ATTEMPTS="2")
    refused = yard.wait(refused_id, OrderState.NEEDS_DESIGNER)
    assert refused.reason.startswith("Seam walk: Edges that are sewn together would not be equally long")
    assert refused.findings[0]["message"] == "The side seams differ: front 412.0 mm, back 415.5 mm."
    assert refused.findings[0]["fix"] == "Move the hem by 3.5 mm."
    assert refused.findings[0]["where"] == "front, edge side"
    failed = yard.wait(failed_id, OrderState.FAILED)
    told = r"The build failed 2 times, at last with ZeroDivisionError at worker_process\.py:\d+: bust girth 912\.5"
    assert re.fullmatch(told, failed.reason)
    assert failed.attempt == 2
    assert "ZeroDivisionError" not in status_words(failed)
    yard.pack(yard.wait(good_id, OrderState.READY))
    assert len(list((yard.folder / "packs").iterdir())) == 1
    # Measurements are personal: they reach the designer, never a log.
    assert "912.5" not in yard.logs()
    assert "ZeroDivisionError at worker_process.py:" in yard.logs()
