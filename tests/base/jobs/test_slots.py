"""Worker slots beside SQLite: one live holder for each name, told to whoever comes second, free when it is given up."""

import pytest

from app.base.errors import SlotTaken
from app.base.jobs.slots import take_slot


@pytest.fixture
def take(database, tmp_path):
    """Takes slots in a folder of their own, and gives up whatever is left."""
    taken = []

    def take(name):
        taken.append(take_slot(database.engine, name, tmp_path / "workers"))
        return taken[-1]

    yield take
    for slot in taken:
        slot.release()


def test_a_slot_is_held_by_one_and_told_to_the_next(take):
    first = take("worker-1")
    assert first.still_held()
    with pytest.raises(SlotTaken) as told:
        take("worker-1")
    assert str(told.value) == (
        "Another live worker holds the slot “worker-1”. Give each worker its own name: "
        "TAPELINE_WORKER_SLOT=worker-2 tapeline work"
    )
    assert first.still_held(), "whoever came second took nothing away"


def test_another_name_is_another_slot(take):
    first, second = take("worker-1"), take("worker-2")
    assert first.still_held()
    assert second.still_held()


def test_a_slot_that_was_given_up_is_free(take):
    first = take("worker-1")
    first.release()
    assert not first.still_held()
    assert take("worker-1").still_held()


def test_giving_up_twice_harms_nobody(take):
    first = take("worker-1")
    first.release()
    second = take("worker-1")
    first.release()
    assert second.still_held()


def test_a_lock_file_that_was_left_behind_is_no_holder(take, tmp_path):
    (tmp_path / "workers").mkdir()
    (tmp_path / "workers" / "worker-1.lock").write_text("", "ascii")
    assert take("worker-1").still_held()


def test_the_folder_of_slots_is_made_when_it_is_missing(take, tmp_path):
    take("worker-1")
    assert (tmp_path / "workers" / "worker-1.lock").is_file()
