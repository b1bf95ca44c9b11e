"""Passwords: their hashes (Argon2id), their rules, and one-time tokens."""

from __future__ import annotations

import re
import secrets
import threading
from collections.abc import Iterable, Iterator
from functools import cache
from hashlib import sha256
from unicodedata import normalize

from argon2 import PasswordHasher
from argon2.exceptions import InvalidHashError, VerificationError
from argon2.profiles import RFC_9106_LOW_MEMORY
from zxcvbn import zxcvbn

from app.pattern.problem import Problem

__all__ = ["LEAST_LENGTH", "check_password", "hash_password", "new_token", "password_matches", "token_digest"]

#: Least length of a password that stands alone, as NIST SP 800-63B (revision 4, section 3.1.1.2) asks.
LEAST_LENGTH = 15
#: Most characters taken, so that nobody can make the server hash a novel.
MOST_LENGTH = 256

# The second recommended choice of RFC 9106, section 4: t=3, p=4, 64 MiB.
_HASHER = PasswordHasher.from_parameters(RFC_9106_LOW_MEMORY)


_FOUR_WORDS = "Four or five unrelated words are long enough and easy to remember."
#: Guesses a password must stand: the best of zxcvbn's five marks (10^10 guesses; Wheeler, "zxcvbn: low-budget password
#: strength estimation", USENIX Security 2016, from memory). NIST SP 800-63B-4, 3.1.1.2, asks for a list of what is
#: commonly used or to be expected; zxcvbn brings one, and finds joined, repeated and respelled entries too.
_BEST = 4
#: As much of a password is looked at, from its beginning and to its end: what is good for so long is good.
_LOOKED_AT = 40
#: Signs that may stand for a letter. zxcvbn tries all they may mean together, which many kinds of them would make
#: slow, so only the first few kinds mean letters; who mixes more of them spells no word.
_MAY_BE_LETTERS = "!$%(+<@[{|"
_KINDS_TRIED = 3
#: Phrases that everybody knows, without their gaps (from memory): zxcvbn knows words, and takes these for chance ones.
_FAMOUS = frozenset(
    (
        "correcthorsebatterystaple",
        "fourscoreandseven",
        "itwasthebestoftimes",
        "januaryfebruarymarch",
        "letmeinletmein",
        "loremipsumdolor",
        "maytheforcebewithyou",
        "mondaytuesdaywednesday",
        "onceuponatime",
        "onetwothreefour",
        "quickbrownfox",
        "redorangeyellowgreen",
        "thisismypassword",
        "tobeornottobe",
        "whatsinaname",
    )
)
#: zxcvbn keeps the words of the one it is looking at in a place that all threads share.
_ONE_AT_A_TIME = threading.Lock()


def check_password(password: str, known: Iterable[str] = ()) -> tuple[Problem, ...]:
    """What is wrong with a password someone wants to set; `known` is what strangers know of her."""
    # Measured in the form in which it is hashed: some signs are several letters there.
    password = _tidy(password)
    if len(password) < LEAST_LENGTH:
        said = f"This password has {len(password)} characters; it needs at least {LEAST_LENGTH}."
        return (Problem("people.password-short", said, _FOUR_WORDS),)
    if len(password) > MOST_LENGTH:
        said = f"This password has {len(password)} characters; at most {MOST_LENGTH} are taken."
        return (Problem("people.password-long", said, "Shorten it."),)
    if len(set(password)) < 6 or len(set(re.findall(r"\w+", password.lower()))) == 1 < len(password.split()):
        fix = f"Repeating adds nothing that a guesser would not try. {_FOUR_WORDS}"
        return (Problem("people.password-plain", "This password says the same thing again and again.", fix),)
    if _easy(password, list(_words(known))):
        said = "This password would be guessed soon: it is built from what many people use, or from your own names."
        fix = f"Leave out common passwords, rows of keys or numbers, your e-mail and the studio's name. {_FOUR_WORDS}"
        return (Problem("people.password-common", said, fix),)
    return ()


def _easy(password: str, known: list[str]) -> bool:
    # Gaps between words are no secret, so the words are looked at without them too.
    joined = "".join(re.findall(r"\w+", password))
    if any(phrase in joined.lower() for phrase in _FAMOUS):
        return True
    whole = all(_guessed(part, known) for part in (password[:_LOOKED_AT], password[-_LOOKED_AT:]))
    return whole or all(_guessed(part, known) for part in (joined[:_LOOKED_AT], joined[-_LOOKED_AT:]))


def _guessed(part: str, known: list[str]) -> bool:
    """True when zxcvbn's guesses come upon this soon."""
    kinds = [sign for sign in dict.fromkeys(part) if sign in _MAY_BE_LETTERS][_KINDS_TRIED:]
    # Signs of nobody's alphabet in their places: as many, as different, and no letters.
    plain = part.translate({ord(sign): chr(0xE000 + number) for number, sign in enumerate(kinds)})
    with _ONE_AT_A_TIME:
        return int(zxcvbn(plain, user_inputs=known)["score"]) < _BEST


def _words(known: Iterable[str]) -> Iterator[str]:
    """Each text whole, without its gaps, and word by word."""
    for text in known:
        words = re.findall(r"\w+", text)
        yield from {text[:_LOOKED_AT], "".join(words)[:_LOOKED_AT], *(word for word in words if len(word) > 2)}


def hash_password(password: str) -> str:
    """The Argon2id hash to store."""
    return _HASHER.hash(_tidy(password))


def password_matches(stored: str | None, password: str) -> bool:
    """True when the password belongs to the stored hash; takes as long when there is none."""
    tidy = _tidy(password)
    try:
        # Nobody has set a longer one, so it need not be hashed whole to be wrong.
        _HASHER.verify(stored or _nobody(), tidy if len(tidy) <= MOST_LENGTH else "")
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
