"""A file to keep, sent whole from memory."""

from __future__ import annotations

from mimetypes import guess_type

from starlette.responses import Response

__all__ = ["file_response"]


def file_response(content: bytes, name: str) -> Response:
    """`content` as a file that the browser saves under `name` (plain letters, digits, hyphens and dots).

    It is never sent in parts: a download taken up again could then end in the bytes of another file.
    """
    media = guess_type(name)[0] or "application/octet-stream"
    return Response(content, media_type=media, headers={"Content-Disposition": f'attachment; filename="{name}"'})
