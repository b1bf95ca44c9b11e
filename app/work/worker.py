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
from app.packs.request import PackBuilder, PackOutcome, PackReady, PackRefused
from app.pattern.problem import Problem
from app.shop.orders import builds
from app.shop.orders.builds import Claim
from app.shop.orders.keeping import Shelf, how_damaged, ready_from
from app.shop.orders.models import Order, OrderState
from app.shop.orders.service import call_worker, drop_unordered
from app.shop.people.service import studio
from app.shop.proofs import work as proofs
from app.work.prover import Prover

__all__ = ["EXIT_STUCK", "LONGEST_BUILD_SECONDS", "Workshop", "run_worker"]

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
class Workshop:
    """What a worker works with, and what it is at.

    `running` has each job that the engine gave it and that has not come back, by thread, with its beginning (monotonic
    seconds). `held` has the secrets of the builds it is at; `proving` those of its proofs; `owed` the builds that
    ended without a word in their rows, since nothing could be written: they are put back as soon as something can.
    """

    settings: Settings
    database: Database
    queue: DbosQueue
    store: PackStore
    builder: PackBuilder
    running: dict[int, tuple[str, float]] = field(default_factory=dict)
    held: set[str] = field(default_factory=set)
    proving: set[str] = field(default_factory=set)
    owed: dict[str, tuple[Claim, str]] = field(default_factory=dict)
    _idle: set[str] = field(default_factory=set)
    _scrubbed_to: int = _NEWEST

    @property
    def silence(self) -> timedelta:
        """How long a worker may be silent before it counts as dead."""
        return timedelta(seconds=self.settings.lease_seconds)

    def run(self, job: BuildJob) -> None:
        """Build the job's order, if it still waits to be built."""
        thread = threading.get_ident()
        self.running[thread] = job_id(job), time.monotonic()
        try:
            self._run(job)
        except PASSING as error:
            if not is_passing(error):
                raise
            # The row waits as it did, and the sweep calls a worker for it again.
            _log.warning("job for order id %d did not get through: %s", job.order_id, _kind(error))
        finally:
            del self.running[thread]

    def _run(self, job: BuildJob) -> None:
        with self.database.writing() as session:
            row = studio(session)
            claim = builds.claim_build(session, job.order_id, self.settings.worker_slot, row.name if row else "")
        if claim is None:
            _log.info("job for order id %d: nothing to build", job.order_id)
            return
        self.held.add(claim.secret)
        try:
            self._build(claim)
        except BuildLost:
            _log.info("order %s: the build was taken away", claim.number)
        except PASSING as error:
            if not is_passing(error):
                raise
            _log.warning("order %s: its end cannot be written down yet: %s", claim.number, _kind(error))
            self.owed[claim.secret] = claim, _waits_words(error)
        finally:
            self.held.discard(claim.secret)

    def _build(self, claim: Claim) -> None:
        if claim.attempt > self.settings.build_attempts:
            self._give_up(claim, f"The worker stopped in the middle of this build {claim.attempt - 1} times.")
            return
        _log.info("order %s: building, try %d", claim.number, claim.attempt)
        try:
            self._try(claim)
        except BuildLost:
            raise
        except Exception as error:  # noqa: BLE001 - whatever a build trips over must reach the designer, not end the worker
            if is_passing(error):
                self._put_off(claim, _waits_words(error))
            else:
                self._went_wrong(claim, error)

    def _try(self, claim: Claim) -> None:
        if claim.altered is not None:
            self._refuse(claim, [claim.altered])
            return
        folder = self.store.begin(claim.pack_name, claim.secret)
        try:
            self._end(claim, folder, self._outcome(claim, folder))
        finally:
            self.store.discard(folder)

    def _outcome(self, claim: Claim, folder: Path) -> PackOutcome:
        outcome = self.builder(claim.request, folder, _Reporter(self.database, claim))
        if isinstance(outcome, PackReady):
            _verify(folder, outcome)
            self.store.seal(folder)
        return outcome

    def _end(self, claim: Claim, folder: Path, outcome: PackOutcome) -> None:
        if isinstance(outcome, PackRefused):
            self._refuse(claim, outcome.problems)
            return
        with self.database.writing() as session:
            older = builds.finish(session, claim, outcome)
            # Inside the transaction: whoever holds the claim holds the row, so nobody else can rename at this time.
            self.store.keep(folder, claim.pack_name)
        self.store.remove(older)
        _log.info("order %s: ready, %d files", claim.number, len(outcome.files))

    def _refuse(self, claim: Claim, problems: Sequence[Problem]) -> None:
        with self.database.writing() as session:
            builds.needs_designer(session, claim, problems)
        _log.warning("order %s: needs the designer, %d findings", claim.number, len(problems))

    def _went_wrong(self, claim: Claim, error: Exception) -> None:
        # The message itself may hold measurements, so the log gets only its kind and its place.
        _log.error("order %s: try %d failed with %s at %s", claim.number, claim.attempt, _kind(error), _place(error))
        if claim.attempt >= self.settings.build_attempts:
            self._give_up(claim, f"The build failed {claim.attempt} times, at last with {_told(error)}")
            return
        with self.database.writing() as session:
            builds.give_back(session, claim)
            order = session.get_one(Order, claim.order_id)
            call_worker(session, self.queue, order, delay_seconds=self.settings.retry_seconds)

    def _put_off(self, claim: Claim, reason: str) -> None:
        with self.database.writing() as session:
            builds.put_off(session, claim, reason)
            order = session.get_one(Order, claim.order_id)
            call_worker(session, self.queue, order, delay_seconds=self.settings.retry_seconds)
        _log.warning("order %s: put off: %s", claim.number, reason)

    def _give_up(self, claim: Claim, reason: str) -> None:
        with self.database.writing() as session:
            builds.give_up(session, claim, reason)
        _log.error("order %s: given up after %d tries", claim.number, claim.attempt)

    def say_alive(self) -> None:
        """Give a sign of life for this worker and for the builds it holds."""
        with self.database.writing() as session:
            builds.say_alive(session, self.settings.worker_slot)
            builds.keep_alive(session, tuple(self.held))
            proofs.keep_alive(session, tuple(self.proving))

    def stuck(self) -> bool:
        """True when a job has run for so long that it will never end."""
        return any(time.monotonic() - begun > LONGEST_BUILD_SECONDS for _, begun in list(self.running.values()))

    def sweep(self) -> None:
        """Take up what was left: builds this worker owes, what dead workers had begun, and orders without a job."""
        self._pay()
        with self.database.writing() as session:
            builds.release_silent_builds(session, self.silence)
            proofs.release_silent_proofs(session, self.silence)
            live = builds.live_slots(session, self.silence)
        adopt_jobs(self.queue, self.settings.worker_slot, live, self._dropped())
        with self.database.reading() as session:
            waiting = builds.left_behind(session, timedelta(seconds=self.settings.sweep_seconds))
        for order in waiting:
            self._call_again(order)

    def _pay(self) -> None:
        for secret, (claim, reason) in list(self.owed.items()):
            try:
                self._put_off(claim, reason)
            except BuildLost:
                _log.info("order %s: somebody else has put it back", claim.number)
            del self.owed[secret]

    def _dropped(self) -> set[str]:
        """Jobs that the engine says run here and that do not: neither now nor at the last look.

        Between taking a job and running it, and between running it and writing down its end, the engine is by itself
        for a moment; a job that nobody is at in two looks is one whose end could not be written down.
        """
        at_work = {job for job, _ in list(self.running.values())}
        idle = self.queue.begun_by(self.settings.worker_slot) - at_work
        dropped, self._idle = idle & self._idle, idle
        return dropped

    def _call_again(self, order: Order) -> None:
        if self.queue.progress(BuildJob(order.id, order.ticket)) in (JobState.WAITING, JobState.RUNNING):
            return
        with self.database.writing() as session:
            fresh = session.get_one(Order, order.id, with_for_update=True)
            if fresh.state is OrderState.PLACED and fresh.ticket == order.ticket:
                _log.warning("order %s: had no job, queueing it again", fresh.number)
                call_worker(session, self.queue, fresh)

    def sweep_files(self) -> None:
        """Throw away folders of builds that no longer run."""
        leftovers = self.store.leftovers()
        with self.database.reading() as session:
            live = builds.live_claims(session)
        for leftover in leftovers:
            if leftover.claim not in live:
                self.store.discard(leftover.folder)

    def scrub(self) -> None:
        """Look a few kept packs through, newest first and round again, and heal the damaged before anybody asks."""
        with self.database.reading() as session:
            orders = ready_from(session, self._scrubbed_to, _SCRUBBED)
        self._scrubbed_to = orders[-1].id if orders else _NEWEST
        Shelf(self.database, self.queue, self.store).heal(orders)

    def tidy(self) -> None:
        """Throw away kept packs that no order shows, jobs that ended long ago, and measurements nobody ordered by."""
        names = self.store.kept()
        with self.database.reading() as session:
            unknown = builds.unknown_packs(session, names)
            moment = now(session)
        for name in unknown:
            self.store.remove(name)
        self.queue.forget(moment - _REMEMBERED)
        while self.database.write(drop_unordered, moment - timedelta(days=self.settings.fitting_days)):
            pass

    def release(self) -> None:
        """Put back the builds still held when the worker is asked to stop; the tries do not count."""
        with self.database.writing() as session:
            builds.leave(session, self.settings.worker_slot)
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
    stop = _stop_on_signal()
    with _workshop(settings, builder) as shop, _slot(shop) as slot:
        # Left in the opposite order: the heart beats until the last build has ended, then the worker signs off.
        with _signed_on(shop, slot), _heart(shop, slot, stop), _proving(shop, stop), _engine(shop):
            _look_after(shop, stop)
        if not slot.held():
            raise SlotTaken("Another worker has taken this worker's slot; its builds were put back.")


@contextmanager
def _signed_on(shop: Workshop, slot: SlotLock) -> Iterator[None]:
    with shop.database.writing() as session:
        builds.release_builds_of(session, shop.settings.worker_slot)
        proofs.release_proofs_of(session, shop.settings.worker_slot)
    shop.say_alive()
    try:
        yield
    finally:
        # Whoever has taken the slot meanwhile builds under its name: those builds are not ours to put back.
        if slot.held():
            shop.release()


@contextmanager
def _heart(shop: Workshop, slot: SlotLock, stop: threading.Event) -> Iterator[None]:
    ended = threading.Event()
    with _beside("heart", lambda: _beat(shop, slot, stop, ended), stop, ended):
        yield


@contextmanager
def _proving(shop: Workshop, stop: threading.Event) -> Iterator[None]:
    ended = threading.Event()
    prover = Prover(shop.settings, shop.database, lambda: stop.is_set() or ended.is_set(), held=shop.proving)
    with _beside("prover", prover.run, stop, ended):
        yield


@contextmanager
def _beside(name: str, work: Callable[[], None], stop: threading.Event, ended: threading.Event) -> Iterator[None]:
    """`work` in a thread of its own until `ended`; should it break, the whole worker is told to `stop`."""
    broken: list[Exception] = []

    def guarded() -> None:
        try:
            work()
        except Exception as error:  # noqa: BLE001 - a thread that ends unseen would leave a worker that only looks alive
            _log.critical("the worker's %s broke with %s at %s, stopping", name, _kind(error), _place(error))
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
def _engine(shop: Workshop) -> Iterator[None]:
    settings = shop.settings
    start_engine(settings.database_address(), settings.worker_slot, settings.worker_builds, shop.run)
    _log.info("worker %s is ready", settings.worker_slot)
    try:
        yield
    finally:
        stop_engine(settings.stop_seconds if shop.running else 0)


@contextmanager
def _workshop(settings: Settings, builder: PackBuilder) -> Iterator[Workshop]:
    database = Database(make_engine(settings.database_address()))
    queue = DbosQueue(settings.database_address())
    try:
        yield Workshop(settings, database, queue, LocalPacks(settings.packs_dir()), builder)
    finally:
        queue.close()
        database.close()


@contextmanager
def _slot(shop: Workshop) -> Iterator[SlotLock]:
    slot = take_slot(shop.database.engine, shop.settings.worker_slot, shop.settings.data_folder() / "workers")
    try:
        yield slot
    finally:
        slot.release()


def _stop_on_signal() -> threading.Event:
    stop = threading.Event()
    for number in (signal.SIGTERM, signal.SIGINT):
        signal.signal(number, lambda _number, _frame: stop.set())
    return stop


def _beat(shop: Workshop, slot: SlotLock, stop: threading.Event, ended: threading.Event) -> None:
    while not ended.wait(shop.settings.heartbeat_seconds):
        if not slot.held():
            _log.error("worker %s: another worker has taken this slot, stopping", shop.settings.worker_slot)
            stop.set()
            return
        if shop.stuck():
            # A thread cannot be stopped from outside. Ending like this is what every guard is made for: the build
            # counts as one more try, and the next worker begins it again or gives it up.
            _log.critical("worker %s: a build does not end, ending the worker", shop.settings.worker_slot)
            os._exit(EXIT_STUCK)
        _trying(shop.say_alive)


def _look_after(shop: Workshop, stop: threading.Event) -> None:
    turn = 0
    while True:
        _trying(shop.sweep)
        _trying(shop.sweep_files)
        _trying(shop.scrub)
        if turn % _TIDY_SWEEPS == 0:
            _trying(shop.tidy)
        turn += 1
        if stop.wait(shop.settings.sweep_seconds):
            return


def _trying(task: Callable[[], None]) -> None:
    # A database or a disk that is away for a moment must not end the worker; the next turn tries again.
    try:
        task()
    except PASSING as error:
        if not is_passing(error):
            raise
        _log.warning("%s did not get through: %s", task.__name__, _kind(error))


def _verify(folder: Path, pack: PackReady) -> None:
    for file in pack.files:
        path = folder / file.name
        if (how := how_damaged(file, path.read_bytes() if path.is_file() else None)) is not None:
            raise ValueError(f"{file.name} {how}")


def _waits_words(error: Exception) -> str:
    return f"It cannot be built at this moment: {fault_words(error)}. It is tried again until it can."


def _told(error: Exception) -> str:
    return f"{_kind(error)} at {_place(error)}: {error}"


def _kind(error: Exception) -> str:
    return type(error).__name__


def _place(error: Exception) -> str:
    trace = error.__traceback__
    while trace is not None and trace.tb_next is not None:
        trace = trace.tb_next
    return f"{Path(trace.tb_frame.f_code.co_filename).name}:{trace.tb_lineno}" if trace is not None else "nowhere"
