"""The posted form as plain texts and bytes, so that handlers and services never see the web framework's types."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Annotated

from fastapi import Depends, Request
from starlette.datastructures import UploadFile

__all__ = ["Posted", "Uploaded", "read_file", "read_form"]

#: A form of ours has some sixty fields; many more are no form of ours.
MOST_FIELDS = 300
#: No form of ours sends more than one file.
MOST_FILES = 1


@dataclass(frozen=True, slots=True)
class _Sent:
    """A form as it was sent: its fields as texts, and the bytes of its file."""

    fields: Mapping[str, str]
    file: bytes


async def read_form(request: Request) -> Mapping[str, str]:
    """Every text field by name (the last one wins); a file is left out."""
    return (await _read(request)).fields


async def read_file(request: Request) -> bytes:
    """The file that came with the form; empty when none was chosen."""
    return (await _read(request)).file


async def _read(request: Request) -> _Sent:
    """The form, read once for each request: what checks it and what handles it ask for it alike."""
    known: _Sent | None = getattr(request.state, "sent", None)
    if known is not None:
        return known
    async with request.form(max_files=MOST_FILES, max_fields=MOST_FIELDS) as form:
        fields = {name: value for name, value in form.multi_items() if isinstance(value, str)}
        files = [await value.read() for _, value in form.multi_items() if isinstance(value, UploadFile)]
    sent = _Sent(fields, b"".join(files))
    request.state.sent = sent
    return sent


Posted = Annotated[Mapping[str, str], Depends(read_form)]
Uploaded = Annotated[bytes, Depends(read_file)]
