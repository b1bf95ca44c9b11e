"""Proving drafts beside the shop: takes proofs that wait, works out what is left of them, and keeps every result."""

from __future__ import annotations

import logging
import os
import time
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

import sqlalchemy as sa
from sqlalchemy.orm import Session, joinedload

from app.base.database import Database
from app.base.errors import ProofLost
from app.base.faults import PASSING, is_passing
from app.base.settings import Settings
from app.pattern.problem import Problem, Refused
from app.pattern.proof import (
    Population,
    ProofPlan,
    ProofUnit,
    UnitResult,
    plan_proof,
    prove_unit,
    summarise,
    summary_values,
)
from app.shop.catalogue.cards import draft_name
from app.shop.catalogue.models import DraftVersion, Listing
from app.shop.proofs import work
from app.shop.proofs.pool import results_of
from app.shop.proofs.service import ask_for_proof, proof_of, prove_again
from app.shop.proofs.values import body_results
from app.shop.proofs.work import ProofClaim

__all__ = ["Prover"]

#: Results are kept at least so often (seconds), and at the latest after so many.
_KEEP_SECONDS, _KEEP_UNITS = 0.5, 128
#: So few units are worked out at once, without starting processes for them.
_FEW = 40
#: Between two looks whether the worker is to stop, seconds.
_NAP = 0.1

_log = logging.getLogger(__name__)


@dataclass(frozen=True, slots=True)
class _Draft:
    """A version's text, the name it is reported under, and the choices that its listing settles."""

    text: str
    name: str
    settled: Mapping[str, Any]


@dataclass(frozen=True)
class Prover:
    """Proves one draft version after the other until `stopping` says so; a killed one loses half a second of work.

    `proving` has the secret of the proof it is at, for whoever gives signs of life: one that it dropped gets none.
    """

    settings: Settings
    database: Database
    stopping: Callable[[], bool]
    population: Population = field(default_factory=Population)
    proving: set[str] = field(default_factory=set)

    def run(self) -> None:
        """Prove whatever waits, and look again now and then."""
        renewed = False
        while not self.stopping():
            renewed = renewed or self._again_next_turn(self.request_missing)
            if not self._again_next_turn(self.prove_next):
                self._pause()

    def _again_next_turn(self, task: Callable[[], bool]) -> bool:
        # A database or a disk that is away for a moment must not end the thread; the next turn tries again.
        try:
            return task()
        except PASSING as error:
            if not is_passing(error):
                raise
            _log.warning("%s did not get through: %s", task.__name__, type(error).__name__)
            return False

    def _pause(self) -> None:
        until = time.monotonic() + self.settings.sweep_seconds
        while time.monotonic() < until and not self.stopping():
            time.sleep(_NAP)

    def request_missing(self) -> bool:
        """Ask for what was never proved, and prove anew what was proved by an older program. True when all was seen."""
        with self.database.reading() as session:
            current = [(each.id, each.listing_id, _draft(session, each.id)) for each in _versions_to_prove(session)]
        for version_id, listing_id, draft in current:
            if self.stopping():
                return False
            plan = self._plan(draft)
            with self.database.writing() as session:
                proof = proof_of(session, version_id) or ask_for_proof(session, listing_id, version_id)
                if proof.plan and not isinstance(plan, Refused) and proof.plan != plan.fingerprint:
                    _log.info("%s: the program has changed since it was proved", draft.name)
                    prove_again(session, proof)
        return True

    def prove_next(self) -> bool:
        """Prove one waiting draft version; False when none waits."""
        with self.database.writing() as session:
            claim = work.claim_proof(session, self.settings.worker_slot)
        if claim is None:
            return False
        self.proving.add(claim.secret)
        try:
            self._prove(claim)
        except ProofLost:
            _log.info("proof %d was taken away", claim.proof_id)
        except Exception as error:  # whatever a proof trips over must reach the designer, not end the thread
            if isinstance(error, PASSING) and is_passing(error):
                raise
            self._went_wrong(claim, error)
        finally:
            self.proving.discard(claim.secret)
        return True

    def _prove(self, claim: ProofClaim) -> None:
        with self.database.reading() as session:
            draft = _draft(session, claim.draft_version_id)
            known = work.known_results(session, claim.listing_id)
        plan = self._plan(draft)
        if isinstance(plan, Refused):
            self._give_up(claim, plan.problems)
            return
        left = plan.left(known)
        with self.database.writing() as session:
            work.record_units(session, claim, len(plan.units), len(plan.units) - len(left))
        _log.info("%s: proving, %d of %d units left", draft.name, len(left), len(plan.units))
        for results in self._in_batches(plan, left):
            with self.database.writing() as session:
                work.store_results(session, claim, results)
            known |= {result["fingerprint"]: result for result in results}
        if self.stopping():
            return
        mine = [known[unit.fingerprint] for unit in plan.units]
        summary = summary_values(summarise(plan, mine))
        outdated = known.keys() - {unit.fingerprint for unit in plan.units}
        with self.database.writing() as session:
            work.finish_proof(session, claim, summary, body_results(plan, mine), outdated)
        _log.info("%s: proved, holds on %d of %d bodies", plan.name, summary["held"], summary["bodies"])

    def _plan(self, draft: _Draft) -> ProofPlan | Refused:
        return plan_proof(draft.text, draft.name, self.population, draft.settled)

    def _in_batches(self, plan: ProofPlan, left: Sequence[ProofUnit]) -> Iterator[list[UnitResult]]:
        processes = self.settings.proof_processes or os.cpu_count() or 1
        if len(left) <= _FEW:
            yield from _batches((prove_unit(plan.text, plan.name, unit) for unit in left), self.stopping)
            return
        with results_of(plan, left, processes) as results:
            yield from _batches(results, self.stopping)

    def _went_wrong(self, claim: ProofClaim, error: Exception) -> None:
        _log.error("proof %d: run %d failed with %s", claim.proof_id, claim.attempt, type(error).__name__)
        if claim.attempt >= self.settings.build_attempts:
            said = f"The proof stopped {claim.attempt} times, at last with {type(error).__name__}: {error}"
            self._give_up(claim, (Problem("proof.stopped", said, "Tell the studio keeper; her log says where."),))
            return
        with self.database.writing() as session:
            work.return_for_retry(session, claim)
        self._pause()

    def _give_up(self, claim: ProofClaim, problems: Sequence[Problem]) -> None:
        with self.database.writing() as session:
            work.fail_proof(session, claim, problems)
        _log.warning("proof %d: given up", claim.proof_id)


def _batches(results: Iterator[UnitResult], stopping: Callable[[], bool]) -> Iterator[list[UnitResult]]:
    """Results in batches that are worth a transaction; ends early when the worker is to stop."""
    batch: list[UnitResult] = []
    kept = time.monotonic()
    for result in results:
        batch.append(result)
        if len(batch) >= _KEEP_UNITS or time.monotonic() - kept >= _KEEP_SECONDS:
            yield batch
            batch, kept = [], time.monotonic()
        if stopping():
            break
    if batch:
        yield batch


def _draft(session: Session, draft_version_id: int) -> _Draft:
    query = sa.select(DraftVersion).where(DraftVersion.id == draft_version_id).options(joinedload(DraftVersion.listing))
    version = session.scalars(query).one()
    return _Draft(version.text, draft_name(version.listing), version.listing.settled)


def _versions_to_prove(session: Session) -> list[DraftVersion]:
    """The versions that new orders use, and the newest of each draft, which may be on trial."""
    used = sa.select(Listing.current_version_id).where(Listing.current_version_id.is_not(None))
    newest = sa.select(sa.func.max(DraftVersion.id)).group_by(DraftVersion.listing_id)
    query = sa.select(DraftVersion).where(sa.or_(DraftVersion.id.in_(used), DraftVersion.id.in_(newest)))
    return list(session.scalars(query.order_by(DraftVersion.id)))
