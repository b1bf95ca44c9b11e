"""Whose network address a request comes from: one answer for everybody who counts or limits by it."""

from __future__ import annotations

import hmac
import logging
from collections.abc import Sequence
from hashlib import sha256
from ipaddress import IPv4Address, IPv4Network, IPv6Address, IPv6Network, ip_address

from starlette.datastructures import Headers
from starlette.requests import Request
from starlette.types import ASGIApp, Receive, Scope, Send

__all__ = ["ForwardedHeaders", "address_mark", "address_of", "keyed_mark"]

_log = logging.getLogger(__name__)

#: What one household or one office gets of IPv6: whoever has one address has 2^64 of them, so they count as one.
#: RFC 6177, section 2, and RFC 4291, section 2.5.1 (64 bits name the network, 64 the device on it); from memory.
_ONE_HOUSEHOLD = 64


def address_of(request: Request) -> str:
    """The network address that asks: IPv4 as it is, IPv6 as its /64; "" where none is known.

    Behind a proxy that `TAPELINE_PROXIES` names it is the visitor's own, and else whoever connected.
    """
    found = _read(request.client.host) if request.client else None
    if isinstance(found, IPv6Address) and not found.is_loopback:
        return str(IPv6Network((int(found), _ONE_HOUSEHOLD), strict=False))
    return str(found) if found else ""


def address_mark(request: Request) -> str:
    """A mark that stands for the address and cannot be turned back into it: what may be kept and counted.

    It is keyed with the shop's secret, as there are too few addresses for a bare digest to hide one. "" when no
    address is known, or when it is this very machine's: that is a proxy or the keeper, and no customer.
    """
    address = address_of(request)
    if not address or ("/" not in address and ip_address(address).is_loopback):
        return ""
    return keyed_mark(request, "address", address)


def keyed_mark(request: Request, kind: str, text: str) -> str:
    """A mark for a text that this shop alone can make, told apart by what kind of text it is."""
    secret: str = request.app.state.settings.session_secret()
    return hmac.new(secret.encode(), f"{kind}:{text}".encode(), sha256).hexdigest()


class ForwardedHeaders:
    """Believes what a proxy says of its visitor (X-Forwarded-For and -Proto), when the keeper has listed that proxy.

    Anybody may send these headers. Each proxy adds whom it heard at the end of the list, so the visitor is the last
    one in it that is no proxy of ours; what stands before that one the visitor has written herself.
    """

    def __init__(self, app: ASGIApp, *, proxies: Sequence[IPv4Network | IPv6Network]) -> None:
        """Wrap `app`; only addresses within `proxies` are believed."""
        self._app = app
        self._proxies = proxies
        self._warned = False

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Put the visitor's address in the place of her proxy's."""
        if scope["type"] in ("http", "websocket"):
            self._look(scope, Headers(scope=scope))
        await self._app(scope, receive, send)

    def _look(self, scope: Scope, headers: Headers) -> None:
        sender = scope["client"][0] if scope.get("client") else ""
        said = ",".join(headers.getlist("x-forwarded-for"))
        if not self._is_ours(_read(sender)):
            self._warn(sender, headers)
            return
        proto = headers.get("x-forwarded-proto", "").strip()
        if proto in ("http", "https"):
            scope["scheme"] = proto
        visitor = self._last_stranger(said)
        if visitor is not None:
            scope["client"] = (str(visitor), 0)

    def _last_stranger(self, said: str) -> IPv4Address | IPv6Address | None:
        """The last address that is not one of our proxies; None when something else is met before it."""
        for each in reversed(said.split(",")):
            found = _read(each.strip())
            if found is None or not self._is_ours(found):
                return found
        return None

    def _is_ours(self, address: IPv4Address | IPv6Address | None) -> bool:
        return address is not None and any(address in network for network in self._proxies)

    def _warn(self, sender: str, headers: Headers) -> None:
        if self._warned or not ("x-forwarded-for" in headers or "x-forwarded-proto" in headers):
            return
        self._warned = True
        _log.warning(
            "%s says for whom it asks (X-Forwarded-For), and is not believed: TAPELINE_PROXIES does not list it. If it "
            "is your own proxy, list it there; until then all who come through it count as one. This is told once.",
            sender or "a nameless sender",
        )


def _read(text: str) -> IPv4Address | IPv6Address | None:
    """An address as a socket or a proxy writes it: alone, with its port, in brackets; None when it is none."""
    host = text.partition("]")[0].removeprefix("[") if text.startswith("[") else text
    host = host.partition(":")[0] if host.count(":") == 1 else host
    try:
        found = ip_address(host.partition("%")[0])
    except ValueError:
        return None
    # A socket that listens for both kinds writes an IPv4 visitor as ::ffff:192.0.2.1.
    return found.ipv4_mapped or found if isinstance(found, IPv6Address) else found
