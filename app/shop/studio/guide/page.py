"""The guide to the draft language, in the studio."""

from __future__ import annotations

from dataclasses import dataclass

from fastapi import APIRouter, Depends, Request
from starlette.exceptions import HTTPException
from starlette.responses import Response

from app.shop.people.access import signed_in_designer
from app.shop.studio.guide.view import PAGES, guide_view
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
    page = StudioGuidePage(PAGES[name], f"shop/studio/guide/_{template}.html", shown)
    return render(request, "shop/studio/guide/guide.html", page)
