"""`tapeline run`: one command starts pages and worker, keeps them going, and takes them along when it is killed."""

from __future__ import annotations

import os
import signal
import socket
import subprocess
import sys
import time
from pathlib import Path

import httpx
import pytest

pytestmark = pytest.mark.kills


def free_port() -> int:
    with socket.socket() as listener:
        listener.bind(("127.0.0.1", 0))
        return listener.getsockname()[1]


def until(holds, seconds: float = 60.0):
    """What `holds` gives once it is true; fails when it never is."""
    end = time.monotonic() + seconds
    while time.monotonic() < end:
        if (found := holds()) is not None and found is not False:
            return found
        time.sleep(0.2)
    pytest.fail("waited in vain")


def answers(url: str) -> bool:
    try:
        return httpx.get(f"{url}/healthz", timeout=2).status_code == 200
    except httpx.HTTPError:
        return False


def children(pid: int) -> dict[str, int]:
    """The shop's own processes by duty."""
    listed = Path(f"/proc/{pid}/task/{pid}/children").read_text().split()
    words = {int(child): Path(f"/proc/{child}/cmdline").read_bytes().split(b"\0") for child in listed}
    return {line[3].decode(): child for child, line in words.items() if line[1:3] == [b"-m", b"app"]}


def alive(pid: int) -> bool:
    try:
        return "Z" not in Path(f"/proc/{pid}/stat").read_text().rsplit(")", 1)[1].split()[0]
    except FileNotFoundError:
        return False


@pytest.fixture
def shop(tmp_path):
    port = free_port()
    url = f"http://127.0.0.1:{port}"
    settings = {"TAPELINE_DATA_DIR": str(tmp_path), "TAPELINE_PORT": str(port), "TAPELINE_PUBLIC_URL": url}
    with (tmp_path / "out.txt").open("wb") as out:
        process = subprocess.Popen(
            [sys.executable, "-m", "app", "run"], env=os.environ | settings, stdout=out, stderr=subprocess.STDOUT
        )
        until(lambda: answers(url))
        yield process, url, tmp_path
        process.kill()
        process.wait()


def test_the_first_start_prints_address_and_password_link(shop):
    _, url, folder = shop
    said = (folder / "out.txt").read_text("utf-8")
    assert f"The shop is at {url}" in said
    link = next(word for word in said.split() if "/password/" in word)
    assert httpx.get(link).status_code == 200


def test_a_shop_that_cannot_begin_ends_and_says_why(tmp_path):
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        settings = {"TAPELINE_DATA_DIR": str(tmp_path), "TAPELINE_PORT": str(taken.getsockname()[1])}
        done = subprocess.run(
            [sys.executable, "-m", "app", "run"], env=os.environ | settings, capture_output=True, text=True, timeout=180
        )
    assert done.returncode == 1
    assert done.stderr.count("address already in use") == 1
    assert f"The pages cannot be served at 127.0.0.1:{settings['TAPELINE_PORT']}; name another port" in done.stderr
    assert "Traceback" not in done.stderr


def test_a_killed_page_server_is_started_again(shop):
    process, url, _ = shop
    first = children(process.pid)["serve"]
    os.kill(first, signal.SIGKILL)
    until(lambda: children(process.pid).get("serve") not in (first, None) and answers(url))


def test_pages_and_worker_end_with_the_shop_even_when_it_is_killed(shop):
    process, _, _ = shop
    duties = until(lambda: len(found := children(process.pid)) == 2 and found)
    process.kill()
    process.wait()
    until(lambda: not any(alive(pid) for pid in duties.values()))
