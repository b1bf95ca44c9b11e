"""The web server itself, as a process, against senders that are no browsers: hang-ups, odd bytes, slow heads."""

import os
import re
import shutil
import signal
import socket
import subprocess
import sys
import time
import urllib.error
import urllib.request

import pytest

from app.base.database import Database, make_engine
from app.demo.shop import load_demo
from tests.web.odd_requests import odd_request

#: Odd requests sent; the more the longer. `ODD_REQUESTS=3000` sends as many.
HOW_MANY = int(os.environ.get("ODD_REQUESTS", "250"))


class Served:
    """The running server: its port and what it has written."""

    def __init__(self, port, log):
        self.port, self.log = port, log

    def said(self):
        return self.log.read_text(errors="replace")

    def talk(self, sent, *, wait=10.0, hush=False):
        """Everything the server answers until it closes; with `hush`, until it has been silent for a moment."""
        with socket.create_connection(("127.0.0.1", self.port), timeout=wait) as line:
            answer = b""
            try:
                line.sendall(sent)
                line.settimeout(0.4 if hush else wait)
                while more := line.recv(65536):
                    answer += more
            except (ConnectionError, TimeoutError):
                pass
        return answer

    def hang_up(self, sent, *, read=0):
        """Send, read a little, and be gone without a word (RST)."""
        line = socket.create_connection(("127.0.0.1", self.port), timeout=5)
        line.setsockopt(socket.SOL_SOCKET, socket.SO_LINGER, b"\x01\x00\x00\x00\x00\x00\x00\x00")
        line.sendall(sent)
        if read:
            line.recv(read)
        line.close()

    def is_well(self):
        return self.talk(b"GET /healthz HTTP/1.0\r\n\r\n").startswith(b"HTTP/1.1 200")


@pytest.fixture(scope="module")
def served(migrated, tmp_path_factory):
    """The server over a demo shop of its own, for the tests of this file."""
    folder = tmp_path_factory.mktemp("served")
    shutil.copytree(migrated, folder / "data")
    database = Database(make_engine(f"sqlite:///{folder / 'data' / 'tapeline.db'}"))
    database.write(load_demo)
    database.close()
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        port = probe.getsockname()[1]
    log = folder / "server.log"
    ours = {"TAPELINE_DATA_DIR": str(folder / "data"), "TAPELINE_PORT": str(port), "TAPELINE_DATABASE_URL": ""}
    with log.open("wb") as out:
        process = subprocess.Popen(
            [sys.executable, "-m", "app", "serve"], env={**os.environ, **ours}, stdout=out, stderr=out
        )
    try:
        for _ in range(300):
            try:
                urllib.request.urlopen(f"http://127.0.0.1:{port}/healthz", timeout=2).close()
                break
            except (urllib.error.URLError, ConnectionError):
                time.sleep(0.1)
        yield Served(port, log)
    finally:
        process.send_signal(signal.SIGTERM)
        assert process.wait(timeout=60) in (0, -signal.SIGTERM)


def test_odd_requests_break_nothing(served):
    for seed in range(HOW_MANY):
        answer = served.talk(odd_request(seed), hush=True)
        status = re.match(rb"HTTP/1\.1 (\d\d\d)", answer)
        assert answer == b"" or (status and status[1][:1] != b"5"), (seed, answer[:200])
        head = answer.partition(b"\r\n\r\n")[0].lower()
        assert b"evil" not in head, (seed, head)
        assert b"\r\nserver:" not in head
    assert served.is_well()
    assert "Traceback" not in served.said()


def test_a_visitor_who_hangs_up_leaves_one_line_at_most(served):
    begun = len(served.said().splitlines())
    form = b"POST /patterns/fernhill-skirt/measure HTTP/1.1\r\nHost: x\r\nContent-Length: 5000\r\n"
    plain = form + b"Content-Type: application/x-www-form-urlencoded\r\n\r\n"
    parts = form + b"Content-Type: multipart/form-data; boundary=x\r\n\r\n"
    file = b'--x\r\nContent-Disposition: form-data; name="file"; filename="a"\r\n\r\nabc'
    times = [
        lambda: served.hang_up(plain + b"form_token=x&measure"),
        lambda: served.hang_up(parts + file),
        lambda: served.hang_up(plain),
        lambda: served.hang_up(form),
        lambda: served.hang_up(b"GET /patterns/fernhill-skirt/measure HTTP/1.1\r\nHost: x\r\n\r\n"),
        lambda: served.hang_up(b"GET /static/screens/shop.png HTTP/1.1\r\nHost: x\r\n\r\n", read=1000),
        lambda: served.hang_up(b"GET / HT"),
        lambda: served.hang_up(b"GET / HTTP/1.1\r\nHost: x\r\n\r\n" * 20),
    ]
    for once in times:
        once()
    assert served.is_well()
    said = served.said().splitlines()[begun:]
    assert not [line for line in said if "Traceback" in line or "ERROR" in line or line.startswith(" ")]
    assert len([line for line in said if "/healthz" not in line]) <= len(times) + 20


def test_a_body_that_turns_out_to_be_nonsense_or_too_much_is_refused_without_a_word_in_the_log(served):
    before = served.said()
    chunked = b"POST /patterns/fernhill-skirt/measure HTTP/1.1\r\nHost: x\r\nTransfer-Encoding: chunked\r\n"
    kind = b"Content-Type: application/x-www-form-urlencoded\r\n\r\n"
    assert served.talk(chunked + kind + b"5\r\nab=cd\r\nnonsense\r\n").startswith(b"HTTP/1.1 400")
    for method in (b"GET", b"HEAD"):
        much = (
            method + b" /static/css/base.css HTTP/1.1\r\nHost: x\r\nConnection: close\r\nContent-Length: 400000\r\n\r\n"
        )
        served.talk(much + b"y" * 400_000)
        served.talk(
            much.replace(b"Content-Length: 400000", b"Transfer-Encoding: chunked") + b"5\r\nabcde\r\nnonsense\r\n"
        )
    assert served.is_well()
    said = served.said().removeprefix(before)
    assert "Traceback" not in said
    assert "ERROR" not in said


def test_a_head_without_end_is_refused_before_it_fills_the_memory(served):
    for sent in (b"GET / HTTP/1.1\r\n" + each for each in (b"X: " + b"y" * 10_000_000, b"X: y\r\n" * 1_000_000)):
        answer = served.talk(sent)
        assert answer == b"" or answer.startswith(b"HTTP/1.1 400")
    assert served.is_well()


def test_an_upgrade_is_answered_with_the_page(served):
    key = b"Upgrade: websocket\r\nConnection: Upgrade\r\nSec-WebSocket-Version: 13\r\nSec-WebSocket-Key: eA==\r\n\r\n"
    before = served.said()
    assert served.talk(b"GET /about HTTP/1.1\r\nHost: x\r\n" + key, hush=True).startswith(b"HTTP/1.1 200")
    assert "WARNING" not in served.said().removeprefix(before)


def test_a_head_is_answered_without_a_body(served):
    answer = served.talk(b"HEAD /about HTTP/1.1\r\nHost: x\r\nConnection: close\r\n\r\n")
    head, _, body = answer.partition(b"\r\n\r\n")
    assert head.startswith(b"HTTP/1.1 200")
    assert int(re.search(rb"content-length: (\d+)", head)[1]) > 1000
    assert body == b""
