"""What every body of a proof showed, in a form small enough to keep with the proof and to ship beside a draft."""

from __future__ import annotations

import json
from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any, TypedDict

from app.pattern.proof import FindingValues, ProofPlan, UnitResult, offer_mark

__all__ = ["BodyFailure", "BodyResult", "ShippedProof", "body_results", "read_shipped", "write_shipped"]

#: So many different findings are kept for one body; more are the same slip seen again.
_KEPT = 4


class BodyFailure(TypedDict):
    """What stopped a body: the setting of the choices, by its name, and the finding."""

    setting: str
    finding: FindingValues


class BodyResult(TypedDict):
    """One body of a proof, JSON as it is: its needed measurements in mm, and what stopped it at which settings.

    `failed` counts the settings at which it does not hold; `failures` has one for each check, the first found.
    """

    id: str
    kind: str
    body: dict[str, float]
    failed: int
    failures: list[BodyFailure]


def body_results(plan: ProofPlan, results: Iterable[UnitResult]) -> list[BodyResult]:
    """Every body of the plan, in order, with what stopped it; every unit of the plan needs its result."""
    by_print = {result["fingerprint"]: result for result in results}
    of_body: dict[str, list[tuple[str, UnitResult]]] = defaultdict(list)
    for unit in plan.units:
        result = by_print[unit.fingerprint]
        if not result["ok"]:
            of_body[unit.body.id].append((unit.setting.name, result))
    return [
        BodyResult(
            id=body.id,
            kind=body.kind,
            body={need: round(body.body[need], 1) for need in plan.needs},
            failed=len(of_body[body.id]),
            failures=_failures(of_body[body.id]),
        )
        for body in plan.bodies
    ]


def _failures(results: Sequence[tuple[str, UnitResult]]) -> list[BodyFailure]:
    first: dict[str, BodyFailure] = {}
    for setting, result in results:
        for finding in result["findings"]:
            if finding["severity"] == "error":
                first.setdefault(finding["check"], BodyFailure(setting=setting, finding=finding))
    return list(first.values())[:_KEPT]


@dataclass(frozen=True, slots=True)
class ShippedProof:
    """A proof that comes with its draft: of which lines (`offer_mark`), with what settled, and what it showed."""

    draft_mark: str
    settled: Mapping[str, Any]
    summary: Mapping[str, Any]
    bodies: Sequence[BodyResult]

    def is_of(self, text: str, settled: Mapping[str, Any]) -> bool:
        """Whether it is of this text, its comments, layout and words aside, with these choices settled."""
        return self.settled == settled and self.draft_mark == offer_mark(text, settled)


def write_shipped(proof: ShippedProof, path: Path) -> None:
    """Write a proof beside its draft: JSON, one line for each body, so that a change of it can be read."""
    head = {"draft_mark": proof.draft_mark, "settled": dict(proof.settled), "summary": proof.summary}
    rows = ",\n".join(json.dumps(body, ensure_ascii=False, sort_keys=True) for body in proof.bodies)
    opened = json.dumps(head, ensure_ascii=False, sort_keys=True, indent=1)[:-2]
    path.write_text(f'{opened},\n "bodies": [\n{rows}\n]\n}}\n', encoding="utf-8")


def read_shipped(path: Path) -> ShippedProof | None:
    """The proof in a file, or None when there is no such file."""
    if not path.is_file():
        return None
    return ShippedProof(**json.loads(path.read_text("utf-8")))
