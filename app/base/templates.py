"""The project's templates and the one way to fill them in: pages, printed sheets and the guide alike."""

from __future__ import annotations

import hashlib
from functools import cache
from pathlib import Path

from jinja2 import Environment, FileSystemLoader, StrictUndefined

__all__ = ["STATIC", "fill"]

_ROOT = Path(__file__).resolve().parents[2]
#: The folder of what is served and printed as it is: styles, letters, pictures.
STATIC = _ROOT / "static"


def fill(template: str, **context: object) -> str:
    """A file of `templates` filled in, its values escaped; whatever it names and is not given raises."""
    return _environment().get_template(template).render(**context)


@cache
def _environment() -> Environment:
    environment = Environment(
        loader=FileSystemLoader(_ROOT / "templates"),
        autoescape=True,
        undefined=StrictUndefined,
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
