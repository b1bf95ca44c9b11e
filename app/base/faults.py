"""Which exceptions are the machine's trouble, that passes (disk full, database away), and which are our own bugs."""

from __future__ import annotations

import errno
from collections.abc import Iterator

from sqlalchemy import exc

from app.base.errors import Busy

__all__ = ["PASSING", "fault_words", "is_passing"]

#: The kinds among which passing trouble is found; `is_passing` says which of them it is.
PASSING = (OSError, exc.DBAPIError, exc.TimeoutError, Busy)

#: What the database says when it was asked for something wrong: that does not pass by waiting.
_ASKED_WRONG = (exc.IntegrityError, exc.DataError, exc.ProgrammingError, exc.NotSupportedError)
#: What the system says when it cannot do now what it could do before; in words for the designer.
_MACHINE = {
    errno.ENOSPC: "there is no room left on the disk",
    errno.EDQUOT: "there is no room left on the disk",
    errno.EROFS: "the disk takes no writing",
    errno.EACCES: "the shop may not write where it keeps its packs",
    errno.EPERM: "the shop may not write where it keeps its packs",
    errno.ENOTDIR: "there is no folder where packs are kept",
    errno.EIO: "the disk does not answer",
    errno.ESTALE: "the disk does not answer",
    errno.EMFILE: "too many files are open",
    errno.ENFILE: "too many files are open",
    errno.ENOMEM: "there is too little memory",
    errno.EAGAIN: "there is too little memory",
}
_DATABASE = "the database cannot be written"


def is_passing(error: BaseException) -> bool:
    """True when `error`, or what it came from, is trouble of the machine, so that the same may go well later."""
    return any(_machine_words(each) for each in _chain(error))


def fault_words(error: BaseException) -> str:
    """What is the matter with the machine, as half a sentence without paths or values; "" when it is nothing such."""
    return next((words for each in _chain(error) if (words := _machine_words(each))), "")


def _chain(error: BaseException | None) -> Iterator[BaseException]:
    seen: set[int] = set()
    while error is not None and id(error) not in seen:
        seen.add(id(error))
        yield error
        error = error.__cause__ or error.__context__


def _machine_words(error: BaseException) -> str:
    if isinstance(error, OSError):
        return _MACHINE.get(error.errno or 0, "")
    if isinstance(error, exc.DBAPIError) and not isinstance(error, _ASKED_WRONG):
        return _DATABASE
    return _DATABASE if isinstance(error, exc.TimeoutError | Busy) else ""
