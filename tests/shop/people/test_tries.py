"""Failed tries: who waits, for how long, and that strangers never shut a designer out of a device she knows."""

import re
from datetime import timedelta

import pytest
import sqlalchemy as sa

from app.shop.people.models import FailedSignIn
from app.shop.people.tries import (
    PER_ADDRESS,
    PER_DEVICE,
    PER_EMAIL,
    PER_EMAIL_AND_ADDRESS,
    TOO_MANY,
    WINDOW,
    SignInAttempt,
    count_failure,
    forget_failures,
    pause,
)

HER = "mark of her e-mail"
AT_HOME = SignInAttempt(HER, "home", "laptop")
NEW_PHONE = SignInAttempt(HER, "home")


def fail(session, asking, times):
    for _ in range(times):
        count_failure(session, asking)


def fail_from_everywhere(session):
    for number in range(PER_EMAIL):
        count_failure(session, SignInAttempt(HER, f"stranger {number}"))


def test_wrong_tries_for_one_email_from_one_address_have_to_wait(session):
    fail(session, NEW_PHONE, PER_EMAIL_AND_ADDRESS - 1)
    assert pause(session, NEW_PHONE) == ()
    fail(session, NEW_PHONE, 1)
    assert pause(session, NEW_PHONE)[0].code == TOO_MANY
    assert pause(session, SignInAttempt(HER, "elsewhere")) == ()


def test_one_address_cannot_go_through_many_emails(session):
    for number in range(PER_ADDRESS):
        count_failure(session, SignInAttempt(f"guess {number}", "stranger"))
    assert "your network" in pause(session, SignInAttempt("another", "stranger"))[0].message
    assert pause(session, SignInAttempt("another", "elsewhere")) == ()


def test_strangers_never_hold_up_a_device_that_signed_in_before(session):
    fail_from_everywhere(session)
    fail(session, NEW_PHONE, PER_ADDRESS)
    assert pause(session, AT_HOME) == ()


def test_a_wide_guess_at_one_email_holds_up_unknown_devices_and_says_so(session):
    fail_from_everywhere(session)
    (wait,) = pause(session, NEW_PHONE)
    assert "perhaps a stranger" in wait.message
    assert "A device on which you have signed in before is not held up" in wait.message
    assert pause(session, SignInAttempt(HER, ""))[0].code == TOO_MANY
    assert pause(session, SignInAttempt("somebody else", "home")) == ()


def test_a_known_device_has_a_count_of_its_own(session):
    fail(session, AT_HOME, PER_DEVICE)
    assert "on this device" in pause(session, AT_HOME)[0].message
    assert pause(session, NEW_PHONE) == ()
    assert pause(session, SignInAttempt(HER, "home", "tablet")) == ()


def test_without_an_address_only_the_email_counts(session):
    fail(session, SignInAttempt(HER), PER_EMAIL - 1)
    assert pause(session, SignInAttempt(HER)) == ()
    fail(session, SignInAttempt("another"), PER_ADDRESS)
    assert pause(session, SignInAttempt(HER)) == ()


@pytest.mark.parametrize(
    ("ago", "minutes"), [(0, "15 minutes"), (4.5, "11 minutes"), (13.2, "2 minutes"), (14.4, "a minute")]
)
def test_the_minutes_told_are_those_until_a_try_is_free(session, ago, minutes):
    fail(session, AT_HOME, PER_DEVICE)
    [first] = session.scalars(sa.select(FailedSignIn).order_by(FailedSignIn.id).limit(1))
    first.at -= timedelta(minutes=ago)
    session.flush()
    assert f"in {minutes}." in pause(session, AT_HOME)[0].fix
    first.at -= WINDOW
    session.flush()
    assert pause(session, AT_HOME) == ()


def test_the_right_password_forgives_what_failed_at_the_same_place(session):
    fail(session, NEW_PHONE, PER_EMAIL_AND_ADDRESS)
    fail(session, AT_HOME, PER_DEVICE)
    forget_failures(session, NEW_PHONE)
    assert pause(session, NEW_PHONE) == ()
    assert pause(session, AT_HOME) != ()
    forget_failures(session, AT_HOME)
    assert pause(session, AT_HOME) == ()


def test_tries_that_no_longer_count_are_forgotten(session):
    fail(session, NEW_PHONE, 3)
    for tried in session.scalars(sa.select(FailedSignIn)):
        tried.at -= WINDOW + timedelta(seconds=1)
    session.flush()
    count_failure(session, SignInAttempt("another"))
    assert session.scalar(sa.select(sa.func.count()).select_from(FailedSignIn)) == 1


def test_what_is_kept_of_a_try_is_a_digest(session):
    fail(session, AT_HOME, 1)
    fail(session, NEW_PHONE, 1)
    assert all(re.fullmatch(r"[0-9a-f]{64}", key) for key in session.scalars(sa.select(FailedSignIn.key)))
