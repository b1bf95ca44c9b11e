"""Worker slots on SQLite's side: a locked file, held by one opener at a time."""

import pytest

from app.base.errors import SlotTaken
from app.base.jobs.slots import take_slot


def test_a_slot_is_held_once_and_free_after_release(database, tmp_path):
    first = take_slot(database.engine, "worker-1", tmp_path)
    assert first.still_held()
    with pytest.raises(SlotTaken, match="TAPELINE_WORKER_SLOT=worker-2"):
        take_slot(database.engine, "worker-1", tmp_path)
    other = take_slot(database.engine, "worker-2", tmp_path)
    first.release()
    assert not first.still_held()
    again = take_slot(database.engine, "worker-1", tmp_path)
    again.release()
    other.release()
