"""One connection of the web server, which a visitor cannot hold open without asking for anything."""

from __future__ import annotations

import asyncio

import h11
from uvicorn.protocols.http.h11_impl import H11Protocol

__all__ = ["HEAD_SECONDS", "MOST_CONNECTIONS", "MOST_HEAD_BYTES", "Connection"]

#: As long as a browser may take to say what it wants; the server itself would wait for ever.
HEAD_SECONDS = 20.0
#: As much as it may say before the body, addresses, cookies and all. (The faster of the server's two readers has no
#: such limit, and would keep whatever comes.)
MOST_HEAD_BYTES = 64 * 1024
#: Connections of all visitors together; one more is told to come again. Half of what a process may open by default.
MOST_CONNECTIONS = 500


class Connection(H11Protocol):
    """Closes when the head of a request takes too long, and never becomes anything but a connection for pages."""

    _patience: asyncio.TimerHandle | None = None

    def connection_made(self, transport: asyncio.Transport) -> None:  # type: ignore[override]
        """Wait for the head of the first request."""
        super().connection_made(transport)
        self._wait()

    def data_received(self, data: bytes) -> None:
        """Go on waiting while a head is coming in, and no longer."""
        super().data_received(data)
        if self.conn.their_state is h11.IDLE:
            self._wait()
        else:
            self._wait_no_more()

    def connection_lost(self, exc: Exception | None) -> None:
        """Nothing is waited for any more."""
        self._wait_no_more()
        super().connection_lost(exc)

    def send_400_response(self, msg: str) -> None:
        """Refuse what cannot be read; a page that was waiting for the rest of it hears that nobody is there."""
        begun = self.cycle is not None and not self.cycle.response_complete
        if begun:
            self.cycle.disconnected = True
            self.cycle.message_event.set()
        # Words may be sent only where no answer has begun, and to a HEAD none at all.
        wordless = begun and (self.cycle.response_started or self.scope["method"] == "HEAD")
        if wordless or self.conn.our_state not in (h11.IDLE, h11.SEND_RESPONSE):
            self.transport.close()
        else:
            super().send_400_response(msg)

    def _should_upgrade(self) -> bool:
        # There are only pages here. Asked for anything else, HTTP answers with the page (RFC 9110, section 7.8).
        return False

    def _wait(self) -> None:
        if self._patience is None:
            self._patience = self.loop.call_later(HEAD_SECONDS, self.transport.close)

    def _wait_no_more(self) -> None:
        if self._patience is not None:
            self._patience.cancel()
            self._patience = None
