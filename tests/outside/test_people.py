"""Passwords and tokens held against published advice.

Sources: RFC 9106 (Argon2), section 4, second recommended option; NIST SP 800-63B-4,
section 3.1.1.2 (passwords); RFC 4648, section 5 (base64url). Figures from memory of those texts.
"""

import re
import unicodedata

import argon2
import pytest

from app.shop.people.passwords import LEAST_LENGTH, check_password, hash_password, new_token, password_matches


def test_hashes_use_the_second_recommended_option_of_rfc_9106():
    used = argon2.extract_parameters(hash_password("pewter lantern oat meadow"))
    assert used.type is argon2.Type.ID
    assert (used.time_cost, used.parallelism, used.memory_cost) == (3, 4, 2**16)
    assert (used.salt_len, used.hash_len) == (16, 32)


def test_a_password_alone_has_at_least_the_length_nist_asks_for():
    assert LEAST_LENGTH >= 15


@pytest.mark.parametrize(
    "password",
    [
        "all lower case letters only",
        "628147039512846",
        "blåbær på fjellet i august",
        "word " * 8 + "and some twenty-four more",
        "     spaces     between     count     too     ",
    ],
)
def test_no_kind_of_sign_is_demanded_and_sixty_four_signs_are_taken(password):
    assert check_password(password) == ()


def test_one_normal_form_is_hashed():
    composed = unicodedata.normalize("NFC", "blåbær på fjellet")
    apart = unicodedata.normalize("NFD", composed)
    assert composed != apart
    assert password_matches(hash_password(composed), apart)


def test_tokens_are_base64url_of_more_random_bits_than_a_random_uuid_has():
    token = new_token()
    assert re.fullmatch(r"[A-Za-z0-9_-]+", token)
    assert len(token) * 6 >= 122
