"""Logs: no line carries a token, and libraries keep their every step to themselves."""

import logging
import subprocess
import sys

import pytest

from app.base.logs import HideTokens
from app.shop.people.passwords import new_token

TOKEN = "vZ3-k9_QmB7xLw2RtYc5NdHs8PfJg4Ae"


def said(message, *args):
    record = logging.LogRecord("uvicorn.access", logging.INFO, "x.py", 1, message, args, None)
    assert HideTokens().filter(record)
    return record.getMessage()


@pytest.mark.parametrize("page", ["order", "password", "fitting"])
def test_a_token_in_a_path_is_hidden(page):
    line = said('%s - "%s %s HTTP/%s" %d', "127.0.0.1", "GET", f"/{page}/{TOKEN}/files/a.pdf", "1.1", 200)
    assert line == f'127.0.0.1 - "GET /{page}/…/files/a.pdf HTTP/1.1" 200'


@pytest.mark.parametrize("query", ["text=Rosa+Quill&state=", "text=rosa%40quill.example", "?", "text=a?b/c"])
def test_what_somebody_searched_for_is_hidden(query):
    line = said('%s - "%s %s HTTP/%s" %d', "127.0.0.1", "GET", f"/studio?{query}", "1.1", 200)
    assert line == '127.0.0.1 - "GET /studio?… HTTP/1.1" 200'
    assert said(f"/studio?{query}") == "/studio?…"


def test_a_question_in_a_sentence_stays():
    assert said("order %s: ready? not yet", "TL-4F7K") == "order TL-4F7K: ready? not yet"


def test_every_token_we_make_is_long_enough_to_be_hidden():
    assert said(f"GET /order/{new_token()}") == "GET /order/…"


def test_other_lines_stay_as_they_are():
    assert said("order %s: ready, %d files", "TL-4F7K", 5) == "order TL-4F7K: ready, 5 files"
    assert said("GET /designs/a-long-name-for-a-garment") == "GET /designs/a-long-name-for-a-garment"


def test_a_process_logs_its_own_news_and_not_its_libraries():
    script = (
        "import logging; from app.base.logs import set_up_logging; set_up_logging('INFO');"
        f"logging.getLogger('app.work.worker').info('seen /order/{TOKEN}');"
        "logging.getLogger('app.work.worker').debug('too small');"
        "logging.getLogger('weasyprint.progress').info('step 3');"
        "logging.getLogger('dbos').info('address')"
    )
    done = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=True)
    assert done.stderr.endswith("INFO app.work.worker: seen /order/…\n")
    assert len(done.stderr.splitlines()) == 1
