"""Security headers on every answer, cache rules by path, and a limit on what is sent to us."""

from __future__ import annotations

import asyncio
from collections.abc import Callable

from starlette.datastructures import MutableHeaders
from starlette.exceptions import HTTPException
from starlette.types import ASGIApp, Message, Receive, Scope, Send

__all__ = ["CONTENT_SECURITY_POLICY", "BodyLimit", "SafeHeaders", "headers_of_every_answer"]

CONTENT_SECURITY_POLICY = "; ".join(
    (
        "default-src 'none'",
        "script-src 'self'",
        "style-src 'self'",
        "img-src 'self'",
        "font-src 'self'",
        "connect-src 'self'",
        "form-action 'self'",
        "base-uri 'none'",
        "frame-ancestors 'none'",
    )
)

_ALWAYS = {
    "content-security-policy": CONTENT_SECURITY_POLICY,
    "x-content-type-options": "nosniff",
    "x-frame-options": "DENY",
    "referrer-policy": "same-origin",
    "cross-origin-opener-policy": "same-origin",
    "cross-origin-resource-policy": "same-origin",
    "permissions-policy": "camera=(), geolocation=(), microphone=(), payment=(), usb=()",
}

#: Pages that show a body or the studio's books: no copy may stay behind on a shared computer.
_PRIVATE = ("/fittings", "/orders", "/studio", "/password")


def headers_of_every_answer(path: str) -> dict[str, str]:
    """The headers that every answer at this path carries."""
    if path.startswith(_PRIVATE):
        return {**_ALWAYS, "x-robots-tag": "noindex, nofollow", "cache-control": "no-store"}
    # A form half filled in must survive the Back button, so these pages may stay in the browser's own memory.
    kept = "public, max-age=3600" if path.startswith("/static/") else "private, no-cache"
    return {**_ALWAYS, "cache-control": kept}


class SafeHeaders:
    """Adds the headers that keep a page to itself."""

    def __init__(self, app: ASGIApp, *, https_only: bool) -> None:
        """Wrap `app`; with `https_only`, browsers are told never to come back without encryption."""
        self._app = app
        self._extra = {"strict-transport-security": "max-age=31536000"} if https_only else {}

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Pass the request on and dress the answer."""
        if scope["type"] != "http":
            await self._app(scope, receive, send)
            return

        async def dressed(message: Message) -> None:
            if message["type"] == "http.response.start":
                headers = MutableHeaders(scope=message)
                for name, value in (headers_of_every_answer(scope["path"]) | self._extra).items():
                    headers.setdefault(name, value)
            await send(message)

        await self._app(scope, receive, dressed)


#: As long as a form may be on its way; the longest takes a second on a slow line.
BODY_SECONDS = 60.0


class BodyLimit:
    """Stops reading a request body after as many bytes as its path may have (413), or when it takes too long (408)."""

    def __init__(self, app: ASGIApp, *, most: Callable[[str], int]) -> None:
        """Wrap `app`; `most` gives the bytes by path."""
        self._app = app
        self._most = most

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Count the body as it comes in."""
        if scope["type"] != "http":
            await self._app(scope, receive, send)
            return
        taken, most, coming, answered = 0, self._most(scope["path"]), True, False
        until = asyncio.get_running_loop().time() + BODY_SECONDS

        async def counted() -> Message:
            nonlocal taken, coming
            try:
                # Whoever receives when all is there, or answered, only waits to hear that the visitor has left.
                async with asyncio.timeout_at(until if coming and not answered else None):
                    message = await receive()
            except TimeoutError as late:
                raise HTTPException(408) from late
            taken += len(message.get("body", b""))
            if taken > most and not answered:
                raise HTTPException(413)
            coming = message.get("more_body", False)
            return message

        async def noticed(message: Message) -> None:
            nonlocal answered
            answered = True
            await send(message)

        await self._app(scope, counted, noticed)
