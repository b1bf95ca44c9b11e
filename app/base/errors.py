"""Exceptions of the shop: a set-up the keeper must mend, or a bug; people's mistakes are `Problem` values instead."""

from __future__ import annotations

__all__ = [
    "AsideFailed",
    "BuildLost",
    "Busy",
    "Gone",
    "Immutable",
    "ProofLost",
    "SetUpError",
    "ShopError",
    "SlotTaken",
    "WorkerBroken",
]


class ShopError(Exception):
    """The base of all exceptions raised by the shop itself."""


class SetUpError(ShopError):
    """The shop cannot start as it is set up; the message says what the keeper should change."""


class SlotTaken(SetUpError):
    """Another live worker holds this worker's slot."""


class WorkerBroken(ShopError):
    """A part of the worker ended by itself, and the worker with it; it is to be started again."""


class Busy(ShopError):
    """More is asked at this moment than can be done in time: nothing was changed, and trying again may help."""


class AsideFailed(ShopError):
    """What a helper worked out aside tripped over a bug of ours; the message is where."""


class Gone(ShopError):
    """What a page was about to change has been taken away meanwhile."""


class BuildLost(ShopError):
    """A build was taken away from this worker (cancelled, or its lease ran out): stop, write nothing more."""


class ProofLost(ShopError):
    """A proof was taken away from this worker: stop, write nothing more."""


class Immutable(ShopError):
    """Code tried to change a record that must stay as it was written."""
