"""The checks over many bodies, and the proof of a draft version."""

from app.pattern.body.populations_standard import ProofBody, given_bodies, standard_bodies
from app.pattern.proof.density import CELL, Area
from app.pattern.proof.findings import FindingValues, finding_values
from app.pattern.proof.fingerprint import offer_mark
from app.pattern.proof.fit_picture import fit_svg
from app.pattern.proof.fits import AS_OFFERED, FitTally, FitTallyValues
from app.pattern.proof.plan import Population, ProofPlan, ProofUnit, plan_proof, shares
from app.pattern.proof.region import (
    Range,
    Region,
    RegionValues,
    inside,
    missed_axes,
    outside,
    read_region,
    region_values,
)
from app.pattern.proof.run import BodyProof, Failure, ProofReport, ProofSubject, prove, report_values
from app.pattern.proof.settings import Setting
from app.pattern.proof.summary import (
    CheckTally,
    ProofSummary,
    SettingTally,
    WorstBody,
    proof_line,
    summarise,
    summary_values,
)
from app.pattern.proof.units import UnitResult, broken_off, prove_unit, prove_units

__all__ = [
    "AS_OFFERED",
    "CELL",
    "Area",
    "BodyProof",
    "CheckTally",
    "Failure",
    "FindingValues",
    "FitTally",
    "FitTallyValues",
    "Population",
    "ProofBody",
    "ProofPlan",
    "ProofReport",
    "ProofSummary",
    "ProofUnit",
    "Range",
    "Region",
    "RegionValues",
    "Setting",
    "SettingTally",
    "ProofSubject",
    "UnitResult",
    "WorstBody",
    "finding_values",
    "fit_svg",
    "given_bodies",
    "inside",
    "missed_axes",
    "offer_mark",
    "outside",
    "plan_proof",
    "proof_line",
    "prove",
    "broken_off",
    "prove_unit",
    "prove_units",
    "read_region",
    "region_values",
    "report_values",
    "shares",
    "standard_bodies",
    "summarise",
    "summary_values",
]
