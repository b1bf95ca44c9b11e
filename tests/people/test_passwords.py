"""Passwords: rules, hashes and tokens."""

import pytest

from app.people.passwords import (
    LEAST_LENGTH,
    check_password,
    hash_password,
    new_token,
    password_matches,
    token_digest,
)

GOOD = "pewter lantern oat meadow"


def test_a_password_matches_its_own_hash_only():
    stored = hash_password(GOOD)
    assert password_matches(stored, GOOD)
    assert not password_matches(stored, GOOD + " ")
    assert GOOD not in stored


def test_the_same_password_gets_a_hash_of_its_own_each_time():
    assert hash_password(GOOD) != hash_password(GOOD)


@pytest.mark.parametrize("stored", [None, "", "not a hash"])
def test_without_a_stored_hash_nothing_matches(stored):
    assert not password_matches(stored, GOOD)


@pytest.mark.parametrize(
    ("password", "code"),
    [
        ("", "people.password-short"),
        ("x" * (LEAST_LENGTH - 1), "people.password-short"),
        ("ababababababababab", "people.password-plain"),
        ("abcdefg" * 100, "people.password-long"),
    ],
)
def test_weak_passwords_are_refused_with_a_remedy(password, code):
    problem = check_password(password)
    assert problem.code == code
    assert problem.fix
    assert not password or password not in problem.message


def test_four_words_are_a_good_password():
    assert check_password(GOOD) is None


def test_tokens_differ_and_are_stored_as_digests():
    first, second = new_token(), new_token()
    assert first != second
    assert len(first) == 32
    assert token_digest(first) != token_digest(second)
    assert first not in token_digest(first)
