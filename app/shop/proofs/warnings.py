"""The warnings of a proof: which the designer has not read yet, and accepting one by its name, with a note why.

A warning's name is its check and what it is about (a place of the work, or what the draft leaves unsaid). An acceptance
stands in the proof and goes along to the next version's, so that she reads each warning once; it no longer holds when
the warning comes to more bodies than when she accepted it.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any, TypedDict, cast

from sqlalchemy.orm import Session

from app.base.database import now
from app.pattern.problem import Problem, Refused
from app.shop.proofs.models import Proof

__all__ = ["MOST_NOTE", "AcceptedWarning", "accept_warning", "accepted_warning", "open_warnings", "warnings_of"]

#: A note is at least a word or two and at most a paragraph, letters.
LEAST_NOTE, MOST_NOTE = 4, 600


class AcceptedWarning(TypedDict):
    """A warning that a designer took as it is: its name, why, who said so and when (ISO 8601), on how many bodies."""

    check: str
    about: str
    note: str
    by: str
    at: str
    bodies: int


def warnings_of(proof: Proof | None) -> Sequence[Mapping[str, Any]]:
    """The warnings of a finished proof, each with `check`, `about`, `bodies` and an `example`; else none."""
    found = proof.summary.get("warnings", ()) if proof is not None else ()
    # Older proofs count all warnings of a check together, as if all were about the place of their example.
    return [{"about": one["example"]["place"], **one} for one in found]


def open_warnings(proof: Proof | None) -> tuple[Mapping[str, Any], ...]:
    """Those that nobody has accepted, or that come to more bodies than when somebody did."""
    return tuple(one for one in warnings_of(proof) if proof is not None and accepted_warning(proof, one) is None)


def accepted_warning(proof: Proof, warning: Mapping[str, Any]) -> AcceptedWarning | None:
    """The acceptance that covers a warning of the proof, if there is one."""
    name = warning["check"], warning["about"]
    known = (cast("AcceptedWarning", one) for one in proof.accepted_warnings)
    return next(
        (one for one in known if (one["check"], one["about"]) == name and warning["bodies"] <= one["bodies"]), None
    )


def accept_warning(
    session: Session, proof: Proof, name: tuple[str, str], note: str, by: str
) -> AcceptedWarning | Refused:
    """Take the open warning of this name (check, what it is about) as it is; the note says why."""
    found = next((one for one in open_warnings(proof) if (one["check"], one["about"]) == name), None)
    if found is None:
        said = "This warning is not in the proof any more, or was accepted already."
        return Refused.of(Problem("proof.no-such-warning", said, "Look at the warnings as they stand now."))
    words = " ".join(note.split())
    if not LEAST_NOTE <= len(words) <= MOST_NOTE:
        said = f"A note of {len(words)} letters stands beside the warning."
        fix = f"Say in {LEAST_NOTE} to {MOST_NOTE} letters why it may stand, for whoever reads it later."
        return Refused.of(Problem("proof.no-note", said, fix))
    moment = now(session)
    accepted = AcceptedWarning(
        check=name[0], about=name[1], note=words, by=by, at=moment.isoformat(), bodies=int(found["bodies"])
    )
    others = [one for one in proof.accepted_warnings if (one["check"], one["about"]) != name]
    proof.accepted_warnings = [*others, dict(accepted)]
    proof.updated_at = moment
    session.flush()
    return accepted
