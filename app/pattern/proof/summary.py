"""What a proof showed: the share that holds, what fails at which check, the worst bodies, and the region that holds."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from app.pattern.body.populations_standard import ProofBody
from app.pattern.body.wording import measures_for
from app.pattern.drafting import compiled
from app.pattern.problem import Refused
from app.pattern.proof.findings import FindingValues, finding_values, stops
from app.pattern.proof.fits import FitTally, fit_tallies, fit_tally_values
from app.pattern.proof.plan import ProofPlan
from app.pattern.proof.region import Region, inside, region_of, region_values
from app.pattern.proof.units import UnitResult
from app.pattern.units import Unit, show_length

__all__ = ["CheckTally", "ProofSummary", "SettingTally", "WorstBody", "proof_line", "summarise", "summary_values"]

#: How many of the worst bodies are told.
_WORST = 12


@dataclass(frozen=True, slots=True)
class CheckTally:
    """How many bodies fail at a check, with one finding as an example.

    Warnings are counted for each thing that they are `about` (a place of the work, or what the draft leaves unsaid),
    so that one can be accepted by its name and not all of its kind; failures for each check.
    """

    check: str
    about: str
    severity: str
    bodies: int
    patterns: int
    example: FindingValues


@dataclass(frozen=True, slots=True)
class SettingTally:
    """How many of the bodies hold at one setting of the choices."""

    setting: str
    bodies: int
    held: int


@dataclass(frozen=True, slots=True)
class WorstBody:
    """A body that does not hold: its needed measurements in mm, at how many settings it fails, and at which checks."""

    id: str
    kind: str
    body: Mapping[str, float]
    settings: tuple[str, ...]
    checks: tuple[str, ...]
    example: FindingValues


@dataclass(frozen=True, slots=True)
class ProofSummary:
    """A proof in figures. A body is held when it holds at every setting; `missing` units are not worked out yet.

    `within` counts the held bodies inside the region, where every body of the proof held.
    Among the `warnings` is what the draft leaves unsaid, for the designer alone.
    """

    draft: str
    group: str
    fingerprint: str
    bodies: int
    held: int
    patterns: int
    patterns_held: int
    missing: int
    settings: tuple[SettingTally, ...]
    failures: tuple[CheckTally, ...]
    warnings: tuple[CheckTally, ...]
    worst: tuple[WorstBody, ...]
    region: Region
    within: int
    fits: tuple[FitTally, ...] = ()

    @property
    def complete(self) -> bool:
        """True when every unit of the plan has a result."""
        return self.missing == 0

    @property
    def share(self) -> float:
        """Share of the bodies that hold at every setting, 0 to 1."""
        return self.held / self.bodies if self.bodies else 0.0


def summarise(plan: ProofPlan, results: Iterable[UnitResult]) -> ProofSummary:
    """The summary of a plan from stored results, in any order; those of no unit of the plan are left out.

    A body counts once all its units are there.
    """
    by_print = {result["fingerprint"]: result for result in results}
    known = [(unit, by_print[unit.fingerprint]) for unit in plan.units if unit.fingerprint in by_print]
    of_body: dict[str, list[UnitResult]] = defaultdict(list)
    for unit, result in known:
        of_body[unit.body.id].append(result)
    whole = [body for body in plan.bodies if len(of_body[body.id]) == len(plan.settings)]
    held = [body for body in whole if all(result["ok"] for result in of_body[body.id])]
    names = {body.id for body in held}
    failed = [body for body in whole if body.id not in names]
    found = [result for _, result in known]
    region = region_of(plan.needs, [b.body for b in held], [b.body for b in failed])
    return ProofSummary(
        draft=plan.name,
        group=plan.group,
        fingerprint=plan.fingerprint,
        bodies=len(whole),
        held=len(held),
        patterns=len(found),
        patterns_held=sum(result["ok"] for result in found),
        missing=len(plan.units) - len(found),
        settings=tuple(_setting_tallies(plan, found)),
        failures=_tallies([(r, f) for r in found for f in r["findings"] if stops(f)], lambda finding: ""),
        warnings=(
            *_advised(plan, len(whole)),
            *_tallies([(r, f) for r in found for f in r["findings"] if not stops(f)], lambda f: f["place"]),
        ),
        worst=_worst(plan, failed, of_body),
        region=region,
        within=sum(inside(region, body.body) for body in held),
        fits=_fits(plan, found),
    )


def _fits(plan: ProofPlan, found: Sequence[UnitResult]) -> tuple[FitTally, ...]:
    program = compiled(plan.text, plan.name)
    assert not isinstance(program, Refused)  # its plan was made of it
    return fit_tallies(program, [(result["setting"], result["fits"]) for result in found])


def _setting_tallies(plan: ProofPlan, found: Sequence[UnitResult]) -> list[SettingTally]:
    tried = Counter(result["setting"] for result in found)
    held = Counter(result["setting"] for result in found if result["ok"])
    return [SettingTally(s.name, tried[s.name], held[s.name]) for s in plan.settings]


def _tallies(
    findings: Sequence[tuple[UnitResult, FindingValues]], about: Callable[[FindingValues], str]
) -> tuple[CheckTally, ...]:
    """One tally for each check and what it is about, the most frequent first."""
    bodies: dict[tuple[str, str], set[str]] = defaultdict(set)
    patterns: dict[tuple[str, str], set[str]] = defaultdict(set)
    examples: dict[tuple[str, str], FindingValues] = {}
    for result, finding in findings:
        name = finding["check"], about(finding)
        bodies[name].add(result["body"])
        patterns[name].add(result["fingerprint"])
        examples.setdefault(name, finding)
    tallies = [
        CheckTally(*name, example["severity"], len(bodies[name]), len(patterns[name]), example)
        for name, example in examples.items()
    ]
    return tuple(sorted(tallies, key=lambda tally: (-tally.bodies, tally.check, tally.about)))


def _advised(plan: ProofPlan, bodies: int) -> Iterator[CheckTally]:
    """What the draft leaves unsaid, which concerns every body alike."""
    for problem in plan.advice:
        values = finding_values(problem)
        yield CheckTally(problem.code, problem.message, values["severity"], bodies, bodies * len(plan.settings), values)


def _worst(
    plan: ProofPlan, failed: Sequence[ProofBody], of_body: Mapping[str, Sequence[UnitResult]]
) -> tuple[WorstBody, ...]:
    """The bodies that fail at most settings."""
    told = [_told(plan, body, [r for r in of_body[body.id] if not r["ok"]]) for body in failed]
    return tuple(sorted(told, key=lambda worst: -len(worst.settings))[:_WORST])


def _told(plan: ProofPlan, body: ProofBody, results: Sequence[UnitResult]) -> WorstBody:
    errors = [finding for result in results for finding in result["findings"] if stops(finding)]
    needed = {need: body.body[need] for need in plan.needs}
    settings = tuple(result["setting"] for result in results)
    return WorstBody(body.id, body.kind, needed, settings, tuple(sorted({f["check"] for f in errors})), errors[0])


def proof_line(summary: ProofSummary, unit: Unit = Unit.CM) -> str:
    """The proof in a sentence: `Proved on 527 bodies from bust 76 cm to 150 cm, at 14 settings of its choices.`

    The range is that of the region: of the bust, or else of the hip, or else of the first measurement needed.
    """
    if not summary.region.ranges:
        return "Not proved on any body."
    many = len(summary.settings)
    at = f", at {many} settings of its choices" if many > 1 else ""
    return f"Proved on {summary.within:,} bodies from {_span_words(summary, unit)}{at}."


def _span_words(summary: ProofSummary, unit: Unit) -> str:
    region = summary.region
    named = [region.range_of(name) for name in ("bust_girth", "hip_girth")]
    found = next((one for one in named if one is not None), region.ranges[0])
    title = measures_for(summary.group)[found.axis].title.lower().removesuffix(" girth")
    return f"{title} {show_length(found.least, unit, named=False)} to {show_length(found.most, unit)}"


def summary_values(summary: ProofSummary) -> dict[str, Any]:
    """The summary as JSON, for storing beside a draft version."""
    return {
        "draft": summary.draft,
        "group": summary.group,
        "fingerprint": summary.fingerprint,
        "bodies": summary.bodies,
        "held": summary.held,
        "within": summary.within,
        "share": round(summary.share, 4),
        "patterns": summary.patterns,
        "patterns_held": summary.patterns_held,
        "missing": summary.missing,
        "line": proof_line(summary),
        "settings": [{"setting": t.setting, "bodies": t.bodies, "held": t.held} for t in summary.settings],
        "failures": [_tally_values(t) for t in summary.failures],
        "warnings": [_tally_values(t) for t in summary.warnings],
        "worst": [_worst_values(w) for w in summary.worst],
        "region": region_values(summary.region),
        "fits": [fit_tally_values(tally) for tally in summary.fits],
    }


def _tally_values(tally: CheckTally) -> dict[str, Any]:
    return {
        "check": tally.check,
        "about": tally.about,
        "severity": tally.severity,
        "bodies": tally.bodies,
        "patterns": tally.patterns,
        "example": tally.example,
    }


def _worst_values(worst: WorstBody) -> dict[str, Any]:
    return {
        "id": worst.id,
        "kind": worst.kind,
        "body": dict(worst.body),
        "settings": list(worst.settings),
        "checks": list(worst.checks),
        "example": worst.example,
    }
