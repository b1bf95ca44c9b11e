"""Who asks slowly: a head or a form that never ends does not keep its place for ever."""

import asyncio

import pytest
import uvicorn
from starlette.exceptions import HTTPException
from uvicorn.server import ServerState

from app.web import connection, headers
from app.web.connection import Connection
from app.web.headers import BodyLimit


async def page(_scope, _receive, send):
    await send({"type": "http.response.start", "status": 200, "headers": [(b"content-length", b"2")]})
    await send({"type": "http.response.body", "body": b"ok"})


def talk(*sent):
    """What is answered to these bytes, until the server closes the line."""

    async def day():
        config = uvicorn.Config(page, log_config=None, ws="none", lifespan="off", timeout_keep_alive=60)
        loop = asyncio.get_running_loop()
        server = await loop.create_server(lambda: Connection(config, ServerState(), {}), "127.0.0.1", 0)
        async with server:
            reader, writer = await asyncio.open_connection(*server.sockets[0].getsockname())
            for each in sent:
                writer.write(each)
                await writer.drain()
                await asyncio.sleep(0.01)
            answer = await reader.read()
            writer.close()
        return answer

    return asyncio.run(day())


@pytest.fixture
def impatient(monkeypatch):
    monkeypatch.setattr(connection, "HEAD_SECONDS", 0.05)
    monkeypatch.setattr(headers, "BODY_SECONDS", 0.05)


@pytest.mark.parametrize("sent", [(), (b"G",), (b"GET / HTTP/1.1\r\n", b"Host: x\r\n", b"X: y\r\n")])
def test_a_head_that_does_not_end_is_closed(impatient, sent):
    assert talk(*sent) == b""


def test_a_second_head_on_the_same_line_has_to_end_too(impatient):
    answer = talk(b"GET / HTTP/1.1\r\nHost: x\r\n\r\n", b"GET / HT")
    assert answer.startswith(b"HTTP/1.1 200")
    assert answer.count(b"HTTP/1.1") == 1


def test_a_form_that_does_not_end_is_answered_as_too_slow(impatient):
    heard = []

    async def reads_it_all(_scope, receive, _send):
        while True:
            heard.append(await receive())

    async def drip():
        await asyncio.sleep(0.02)
        return {"type": "http.request", "body": b"a", "more_body": True}

    with pytest.raises(HTTPException) as raised:
        asyncio.run(BodyLimit(reads_it_all, most=lambda path: 99)({"type": "http", "path": "/"}, drip, None))
    assert raised.value.status_code == 408
    assert heard


def test_whoever_reads_a_long_answer_is_not_hurried(impatient):
    async def answers_and_waits(_scope, receive, send):
        await send({"type": "http.response.start"})
        return await receive()

    async def later():
        await asyncio.sleep(0.1)
        return {"type": "http.disconnect"}

    async def heard(_message):
        return None

    asyncio.run(BodyLimit(answers_and_waits, most=lambda path: 99)({"type": "http", "path": "/"}, later, heard))
