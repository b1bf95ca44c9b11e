"""What the pages of the studio and its sign-in show: never a password, never another's device taken for this one."""

from datetime import timedelta

import pytest

from app.pattern.problem import Problem
from app.shop.people.models import SignIn, Studio
from app.shop.people.passwords import LEAST_LENGTH, token_digest
from app.shop.people.view import LINK_ENDED, about_page, password_page, sign_in_page, sign_ins_page
from tests.shop.unsaved import MOMENT

WRONG = Problem("people.wrong", "E-mail and password do not belong together.", "Look at both.")


def signed_in(token, **ago):
    moment = MOMENT - timedelta(**ago)
    return SignIn(token_sha256=token_digest(token), begun_at=moment, used_at=MOMENT, ends_at=MOMENT)


def test_the_sign_in_form_begins_empty_and_tells_nothing():
    page = sign_in_page()
    assert [(field.name, field.kind, field.value) for field in page.fields] == [
        ("email", "email", ""), ("password", "password", ""),
    ]  # fmt: skip
    assert page.errors == ()


def test_a_refused_sign_in_keeps_the_e_mail_and_says_why():
    page = sign_in_page("ottilie@cotter-row.example", [WRONG])
    email, password = page.fields
    assert (email.value, password.value) == ("ottilie@cotter-row.example", "")
    assert page.errors_title == "You are not signed in"
    assert [(error.field, error.words) for error in page.errors] == [
        ("email", "E-mail and password do not belong together. Look at both."),
    ]


def test_a_browser_is_told_which_field_is_for_which_password():
    """By the words of HTML's `autocomplete`, a browser offers the kept password here and a new one there."""
    assert [field.complete for field in sign_in_page().fields] == ["username", "current-password"]
    [field] = password_page("a@b.example", "/password/x").fields
    assert field.complete == "new-password"


def test_a_new_password_is_asked_for_with_what_it_needs():
    page = password_page("a@b.example", "/password/x", [WRONG])
    [field] = page.fields
    assert field.hint.startswith(f"At least {LEAST_LENGTH} characters.")
    assert field.value == ""
    assert (page.email, page.action, page.errors_title) == ("a@b.example", "/password/x", "The password was not set")
    assert [error.field for error in page.errors] == ["password"]


@pytest.mark.parametrize("token", ["mine", "other", ""])
def test_only_the_device_that_asks_is_called_this_device(token):
    page = sign_ins_page([signed_in("mine"), signed_in("other", days=2)], token)
    names = [line.device for line in page.sign_ins]
    assert names.count("This device") == (1 if token else 0)
    if token:
        assert names[["mine", "other"].index(token)] == "This device"


def test_a_sign_in_is_told_with_its_times_in_one_zone():
    mine, other = sign_ins_page([signed_in("mine"), signed_in("other", days=2)], "mine").sign_ins
    assert mine.words == "Since 5 March 2026, 09:30 UTC; in use now."
    assert other.words == "Since 3 March 2026, 09:30 UTC; last used 5 March 2026, about 09:30 UTC."


def test_the_studio_speaks_in_its_own_words_without_raw_html():
    studio = Studio(id=1, name="Heron Yard", contact_email="hi@heron.example", about_md="I *draft*. <script>x</script>")
    page = about_page(studio)
    assert (page.name, page.email) == ("Heron Yard", "hi@heron.example")
    assert "<em>draft</em>" in page.about
    assert "<script>" not in page.about


def test_an_ended_link_says_what_to_do_for_each_way_it_may_have_ended():
    for words in ("works once", "within a day", "to its last letter", "tapeline password", "sign in with it"):
        assert words in LINK_ENDED.words
    assert LINK_ENDED.link == "/studio/sign-in"
