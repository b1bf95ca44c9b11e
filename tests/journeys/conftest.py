"""A whole shop as its keeper starts it (web server and worker), and a real browser in front of it."""

import os
import re
import signal
import socket
import subprocess
import sys
import time
import urllib.error
import urllib.request
from dataclasses import dataclass

import pytest
from playwright.sync_api import sync_playwright

CHROMIUM = "/usr/bin/chromium"
START_SECONDS = 60


@dataclass(frozen=True)
class Shop:
    """Where the running shop is, and the designer's link to her first password."""

    url: str
    password_link: str


def free_port():
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return probe.getsockname()[1]


def wait_for(url):
    for _ in range(START_SECONDS * 5):
        try:
            with urllib.request.urlopen(f"{url}/healthz", timeout=2):
                return
        except (urllib.error.URLError, ConnectionError):
            time.sleep(0.2)
    raise TimeoutError(f"the shop did not come up at {url}")


@pytest.fixture(scope="module")
def shop(tmp_path_factory):
    """A demo shop for the journeys of a file, started with the one command, stopped at the end."""
    folder, port = tmp_path_factory.mktemp("shop"), free_port()
    url = f"http://127.0.0.1:{port}"
    settings = {"TAPELINE_DATA_DIR": str(folder / "data"), "TAPELINE_PORT": str(port), "TAPELINE_PUBLIC_URL": url}
    log = folder / "shop.log"
    with log.open("wb") as out:
        command = [sys.executable, "-m", "app", "run"]
        process = subprocess.Popen(command, env={**os.environ, **settings}, stdout=out, stderr=out)
    try:
        wait_for(url)
        yield Shop(url, re.search(rf"{url}/password/\S+", log.read_text()).group())
    finally:
        process.send_signal(signal.SIGTERM)
        process.wait(timeout=60)


@pytest.fixture(scope="module")
def chromium():
    """One browser for the journeys of a file: while it is there an event loop runs, in which no other test may run."""
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=CHROMIUM, args=["--no-sandbox"])
        yield browser
        browser.close()


@pytest.fixture
def open_page(chromium, shop):
    """A fresh visitor at a given width, with or without JavaScript; the browser must not complain."""
    contexts, complaints = [], []

    def build(width, *, scripts=True):
        context = chromium.new_context(
            viewport={"width": width, "height": 812}, java_script_enabled=scripts, base_url=shop.url
        )
        contexts.append(context)
        page = context.new_page()
        page.set_default_timeout(20_000)
        page.on("pageerror", lambda error: complaints.append(str(error)))
        page.on("console", lambda message: complaints.append(message.text) if "Security" in message.text else None)
        return page

    yield build
    for context in contexts:
        context.close()
    assert complaints == []
