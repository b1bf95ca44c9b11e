"""Passwords: rules, hashes and tokens."""

import pytest

from app.shop.people.passwords import (
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
        ("lantern lantern lantern", "people.password-plain"),
        ("Lantern, lantern; LANTERN.", "people.password-plain"),
        ("lanternlanternlantern", "people.password-common"),
        ("passwordpassword", "people.password-common"),
        ("P4$$w0rdP4$$w0rd", "people.password-common"),
        ("qwertyuiopasdfgh", "people.password-common"),
        ("123456789012345", "people.password-common"),
        ("abcdefghijklmnop", "people.password-common"),
        ("iloveyou iloveyou", "people.password-plain"),
        ("monkeydragonmaster", "people.password-common"),
        ("wilma@studio.example", "people.password-common"),
        ("Heron Yard Heron Yard", "people.password-common"),
        ("heronyard wilma2024", "people.password-common"),
    ],
)
def test_weak_passwords_are_refused_with_a_remedy(password, code):
    (problem,) = check_password(password, ("wilma@studio.example", "Wilma", "Heron Yard"))
    assert problem.code == code
    assert problem.fix
    assert not password or password not in problem.message


@pytest.mark.parametrize(
    "password",
    [GOOD, "628147039512846", "xK#9!vQ@2m$Lw%8z<", "blåbær på fjellet i august", "гречка лампа облако мост", GOOD * 9],
)
def test_unrelated_words_and_chance_are_good_passwords(password):
    assert check_password(password, ("wilma@studio.example", "Wilma", "Heron Yard")) == ()


@pytest.mark.parametrize(
    "signs", ["4@8({[<369&#!1/|0$5+7%2", "({[<c14!|il70s5$e3g69", "a@4$s5!1i|l", "1", "۳٣3", "\U0001f9f5\u200d"]
)
def test_what_is_made_to_be_slow_is_looked_at_no_longer_than_anything_else(signs):
    # Forty signs with three kinds that may be letters are all that is ever tried: hundreds of spellings, not millions.
    check_password("x" + signs * (256 // len(signs) - 1), [signs * 9] * 3)


def test_tokens_differ_and_are_stored_as_digests():
    first, second = new_token(), new_token()
    assert first != second
    assert len(first) == 32
    assert token_digest(first) != token_digest(second)
    assert first not in token_digest(first)


@pytest.mark.parametrize(
    "famous",
    [
        "correct horse battery staple",
        "to be or not to be that",
        "Monday-Tuesday-Wednesday",
        "lorem ipsum dolor sit amet",
    ],
)
def test_phrases_that_everybody_knows_are_refused(famous):
    assert check_password(famous)[0].code == "people.password-common"


def test_a_password_whose_signs_are_several_letters_is_measured_as_it_is_hashed():
    """U+FDFA is eighteen letters in the normal form."""
    long = "\ufdfa" * 15 + "lorry otter needle"
    assert check_password(long)[0].code == "people.password-long"
    short = "\ufdfa lorry otter needle kite"
    assert check_password(short) == ()
    assert password_matches(hash_password(short), short)
