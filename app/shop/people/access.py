"""Who may open the studio's back room: the designer of this session, or the way to the sign-in page."""

from __future__ import annotations

from datetime import timedelta
from typing import Annotated

from fastapi import Depends, Request

from app.shop.people import sign_ins
from app.shop.people.models import Designer
from app.shop.people.sign_ins import SignInLifetime
from app.web.failures import SignInNeeded
from app.web.sessions import signed_in
from app.web.transactions import TheDatabase

__all__ = ["SignedInDesigner", "sign_in_lifetime", "signed_in_designer"]


def signed_in_designer(request: Request, database: TheDatabase) -> Designer:
    """The designer whose session this is and still holds; else the request ends at the sign-in page."""
    token = signed_in(request)
    held = database.read(sign_ins.open_sign_in, token, lifetime=sign_in_lifetime(request)) if token else None
    if token is None or held is None:
        raise SignInNeeded
    if held.unwritten:
        database.write(sign_ins.record_use, token)
    return held.designer


def sign_in_lifetime(request: Request) -> SignInLifetime:
    """How long a sign-in lasts in this shop."""
    settings = request.app.state.settings
    return SignInLifetime(timedelta(days=settings.session_days), timedelta(days=settings.session_idle_days))


SignedInDesigner = Annotated[Designer, Depends(signed_in_designer)]
