"""The posted form as plain texts and bytes, so that handlers and services never see the web framework's types."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Annotated

from fastapi import Depends, Request
from python_multipart.exceptions import FormParserError
from python_multipart.multipart import parse_options_header
from starlette.datastructures import UploadFile
from starlette.exceptions import HTTPException

from app.web.edge import plain_text

__all__ = ["Posted", "Uploaded", "read_file", "read_form"]

#: A form of ours has some sixty fields; many more are no form of ours.
MOST_FIELDS = 300
#: How browsers send forms.
_KINDS = (b"multipart/form-data", b"application/x-www-form-urlencoded")
#: No form of ours sends more than one file.
MOST_FILES = 1


@dataclass(frozen=True, slots=True)
class _PostedForm:
    """A form as it was sent: its fields as texts, and the bytes of its file."""

    fields: Mapping[str, str]
    file: bytes


async def read_form(request: Request) -> Mapping[str, str]:
    """Every text field by name (the last one wins); a file is left out."""
    return (await _read(request)).fields


async def read_file(request: Request) -> bytes:
    """The file that came with the form; empty when none was chosen."""
    return (await _read(request)).file


async def _read(request: Request) -> _PostedForm:
    """The form, read once for each request: what checks it and what handles it ask for it alike."""
    known: _PostedForm | None = getattr(request.state, "sent", None)
    if known is not None:
        return known
    _check_kind(request)
    try:
        async with request.form(max_files=MOST_FILES, max_fields=MOST_FIELDS) as form:
            items = form.multi_items()
            fields = {plain_text(name): plain_text(value) for name, value in items if isinstance(value, str)}
            files = [await value.read() for _, value in items if isinstance(value, UploadFile)]
    except FormParserError as broken:
        raise HTTPException(400) from broken
    sent = _PostedForm(fields, b"".join(files))
    request.state.sent = sent
    return sent


def _check_kind(request: Request) -> None:
    """Refuse what is no form (415), and one that is not written in UTF-8 as our pages ask: guessing spoils names."""
    said = request.headers.get("content-type")
    if said is None:
        return
    kind, options = parse_options_header(said)
    if kind not in _KINDS or options.get(b"charset", b"utf-8").lower() not in (b"utf-8", b"utf8"):
        raise HTTPException(415)


Posted = Annotated[Mapping[str, str], Depends(read_form)]
Uploaded = Annotated[bytes, Depends(read_file)]
