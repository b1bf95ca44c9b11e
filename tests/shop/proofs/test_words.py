"""A proof in words: shares never rounded into more than they are, states told apart, and what the public may read."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.shop.proofs.models import ProofState
from app.shop.proofs.words import accepted_words, customer_words, percent, proof_words
from tests.shop.unsaved import MOMENT, a_proof


@pytest.mark.parametrize(
    ("share", "words"),
    [
        (1.0, "100 %"), (0.987, "98.7 %"), (0.98, "98 %"), (0.5, "50 %"), (0.0, "0 %"),
        (0.9994, "99.9 %"), (0.99999, "99.9 %"), (0.0004, "0 %"), (1.2, "100 %"),
    ],
)  # fmt: skip
def test_a_share_is_told_to_a_tenth_and_never_rounded_up_to_the_whole(share, words):
    assert percent(share) == words


@given(st.integers(1, 5000).flatmap(lambda bodies: st.tuples(st.integers(0, bodies), st.just(bodies))))
def test_only_all_of_them_are_a_hundred_percent(held_of):
    held, bodies = held_of
    told = float(percent(held / bodies).removesuffix(" %"))
    assert (told == 100.0) == (held == bodies)
    assert abs(told - 100 * held / bodies) <= 0.1 + 1e-9


@pytest.mark.parametrize(
    ("proof", "words"),
    [
        (None, "not asked for yet"),
        (a_proof(ProofState.WAITING, summary={}), "waits for a worker."),
        (a_proof(ProofState.WAITING), "waits for a worker. 100 of 100 bodies hold (100 %)."),
        (a_proof(ProofState.RUNNING, summary={}, units=3, done=2), "66 % worked out."),
        (a_proof(ProofState.RUNNING, summary={}, units=0, done=0), "0 % worked out."),
        (a_proof(ProofState.RUNNING, done=99), "99 % worked out. 100 of 100 bodies hold (100 %)."),
        (a_proof(ProofState.READY, share=0.97), "97 of 100 bodies hold (97 %)."),
        (a_proof(ProofState.FAILED), "could not be worked out"),
    ],
)
def test_how_a_proof_stands_is_told_in_a_few_words(proof, words):
    assert proof_words(proof) == words


@pytest.mark.parametrize(
    ("share", "accepted", "sold"),
    [(1.0, 1.0, True), (0.97, 0.97, True), (0.97, 0.98, False), (0.97, 1.0, False), (0.9696, 0.97, True)],
)
def test_the_public_reads_of_a_proof_only_where_it_is_enough(share, accepted, sold):
    assert bool(customer_words(a_proof(share=share, accepted_share=accepted))) == sold


def test_a_share_that_was_accepted_is_told_with_who_and_when():
    proof = a_proof(accepted_share=0.985, accepted_by="Ana Quill", accepted_at=MOMENT)
    assert accepted_words(proof) == "Ana Quill accepted 98.5 % on 5 March 2026."
