"""What an address and a form may hold: text that any database, page and printed sheet can keep, decided once."""

from __future__ import annotations

import re
from urllib.parse import quote

from starlette.requests import Request
from starlette.routing import Match
from starlette.types import ASGIApp, Message, Receive, Scope, Send

__all__ = ["HeadAsGet", "PlainAddresses", "plain_text", "without_slash"]

#: Signs that are no text: PostgreSQL takes no NUL, UTF-8 no half of a pair, XML none of the others, and a line break
#: in a log forges a line.
_NO_SIGN = r"\ud800-\udfff\ufffe\uffff"
_NO_LETTER = re.compile(rf"[\x00-\x1f\x7f-\x9f{_NO_SIGN}]")
#: The same for what people type, where tabs and ends of lines have a meaning.
_NOT_TYPED = re.compile(r"[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f]")
_NO_PAIR = re.compile(f"[{_NO_SIGN}]")
_NO_LETTER_QUOTED = re.compile(rb"%(?:[01][0-9a-f]|7f|c2%[89][0-9a-f])", re.IGNORECASE)
#: U+FFFD, which stands for what could not be read; nothing of ours is named with it.
_UNREADABLE = "\ufffd"


def plain_text(typed: str) -> str:
    """What somebody typed, without the signs that no keyboard sends and nothing can print."""
    return _NO_PAIR.sub(_UNREADABLE, _NOT_TYPED.sub("", typed))


class PlainAddresses:
    """Puts U+FFFD in the place of every sign in an address that is no letter: such a page is simply not there."""

    def __init__(self, app: ASGIApp) -> None:
        """Wrap `app`."""
        self._app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Pass the request on with a path and a query that can be read."""
        if scope["type"] == "http":
            scope["path"] = _NO_LETTER.sub(_UNREADABLE, scope["path"])
            scope["query_string"] = _NO_LETTER_QUOTED.sub(quote(_UNREADABLE).encode(), scope["query_string"])
        await self._app(scope, receive, send)


class HeadAsGet:
    """Answers HEAD as GET, without the body: whatever can be got can be asked about (RFC 9110, section 9.3.2)."""

    def __init__(self, app: ASGIApp) -> None:
        """Wrap `app`."""
        self._app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Pass the request on as a GET, and keep its body back."""
        if scope["type"] != "http" or scope["method"] != "HEAD":
            await self._app(scope, receive, send)
            return

        async def bodiless(message: Message) -> None:
            await send({**message, "body": b""} if message["type"] == "http.response.body" else message)

        await self._app({**scope, "method": "GET"}, receive, bodiless)


def without_slash(request: Request) -> str:
    """Where a page is that was looked for with a slash at its end; "" when there is none without it either.

    Always a path of this shop, without a host: the one a request names is whatever its sender wrote there.
    """
    path: str = request.scope["path"]
    if request.method != "GET" or not path.startswith("/") or not path.endswith("/"):
        return ""
    bare = "/" + path.strip("/")
    scope = {**request.scope, "path": bare}
    if not any(route.matches(scope)[0] is Match.FULL for route in request.app.router.routes):
        return ""
    query = request.scope["query_string"].decode("latin-1")
    return quote(bare) + (f"?{query}" if query else "")
