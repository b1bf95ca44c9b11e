"""Passwords: their hashes (Argon2id), their rules, and one-time tokens."""

from __future__ import annotations

import secrets
from functools import cache
from hashlib import sha256
from unicodedata import normalize

from argon2 import PasswordHasher
from argon2.exceptions import InvalidHashError, VerificationError
from argon2.profiles import RFC_9106_LOW_MEMORY

from app.pattern.problem import Problem

__all__ = ["LEAST_LENGTH", "check_password", "hash_password", "new_token", "password_matches", "token_digest"]

#: Least length of a password that stands alone, as NIST SP 800-63B (revision 4, section 3.1.1.2) asks.
LEAST_LENGTH = 15
#: Most characters taken, so that nobody can make the server hash a novel.
MOST_LENGTH = 256

# The second recommended choice of RFC 9106, section 4: t=3, p=4, 64 MiB.
_HASHER = PasswordHasher.from_parameters(RFC_9106_LOW_MEMORY)


def check_password(password: str) -> Problem | None:
    """What is wrong with a password someone wants to set, or None."""
    if len(password) < LEAST_LENGTH:
        return Problem(
            "people.password-short",
            f"This password has {len(password)} characters; it needs at least {LEAST_LENGTH}.",
            "Four or five unrelated words are long enough and easy to remember.",
        )
    if len(password) > MOST_LENGTH:
        return Problem(
            "people.password-long",
            f"This password has {len(password)} characters; at most {MOST_LENGTH} are taken.",
            "Shorten it.",
        )
    if len(set(password)) < 6:
        return Problem(
            "people.password-plain", "This password repeats the same few signs.", "Use four or five unrelated words."
        )
    return None


def hash_password(password: str) -> str:
    """The Argon2id hash to store."""
    return _HASHER.hash(_tidy(password))


def password_matches(stored: str | None, password: str) -> bool:
    """True when the password belongs to the stored hash; takes as long when there is none."""
    try:
        _HASHER.verify(stored or _nobody(), _tidy(password)[:MOST_LENGTH])
    except (VerificationError, InvalidHashError):
        return False
    return stored is not None


def new_token() -> str:
    """An unguessable token for a link (192 bits)."""
    return secrets.token_urlsafe(24)


def token_digest(token: str) -> str:
    """The form in which a token is stored: its SHA-256 in hexadecimal."""
    return sha256(token.encode()).hexdigest()


def _tidy(password: str) -> str:
    # Two keyboards may send the same letter in two ways; NIST SP 800-63B asks for one normal form before hashing.
    return normalize("NFKC", password)


@cache
def _nobody() -> str:
    # Hashed against when there is no such designer or she has no password yet, so that the answer takes as long.
    return _HASHER.hash(secrets.token_urlsafe(32))
