"""The studio's door: signing out for good, here and everywhere, guessers, known devices, and turns to be checked in."""

import asyncio
import json
import re
from base64 import b64encode
from dataclasses import replace
from datetime import timedelta

import itsdangerous
import pytest
import sqlalchemy as sa
from starlette.requests import Request

from app.base.errors import Busy
from app.shop.people.devices import attempt_from
from app.shop.people.models import SignIn
from app.shop.people.tries import PER_ADDRESS, PER_EMAIL, PER_EMAIL_AND_ADDRESS, SignInAttempt, count_failure
from app.web.turns import Turns
from tests.visitor import PASSWORD

EMAIL = "ottilie@cotter-row.example"


def sign_in(person, email=EMAIL, password=PASSWORD):
    return person.submit(person.get("/studio/sign-in"), email=email, password=password)


def keep_cookies(person):
    return [(cookie.name, cookie.value, cookie.path) for cookie in person.client.cookies.jar]


def bring_cookies(person, kept):
    for name, value, path in kept:
        person.client.cookies.set(name, value, domain="shop.test", path=path)


@pytest.fixture
def guessed(database, monkeypatch):
    """Wrong passwords for the designer from these addresses; the hash is slow on purpose and not what is asked here."""

    def build(arrive, addresses, times):
        with monkeypatch.context() as quick:
            quick.setattr("app.shop.people.sign_ins.password_matches", lambda stored, password: False)
            for address in addresses:
                person = arrive(address)
                for _ in range(times):
                    page = sign_in(person, password="guess")
        return page

    return build


def test_a_kept_cookie_opens_nothing_after_signing_out(designer, arrive):
    kept = keep_cookies(designer)
    thief = arrive()
    bring_cookies(thief, kept)
    assert thief.get("/studio").path == "/studio"
    out = designer.submit(designer.get("/studio"), to="/studio/sign-out")
    assert out.path == "/"
    assert designer.get("/studio").path == "/studio/sign-in"
    assert thief.get("/studio").path == "/studio/sign-in"
    bring_cookies(designer, kept)
    assert designer.get("/studio/orders/TL-2222").path == "/studio/sign-in"


def test_a_browser_whose_sign_in_has_ended_is_told_so_on_every_page(designer, database):
    with database.writing() as session:
        session.execute(sa.delete(SignIn))
    page = designer.get("/studio")
    assert page.path == "/studio/sign-in"
    assert "Sign out" not in designer.get("/about").words


def test_signing_out_on_one_device_leaves_the_other_signed_in(designer, arrive):
    phone = arrive()
    sign_in(phone)
    phone.submit(phone.get("/studio"), to="/studio/sign-out")
    assert designer.get("/studio").path == "/studio"


def test_signing_out_everywhere_ends_every_device(designer, arrive):
    phone = arrive()
    sign_in(phone)
    page = designer.get("/studio/sign-ins")
    assert page.words.count("This device.") == page.words.count("Another device.") == 1
    assert re.search(r"Since \d+ \w+ \d{4}, \d\d:\d\d UTC; in use now\.", page.words)
    assert "/studio/sign-ins" in designer.get("/studio").html
    out = designer.submit(page, to="/studio/sign-out-everywhere")
    assert out.path == "/studio/sign-in"
    assert "You are signed out on every device." in out.words
    assert phone.get("/studio").path == designer.get("/studio").path == "/studio/sign-in"


def test_nobody_signs_another_out_without_the_forms_token(designer, arrive):
    for path in ("/studio/sign-out", "/studio/sign-out-everywhere"):
        assert designer.post(path, {}).status == 403
        assert designer.post(path, {"form_token": arrive().get("/studio/sign-in").form()["form_token"]}).status == 403
    assert designer.get("/studio").path == "/studio"


def test_a_sign_in_ends_after_its_days(settings, designer, database):
    with database.writing() as session:
        [found] = session.scalars(sa.select(SignIn))
        assert found.ends_at - found.begun_at == timedelta(days=settings.session_days)
        found.used_at -= timedelta(days=settings.session_idle_days)
    assert designer.get("/studio").path == "/studio/sign-in"


def test_a_session_cookie_of_before_is_no_sign_in(app, arrive):
    person = arrive()
    person.client.cookies.set("tapeline", _signed(app, {"designer": [1, 1]}), domain="shop.test")
    assert person.get("/studio").path == "/studio/sign-in"


def _signed(app, held):
    signer = itsdangerous.TimestampSigner(app.state.settings.session_secret())
    return signer.sign(b64encode(json.dumps(held).encode())).decode()


def test_guessing_from_one_address_is_slowed_down_in_true_words(designer, arrive, guessed):
    guessed(arrive, ["192.0.2.1"], PER_EMAIL_AND_ADDRESS)
    refused = sign_in(arrive("192.0.2.1"))
    assert refused.status == 429
    assert "10 wrong passwords for this e-mail have come from your network within 15 minutes." in refused.words
    assert "You can try again here in 15 minutes." in refused.words


def test_no_stranger_locks_the_designer_out(designer, arrive, guessed):
    designer.submit(designer.get("/studio"), to="/studio/sign-out")
    guessed(arrive, ["127.0.0.1", "192.0.2.1", "2001:db8::1"], PER_ADDRESS)
    assert sign_in(designer).path == "/studio"


def test_a_wide_guess_holds_up_unknown_devices_and_a_link_opens_all_the_same(designer, arrive, database):
    person = arrive("198.51.100.1")
    page = person.get("/studio/sign-in")
    scope = {"type": "http", "app": designer.client._transport.app, "headers": [], "client": None}
    who = attempt_from(Request(scope), EMAIL)
    with database.writing() as session:
        for number in range(PER_EMAIL):
            count_failure(session, SignInAttempt(who.email, f"stranger {number}"))
    refused = person.submit(page, email=EMAIL, password=PASSWORD)
    assert refused.status == 429
    assert "perhaps a stranger" in refused.words
    designer.submit(designer.get("/studio"), to="/studio/sign-out")
    assert sign_in(designer).path == "/studio"


def test_a_known_device_is_known_by_a_cookie_that_opens_nothing(designer, arrive):
    [device] = [cookie for cookie in designer.client.cookies.jar if cookie.name == "tapeline-device"]
    assert device.path == "/studio/sign-in"
    assert device.expires is not None
    assert EMAIL not in device.value
    other = arrive()
    other.client.cookies.set(device.name, device.value, domain="shop.test", path=device.path)
    assert other.get("/studio").path == "/studio/sign-in"


def test_a_device_cookie_serves_only_its_own_email_and_only_as_signed(designer, arrive, guessed):
    [device] = [cookie for cookie in designer.client.cookies.jar if cookie.name == "tapeline-device"]
    guessed(arrive, ["192.0.2.1"], PER_EMAIL_AND_ADDRESS)
    forged = arrive("192.0.2.1")
    forged.client.cookies.set(device.name, device.value[:-2] + "AA", domain="shop.test", path=device.path)
    assert sign_in(forged).status == 429
    honest = arrive("192.0.2.1")
    honest.client.cookies.set(device.name, device.value, domain="shop.test", path=device.path)
    assert sign_in(honest).path == "/studio"


def test_the_device_cookie_is_out_of_reach_of_scripts_and_other_sites(visitor, designer):
    page = visitor.get("/studio/sign-in")
    answer = visitor.post(
        "/studio/sign-in", {**page.form(), "email": EMAIL, "password": PASSWORD}, follow_redirects=False
    )
    [cookie] = [each for each in answer.headers.get_list("set-cookie") if each.startswith("tapeline-device=")]
    assert {"httponly", "samesite=strict", "path=/studio/sign-in"} <= {
        part.strip().lower() for part in cookie.split(";")
    }


def test_so_many_passwords_are_checked_at_once_and_the_rest_wait_without_a_thread(app, designer, monkeypatch):
    running, most = [], []

    def slow(stored, password):
        running.append(1)
        most.append(len(running))
        running.pop()
        return False

    monkeypatch.setattr("app.shop.people.sign_ins.password_matches", slow)
    page = designer.get("/studio/sign-in")
    fields = {**page.form("/studio/sign-in"), "email": "x@y.example", "password": "guess"}

    async def crowd():
        return await asyncio.gather(*(designer.client.post("/studio/sign-in", data=fields) for _ in range(60)))

    answers = [answer.status_code for answer in designer._runner.run(crowd())]
    assert set(answers) <= {422, 429, 503}
    assert max(most) <= 2
    assert designer.get("/studio").path == "/studio"


def test_turns_are_given_on_and_a_full_queue_is_told_at_once():
    async def day():
        turns, done = Turns(1, queue=1), []

        async def work(name):
            async with turns:
                done.append(name)
                await asyncio.sleep(0)

        async with turns:
            waiting = asyncio.create_task(work("waits"))
            await asyncio.sleep(0)
            with pytest.raises(Busy):
                await work("too many")
            waiting.cancel()
            await asyncio.sleep(0)
            second = asyncio.create_task(work("comes later"))
            await asyncio.sleep(0)
        await second
        await work("last")
        return done

    assert asyncio.run(day()) == ["comes later", "last"]


def test_whoever_finds_no_place_to_wait_is_told_to_come_again(app, visitor):
    app.state.doors = replace(app.state.doors, hashes=Turns(0, queue=0))
    page = visitor.submit(visitor.get("/studio/sign-in"), email=EMAIL, password=PASSWORD)
    assert page.status == 503
    assert page.headers["retry-after"] == "60"
    assert "try again in a minute" in page.words
