"""What the person who is measured hears of her measurements."""

from __future__ import annotations

from app.pattern.problem import Severity, Told, alike

__all__ = ["ROOM", "TOLD"]

#: What the room's problems are called together.
ROOM = "Measurements"
#: Every kind of problem of this room.
TOLD: tuple[Told, ...] = (
    *alike(
        "A measurement that this design is drawn from is missing. Open your entries and fill it in.",
        "body.missing",
    ),
    *alike(
        "A measurement cannot be read as a length. Write it like 96.5 cm or 38 1/4 in.",
        "body.unreadable",
        "body.unit-missing",
    ),
    *alike(
        "A measurement is smaller or larger than any body this shop can draw for. Measure once more, and look at "
        "the unit.",
        "body.out-of-range",
    ),
    *alike(
        "A measurement is given that this shop does not know by that name. Leave it out, or look at how it is written.",
        "body.unknown-measure",
    ),
    *alike(
        "Two measurements may have changed places. Look at them once more.",
        "body.swapped",
        severity=Severity.WARNING,
    ),
    *alike(
        "Some measurements are unusual beside the others. Bodies differ; measure once more, and keep them if "
        "they are right.",
        "body.order",
        "body.ratio",
        "body.unlikely",
        severity=Severity.WARNING,
    ),
    *alike(
        "The file of measurements cannot be read.",
        "body.file-empty",
        "body.file-row-length",
        "body.file-too-long",
        "body.file-twice",
        "body.file-unit",
        "body.file-unreadable",
    ),
)
