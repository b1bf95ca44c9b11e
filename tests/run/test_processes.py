"""The shop's processes: begun again where that may help, and not where they say themselves that they cannot begin."""

import subprocess

from app.run import serve


def ended(command, monkeypatch, tmp_path):
    """A process of the shop that has ended by itself, in a data folder that is no folder."""
    (tmp_path / "file").touch()
    monkeypatch.setenv("TAPELINE_DATA_DIR", str(tmp_path / "file"))
    process = serve._SupervisedProcess(command)
    process.process.wait()
    return process


def test_a_process_that_can_never_begin_ends_the_shop_with_its_own_status(monkeypatch, tmp_path):
    assert ended("serve", monkeypatch, tmp_path).keep_going() == serve.CANNOT_START


def test_a_process_that_was_killed_is_begun_again_after_a_pause(monkeypatch):
    monkeypatch.setattr(serve, "_SHORTEST_PAUSE", 0.0)
    process = serve._SupervisedProcess("serve")
    first = process.process
    first.kill()
    first.wait()
    assert process.keep_going() == 0
    second = process.process
    serve._stop([second])
    assert second.pid != first.pid


def test_stopping_waits_for_every_process():
    processes = [subprocess.Popen(["sleep", "60"]) for _ in range(2)]
    serve._stop(processes)
    assert all(process.returncode is not None for process in processes)
