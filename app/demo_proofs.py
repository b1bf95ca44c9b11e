"""`python -m app.demo_proofs`: prove the demo drafts on every core and write each proof beside its draft.

Without a name it proves those whose text has changed since; with `all` every one, as after a change of the code that
drafts and checks; with file names just these. A test tells when it is time.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Sequence
from hashlib import sha256

from tqdm import tqdm

from app.demo import DEMO, DRAFTS, DemoListing, proof_file
from app.pattern.proof import ProofPlan, UnitResult, plan_proof, summarise, summary_values
from app.proofs.pool import proving
from app.proofs.values import ShippedProof, bodies_shown, read_shipped, write_shipped

__all__ = ["main", "plan_of"]


def main(wanted: Sequence[str]) -> int:
    """Prove the demo drafts of these files, "all" of them, or those that changed; 1 when some could not be read."""
    wrong = 0
    for design in DEMO:
        if design.draft in wanted or "all" in wanted or (not wanted and _changed(design)):
            wrong |= _prove(design)
    return wrong


def _changed(design: DemoListing) -> bool:
    shipped = read_shipped(proof_file(design.draft))
    return shipped is None or shipped.draft_sha256 != sha256((DRAFTS / design.draft).read_bytes()).hexdigest()


def plan_of(design: DemoListing) -> ProofPlan:
    """The plan of a demo draft's proof; raises ValueError when the draft has errors."""
    plan = plan_proof((DRAFTS / design.draft).read_text("utf-8"), f"{design.words.slug}.draft")
    if not isinstance(plan, ProofPlan):
        raise ValueError("\n".join(str(problem) for problem in plan))
    return plan


def _prove(design: DemoListing) -> int:
    try:
        plan = plan_of(design)
    except ValueError as error:
        print(error, file=sys.stderr)
        return 1
    results = _results(plan, design.draft)
    summary = summary_values(summarise(plan, results))
    digest = sha256(plan.text.encode()).hexdigest()
    write_shipped(ShippedProof(digest, summary, bodies_shown(plan, results)), proof_file(design.draft))
    print(f"{design.draft}: holds on {summary['held']} of {summary['bodies']} bodies ({summary['share']:.1%})")
    return 0


def _results(plan: ProofPlan, title: str) -> list[UnitResult]:
    with proving(plan, plan.units, os.cpu_count() or 1) as results:
        return list(tqdm(results, total=len(plan.units), desc=title, disable=None))


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
