"""What a visitor reads when something cannot be shown, in the shop's own look."""

from __future__ import annotations

import logging
from collections.abc import Awaitable, Callable
from dataclasses import dataclass

from fastapi import FastAPI, Request
from fastapi.exceptions import RequestValidationError
from starlette.exceptions import HTTPException
from starlette.requests import ClientDisconnect
from starlette.responses import RedirectResponse, Response

from app.base.errors import Busy, Gone
from app.web.csrf import ForgedForm
from app.web.edge import without_slash
from app.web.headers import headers_of_every_answer
from app.web.sessions import forget_sign_in
from app.web.templating import render

__all__ = ["FailurePage", "NothingHere", "SignInNeeded", "add_failure_pages"]

_log = logging.getLogger(__name__)


class SignInNeeded(Exception):
    """The page is the designer's, and nobody is signed in."""


@dataclass(frozen=True, slots=True)
class FailurePage:
    """What went wrong in a visitor's words, what to do next, and the link that does it."""

    title: str
    words: str
    link: str = "/"
    link_words: str = "See all the patterns"


class NothingHere(HTTPException):
    """There is nothing at an address (404), and a page of its own tells why."""

    def __init__(self, page: FailurePage) -> None:
        """With what the visitor reads."""
        super().__init__(404)
        self.page = page


_NOT_FOUND = FailurePage(
    "There is nothing at this address",
    "The page may have moved, or a letter of a long link was lost on the way. Links to a fitting or an order must be "
    "complete, to the last letter. Measurements that nobody ordered by are thrown away after a while.",
)
_FORGED = FailurePage(
    "This form could not be taken",
    "It had been open for a long time, or your browser did not send its cookie back. Nothing was changed. "
    "Go back, load the page again and send it once more: cookies from this shop must be allowed.",
)
_TOO_OFTEN = FailurePage(
    "Too many in a short time",
    "More came from you, or from others on your network, than this shop takes in a short time. Nothing was changed. "
    "Wait a while, then try again.",
)
_GONE = FailurePage(
    "This is no longer here",
    "What this page was about has been taken away meanwhile, so nothing was changed. Measurements that nobody ordered "
    "by are thrown away after a while.",
)
_BROKEN = FailurePage(
    "Something broke on our side",
    "It was not your doing, and it has been written down for the studio. Nothing you had saved is lost. "
    "Try once more in a minute.",
)
_BUSY = FailurePage(
    "The shop is very busy just now",
    "This page could not be worked out in time. Nothing you had saved is lost, and nothing was changed. "
    "Please try again in a minute: load the page once more, or go back and send the form again.",
)
_NOT_UNDERSTOOD = FailurePage(
    "This request could not be read",
    "Part of it was missing or damaged. Go back, load the page again, and try once more.",
)
_TOO_LARGE = FailurePage(
    "That was too much to read",
    "A form of this shop is far smaller. Go back, shorten what you typed, and send it again.",
)
_TOO_SLOW = FailurePage(
    "This form took too long to arrive",
    "Only a part of it has come. Nothing was changed. Try again when your connection is better.",
)
_BY_STATUS = {
    408: _TOO_SLOW,
    413: _TOO_LARGE,
    403: _FORGED,
    404: _NOT_FOUND,
    405: _NOT_FOUND,
    422: _NOT_UNDERSTOOD,
    429: _TOO_OFTEN,
}


async def _refused(request: Request, error: Exception) -> Response:
    assert isinstance(error, HTTPException)
    elsewhere = without_slash(request) if error.status_code == 404 else ""
    if elsewhere:
        return RedirectResponse(elsewhere, status_code=307)
    usual = _BY_STATUS.get(error.status_code, _NOT_UNDERSTOOD)
    page = error.page if isinstance(error, NothingHere) else usual
    answer = render(request, "web/failure.html", page, error.status_code)
    answer.headers.update(error.headers or {})
    return answer


def _saying(page: FailurePage, status: int) -> Callable[[Request, Exception], Awaitable[Response]]:
    async def answer(request: Request, _error: Exception) -> Response:
        return render(request, "web/failure.html", page, status)

    return answer


async def _left(request: Request, _error: Exception) -> Response:
    # Nobody is there to read an answer, and nothing broke.
    _log.info("%s %s: the visitor left before her form had arrived", request.method, request.scope["path"])
    return Response(status_code=400)


async def _sign_in_needed(request: Request, _error: Exception) -> Response:
    forget_sign_in(request)
    return RedirectResponse("/studio/sign-in", status_code=303)


async def _busy(request: Request, error: Exception) -> Response:
    _log.warning("%s %s: busy: %s", request.method, request.url.path, error)
    page = render(request, "web/failure.html", _BUSY, 503)
    page.headers["Retry-After"] = "60"
    return page


async def _broken(request: Request, error: Exception) -> Response:
    # Only the path and the place in our code are written down: a form may hold measurements.
    _log.error("%s %s failed: %s", request.method, request.scope["path"], type(error).__name__, exc_info=error)
    page = render(request, "web/failure.html", _BROKEN, 500)
    # This answer is given outside the middleware that dresses all others.
    page.headers.update(headers_of_every_answer(request.scope["path"]))
    return page


def add_failure_pages(app: FastAPI) -> None:
    """Answer every failure of `app` with a page of its own."""
    app.add_exception_handler(HTTPException, _refused)
    app.add_exception_handler(RequestValidationError, _saying(_NOT_UNDERSTOOD, 422))
    app.add_exception_handler(ForgedForm, _saying(_FORGED, 403))
    app.add_exception_handler(ClientDisconnect, _left)
    app.add_exception_handler(Busy, _busy)
    app.add_exception_handler(Gone, _saying(_GONE, 404))
    app.add_exception_handler(SignInNeeded, _sign_in_needed)
    app.add_exception_handler(Exception, _broken)
