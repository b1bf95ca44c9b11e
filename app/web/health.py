"""A page for whoever watches over the server: is it up, and does its database answer?"""

from __future__ import annotations

from fastapi import APIRouter

from app.web.transactions import Transaction

__all__ = ["router"]

router = APIRouter()


@router.get("/healthz")
def healthz(session: Transaction) -> dict[str, str]:
    """`ok` when the database can be reached; an error page with status 500 when it cannot."""
    session.connection()
    return {"status": "ok"}
