"""What the pages about the studio and for signing in show, ready to print."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from markupsafe import Markup

from app.base.prose import on_page
from app.pattern.problem import Problem, spelled_out
from app.shop.people.models import SignIn, Studio
from app.shop.people.passwords import LEAST_LENGTH, token_digest
from app.web.failures import FailurePage
from app.web.fields import Field, FieldError
from app.web.words import day

__all__ = [
    "LINK_ENDED",
    "AboutPage",
    "PasswordPage",
    "SignInLine",
    "SignInPage",
    "SignInsPage",
    "about_page",
    "password_page",
    "sign_in_page",
    "sign_ins_page",
]


@dataclass(frozen=True, slots=True)
class AboutPage:
    """The studio in its own words, and where it can be reached."""

    name: str
    about: Markup
    email: str


@dataclass(frozen=True, slots=True)
class SignInPage:
    """E-mail and password, and why the last try was refused."""

    fields: tuple[Field, ...]
    errors_title: str = ""
    errors: tuple[FieldError, ...] = ()


@dataclass(frozen=True, slots=True)
class PasswordPage:
    """A new password by a one-time link: for whom, and where the form goes."""

    email: str
    action: str
    fields: tuple[Field, ...]
    errors_title: str = ""
    errors: tuple[FieldError, ...] = ()


@dataclass(frozen=True, slots=True)
class SignInLine:
    """One device on which the designer is signed in: which, since when, and when it was last used."""

    device: str
    words: str


@dataclass(frozen=True, slots=True)
class SignInsPage:
    """Where the designer is signed in."""

    sign_ins: tuple[SignInLine, ...]


#: Whether a link was used, ended, or cut short in an e-mail cannot be told apart: it is not kept anywhere.
LINK_ENDED = FailurePage(
    "This link does not open any more",
    "A link for a new password works once and within a day of being made, and only a whole one, to its last letter. "
    "For a new one ask whoever keeps the shop to run “tapeline password” with your e-mail, which prints it. "
    "If you have set your password already, sign in with it.",
    "/studio/sign-in",
    "Go to the sign-in page",
)


def about_page(studio: Studio) -> AboutPage:
    """The studio's own page."""
    return AboutPage(studio.name, on_page(studio.about_md), studio.contact_email)


def sign_in_page(email: str = "", problems: Sequence[Problem] = ()) -> SignInPage:
    """The sign-in form with the e-mail as typed; a password is never sent back."""
    fields = (
        Field(name="email", label="E-mail", kind="email", value=email, complete="username"),
        Field(name="password", label="Password", kind="password", complete="current-password"),
    )
    return SignInPage(fields, "You are not signed in", _field_errors("email", problems))


def password_page(email: str, action: str, problems: Sequence[Problem] = ()) -> PasswordPage:
    """The form for a new password."""
    hint = f"At least {LEAST_LENGTH} characters. Four or five unrelated words are long enough and easy to remember."
    field = Field(name="password", label="New password", kind="password", hint=hint, complete="new-password")
    return PasswordPage(email, action, (field,), "The password was not set", _field_errors("password", problems))


def sign_ins_page(found: list[SignIn], token: str) -> SignInsPage:
    """The open sign-ins; `token` is the one of the browser that asks."""
    here = token_digest(token)
    lines = []
    for each in found:
        # Nothing is kept of a device but its times; these are told in one zone, as hers is not known.
        since = f"Since {day(each.begun_at)}, {each.begun_at:%H:%M} UTC"
        used, title = f"last used {day(each.used_at)}, about {each.used_at:%H:%M} UTC", "Another device"
        if each.token_sha256 == here:
            used, title = "in use now", "This device"
        lines.append(SignInLine(title, f"{since}; {used}."))
    return SignInsPage(tuple(lines))


def _field_errors(field: str, problems: Sequence[Problem]) -> tuple[FieldError, ...]:
    return tuple(FieldError(field, spelled_out([problem])) for problem in problems)
