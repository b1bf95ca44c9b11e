"""Failed tries to sign in: who has to wait, how long, and why; guessing is slowed, and nobody shuts a designer out.

After "Slow Down Online Guessing Attacks with Device Cookies" (OWASP), which the OWASP Authentication Cheat Sheet
names under "Login Throttling"; from memory of those texts. A device on which a designer has signed in before has a
count of its own, and what strangers try elsewhere does not touch it. All other tries count for the network address,
for the e-mail at that address, and for the e-mail wherever they come from. NIST SP 800-63B-4, section 3.2.2, wants
at most 100 failed tries in a row for one account; from memory.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime, timedelta
from math import ceil

import sqlalchemy as sa
from sqlalchemy.orm import Session

from app.base.database import now
from app.pattern.problem import Problem
from app.shop.people.models import FailedSignIn
from app.shop.people.passwords import token_digest

__all__ = ["TOO_MANY", "WINDOW", "SignInAttempt", "count_failure", "forget_failures", "pause"]

#: A failed try counts for so long from its own moment on.
WINDOW = timedelta(minutes=15)
#: Code of the problem that tells somebody to wait.
TOO_MANY = "people.too-many-tries"

PER_DEVICE = 10
PER_EMAIL_AND_ADDRESS = 10
PER_ADDRESS = 20
PER_EMAIL = 50

_WITHIN = f"within {WINDOW.seconds // 60} minutes"
_LINK = "If you have forgotten your password, ask the studio keeper for a one-time link: `tapeline password`."


@dataclass(frozen=True, slots=True)
class SignInAttempt:
    """Who tries to sign in, as marks that only this shop can make: for the e-mail, the address and the device.

    `address` is "" when it is not known; `device` is "" unless this e-mail has signed in on it before.
    """

    email: str
    address: str = ""
    device: str = ""


@dataclass(frozen=True, slots=True)
class _Tally:
    """What a try counts for, how many may fail within the window, and what is said of more."""

    key: str
    most: int
    said: str


def pause(session: Session, attempt: SignInAttempt) -> tuple[Problem, ...]:
    """Why this one has to wait now, and until when; empty when a try is free."""
    this = now(session)
    waits = [(opens, count) for count in _counts(attempt) if (opens := _opens(session, count, this)) is not None]
    if not waits:
        return ()
    opens, count = max(waits, key=lambda wait: wait[0])
    minutes = max(1, ceil((opens - this) / timedelta(minutes=1)))
    when = "in a minute" if minutes == 1 else f"in {minutes} minutes"
    return (Problem(TOO_MANY, count.said, f"You can try again here {when}. {_LINK}"),)


def count_failure(session: Session, attempt: SignInAttempt) -> None:
    """Write a failed try down wherever it counts, and forget those that no longer do."""
    this = now(session)
    session.execute(sa.delete(FailedSignIn).where(FailedSignIn.at < this - WINDOW))
    session.add_all(FailedSignIn(key=count.key, at=this) for count in _counts(attempt))
    session.flush()


def forget_failures(session: Session, attempt: SignInAttempt) -> None:
    """The right password was given: what failed before, from the same place, was a slip."""
    own = _device(attempt) if attempt.device else _email_there(attempt) if attempt.address else None
    if own is not None:
        session.execute(sa.delete(FailedSignIn).where(FailedSignIn.key == own.key))


def _opens(session: Session, count: _Tally, this: datetime) -> datetime | None:
    """When a try is free again: as soon as fewer than `most` failures are younger than the window."""
    young = sa.select(FailedSignIn.at).where(FailedSignIn.key == count.key, FailedSignIn.at >= this - WINDOW)
    nth = session.scalar(young.order_by(FailedSignIn.at.desc()).offset(count.most - 1).limit(1))
    return None if nth is None else nth + WINDOW


def _counts(attempt: SignInAttempt) -> Iterator[_Tally]:
    if attempt.device:
        yield _device(attempt)
        return
    yield _Tally(
        token_digest(f"email:{attempt.email}"),
        PER_EMAIL,
        f"Somebody, perhaps a stranger, has tried {PER_EMAIL} wrong passwords for this e-mail {_WITHIN}. A device on "
        "which you have signed in before is not held up by that; this one is.",
    )
    if attempt.address:
        yield _email_there(attempt)
        yield _Tally(
            token_digest(f"address:{attempt.address}"),
            PER_ADDRESS,
            f"{PER_ADDRESS} wrong passwords have come from your network {_WITHIN}.",
        )


def _device(attempt: SignInAttempt) -> _Tally:
    said = f"{PER_DEVICE} wrong passwords have been tried on this device {_WITHIN}."
    return _Tally(token_digest(f"device:{attempt.device}"), PER_DEVICE, said)


def _email_there(attempt: SignInAttempt) -> _Tally:
    said = f"{PER_EMAIL_AND_ADDRESS} wrong passwords for this e-mail have come from your network {_WITHIN}."
    return _Tally(token_digest(f"email:{attempt.email}:{attempt.address}"), PER_EMAIL_AND_ADDRESS, said)
