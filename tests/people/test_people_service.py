"""Signing in, one-time password links, and the studio's row."""

from datetime import timedelta

import pytest
import sqlalchemy as sa

from app.pattern.problem import Problem
from app.people.models import Designer, FailedSignIn
from app.people.service import (
    LINK_HOLDS,
    SIGN_IN_WINDOW,
    TRIES_PER_ADDRESS,
    TRIES_PER_EMAIL,
    by_id,
    designer_by_token,
    ensure_designer,
    ensure_studio,
    password_link,
    password_link_token,
    set_password,
    sign_in,
    studio,
)

PASSWORD = "pewter lantern oat meadow"
EMAIL = "wilma@studio.example"


@pytest.fixture
def designer(session):
    made = ensure_designer(session, EMAIL, "Wilma")
    set_password(session, password_link_token(session, made), PASSWORD)
    return made


def fail(session, times, email=EMAIL, address="192.0.2.1"):
    return [sign_in(session, email, "wrong wrong wrong wrong", address=address) for _ in range(times)][-1]


def test_the_right_password_signs_in_whatever_the_case_of_the_email(session, designer):
    assert sign_in(session, "  Wilma@Studio.EXAMPLE ", PASSWORD) is designer


def test_a_wrong_password_and_an_unknown_email_get_the_same_answer(session, designer):
    wrong = sign_in(session, EMAIL, "another password here")
    unknown = sign_in(session, "nobody@studio.example", PASSWORD)
    assert isinstance(wrong, Problem)
    assert wrong == unknown


def test_nobody_signs_in_before_a_password_was_set(session):
    ensure_designer(session, EMAIL, "Wilma")
    assert isinstance(sign_in(session, EMAIL, ""), Problem)


def test_too_many_tries_for_one_email_shut_it_even_for_the_right_password(session, designer):
    for each in range(TRIES_PER_EMAIL):
        fail(session, 1, address=f"192.0.2.{each}")
    refused = sign_in(session, EMAIL, PASSWORD, address="198.51.100.1")
    assert refused.code == "people.too-many-tries"


def test_too_many_tries_from_one_address_shut_it_for_every_email(session, designer, monkeypatch):
    # The hash is slow on purpose; which password it is does not matter here.
    monkeypatch.setattr("app.people.service.password_matches", lambda stored, password: False)
    for each in range(TRIES_PER_ADDRESS):
        fail(session, 1, email=f"guess{each}@studio.example")
    refused = sign_in(session, EMAIL, PASSWORD, address="192.0.2.1")
    assert refused.code == "people.too-many-tries"


def test_tries_stop_counting_after_a_while(session, designer):
    fail(session, TRIES_PER_EMAIL)
    session.execute(sa.update(FailedSignIn).values(at=FailedSignIn.at))
    for tried in session.scalars(sa.select(FailedSignIn)):
        tried.at -= SIGN_IN_WINDOW + timedelta(seconds=1)
    session.flush()
    assert sign_in(session, EMAIL, PASSWORD, address="192.0.2.1") is designer
    assert session.scalar(sa.select(sa.func.count()).select_from(FailedSignIn)) == 0


def test_failed_tries_keep_neither_email_nor_address(session, designer):
    fail(session, 1)
    keys = session.scalars(sa.select(FailedSignIn.key)).all()
    assert len(keys) == 2
    assert not any("wilma" in key or "192.0" in key for key in keys)


def test_a_link_sets_one_password_once(session):
    designer = ensure_designer(session, EMAIL, "Wilma")
    token = password_link_token(session, designer)
    assert designer_by_token(session, token) is designer
    assert set_password(session, token, PASSWORD) is designer
    assert sign_in(session, EMAIL, PASSWORD) is designer
    again = set_password(session, token, "another password here")
    assert again.code == "people.link-ended"
    assert token not in str(vars(designer))


def test_the_keeper_can_hand_a_new_link_to_a_designer_who_forgot(session, designer):
    link = password_link(session, "https://shop.example/", "WILMA@studio.example")
    page, token = link.rsplit("/", 1)
    assert page == "https://shop.example/password"
    assert designer_by_token(session, token) is designer
    assert sign_in(session, EMAIL, PASSWORD) is designer
    assert password_link(session, "https://shop.example", "nobody@studio.example").code == "people.unknown-email"


def test_a_weak_password_keeps_the_link_open(session):
    designer = ensure_designer(session, EMAIL, "Wilma")
    token = password_link_token(session, designer)
    assert set_password(session, token, "short").code == "people.password-short"
    assert set_password(session, token, PASSWORD) is designer


def test_a_new_link_ends_the_older_one_and_each_ends_by_itself(session):
    designer = ensure_designer(session, EMAIL, "Wilma")
    old = password_link_token(session, designer)
    new = password_link_token(session, designer)
    assert designer_by_token(session, old) is None
    designer.password_token_until -= LINK_HOLDS + timedelta(seconds=1)
    assert designer_by_token(session, new) is None
    assert set_password(session, new, PASSWORD).code == "people.link-ended"


def test_a_new_password_ends_older_sessions(session, designer):
    then = designer.session_round
    assert by_id(session, designer.id, session_round=then) is designer
    set_password(session, password_link_token(session, designer), "quite another password")
    assert by_id(session, designer.id, session_round=then) is None
    assert by_id(session, 999, session_round=0) is None


def test_making_sure_of_designer_and_studio_adds_them_once(session):
    first = ensure_designer(session, EMAIL, "Wilma")
    assert ensure_designer(session, " WILMA@studio.example", "Other") is first
    assert first.password_hash is None
    assert studio(session) is None
    made = ensure_studio(session, "Heron Yard", "hello@studio.example", "")
    assert ensure_studio(session, "Other", "", "") is made
    assert studio(session).name == "Heron Yard"
    assert session.scalar(sa.select(sa.func.count()).select_from(Designer)) == 1
