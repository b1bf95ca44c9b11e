"""Which trouble passes by waiting and which is a slip of ours, and what the designer reads of it."""

import errno

import pytest
from sqlalchemy import exc

from app.base.errors import Busy
from app.base.faults import fault_words, is_passing

ORIG = Exception("disk I/O error")
PASSES = [
    (OSError(errno.ENOSPC, "x"), "there is no room left on the disk"),
    (OSError(errno.EDQUOT, "x"), "there is no room left on the disk"),
    (OSError(errno.EROFS, "x"), "the disk takes no writing"),
    (PermissionError(errno.EACCES, "x"), "the shop may not write where it keeps its packs"),
    (NotADirectoryError(errno.ENOTDIR, "x"), "there is no folder where packs are kept"),
    (OSError(errno.EIO, "x"), "the disk does not answer"),
    (OSError(errno.EMFILE, "x"), "too many files are open"),
    (OSError(errno.ENOMEM, "x"), "there is too little memory"),
    (exc.OperationalError("SELECT 1", {}, ORIG), "the database cannot be written"),
    (exc.InterfaceError("SELECT 1", {}, ORIG), "the database cannot be written"),
    (exc.InternalError("SELECT 1", {}, ORIG), "the database cannot be written"),
    (exc.TimeoutError("no connection came free"), "the database cannot be written"),
    (Busy("no helper is free"), "the database cannot be written"),
]
STAYS = [
    ValueError("ours"),
    KeyError("ours"),
    OSError("without a number"),
    FileNotFoundError(errno.ENOENT, "x"),
    FileExistsError(errno.EEXIST, "x"),
    BrokenPipeError(errno.EPIPE, "x"),
    exc.IntegrityError("INSERT", {}, ORIG),
    exc.DataError("INSERT", {}, ORIG),
    exc.ProgrammingError("INSERT", {}, ORIG),
    exc.NotSupportedError("INSERT", {}, ORIG),
    exc.InvalidRequestError("ours"),
    AssertionError(),
]


def caused(error, by):
    """The error as it comes out of code that raised it from another."""
    try:
        raise error from by
    except type(error) as found:
        return found


def during(error, other):
    """The error as it comes out of code that met it while it dealt with another."""
    try:
        try:
            raise other
        except type(other):
            raise error  # noqa: B904  (just that is tried here)
    except type(error) as found:
        return found


@pytest.mark.parametrize(
    ("error", "words"), PASSES, ids=lambda value: getattr(value, "strerror", "") or str(value)[:20]
)
def test_trouble_of_the_machine_passes_and_is_told_in_half_a_sentence(error, words):
    assert is_passing(error)
    assert fault_words(error) == words


@pytest.mark.parametrize("error", STAYS, ids=lambda error: type(error).__name__)
def test_a_slip_of_ours_does_not_pass_and_is_told_as_nothing_of_the_machine(error):
    assert not is_passing(error)
    assert fault_words(error) == ""


@pytest.mark.parametrize("wrap", [caused, during])
def test_trouble_is_found_behind_whatever_was_made_of_it(wrap):
    full = OSError(errno.ENOSPC, "x")
    assert is_passing(wrap(ValueError("could not write"), full))
    assert fault_words(wrap(RuntimeError("a"), wrap(ValueError("b"), full))) == "there is no room left on the disk"
    assert not is_passing(wrap(ValueError("a"), KeyError("b")))


def test_the_first_trouble_on_the_way_back_is_the_one_that_is_told():
    error = caused(exc.OperationalError("INSERT", {}, ORIG), OSError(errno.ENOSPC, "x"))
    assert fault_words(error) == "the database cannot be written"


def test_a_circle_of_causes_has_an_end():
    one, other = ValueError("one"), ValueError("other")
    one.__cause__, other.__cause__ = other, one
    assert not is_passing(one)


def test_what_is_told_names_no_path_and_no_value():
    error = OSError(errno.ENOSPC, "No space left on device", "/srv/tapeline/packs/TL-2345")
    assert "/" not in fault_words(error)
    assert "TL-2345" not in fault_words(error)
