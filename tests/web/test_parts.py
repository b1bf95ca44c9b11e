"""The small parts that every page shares, each by itself."""

import asyncio

import httpx
import pytest
from hypothesis import given
from hypothesis import strategies as st
from starlette.applications import Starlette
from starlette.middleware import Middleware
from starlette.middleware.sessions import SessionMiddleware
from starlette.requests import Request
from starlette.responses import JSONResponse, PlainTextResponse
from starlette.routing import Route

from app.web.fields import Field
from app.web.headers import BodyLimit, SafeHeaders, headers_of_every_answer
from app.web.posted import read_form
from app.web.sessions import form_token, leave_notice, sign_in, sign_out, signed_in, take_notices

LIMIT = 1000


def request_with(session):
    return Request({"type": "http", "method": "GET", "path": "/", "headers": [], "session": session})


async def echo(request):
    return JSONResponse(dict(await read_form(request)))


async def plain(request):
    return PlainTextResponse("plain", headers={"cache-control": "public, max-age=60"})


def site():
    return Starlette(
        routes=[Route("/echo", echo, methods=["POST"]), Route("/plain", plain)],
        middleware=[
            Middleware(SafeHeaders, https_only=True),
            Middleware(BodyLimit, most=lambda path: LIMIT),
            Middleware(SessionMiddleware, secret_key="test"),
        ],
    )


def ask(method, path, **more):
    async def once():
        transport = httpx.ASGITransport(app=site(), raise_app_exceptions=False)
        async with httpx.AsyncClient(transport=transport, base_url="http://shop.test") as client:
            return await client.request(method, path, **more)

    return asyncio.run(once())


async def drops(size, count):
    for _ in range(count):
        yield b"a=" + b"x" * size


@pytest.mark.parametrize(("size", "status"), [(100, 200), (LIMIT - 2, 200), (LIMIT, 413), (50 * LIMIT, 413)])
def test_a_body_is_taken_up_to_its_limit_and_no_further(size, status):
    assert ask("POST", "/echo", data={"a": "x" * size}).status_code == status


def test_a_body_that_hides_its_length_is_counted_as_it_comes():
    kind = {"content-type": "application/x-www-form-urlencoded"}
    assert ask("POST", "/echo", content=drops(50, 2), headers=kind).status_code == 200
    assert ask("POST", "/echo", content=drops(400, 5), headers=kind).status_code == 413


def test_a_field_sent_twice_counts_once_and_a_file_is_no_field():
    kind = {"content-type": "application/x-www-form-urlencoded"}
    answer = ask("POST", "/echo", content=b"a=1&a=2&b=&c=%E2%82%AC", headers=kind)
    assert answer.json() == {"a": "2", "b": "", "c": "€"}
    assert ask("POST", "/echo", data={"a": "1"}, files={"f": b"bytes"}).json() == {"a": "1"}
    assert ask("POST", "/echo", files={"f": b"bytes", "g": b"bytes"}).status_code == 400


def test_a_cache_rule_of_the_pages_own_is_kept():
    headers = ask("GET", "/plain").headers
    assert headers["cache-control"] == "public, max-age=60"
    assert headers["strict-transport-security"] == "max-age=31536000"


@pytest.mark.parametrize(
    ("path", "rule"),
    [
        ("/", "private, no-cache"),
        ("/patterns/x/measure", "private, no-cache"),
        ("/fittings/x", "no-store"),
        ("/orders/x/files/y", "no-store"),
        ("/studio", "no-store"),
        ("/password/x", "no-store"),
        ("/static/css/base.css", "public, max-age=3600"),
    ],
)
def test_what_may_be_kept_by_a_browser_depends_on_the_path(path, rule):
    assert headers_of_every_answer(path)["cache-control"] == rule


def test_signing_in_begins_a_new_session_and_signing_out_empties_it():
    session = {"form": "planted", "other": 1}
    request = request_with(session)
    sign_in(request, "a token")
    assert signed_in(request) == "a token"
    assert set(session) == {"designer"}
    sign_out(request)
    assert session == {}
    assert signed_in(request) is None


@given(st.one_of(st.none(), st.integers(), st.lists(st.integers() | st.text(), max_size=4)))
def test_a_session_of_another_shape_signs_nobody_in(found):
    assert signed_in(request_with({"designer": found})) is None


def test_a_form_token_stays_for_its_session_and_differs_between_sessions():
    one, other = request_with({}), request_with({})
    assert form_token(one) == form_token(one)
    assert form_token(one) != form_token(other)
    assert len(form_token(one)) >= 40


def test_notices_are_shown_once_in_their_order():
    request = request_with({})
    assert take_notices(request) == ()
    leave_notice(request, "first")
    leave_notice(request, "second", "wrong")
    assert [(notice.words, notice.tone) for notice in take_notices(request)] == [("first", "good"), ("second", "wrong")]
    assert take_notices(request) == ()


def test_a_field_is_described_by_what_it_has():
    assert Field(name="a", label="A").described == ""
    assert Field(name="a", label="A", hint="h").described == "a-hint"
    assert Field(name="a", label="A", hint="h", error="e").described == "a-hint a-error"
    assert Field(name="a", label="A", unit="cm").is_figure
    assert Field(name="a", label="A", mode="decimal").is_figure
    assert not Field(name="a", label="A").is_figure
