"""The guide to the draft language, in the studio."""

from __future__ import annotations

from dataclasses import dataclass

from fastapi import APIRouter, Depends, Request
from starlette.exceptions import HTTPException
from starlette.responses import Response

from app.documents.guide import PAGES, guide_view
from app.people.access import signed_in_designer
from app.web.templating import render

__all__ = ["router"]

router = APIRouter(prefix="/studio/guide", dependencies=[Depends(signed_in_designer)])


@dataclass(frozen=True, slots=True)
class StudioGuidePage:
    """A page of the guide within the studio: its title, the template of its content, and what that shows."""

    title: str
    content: str
    shown: object


@router.get("")
def first(request: Request) -> Response:
    """The reference."""
    return page(request, next(iter(PAGES)))


@router.get("/{name}")
def page(request: Request, name: str) -> Response:
    """One page of the guide, by its file name."""
    if name not in PAGES:
        raise HTTPException(404)
    template, shown = guide_view(name)
    return render(request, "studio/guide.html", StudioGuidePage(PAGES[name], f"guide/_{template}.html", shown))
