"""Logging: a line for each event on standard error, without tokens that open an order or words somebody searched."""

from __future__ import annotations

import logging
import re

__all__ = ["HideTokens", "set_up_logging"]

#: Tokens in our links have 32 signs of base64url; no word of our own paths is that long without a break.
_TOKEN = re.compile(r"(?<=/)[A-Za-z0-9_-]{32,}")
#: What follows the question mark of a path: the words of a search may be a customer's name.
_QUERY = re.compile(r"(?<![^\s\"'])(/[^\s?\"']*)\?[^\s\"']+")
#: Libraries that tell every step of theirs at level INFO.
_CHATTY = ("weasyprint", "weasyprint.progress", "fontTools", "alembic", "dbos")


class HideTokens(logging.Filter):
    """Replaces tokens in paths, and whatever a path asks for after its question mark, wherever a line mentions one."""

    def filter(self, record: logging.LogRecord) -> bool:
        """Let every line through, its tokens and queries replaced."""
        said = record.getMessage()
        hidden = _QUERY.sub(r"\1?…", _TOKEN.sub("…", said))
        if hidden != said:
            record.msg, record.args = hidden, None
        return True


def set_up_logging(level: str) -> None:
    """Log from `level` on to standard error; does nothing more to a process that has set logging up already."""
    logging.basicConfig(level=level, format="%(asctime)s %(levelname)s %(name)s: %(message)s")
    for handler in logging.getLogger().handlers:
        handler.addFilter(HideTokens())
    for name in _CHATTY:
        logging.getLogger(name).setLevel(logging.WARNING)
