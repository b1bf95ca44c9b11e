"""Page handlers parse, call and render: the application itself is asked which functions answer its addresses."""

from __future__ import annotations

import ast
import inspect
from collections.abc import Callable, Iterator
from pathlib import Path
from statistics import median

import pytest
from fastapi import APIRouter, FastAPI
from starlette.responses import PlainTextResponse

from app.run.application import create_app
from tests.house.source import APP, ROOT, Found, Function, tree
from tests.routes import all_routes

OURS = (APP, ROOT / "tests")
#: What a handler leaves to a service.
NOT_HERE = ("commit", "execute", "select", "scalars")


def answering(app: FastAPI) -> Iterator[Callable]:
    """Every function that answers an address of the application, or a failure of it."""
    yield from (route.endpoint for route in all_routes(app) if hasattr(route, "endpoint"))
    yield from app.exception_handlers.values()


def source_of(function: Callable) -> Found:
    """A function as it is written, with the file that holds it."""
    plain = inspect.unwrap(function)
    path, first = Path(inspect.getsourcefile(plain)), plain.__code__.co_firstlineno
    for node in ast.walk(tree(path)):
        if isinstance(node, Function) and first in (node.lineno, *(each.lineno for each in node.decorator_list)):
            return Found(str(path.relative_to(ROOT)), node, "")
    raise LookupError(f"{plain} is not written in {path}")


def ours(functions: Iterator[Callable]) -> list[Found]:
    """Those that are written in this project, each once; a virtual environment may lie in its folder."""
    plain = {inspect.unwrap(function) for function in functions if inspect.isroutine(function)}
    here = (each for each in plain if any(Path(inspect.getsourcefile(each)).is_relative_to(root) for root in OURS))
    return sorted(map(source_of, here), key=str)


@pytest.fixture
def handlers(settings, opened) -> list[Found]:
    app = create_app(settings)
    opened.callback(app.state.queue.close)
    opened.callback(app.state.database.close)
    return ours(answering(app))


def test_every_room_with_pages_is_looked_at(handlers):
    files = {handler.file for handler in handlers}
    written = {str(path.relative_to(ROOT)) for path in APP.rglob("page.py")}
    assert written | {"app/web/failures.py", "app/web/health.py"} <= files


def test_a_handler_is_found_however_it_was_registered():
    def by_router(): ...
    def by_call(): ...
    def by_app(): ...
    def by_failure(_request, _error): ...
    async def by_plain_route(_request):
        return PlainTextResponse("")

    app, outer, inner = FastAPI(), APIRouter(prefix="/outer"), APIRouter(prefix="/inner")
    inner.get("/there")(by_router)
    inner.add_api_route("/call", by_call, methods=["DELETE"])
    outer.include_router(inner)
    outer.add_route("/plain", by_plain_route)
    app.include_router(outer)
    app.get("/own")(by_app)
    app.add_exception_handler(KeyError, by_failure)
    names = {found.node.name for found in ours(answering(app))}
    assert names == {"by_router", "by_call", "by_app", "by_failure", "by_plain_route"}


def test_page_handlers_parse_call_one_service_and_render(handlers):
    lengths = [h.lines for h in handlers]
    assert median(lengths) <= 15, "handlers grow: move the work into the domain's service"
    long = [str(h) for h in handlers if h.lines > 25]
    assert not long, f"move work from these handlers into a service: {long}"


def test_page_handlers_hold_no_sql_no_commit_and_no_arithmetic(handlers):
    guilty = []
    for handler in handlers:
        for node in ast.walk(handler.node):
            name = node.attr if isinstance(node, ast.Attribute) else node.id if isinstance(node, ast.Name) else ""
            sums = isinstance(node, ast.BinOp) and isinstance(node.op, ast.Add | ast.Sub | ast.Mult | ast.Div)
            if name in NOT_HERE or (sums and node not in _hints(handler)):
                guilty.append(f"{handler}: {ast.unparse(node)}")
    assert not guilty, f"a handler only parses, calls and renders: {guilty}"


def _hints(handler: Found) -> list[ast.AST]:
    """Everything inside annotations, where `A | B` is no arithmetic."""
    notes = [a.annotation for a in ast.walk(handler.node) if isinstance(a, ast.arg) and a.annotation]
    return [n for note in notes for n in ast.walk(note)]
