"""The warnings of a proof: nothing is sold over one that nobody has read, and each is accepted once, by its name."""

import pytest

from app.pattern.problem import Refused
from app.shop.catalogue.service import add_draft_version, put_on_sale
from app.shop.proofs.service import proof_of, why_not_sold
from app.shop.proofs.warnings import MOST_NOTE, accept_warning, accepted_warning, open_warnings, warnings_of
from app.shop.proofs.words import customer_words, proof_words
from tests.proved import small_draft, stand_proved

HEM = ("checks.hem-fullness", "panel, edge low")
SIDE = ("checks.allowance-unlike", "panel, edge side")
NOTE = "A lawn hem of this depth lies flat when it is steamed."


def warning(name, bodies=40):
    check, about = name
    place = {"piece": "panel", "edge": "low", "point": "", "at": None, "line": 3, "place": about}
    example = {
        "check": check,
        "severity": "warning",
        "message": "The hem is full.",
        "fix": "Make it less deep.",
        **place,
    }
    return {
        "check": check, "about": about, "severity": "warning", "bodies": bodies, "patterns": bodies, "example": example,
    }  # fmt: skip


@pytest.fixture
def version(session, listing):
    return add_draft_version(session, listing, small_draft("first"))


@pytest.fixture
def proof(session, version):
    return warned(session, version, warning(HEM), warning(SIDE, 3))


def warned(session, version, *warnings):
    proof = stand_proved(session, version)
    proof.summary = {**proof.summary, "warnings": list(warnings)}
    return proof


def test_nothing_is_sold_over_a_warning_that_nobody_has_read(session, listing, version, proof):
    [why] = why_not_sold(proof)
    assert why.code == "proof.warnings-unread"
    assert "2 warnings of its proof are not read yet." in why.message
    assert isinstance(put_on_sale(session, listing, version), Refused)
    assert "2 warnings to read." in proof_words(proof)
    assert customer_words(proof) == ""


def test_it_is_sold_once_each_is_accepted_with_a_note(session, listing, version, proof):
    accepted = accept_warning(session, proof, HEM, f"  {NOTE} ", "Ana Quill")
    assert (accepted["note"], accepted["by"], accepted["bodies"]) == (NOTE, "Ana Quill", 40)
    assert [one["about"] for one in open_warnings(proof)] == [SIDE[1]]
    assert "A warning of its proof is not read yet." in why_not_sold(proof)[0].message
    accept_warning(session, proof, SIDE, NOTE, "Ana Quill")
    assert why_not_sold(proof) == ()
    assert put_on_sale(session, listing, version) is listing
    assert "to read" not in proof_words(proof)


@pytest.mark.parametrize("note", ["", "   ", "ok.", "x" * (MOST_NOTE + 1)])
def test_a_warning_is_not_accepted_without_a_reason(session, proof, note):
    refused = accept_warning(session, proof, HEM, note, "Ana Quill")
    assert [problem.code for problem in refused.problems] == ["proof.no-note"]
    assert len(open_warnings(proof)) == 2


@pytest.mark.parametrize("name", [("checks.kink", HEM[1]), (HEM[0], "panel, edge top"), ("", "")])
def test_what_the_proof_does_not_warn_of_cannot_be_accepted(session, proof, name):
    refused = accept_warning(session, proof, name, NOTE, "Ana Quill")
    assert [problem.code for problem in refused.problems] == ["proof.no-such-warning"]


def test_it_is_accepted_once(session, proof):
    accept_warning(session, proof, HEM, NOTE, "Ana Quill")
    assert isinstance(accept_warning(session, proof, HEM, "Another reason.", "Bo Quill"), Refused)
    assert accepted_warning(proof, warning(HEM))["note"] == NOTE


def test_the_next_version_has_what_was_accepted_and_asks_again_where_it_comes_to_more_bodies(session, listing, proof):
    accept_warning(session, proof, HEM, NOTE, "Ana Quill")
    second = add_draft_version(session, listing, small_draft("second"))
    assert accepted_warning(proof_of(session, second.id), warning(HEM))["by"] == "Ana Quill"
    assert open_warnings(warned(session, second, warning(HEM, 38))) == ()
    worse = warned(session, second, warning(HEM, 41))
    assert [one["bodies"] for one in open_warnings(worse)] == [41]
    accept_warning(session, worse, HEM, "Still flat.", "Ana Quill")
    assert [one["note"] for one in worse.accepted_warnings] == ["Still flat."]


def test_a_proof_from_before_warnings_had_names_has_its_warnings_still(session, version):
    old = {key: value for key, value in warning(HEM).items() if key != "about"}
    proof = warned(session, version, old)
    assert [(one["check"], one["about"]) for one in warnings_of(proof)] == [HEM]
    assert list(warnings_of(None)) == []
