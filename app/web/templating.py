"""Rendering: one template, one frozen dataclass for the page, and the shell that stands round every page."""

from __future__ import annotations

from dataclasses import dataclass

from starlette.requests import Request
from starlette.responses import HTMLResponse

from app.base.templates import fill
from app.web.csrf import FIELD
from app.web.sessions import Notice, form_token, signed_in, take_notices

__all__ = ["Shell", "render"]


@dataclass(frozen=True, slots=True)
class Shell:
    """What stands round every page: the studio's name, where we are, who is signed in, messages."""

    studio: str
    path: str
    signed_in: bool
    notices: tuple[Notice, ...]
    request: Request
    token_field: str = FIELD

    @property
    def token(self) -> str:
        """The token for a form on this page; asking for it begins a session, so pages without a form set no cookie."""
        return form_token(self.request)

    @property
    def at_catalogue(self) -> bool:
        """True on the catalogue and its listings."""
        return self.path == "/" or self.path.startswith("/patterns")


def render(request: Request, template: str, page: object, status: int = 200) -> HTMLResponse:
    """The page as HTML: `page` is the template's own dataclass."""
    shell = Shell(
        studio=request.app.state.studio_name(),
        path=request.scope["path"],
        signed_in=signed_in(request) is not None,
        notices=take_notices(request),
        request=request,
    )
    return HTMLResponse(fill(template, page=page, shell=shell), status_code=status)
