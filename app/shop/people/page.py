"""Who the studio is; signing in and out, here and everywhere, and a new password by one-time link."""

from __future__ import annotations

from fastapi import APIRouter, Request
from starlette.exceptions import HTTPException
from starlette.responses import RedirectResponse, Response

from app.pattern.problem import Refused
from app.shop.people import service, sign_ins
from app.shop.people.access import SignedInDesigner, sign_in_lifetime
from app.shop.people.devices import attempt_from, remember_device
from app.shop.people.sign_ins import NewSignIn
from app.shop.people.tries import TOO_MANY
from app.shop.people.view import LINK_ENDED, about_page, password_page, sign_in_page, sign_ins_page
from app.web.admission import HashingTurn
from app.web.failures import NothingHere
from app.web.posted import Posted
from app.web.sessions import leave_notice, sign_in, sign_out, signed_in
from app.web.templating import render
from app.web.transactions import TheDatabase

__all__ = ["router"]

router = APIRouter()


@router.get("/about")
def about(request: Request, database: TheDatabase) -> Response:
    """Who draws these patterns."""
    studio = database.read(service.studio)
    if studio is None:
        raise HTTPException(404)
    return render(request, "shop/people/about.html", about_page(studio))


@router.get("/studio/sign-in")
def show_sign_in(request: Request) -> Response:
    """The sign-in form."""
    return render(request, "shop/people/sign_in.html", sign_in_page())


@router.post("/studio/sign-in", dependencies=[HashingTurn])
def do_sign_in(request: Request, database: TheDatabase, posted: Posted) -> Response:
    """Sign in, or say why not; the service slows down whoever guesses."""
    email, held = posted.get("email", ""), signed_in(request) or ""
    who = attempt_from(request, email)
    found = sign_ins.sign_in(
        database, who, email, posted.get("password", ""), lifetime=sign_in_lifetime(request), instead_of=held
    )
    if isinstance(found, Refused):
        status = 429 if any(problem.code == TOO_MANY for problem in found.problems) else 422
        return render(request, "shop/people/sign_in.html", sign_in_page(email, found.problems), status)
    return _enter(request, found)


@router.post("/studio/sign-out")
def do_sign_out(request: Request, database: TheDatabase) -> Response:
    """End this sign-in for good."""
    token = signed_in(request)
    if token:
        database.write(sign_ins.end_sign_in, token)
    sign_out(request)
    return RedirectResponse("/", status_code=303)


@router.get("/studio/sign-ins")
def show_sign_ins(request: Request, database: TheDatabase, designer: SignedInDesigner) -> Response:
    """Where the designer is signed in."""
    found = database.read(sign_ins.open_sign_ins, designer, lifetime=sign_in_lifetime(request))
    return render(request, "shop/people/sign_ins.html", sign_ins_page(found, signed_in(request) or ""))


@router.post("/studio/sign-out-everywhere")
def sign_out_everywhere(request: Request, database: TheDatabase, designer: SignedInDesigner) -> Response:
    """End every sign-in of the designer, this one too."""
    database.write(sign_ins.end_sign_ins, designer)
    sign_out(request)
    leave_notice(request, "You are signed out on every device.")
    return RedirectResponse("/studio/sign-in", status_code=303)


@router.get("/password/{token}")
def show_password(request: Request, database: TheDatabase, token: str) -> Response:
    """The form behind a one-time link, while the link holds."""
    designer = database.read(service.designer_by_token, token)
    if designer is None:
        raise NothingHere(LINK_ENDED)
    return render(request, "shop/people/password.html", password_page(designer.email, f"/password/{token}"))


@router.post("/password/{token}", dependencies=[HashingTurn])
def set_password(request: Request, database: TheDatabase, posted: Posted, token: str) -> Response:
    """Set the password, end the link and every other sign-in, and sign in."""
    designer = database.read(service.designer_by_token, token)
    if designer is None:
        raise NothingHere(LINK_ENDED)
    done = sign_ins.set_password(database, token, posted.get("password", ""), lifetime=sign_in_lifetime(request))
    if isinstance(done, Refused):
        page = password_page(designer.email, f"/password/{token}", done.problems)
        return render(request, "shop/people/password.html", page, 422)
    return _enter(request, done)


def _enter(request: Request, entered: NewSignIn) -> Response:
    sign_in(request, entered.token)
    leave_notice(request, f"Welcome, {entered.designer.name}.")
    answer = RedirectResponse("/studio", status_code=303)
    remember_device(request, answer, entered.designer.email)
    return answer
