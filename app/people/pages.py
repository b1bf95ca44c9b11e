"""Who the studio is; signing in and out, and a new password by one-time link."""

from __future__ import annotations

from fastapi import APIRouter, Request
from starlette.exceptions import HTTPException
from starlette.responses import RedirectResponse, Response

from app.pattern.problem import Problem
from app.people import service
from app.people.contexts import LINK_ENDED, about_page, password_page, sign_in_page
from app.people.models import Designer
from app.web.addresses import address_mark
from app.web.failures import NothingHere
from app.web.posted import Posted
from app.web.sessions import SignedIn, leave_notice, sign_in, sign_out
from app.web.templating import render
from app.web.transactions import Transaction

__all__ = ["router"]

router = APIRouter()


@router.get("/about")
def about(request: Request, session: Transaction) -> Response:
    """Who draws these patterns."""
    studio = service.studio(session)
    if studio is None:
        raise HTTPException(404)
    return render(request, "people/about.html", about_page(studio))


@router.get("/studio/sign-in")
def show_sign_in(request: Request) -> Response:
    """The sign-in form."""
    return render(request, "people/sign_in.html", sign_in_page())


@router.post("/studio/sign-in")
def do_sign_in(request: Request, session: Transaction, posted: Posted) -> Response:
    """Sign in, or say why not; the service slows down whoever guesses."""
    email = posted.get("email", "")
    found = service.sign_in(session, email, posted.get("password", ""), address=address_mark(request))
    if isinstance(found, Problem):
        status = 429 if found.code == "people.too-many-tries" else 422
        return render(request, "people/sign_in.html", sign_in_page(email, found), status)
    return _enter(request, found)


@router.post("/studio/sign-out")
def do_sign_out(request: Request) -> Response:
    """End this session."""
    sign_out(request)
    return RedirectResponse("/", status_code=303)


@router.get("/password/{token}")
def show_password(request: Request, session: Transaction, token: str) -> Response:
    """The form behind a one-time link, while the link holds."""
    designer = service.designer_by_token(session, token)
    if designer is None:
        raise NothingHere(LINK_ENDED)
    return render(request, "people/password.html", password_page(designer.email, request.url.path))


@router.post("/password/{token}")
def set_password(request: Request, session: Transaction, posted: Posted, token: str) -> Response:
    """Set the password, end the link, and sign in."""
    designer = service.designer_by_token(session, token)
    if designer is None:
        raise NothingHere(LINK_ENDED)
    done = service.set_password(session, token, posted.get("password", ""))
    if isinstance(done, Problem):
        return render(request, "people/password.html", password_page(designer.email, request.url.path, done), 422)
    return _enter(request, done)


def _enter(request: Request, designer: Designer) -> Response:
    sign_in(request, SignedIn(designer.id, designer.session_round))
    leave_notice(request, f"Welcome, {designer.name}.")
    return RedirectResponse("/studio", status_code=303)
