"""Who may open the studio's back room: the designer of this session, or the way to the sign-in page."""

from __future__ import annotations

from typing import Annotated

from fastapi import Depends, Request

from app.people import service
from app.people.models import Designer
from app.web.failures import SignInNeeded
from app.web.sessions import signed_in
from app.web.transactions import TheDatabase

__all__ = ["SignedInDesigner", "signed_in_designer"]


def signed_in_designer(request: Request, database: TheDatabase) -> Designer:
    """The designer whose session this is and still holds; else the request ends at the sign-in page."""
    who = signed_in(request)
    designer = database.read(service.by_id, who.designer_id, session_round=who.session_round) if who else None
    if designer is None:
        raise SignInNeeded
    return designer


SignedInDesigner = Annotated[Designer, Depends(signed_in_designer)]
