"""`python -m app.demo.prove`: prove the demo designs on every core and write each proof beside its draft.

Without a name it proves those whose draft has changed since; with `all` every one, as after a change of the code that
drafts and checks; with names of designs (`fernhill-skirt`) just these. A test tells when it is time.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Sequence

from tqdm import tqdm

from app.demo.shop import DEMO, DemoListing
from app.pattern.problem import Refused
from app.pattern.proof import ProofPlan, offer_mark, plan_proof, summarise, summary_values
from app.shop.proofs.pool import results_of
from app.shop.proofs.values import ShippedProof, body_results, read_shipped, write_shipped

__all__ = ["main", "plan_of"]


def main(wanted: Sequence[str]) -> int:
    """Prove the demo designs of these names, "all" of them, or those that changed; 1 when some could not be read."""
    if unknown := set(wanted) - {"all"} - {design.words.slug for design in DEMO}:
        print(f"There is no demo design {', '.join(sorted(unknown))}.", file=sys.stderr)
        return 1
    wrong = 0
    for design in DEMO:
        shipped = read_shipped(design.proof_file())
        changed = shipped is None or not shipped.is_of(design.text(), design.settled)
        if design.words.slug in wanted or "all" in wanted or (not wanted and changed):
            wrong |= _prove(design)
    return wrong


def plan_of(design: DemoListing) -> ProofPlan:
    """The plan of a demo design's proof; raises ValueError when its draft has errors or cannot be settled so."""
    plan = plan_proof(design.text(), f"{design.words.slug}.draft", settled=design.settled)
    if isinstance(plan, Refused):
        raise ValueError("\n".join(map(str, plan.problems)))
    return plan


def _prove(design: DemoListing) -> int:
    try:
        plan = plan_of(design)
    except ValueError as error:
        print(error, file=sys.stderr)
        return 1
    with results_of(plan, plan.units, os.cpu_count() or 1) as coming:
        results = list(tqdm(coming, total=len(plan.units), desc=design.words.slug, disable=None))
    summary = summary_values(summarise(plan, results))
    mark = offer_mark(plan.text, design.settled)
    write_shipped(ShippedProof(mark, design.settled, summary, body_results(plan, results)), design.proof_file())
    print(f"{design.words.slug}: holds on {summary['held']} of {summary['bodies']} bodies ({summary['share']:.1%})")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
