"""Payment: for now every pack is a free sample."""

from app.shop.payments.service import settle_payment


def test_a_free_sample_is_settled_for_nothing():
    payment = settle_payment("EUR")
    assert (payment.kind, payment.state, payment.price_cents, payment.currency) == ("free sample", "settled", 0, "EUR")
