"""Signing in and out: rows that end for good, passwords that end all, and nothing slow inside a transaction."""

from datetime import timedelta

import pytest
import sqlalchemy as sa

from app.pattern.problem import Refused
from app.shop.people import sign_ins
from app.shop.people.models import Designer, FailedSignIn, SignIn
from app.shop.people.passwords import hash_password
from app.shop.people.service import ensure_designer, ensure_studio, password_link_token
from app.shop.people.sign_ins import (
    NewSignIn,
    SignInLifetime,
    end_sign_in,
    end_sign_ins,
    open_sign_in,
    open_sign_ins,
    record_use,
    set_password,
)
from app.shop.people.tries import PER_DEVICE, TOO_MANY, SignInAttempt

PASSWORD = "pewter lantern oat meadow"
EMAIL = "wilma@studio.example"
LASTING = SignInLifetime(timedelta(days=14), timedelta(days=4))
WHO = SignInAttempt("mark", "home", "laptop")


@pytest.fixture(scope="module")
def stored():
    """The hash of the password, worked out once."""
    return hash_password(PASSWORD)


@pytest.fixture
def designer(database, stored):
    with database.writing() as session:
        made = ensure_designer(session, EMAIL, "Wilma")
        made.password_hash = stored
    return made


def sign_in(database, email=EMAIL, password=PASSWORD, who=WHO, instead_of=""):
    return sign_ins.sign_in(database, who, email, password, lifetime=LASTING, instead_of=instead_of)


def holder(database, token):
    found = database.read(open_sign_in, token, lifetime=LASTING)
    return found.designer.email if found else None


def move(database, **by):
    with database.writing() as session:
        for row in session.scalars(sa.select(SignIn)):
            for name, span in by.items():
                setattr(row, name, getattr(row, name) - span)


def link(database):
    with database.writing() as session:
        return password_link_token(session, ensure_designer(session, EMAIL, "Wilma"))


def test_the_right_password_signs_in_whatever_the_case_of_the_email(database, designer):
    entered = sign_in(database, "  Wilma@Studio.EXAMPLE ")
    assert holder(database, entered.token) == EMAIL


def test_a_wrong_password_and_an_unknown_email_get_the_same_answer(database, designer):
    wrong = sign_in(database, password="another password here")
    assert isinstance(wrong, Refused)
    assert wrong == sign_in(database, "nobody@studio.example")
    assert database.read(lambda session: session.scalar(sa.select(sa.func.count()).select_from(SignIn))) == 0


def test_nobody_signs_in_before_a_password_was_set(database):
    with database.writing() as session:
        ensure_designer(session, EMAIL, "Wilma")
    assert isinstance(sign_in(database, password=""), Refused)


def test_whoever_has_to_wait_is_not_helped_by_the_right_password(database, designer, monkeypatch):
    # The hash is slow on purpose; which password it is does not matter here.
    with monkeypatch.context() as quick:
        quick.setattr("app.shop.people.sign_ins.password_matches", lambda stored, password: False)
        for _ in range(PER_DEVICE):
            sign_in(database)
    assert sign_in(database).problems[0].code == TOO_MANY
    assert isinstance(sign_in(database, who=SignInAttempt("mark", "home", "phone")), NewSignIn)


def test_the_right_password_forgives_earlier_slips(database, designer):
    sign_in(database, password="wrong wrong wrong wrong")
    assert isinstance(sign_in(database), NewSignIn)
    assert database.read(lambda session: session.scalars(sa.select(FailedSignIn)).all()) == []


def test_no_transaction_is_open_while_a_password_is_hashed(database, designer, monkeypatch):
    verify, make = sign_ins.password_matches, sign_ins.hash_password

    def nobody_waits():
        assert database.engine.pool.checkedout() == 0

    monkeypatch.setattr("app.shop.people.sign_ins.password_matches", lambda *given: (nobody_waits(), verify(*given))[1])
    monkeypatch.setattr("app.shop.people.sign_ins.hash_password", lambda *given: (nobody_waits(), make(*given))[1])
    assert isinstance(sign_in(database), NewSignIn)
    assert isinstance(sign_in(database, password="wrong wrong wrong wrong"), Refused)
    assert isinstance(set_password(database, link(database), PASSWORD, lifetime=LASTING), NewSignIn)


def test_what_is_kept_of_a_sign_in_does_not_open_it(database, designer):
    token = sign_in(database).token
    kept = database.read(lambda session: session.scalars(sa.select(SignIn.token_sha256)).one())
    assert kept != token
    assert holder(database, kept) is None


def test_a_sign_in_that_was_ended_stays_ended_and_others_go_on(database, designer):
    phone, laptop = sign_in(database).token, sign_in(database).token
    database.write(end_sign_in, phone)
    database.write(record_use, phone)
    assert holder(database, phone) is None
    assert holder(database, laptop) == EMAIL


def test_signing_in_again_on_the_same_browser_ends_what_it_had(database, designer):
    first = sign_in(database).token
    second = sign_in(database, instead_of=first).token
    assert holder(database, first) is None
    assert holder(database, second) == EMAIL


def test_signing_out_everywhere_ends_all_of_hers_and_nobody_elses(database, designer, stored):
    with database.writing() as session:
        ensure_designer(session, "other@studio.example", "Other").password_hash = stored
    tokens = [sign_in(database).token for _ in range(2)]
    others = sign_in(database, "other@studio.example").token
    assert len(database.read(open_sign_ins, designer, lifetime=LASTING)) == 2
    database.write(end_sign_ins, designer)
    assert [holder(database, token) for token in (*tokens, others)] == [None, None, "other@studio.example"]


def test_a_sign_in_ends_when_it_is_not_used_and_at_last_however_busy(database, designer):
    token = sign_in(database).token
    move(database, used_at=LASTING.idle - timedelta(minutes=1))
    assert holder(database, token) == EMAIL
    database.write(record_use, token)
    move(database, used_at=LASTING.idle + timedelta(minutes=1))
    assert holder(database, token) is None
    assert database.read(open_sign_ins, designer, lifetime=LASTING) == []
    busy = sign_in(database).token
    move(database, ends_at=LASTING.most)
    assert holder(database, busy) is None


def test_use_is_written_down_once_an_hour(database, designer):
    token = sign_in(database).token
    assert not database.read(open_sign_in, token, lifetime=LASTING).unwritten
    move(database, used_at=timedelta(minutes=61))
    assert database.read(open_sign_in, token, lifetime=LASTING).unwritten
    database.write(record_use, token)
    assert not database.read(open_sign_in, token, lifetime=LASTING).unwritten


def test_ended_sign_ins_are_cleared_away(database, designer):
    sign_in(database)
    move(database, used_at=LASTING.idle)
    sign_in(database)
    move(database, ends_at=LASTING.most)
    sign_in(database)
    assert database.read(lambda session: session.scalar(sa.select(sa.func.count()).select_from(SignIn))) == 1


def test_a_link_sets_one_password_once_and_ends_every_sign_in(database, designer):
    before = sign_in(database).token
    token = link(database)
    entered = set_password(database, token, "quite another meadow lantern", lifetime=LASTING)
    assert holder(database, entered.token) == EMAIL
    assert holder(database, before) is None
    assert isinstance(sign_in(database), Refused)
    assert set_password(database, token, PASSWORD, lifetime=LASTING).problems[0].code == "people.link-ended"


def test_a_link_used_twice_at_once_sets_one_password(database, designer, monkeypatch):
    token = link(database)
    make = sign_ins.hash_password

    def overtaken(password):
        monkeypatch.setattr("app.shop.people.sign_ins.hash_password", make)
        assert isinstance(set_password(database, token, "the faster meadow lantern", lifetime=LASTING), NewSignIn)
        return make(password)

    monkeypatch.setattr("app.shop.people.sign_ins.hash_password", overtaken)
    slower = set_password(database, token, "the slower meadow lantern", lifetime=LASTING)
    assert slower.problems[0].code == "people.link-ended"
    assert isinstance(sign_in(database, password="the faster meadow lantern"), NewSignIn)


def test_a_password_that_was_changed_while_it_was_checked_opens_nothing(database, designer, monkeypatch):
    verify = sign_ins.password_matches

    def meanwhile(stored, password):
        with database.writing() as session:
            session.get(Designer, designer.id).password_hash = "new"
        return verify(stored, password)

    monkeypatch.setattr("app.shop.people.sign_ins.password_matches", meanwhile)
    assert sign_in(database).problems[0].code == "people.sign-in-refused"


@pytest.mark.parametrize(
    ("password", "code"),
    [
        ("short", "people.password-short"),
        (f"{EMAIL} {EMAIL}", "people.password-common"),
        ("Heron Yard Heron Yard", "people.password-common"),
        ("wilma heron yard 1", "people.password-common"),
    ],
)
def test_a_weak_password_or_one_of_her_own_names_keeps_the_link_open(database, password, code):
    with database.writing() as session:
        ensure_studio(session, "Heron Yard", "", "")
    token = link(database)
    assert set_password(database, token, password, lifetime=LASTING).problems[0].code == code
    assert isinstance(set_password(database, token, PASSWORD, lifetime=LASTING), NewSignIn)
