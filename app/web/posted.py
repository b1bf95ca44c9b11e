"""The posted form as plain texts, so that handlers and services never see the web framework's types."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Annotated

from fastapi import Depends, Request

__all__ = ["Posted", "read_form"]

#: A form of ours has some sixty fields; many more are no form of ours.
MOST_FIELDS = 300


async def read_form(request: Request) -> Mapping[str, str]:
    """Every text field by name (the last one wins); files are left out."""
    form = await request.form(max_files=0, max_fields=MOST_FIELDS)
    return {name: value for name, value in form.multi_items() if isinstance(value, str)}


Posted = Annotated[Mapping[str, str], Depends(read_form)]
