"""Settling the price of an order. For now the shop gives each pack as a free sample and takes no money."""

from __future__ import annotations

from dataclasses import dataclass

__all__ = ["Payment", "settle_payment"]

FREE_SAMPLE = "free sample"


@dataclass(frozen=True, slots=True)
class Payment:
    """How a price was settled: by what `kind`, with what `state` ("settled"), for how much."""

    kind: str
    state: str
    price_cents: int
    currency: str


def settle_payment(currency: str) -> Payment:
    """Settle an order as a free sample: nothing is charged, whatever the listing's price."""
    return Payment(kind=FREE_SAMPLE, state="settled", price_cents=0, currency=currency)
