"""Helpers work out what they are asked within bounds, and whatever becomes of one the process that asked goes on."""

import os
import signal
import subprocess
import sys
import threading
import time
from concurrent.futures import ThreadPoolExecutor
from math import factorial

import pytest

from app.base.aside import Aside, Bounds, BrokenOff
from app.base.errors import AsideFailed, Busy
from app.pattern.body import size_body
from app.pattern.make import Made, make_pattern

TIGHT = Bounds(seconds=1, megabytes=100, patience=4.0, wait=60.0, waiting=60)


@pytest.fixture
def aside():
    opened = Aside(2, TIGHT, left=1)
    yield opened
    opened.close()


def test_a_value_comes_back_from_another_process_which_is_kept_for_the_next(aside):
    first = aside.run(os.getpid)
    assert first != os.getpid()
    assert aside.run(os.getpid) == first
    assert aside.run_or_busy(factorial, 5) == 120


def test_a_pattern_is_the_one_that_is_made_here(aside):
    text = (
        'draft "T"\nneeds\n    waist_girth\nfabrics\n    main "C" width 140cm\nsheet s\n    a = at 0, 0\n'
        "    low = line a to (a right 40cm)\n    side = line (a right 40cm) to (a right 40cm up 60cm)\n"
        "    top = line (a up 60cm) to (a right 40cm up 60cm)\n    near = line a to (a up 60cm)\n"
        'piece p "P" cut 1 main\n    outline low, side, top, near\n'
        "    grain (a right 1cm up 2cm) to (a right 1cm up 9cm)\n"
        "    allowance 1cm\n"
    )
    made = aside.run_or_busy(make_pattern, text, "t.draft", size_body("92"), {})
    assert isinstance(made, Made)
    assert made == make_pattern(text, "t.draft", size_body("92"), {})


@pytest.mark.parametrize(
    ("words", "code"),
    [
        ("sum(range(10 ** 12))", "aside.too-long"),
        ("__import__('time').sleep(60)", "aside.too-long"),
        ("[__import__('signal').signal(n, 1) for n in (2, 15, 24)] and sum(range(10 ** 12))", "aside.too-long"),
        ("bytes(10 ** 9)", "aside.too-large"),
        ("[bytes(10 ** 6) for _ in range(10 ** 6)]", "aside.too-large"),
        ("(lambda f: f(f))(lambda f: f(f))", "aside.too-large"),
        ("__import__('os')._exit(3)", "aside.too-large"),
        ("__import__('os').kill(__import__('os').getpid(), 9)", "aside.too-large"),
        ("__import__('ctypes').string_at(0)", "aside.too-large"),
    ],
)
def test_what_goes_beyond_its_bounds_is_told_with_a_remedy_and_the_next_is_answered(aside, words, code):
    broken = aside.run(eval, words)
    assert isinstance(broken, BrokenOff)
    (problem,) = broken.problems
    assert problem.code == code
    assert problem.fix
    assert aside.run(factorial, 4) == 24
    with pytest.raises(Busy):
        aside.run_or_busy(eval, words)


def test_a_bug_of_ours_is_raised_here_and_the_helper_goes_on(aside):
    at_work = aside.run(os.getpid)
    with pytest.raises(AsideFailed, match="ZeroDivisionError"):
        aside.run(eval, "1 / 0")
    with pytest.raises(AsideFailed, match="pickle"):
        aside.run(threading.Lock)
    assert aside.run(os.getpid) == at_work


def test_an_answer_that_is_too_long_to_take_in_is_a_problem():
    opened = Aside(1, Bounds(most_bytes=1000))
    assert [problem.code for problem in opened.run(bytes, 10_000).problems] == ["aside.too-large"]
    opened.close()


def test_a_helper_that_was_killed_while_it_was_free_is_replaced_unseen(aside):
    pid = aside.run(os.getpid)
    os.kill(pid, signal.SIGKILL)
    while aside.run(os.getpid) == pid:
        time.sleep(0.01)
    assert aside.run(factorial, 4) == 24


def test_a_crowd_is_answered_by_few_processes(aside):
    work = [f"[__import__('time').sleep(0.01), __import__('os').getpid(), {n}]" for n in range(45)]
    with ThreadPoolExecutor(45) as crowd:
        found = list(crowd.map(lambda words: aside.run_or_busy(eval, words), work))
    assert [number for _, _, number in found] == list(range(45))
    assert 1 <= len({pid for _, pid, _ in found}) <= 2


def test_many_who_ask_the_same_at_once_have_it_worked_out_once():
    opened = Aside(4, TIGHT)
    words = "[__import__('time').sleep(1), __import__('os').getpid(), __import__('time').time_ns()]"
    opened.run_or_busy(factorial, 3)
    with ThreadPoolExecutor(6) as crowd:
        found = list(crowd.map(lambda _: opened.run_or_busy(eval, words), range(6)))
    assert len({moment for _, _, moment in found}) == 1
    opened.close()


def test_who_would_stand_too_far_back_in_the_line_is_told_at_once_that_it_is_busy():
    opened = Aside(1, Bounds(waiting=1, wait=0.2))
    opened.run(factorial, 3)
    with ThreadPoolExecutor(8) as crowd:
        asked = [crowd.submit(opened.run_or_busy, eval, f"__import__('time').sleep(1) or {n}") for n in range(8)]
    busy = [one for one in asked if isinstance(one.exception(), Busy)]
    assert 6 <= len(busy) <= 7
    assert opened.run(factorial, 4) == 24
    opened.close()


def test_designers_leave_a_helper_to_customers(aside):
    with ThreadPoolExecutor(3) as crowd:
        slow = [crowd.submit(aside.run, eval, f"__import__('time').sleep(2) or {n}") for n in range(3)]
        assert aside.run_or_busy(factorial, 5) == 120
        assert not all(one.done() for one in slow)
    assert [one.result() for one in slow] == [0, 1, 2]


def test_a_helper_sees_no_key_and_no_address_of_the_keeper(monkeypatch):
    monkeypatch.setenv("TAPELINE_SESSION_KEY", "secret")
    monkeypatch.setenv("TAPELINE_DATABASE_URL", "postgresql://shop")
    opened = Aside(1)
    assert opened.run(eval, "[n for n in __import__('os').environ if n.startswith('TAPELINE')]") == []
    opened.close()


@pytest.mark.kills
def test_a_helper_ends_with_its_parent_even_when_that_is_killed_while_it_works():
    script = (
        "import os, threading, time; from app.base.aside import Aside; aside = Aside(1)\n"
        "print(aside.run_or_busy(os.getpid), flush=True)\n"
        "threading.Thread(target=aside.run_or_busy, args=(eval, \"__import__('time').sleep(20)\")).start()\n"
        "time.sleep(20)"
    )
    parent = subprocess.Popen([sys.executable, "-c", script], stdout=subprocess.PIPE, text=True)
    helper = int(parent.stdout.readline())
    parent.kill()
    parent.wait()
    parent.stdout.close()
    deadline = time.monotonic() + 15
    while os.path.exists(f"/proc/{helper}") and time.monotonic() < deadline:  # noqa: PTH110
        time.sleep(0.05)
    assert not os.path.exists(f"/proc/{helper}")  # noqa: PTH110
