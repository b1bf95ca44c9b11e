"""Tests keep pace with the code, and a class name means one thing: held by the figures of the house."""

from __future__ import annotations

import pytest

from tests.house.figures import APP, ROOFS, classes_twice, lines_of_code, lines_of_tests, rooms

#: Lines of tests to a line of code. Drafts and expected messages kept as text are lines of tests.
LEAST_OF_ALL = 1.0
LEAST_OF_A_ROOM = 0.3
#: The rooms that are held to it: those at the top, and those of the shop.
ROOMS = [*(room for room in rooms() if room.parent not in ROOFS[:1]), *ROOFS[:1]]

#: Class names that stand in more than one file, with the reason.
TWICE: dict[str, str] = {}


def test_tests_keep_pace_with_the_code():
    code, tests = lines_of_code(), lines_of_tests()
    assert tests / code >= LEAST_OF_ALL, (
        f"only {tests} lines of tests for {code} lines of code; drafts and expected messages that are kept as text "
        "count. `python -m tests.house.figures` shows every room."
    )


@pytest.mark.parametrize("room", ROOMS, ids=lambda room: str(room.relative_to(APP)))
def test_every_room_has_tests_of_its_own(room):
    code, tests = lines_of_code(room), lines_of_tests(room)
    assert tests / code >= LEAST_OF_A_ROOM, (
        f"only {tests} lines of tests for {code} lines of code; drafts and expected messages that are kept as text "
        f"count. Test what this room does in tests/{room.relative_to(APP)}."
    )


def test_a_class_name_stands_in_one_file():
    twice = classes_twice()
    told = {name: where for name, where in twice.items() if name not in TWICE}
    assert not told, f"name each after what it is where it stands, or say in TWICE why they share a name: {told}"
    idle = TWICE.keys() - twice.keys()
    assert not idle, f"these stand in one file now, take them out of TWICE: {idle}"
