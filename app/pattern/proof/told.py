"""What a customer hears when a design was not proved on anybody like her."""

from __future__ import annotations

from app.pattern.problem import Severity, Told, alike

__all__ = ["ROOM", "TOLD"]

#: What the room's problems are called together.
ROOM = "Proof"
#: Every kind of problem of this room.
TOLD: tuple[Told, ...] = (
    *alike(
        "One of your measurements lies outside those on which this design was proved. Measure once more; if it "
        "is right, the designer looks at your pattern herself.",
        "proof.outside",
        severity=Severity.WARNING,
    ),
    *alike(
        "This version of the design is not proved yet. The designer looks at your order herself.",
        "proof.not-yet",
        severity=Severity.WARNING,
    ),
    *alike(
        "This design was proved on nobody like those it is meant for.",
        "proof.body-lacks",
        "proof.no-bodies",
    ),
)
