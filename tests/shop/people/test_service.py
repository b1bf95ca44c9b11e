"""Designers, one-time password links, and the studio's row."""

from datetime import timedelta

import sqlalchemy as sa

from app.shop.people.models import Designer
from app.shop.people.service import (
    LINK_HOLDS,
    designer_by_token,
    ensure_designer,
    ensure_studio,
    password_link,
    password_link_token,
    studio,
)

EMAIL = "wilma@studio.example"


def test_the_keeper_can_hand_a_new_link_to_a_designer_who_forgot(session):
    designer = ensure_designer(session, EMAIL, "Wilma")
    link = password_link(session, "https://shop.example/", "WILMA@studio.example")
    page, token = link.rsplit("/", 1)
    assert page == "https://shop.example/password"
    assert designer_by_token(session, token) is designer
    assert token not in str(vars(designer))
    (problem,) = password_link(session, "https://shop.example", "nobody@studio.example").problems
    assert problem.code == "people.unknown-email"


def test_a_new_link_ends_the_older_one_and_each_ends_by_itself(session):
    designer = ensure_designer(session, EMAIL, "Wilma")
    old = password_link_token(session, designer)
    new = password_link_token(session, designer)
    assert designer_by_token(session, old) is None
    assert designer_by_token(session, new) is designer
    designer.password_token_until -= LINK_HOLDS + timedelta(seconds=1)
    assert designer_by_token(session, new) is None


def test_making_sure_of_designer_and_studio_adds_them_once(session):
    first = ensure_designer(session, EMAIL, "Wilma")
    assert ensure_designer(session, " WILMA@studio.example", "Other") is first
    assert first.password_hash is None
    assert studio(session) is None
    made = ensure_studio(session, "Heron Yard", "hello@studio.example", "")
    assert ensure_studio(session, "Other", "", "") is made
    assert studio(session).name == "Heron Yard"
    assert session.scalar(sa.select(sa.func.count()).select_from(Designer)) == 1
