"""The worker: takes build jobs from the queue, has packs built, and looks after orders that were left behind."""

from __future__ import annotations

import logging
import os
import signal
import threading
import time
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field
from datetime import timedelta
from pathlib import Path

from app.base.aside import bound_memory
from app.base.database import Database, make_engine, now
from app.base.errors import BuildLost, SlotTaken, WorkerBroken
from app.base.faults import PASSING, fault_words, is_passing
from app.base.jobs import BuildJob, JobState
from app.base.jobs.dbos_engine import adopt_jobs, start_engine, stop_engine
from app.base.jobs.dbos_queue import DbosQueue, job_id
from app.base.jobs.slots import SlotLock, take_slot
from app.base.logs import set_up_logging
from app.base.premises import open_premises
from app.base.settings import Settings
from app.base.storage import LocalPacks, PackStore
from app.packs.request import PackBuilder, PackReady
from app.pattern.problem import Problem, Refused
from app.shop.orders import builds
from app.shop.orders.builds import Claim
from app.shop.orders.keeping import PackKeeper, damage_words, ready_orders_before
from app.shop.orders.models import Order, OrderState
from app.shop.orders.service import delete_unordered_fittings, enqueue_build
from app.shop.people.service import studio
from app.shop.proofs import work as proofs
from app.work.prover import Prover

__all__ = ["EXIT_STUCK", "LONGEST_BUILD_SECONDS", "BuildWorker", "run_worker"]

#: A build that runs for longer hangs: an order's pack takes seconds.
LONGEST_BUILD_SECONDS = 15 * 60.0
#: Memory a worker may take, MB more than at its start: a pack takes a tenth of it. A build that would take more fails.
MOST_MEGABYTES = 2_000
#: Exit status of a worker that ended because a build hung (EX_SOFTWARE of sysexits.h).
EXIT_STUCK = 70
#: Progress inside one stage is written at most this often, in seconds.
_PROGRESS_SECONDS = 0.5
#: The shop is tidied once in so many sweeps.
_TIDY_SWEEPS = 200
#: So many kept packs are looked through in each sweep (a few megabytes each).
_SCRUBBED = 4
#: Above every id: where looking through the packs begins.
_NEWEST = 2**31 - 1
#: How long the engine remembers a job that has ended; the order's row tells the rest.
_REMEMBERED = timedelta(days=7)

_log = logging.getLogger(__name__)


@dataclass
class BuildWorker:
    """What a worker works with, and what it is at.

    `running` has each job that the engine gave it and that has not come back, by thread, with its beginning (monotonic
    seconds). `building` has the secrets of the builds it is at; `proving` those of its proofs; `owed` the builds that
    ended without a word in their rows, since nothing could be written: they are put back as soon as something can.
    """

    settings: Settings
    database: Database
    queue: DbosQueue
    store: PackStore
    builder: PackBuilder
    running: dict[int, tuple[str, float]] = field(default_factory=dict)
    building: set[str] = field(default_factory=set)
    proving: set[str] = field(default_factory=set)
    owed: dict[str, tuple[Claim, str]] = field(default_factory=dict)
    _idle: set[str] = field(default_factory=set)
    _scrubbed_to: int = _NEWEST

    @property
    def silence(self) -> timedelta:
        """How long a worker may be silent before it counts as dead."""
        return timedelta(seconds=self.settings.lease_seconds)

    def run_job(self, job: BuildJob) -> None:
        """Build the job's order, if it still waits to be built."""
        thread = threading.get_ident()
        self.running[thread] = job_id(job), time.monotonic()
        try:
            self._claim_and_build(job)
        except PASSING as error:
            if not is_passing(error):
                raise
            # The row waits as it did, and the sweep calls a worker for it again.
            _log.warning("job for order id %d did not get through: %s", job.order_id, _error_kind(error))
        finally:
            del self.running[thread]

    def _claim_and_build(self, job: BuildJob) -> None:
        with self.database.writing() as session:
            row = studio(session)
            claim = builds.claim_build(session, job.order_id, self.settings.worker_slot, row.name if row else "")
        if claim is None:
            _log.info("job for order id %d: nothing to build", job.order_id)
            return
        self.building.add(claim.secret)
        try:
            self._build_claimed(claim)
        except BuildLost:
            _log.info("order %s: the build was taken away", claim.number)
        except PASSING as error:
            if not is_passing(error):
                raise
            _log.warning("order %s: its end cannot be written down yet: %s", claim.number, _error_kind(error))
            self.owed[claim.secret] = claim, _postponed_words(error)
        finally:
            self.building.discard(claim.secret)

    def _build_claimed(self, claim: Claim) -> None:
        if claim.attempt > self.settings.build_attempts:
            self._give_up(claim, f"The worker stopped in the middle of this build {claim.attempt - 1} times.")
            return
        _log.info("order %s: building, try %d", claim.number, claim.attempt)
        try:
            self._build_once(claim)
        except BuildLost:
            raise
        except Exception as error:  # noqa: BLE001 - whatever a build trips over must reach the designer, not end the worker
            if is_passing(error):
                self._put_off(claim, _postponed_words(error))
            else:
                self._went_wrong(claim, error)

    def _build_once(self, claim: Claim) -> None:
        if claim.altered:
            self._refuse(claim, claim.altered)
            return
        folder = self.store.begin(claim.pack_name, claim.secret)
        try:
            outcome = self.builder(claim.request, folder, _Reporter(self.database, claim))
            if isinstance(outcome, Refused):
                self._refuse(claim, outcome.problems)
            else:
                self._hand_over(claim, folder, outcome)
        finally:
            self.store.discard(folder)

    def _hand_over(self, claim: Claim, folder: Path, pack: PackReady) -> None:
        for file in pack.files:
            path = folder / file.name
            if (how := damage_words(file, path.read_bytes() if path.is_file() else None)) is not None:
                raise ValueError(f"{file.name} {how}")
        self.store.seal(folder)
        with self.database.writing() as session:
            older = builds.finish_build(session, claim, pack)
            # Inside the transaction: whoever holds the claim holds the row, so nobody else can rename at this time.
            self.store.keep(folder, claim.pack_name)
        self.store.remove(older)
        _log.info("order %s: ready, %d files", claim.number, len(pack.files))

    def _refuse(self, claim: Claim, problems: Sequence[Problem]) -> None:
        with self.database.writing() as session:
            builds.refer_to_designer(session, claim, problems)
        _log.warning("order %s: needs the designer, %d findings", claim.number, len(problems))

    def _went_wrong(self, claim: Claim, error: Exception) -> None:
        # The message itself may hold measurements, so the log gets only its kind and its place.
        fault = f"{_error_kind(error)} at {_error_place(error)}"
        _log.error("order %s: try %d failed with %s", claim.number, claim.attempt, fault)
        if claim.attempt >= self.settings.build_attempts:
            self._give_up(claim, f"The build failed {claim.attempt} times, at last with {fault}: {error}")
            return
        with self.database.writing() as session:
            builds.return_for_retry(session, claim)
            order = session.get_one(Order, claim.order_id)
            enqueue_build(session, self.queue, order, delay_seconds=self.settings.retry_seconds)

    def _put_off(self, claim: Claim, reason: str) -> None:
        with self.database.writing() as session:
            builds.postpone(session, claim, reason)
            order = session.get_one(Order, claim.order_id)
            enqueue_build(session, self.queue, order, delay_seconds=self.settings.retry_seconds)
        _log.warning("order %s: put off: %s", claim.number, reason)

    def _give_up(self, claim: Claim, reason: str) -> None:
        with self.database.writing() as session:
            builds.fail_build(session, claim, reason)
        _log.error("order %s: given up after %d tries", claim.number, claim.attempt)

    def record_heartbeat(self) -> None:
        """Give a sign of life for this worker and for the builds it holds."""
        with self.database.writing() as session:
            builds.record_worker_heartbeat(session, self.settings.worker_slot)
            builds.record_build_heartbeats(session, tuple(self.building))
            proofs.record_proof_heartbeats(session, tuple(self.proving))

    def has_stuck_build(self) -> bool:
        """True when a job has run for so long that it will never end."""
        return any(time.monotonic() - begun > LONGEST_BUILD_SECONDS for _, begun in list(self.running.values()))

    def recover_lost(self) -> None:
        """Take up what was left: builds this worker owes, what dead workers had begun, and orders without a job."""
        self._put_back_owed()
        with self.database.writing() as session:
            builds.release_silent_builds(session, self.silence)
            proofs.release_silent_proofs(session, self.silence)
            live = builds.live_slots(session, self.silence)
        adopt_jobs(self.queue, self.settings.worker_slot, live, self._abandoned_jobs())
        with self.database.reading() as session:
            waiting = builds.overdue_orders(session, timedelta(seconds=self.settings.sweep_seconds))
        for order in waiting:
            self._enqueue_again(order)

    def _put_back_owed(self) -> None:
        for secret, (claim, reason) in list(self.owed.items()):
            try:
                self._put_off(claim, reason)
            except BuildLost:
                _log.info("order %s: somebody else has put it back", claim.number)
            del self.owed[secret]

    def _abandoned_jobs(self) -> set[str]:
        """Jobs that the engine says run here and that do not: neither now nor at the last look.

        Between taking a job and running it, and between running it and writing down its end, the engine is by itself
        for a moment; a job that nobody is at in two looks is one whose end could not be written down.
        """
        at_work = {job for job, _ in list(self.running.values())}
        idle = self.queue.begun_by(self.settings.worker_slot) - at_work
        dropped, self._idle = idle & self._idle, idle
        return dropped

    def _enqueue_again(self, order: Order) -> None:
        if self.queue.progress(BuildJob(order.id, order.ticket)) in (JobState.WAITING, JobState.RUNNING):
            return
        with self.database.writing() as session:
            fresh = session.get_one(Order, order.id, with_for_update=True)
            if fresh.state is OrderState.PLACED and fresh.ticket == order.ticket:
                _log.warning("order %s: had no job, queueing it again", fresh.number)
                enqueue_build(session, self.queue, fresh)

    def discard_leftovers(self) -> None:
        """Throw away folders of builds that no longer run."""
        leftovers = self.store.leftovers()
        with self.database.reading() as session:
            live = builds.live_claims(session)
        for leftover in leftovers:
            if leftover.claim not in live:
                self.store.discard(leftover.folder)

    def check_kept_packs(self) -> None:
        """Look a few kept packs through, newest first and round again, and heal the damaged before anybody asks."""
        with self.database.reading() as session:
            orders = ready_orders_before(session, self._scrubbed_to, _SCRUBBED)
        self._scrubbed_to = orders[-1].id if orders else _NEWEST
        PackKeeper(self.database, self.queue, self.store).rebuild_all_damaged(orders)

    def clean_up(self) -> None:
        """Throw away kept packs that no order shows, jobs that ended long ago, and measurements nobody ordered by."""
        names = self.store.kept()
        with self.database.reading() as session:
            unknown = builds.orphaned_packs(session, names)
            moment = now(session)
        for name in unknown:
            self.store.remove(name)
        self.queue.forget(moment - _REMEMBERED)
        while self.database.write(delete_unordered_fittings, moment - timedelta(days=self.settings.fitting_days)):
            pass

    def sign_off(self, *, broken: bool = False) -> None:
        """Put back the builds still held when the worker is asked to stop, or broke; the tries do not count."""
        with self.database.writing() as session:
            builds.sign_off_worker(session, self.settings.worker_slot, broken=broken)
            proofs.release_proofs_of(session, self.settings.worker_slot)


class _Reporter:
    """Writes a build's progress into its order, each stage at once, steps within a stage now and then."""

    def __init__(self, database: Database, claim: Claim) -> None:
        self._database, self._claim = database, claim
        self._stage, self._written = "", 0.0

    def __call__(self, stage: str, progress: float) -> None:
        if stage == self._stage and time.monotonic() - self._written < _PROGRESS_SECONDS:
            return
        with self._database.writing() as session:
            builds.record_progress(session, self._claim, stage, progress)
        self._stage, self._written = stage, time.monotonic()


def run_worker(settings: Settings, builder: PackBuilder) -> None:
    """Work until SIGTERM or SIGINT; `builder` makes the packs.

    Raises `SlotTaken` when another live worker has this worker's slot, and `WorkerBroken` when a part of this one ended
    by itself: half a worker is none.
    """
    set_up_logging(settings.log_level)
    open_premises(settings)
    bound_memory(MOST_MEGABYTES)
    stop = threading.Event()
    for number in (signal.SIGTERM, signal.SIGINT):
        signal.signal(number, lambda _number, _frame: stop.set())
    with _build_worker(settings, builder) as worker, _slot(worker) as slot:
        # Left in the opposite order: the heart beats until the last build has ended, then the worker signs off.
        with _signed_on(worker, slot), _heartbeats(worker, slot, stop), _prover(worker, stop), _engine(worker):
            _maintain(worker, stop)
        if not slot.still_held():
            raise SlotTaken("Another worker has taken this worker's slot; its builds were put back.")


@contextmanager
def _signed_on(worker: BuildWorker, slot: SlotLock) -> Iterator[None]:
    with worker.database.writing() as session:
        builds.release_builds_of(session, worker.settings.worker_slot)
        proofs.release_proofs_of(session, worker.settings.worker_slot)
        builds.record_worker_start(session, worker.settings.worker_slot)
    broken = True
    try:
        yield
        broken = False
    finally:
        # Whoever has taken the slot meanwhile builds under its name: those builds are not ours to put back.
        if slot.still_held():
            worker.sign_off(broken=broken)


@contextmanager
def _heartbeats(worker: BuildWorker, slot: SlotLock, stop: threading.Event) -> Iterator[None]:
    ended = threading.Event()
    with _in_thread("heart", lambda: _send_heartbeats(worker, slot, stop, ended), stop, ended):
        yield


@contextmanager
def _prover(worker: BuildWorker, stop: threading.Event) -> Iterator[None]:
    ended = threading.Event()
    prover = Prover(worker.settings, worker.database, lambda: stop.is_set() or ended.is_set(), proving=worker.proving)
    with _in_thread("prover", prover.run, stop, ended):
        yield


@contextmanager
def _in_thread(name: str, work: Callable[[], None], stop: threading.Event, ended: threading.Event) -> Iterator[None]:
    """`work` in a thread of its own until `ended`; should it break, the whole worker is told to `stop`."""
    broken: list[Exception] = []

    def guarded() -> None:
        try:
            work()
        except Exception as error:  # noqa: BLE001 - a thread that ends unseen would leave a worker that only looks alive
            _log.critical(
                "the worker's %s broke with %s at %s, stopping", name, _error_kind(error), _error_place(error)
            )
            broken.append(error)
            stop.set()

    thread = threading.Thread(target=guarded, name=name, daemon=True)
    thread.start()
    try:
        yield
    finally:
        ended.set()
        thread.join()
    if broken:
        raise WorkerBroken(f"The worker's {name} broke; its builds were put back.") from broken[0]


@contextmanager
def _engine(worker: BuildWorker) -> Iterator[None]:
    settings = worker.settings
    start_engine(settings.database_address(), settings.worker_slot, settings.worker_builds, worker.run_job)
    _log.info("worker %s is ready", settings.worker_slot)
    try:
        yield
    finally:
        stop_engine(settings.stop_seconds if worker.running else 0)


@contextmanager
def _build_worker(settings: Settings, builder: PackBuilder) -> Iterator[BuildWorker]:
    database = Database(make_engine(settings.database_address()))
    queue = DbosQueue(settings.database_address())
    try:
        yield BuildWorker(settings, database, queue, LocalPacks(settings.packs_dir()), builder)
    finally:
        queue.close()
        database.close()


@contextmanager
def _slot(worker: BuildWorker) -> Iterator[SlotLock]:
    slot = take_slot(worker.database.engine, worker.settings.worker_slot, worker.settings.data_folder() / "workers")
    try:
        yield slot
    finally:
        slot.release()


def _send_heartbeats(worker: BuildWorker, slot: SlotLock, stop: threading.Event, ended: threading.Event) -> None:
    while not ended.wait(worker.settings.heartbeat_seconds):
        if not slot.still_held():
            _log.error("worker %s: another worker has taken this slot, stopping", worker.settings.worker_slot)
            stop.set()
            return
        if worker.has_stuck_build():
            # A thread cannot be stopped from outside. Ending like this is what every guard is made for: the build
            # counts as one more try, and the next worker begins it again or gives it up.
            _log.critical("worker %s: a build does not end, ending the worker", worker.settings.worker_slot)
            os._exit(EXIT_STUCK)
        _again_next_turn(worker.record_heartbeat)


def _maintain(worker: BuildWorker, stop: threading.Event) -> None:
    turn = 0
    while True:
        _again_next_turn(worker.recover_lost)
        _again_next_turn(worker.discard_leftovers)
        _again_next_turn(worker.check_kept_packs)
        if turn % _TIDY_SWEEPS == 0:
            _again_next_turn(worker.clean_up)
        turn += 1
        if stop.wait(worker.settings.sweep_seconds):
            return


def _again_next_turn(task: Callable[[], None]) -> None:
    # A database or a disk that is away for a moment must not end the worker; the next turn tries again.
    try:
        task()
    except PASSING as error:
        if not is_passing(error):
            raise
        _log.warning("%s did not get through: %s", task.__name__, _error_kind(error))


def _postponed_words(error: Exception) -> str:
    return f"It cannot be built at this moment: {fault_words(error)}. It is tried again until it can."


def _error_kind(error: Exception) -> str:
    return type(error).__name__


def _error_place(error: Exception) -> str:
    trace = error.__traceback__
    while trace is not None and trace.tb_next is not None:
        trace = trace.tb_next
    return f"{Path(trace.tb_frame.f_code.co_filename).name}:{trace.tb_lineno}" if trace is not None else "nowhere"
