"""Rendering: one template, one frozen dataclass for the page, and the shell that stands round every page."""

from __future__ import annotations

import hashlib
from dataclasses import dataclass
from functools import cache
from pathlib import Path

import jinja2
from starlette.requests import Request
from starlette.responses import HTMLResponse

from app.web.csrf import FIELD
from app.web.sessions import Notice, form_token, signed_in, take_notices

__all__ = ["STATIC", "Shell", "render"]

_ROOT = Path(__file__).parents[2]
STATIC = _ROOT / "static"


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
    return HTMLResponse(_environment().get_template(template).render(page=page, shell=shell), status_code=status)


@cache
def _environment() -> jinja2.Environment:
    environment = jinja2.Environment(
        loader=jinja2.FileSystemLoader(_ROOT / "templates"),
        autoescape=True,
        undefined=jinja2.StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    environment.globals["static"] = _static_address
    return environment


@cache
def _static_address(name: str) -> str:
    # The address changes with the content, so that a browser never mixes old and new.
    digest = hashlib.sha256((STATIC / name).read_bytes()).hexdigest()[:10]
    return f"/static/{name}?v={digest}"
