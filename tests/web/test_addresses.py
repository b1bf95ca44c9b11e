"""Whose network address asks: behind a proxy, over IPv6, and from somebody who only says so."""

from types import SimpleNamespace

import pytest
from pydantic import ValidationError
from starlette.requests import Request

from app.base.settings import Settings
from app.web.addresses import ForwardedHeaders, address_mark, address_of


def asked(settings, sender, *headers):
    """The request as a page sees it, sent by `sender` with these headers."""
    seen = []

    async def page(scope, _receive, _send):
        seen.append(Request(scope))

    scope = {
        "type": "http",
        "client": (sender, 51000) if sender else None,
        "scheme": "http",
        "headers": [(name.encode(), value.encode("latin-1")) for name, value in headers],
        "app": SimpleNamespace(state=SimpleNamespace(settings=settings)),
    }
    run = ForwardedHeaders(page, proxies=settings.trusted_proxies())(scope, None, None)
    with pytest.raises(StopIteration):
        run.send(None)
    return seen[0]


def behind(settings, proxies):
    return settings.model_copy(update={"proxies": proxies})


FOR = "x-forwarded-for"


def test_without_a_setting_no_sender_is_believed_not_even_this_machine(settings):
    for sender in ("127.0.0.1", "::1", "10.0.0.7"):
        request = asked(settings, sender, (FOR, "203.0.113.9"), ("x-forwarded-proto", "https"))
        assert address_of(request) == sender
        assert request.scope["scheme"] == "http"


@pytest.mark.parametrize(
    ("said", "meant"),
    [
        ("203.0.113.9", "203.0.113.9"),
        ("203.0.113.9, 10.0.0.8", "203.0.113.9"),
        ("198.51.100.1, 203.0.113.9", "203.0.113.9"),
        ("nonsense, 203.0.113.9", "203.0.113.9"),
        ("203.0.113.9:4711", "203.0.113.9"),
        ("[2001:db8:1:2:3::9]:4711", "2001:db8:1:2::/64"),
        ("nonsense", "10.0.0.7"),
        ("", "10.0.0.7"),
        ("10.0.0.8", "10.0.0.7"),
    ],
)
def test_a_listed_proxy_is_believed_about_the_last_address_that_is_no_proxy(settings, said, meant):
    request = asked(behind(settings, "127.0.0.1, 10.0.0.0/24"), "10.0.0.7", (FOR, said))
    assert address_of(request) == meant


def test_a_visitor_who_writes_the_header_herself_is_known_by_what_the_proxy_adds(settings):
    request = asked(behind(settings, "10.0.0.7"), "10.0.0.7", (FOR, "127.0.0.1"), (FOR, "203.0.113.9"))
    assert address_of(request) == "203.0.113.9"


def test_a_listed_proxy_says_whether_the_visit_is_encrypted(settings):
    ours = behind(settings, "10.0.0.7")
    assert asked(ours, "10.0.0.7", ("x-forwarded-proto", "https")).scope["scheme"] == "https"
    assert asked(ours, "10.0.0.7", ("x-forwarded-proto", "javascript")).scope["scheme"] == "http"
    assert asked(ours, "10.0.0.9", ("x-forwarded-proto", "https")).scope["scheme"] == "http"


def test_a_household_with_ipv6_counts_as_one(settings):
    first, second, other = (
        address_mark(asked(settings, sender))
        for sender in ("2001:db8:1:2::1", "2001:db8:1:2:ffff::9", "2001:db8:1:3::1")
    )
    assert first == second != other


def test_an_ipv4_visitor_is_the_same_on_a_socket_for_both_kinds(settings):
    assert address_of(asked(settings, "::ffff:192.0.2.1")) == address_of(asked(settings, "192.0.2.1")) == "192.0.2.1"
    assert address_of(asked(behind(settings, "10.0.0.7"), "::ffff:10.0.0.7", (FOR, "192.0.2.1"))) == "192.0.2.1"


@pytest.mark.parametrize("sender", ["127.0.0.1", "127.8.9.1", "::1", "::ffff:127.0.0.1", "", "testclient"])
def test_this_machine_and_nobody_known_leave_no_mark(settings, sender):
    assert address_mark(asked(settings, sender)) == ""


def test_a_mark_hides_the_address_and_needs_the_shops_secret(settings):
    mark = address_mark(asked(settings, "192.0.2.1"))
    other = address_mark(
        asked(settings.model_copy(update={"session_key": None, "data_dir": settings.data_dir / "b"}), "192.0.2.1")
    )
    assert "192.0.2" not in mark
    assert mark != other
    assert mark == address_mark(asked(settings, "192.0.2.1"))


def test_a_header_from_somebody_not_listed_is_told_once(settings, caplog):
    async def page(scope, receive, send):
        return None

    door = ForwardedHeaders(page, proxies=())
    for sender in ("127.0.0.1", "127.0.0.1", "192.0.2.1"):
        scope = {"type": "http", "client": (sender, 1), "headers": [(b"x-forwarded-for", b"203.0.113.9")]}
        with pytest.raises(StopIteration):
            door(scope, None, None).send(None)
    assert caplog.text.count("TAPELINE_PROXIES does not list it") == 1
    assert "127.0.0.1 says" in caplog.text


@pytest.mark.parametrize("wrong", ["*", "proxy.example", "10.0.0.1/8", "10.0.0.0/99", "300.1.1.1"])
def test_a_proxy_that_is_no_address_is_refused_at_the_start(wrong):
    with pytest.raises(ValidationError, match="TAPELINE_PROXIES takes addresses"):
        Settings(proxies=wrong)
