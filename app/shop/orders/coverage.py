"""How a customer's body stands to the proof of the design: inside it, or why not, with a picture."""

from __future__ import annotations

from dataclasses import dataclass

from sqlalchemy.orm import Session

from app.pattern.problem import Problem
from app.pattern.units import Unit
from app.shop.orders.models import Fitting
from app.shop.orders.service import not_proved
from app.shop.proofs.chart import Chart, chart_svg
from app.shop.proofs.service import proof_with_bodies, region_of_proof

__all__ = ["COVERED", "ProofCoverage", "proof_coverage"]


@dataclass(frozen=True, slots=True)
class ProofCoverage:
    """Why a body lies outside the proof (empty when it does not), and a chart of the bodies proved with hers marked."""

    outside: tuple[Problem, ...]
    chart: str


COVERED = ProofCoverage((), "")


def proof_coverage(session: Session, fitting: Fitting, mark: str = "You") -> ProofCoverage:
    """How the fitting's body stands to the proof of its draft version."""
    outside = not_proved(session, fitting)
    if not outside:
        return COVERED
    proof = proof_with_bodies(session, fitting.draft_version_id)
    bodies = proof.bodies if proof is not None else []
    region = region_of_proof(proof)
    # What the picture is drawn by, and what puts her in or outside.
    told = {*(bodies[0]["body"] if bodies else ()), *(found.axis for found in region.ranges)}
    if not bodies or not told <= fitting.measurements.keys():
        return ProofCoverage(outside, "")
    unit = Unit(fitting.unit)
    return ProofCoverage(outside, chart_svg(Chart(bodies, region, unit, here=fitting.measurements, mark=mark)))
