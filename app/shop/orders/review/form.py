"""Who orders: two fields that may be left empty."""

from __future__ import annotations

import re
from collections.abc import Mapping

from fastapi import Request

from app.shop.orders.service import Customer
from app.web.fields import Field

__all__ = ["customer_fields", "carry_over_typed", "read_customer", "take_typed"]

#: Enough to catch a slip; whether mail arrives, only mail can tell.
_EMAIL = re.compile(r"[^@\s]+@[^@\s]+\.[^@\s]+")
LONGEST_NAME = 120
LONGEST_EMAIL = 254
_FIELDS = {"name": LONGEST_NAME, "email": LONGEST_EMAIL}
_TYPED = "typed"


def read_customer(posted: Mapping[str, str]) -> tuple[Customer, dict[str, str]]:
    """The customer as sent, and what is wrong by field."""
    # One line, as it is printed on every sheet: whatever else was sent for a gap is a gap.
    name, email = " ".join(posted.get("name", "").split()), posted.get("email", "").strip()
    errors = {}
    if len(name) > LONGEST_NAME:
        errors["name"] = f"This name is too long: at most {LONGEST_NAME} characters can be kept."
    if email and (len(email) > LONGEST_EMAIL or not _EMAIL.fullmatch(email)):
        errors["email"] = f"“{email[:60]}” is not an e-mail address. Correct it, or leave it empty."
    return Customer(name, email), errors


def carry_over_typed(request: Request, posted: Mapping[str, str]) -> None:
    """Carry what was typed over to the next review page, in the visitor's own cookie."""
    typed = {name: posted[name][:most] for name, most in _FIELDS.items() if posted.get(name, "").strip()}
    if typed:
        request.session[_TYPED] = typed


def take_typed(request: Request) -> Mapping[str, str]:
    """What was carried over; it is given out once."""
    if _TYPED not in request.session:
        return {}
    typed: Mapping[str, str] = request.session.pop(_TYPED)
    return typed


def customer_fields(posted: Mapping[str, str], errors: Mapping[str, str]) -> tuple[Field, ...]:
    """The two fields as typed."""
    return (
        Field(
            name="name",
            label="Name (if you like)",
            value=posted.get("name", ""),
            hint="Printed on your pattern.",
            error=errors.get("name", ""),
            complete="name",
        ),
        Field(
            name="email",
            label="E-mail (if you like)",
            kind="email",
            value=posted.get("email", ""),
            hint="So that the designer can answer you.",
            error=errors.get("email", ""),
            complete="email",
        ),
    )
