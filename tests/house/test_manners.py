"""The manners of the house, in functions, files, imports, words and errors: each test has a message that teaches."""

from __future__ import annotations

import ast
import re
from statistics import median

import grimp
import pytest

from app.pattern.plain_words import KINDS, is_told
from tests.house.source import APP, CORE, ROOT, Found, files, functions, share, tree

CODE = re.compile(r"^(language|drafting|pieces|checks|lay|sheets|body|choice|proof)\.[a-z][a-z0-9-]*$")


def test_core_functions_are_short():
    lengths = [f.lines for f in functions(CORE)]
    assert median(lengths) <= 8
    assert share(lengths, 0.9) <= 30
    long = [str(f) for f in functions(CORE) if f.lines > 50]
    assert len(long) < 0.02 * len(lengths), f"split these: {long}"


@pytest.mark.parametrize("path", files(), ids=lambda p: str(p.relative_to(ROOT)))
def test_no_file_is_longer_than_500_lines(path):
    lines = len(path.read_text("utf-8").splitlines())
    assert lines <= 500, f"{lines} lines: is this still one room with one purpose? Split it by subject."


def test_imports_stand_at_the_top():
    inside = [
        f"{f}: {ast.unparse(node)}"
        for f in functions()
        for node in ast.walk(f.node)
        if isinstance(node, ast.Import | ast.ImportFrom)
    ]
    assert not inside, f"bring these imports to the top of their file: {inside}"


def test_no_two_modules_import_each_other_in_a_circle():
    graph = grimp.build_graph("app", cache_dir=None)
    circles = []
    for module in graph.modules:
        for other in graph.find_modules_directly_imported_by(module):
            back = graph.find_shortest_chain(importer=other, imported=module)
            if back:
                circles.append((module, *back))
    assert not circles, f"cut one arrow of each circle: {circles[:3]}"


def test_every_function_says_what_it_returns():
    silent = [str(f) for f in functions() if f.node.returns is None]
    assert not silent, f"annotate the return of: {silent}"


def test_functions_take_at_most_six_positional_parameters():
    many = [str(f) for f in functions() if _positional(f) > 6]
    assert not many, f"bring parameters that travel together into a dataclass: {many}"


def _positional(found: Found) -> int:
    args = [a.arg for a in (*found.node.args.posonlyargs, *found.node.args.args)]
    return len([a for a in args if a not in ("self", "cls")])


@pytest.mark.parametrize("path", files(), ids=lambda p: str(p.relative_to(ROOT)))
def test_every_module_says_what_it_is_for(path):
    assert ast.get_docstring(tree(path)), "begin the module with a sentence that says what it is for"


def test_public_functions_are_documented():
    assert _documented(CORE) >= 0.95, "document the core's public functions: units, frame, errors"
    assert _documented(APP) >= 0.5


def _documented(folder) -> float:
    public = [f for f in functions(folder) if not f.node.name.startswith("_") and f.inside != "FunctionDef"]
    return sum(ast.get_docstring(f.node) is not None for f in public) / len(public)


def test_no_exception_is_caught_wholesale():
    broad = []
    for path in files():
        for node in ast.walk(tree(path)):
            if isinstance(node, ast.ExceptHandler):
                name = ast.unparse(node.type) if node.type else "bare"
                wide = name in ("Exception", "BaseException") and not _lets_the_rest_go(node)
                if name == "bare" or (wide and not _explained(path, node)):
                    broad.append(f"{path.relative_to(ROOT)}:{node.lineno} except {name}")
    assert not broad, f"name the exception, or say in a comment on its line why every one must be caught: {broad}"


def _explained(path, node: ast.ExceptHandler) -> bool:
    return "#" in path.read_text("utf-8").splitlines()[node.lineno - 1]


def _lets_the_rest_go(node: ast.ExceptHandler) -> bool:
    """Whether the handler only looks at what comes, and raises again what is not its own."""
    return any(isinstance(inner, ast.Raise) and inner.exc is None for inner in ast.walk(node))


def problem_codes() -> dict[str, str]:
    """Every problem code in the core, with a file that raises it."""
    return {
        node.value: str(path.relative_to(ROOT))
        for path in files(CORE)
        for node in ast.walk(tree(path))
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and CODE.match(node.value)
    }


def test_every_problem_code_is_provoked_by_a_test():
    tests = "\n".join(p.read_text("utf-8") for p in (ROOT / "tests").rglob("*.py") if p.parent.name != "house")
    fixtures = {p.stem for p in (ROOT / "tests").rglob("*.draft")}
    missing = {code: file for code, file in problem_codes().items() if code not in tests and code not in fixtures}
    assert not missing, f"write a fixture or a test that produces each of these: {missing}"


def test_every_problem_code_has_words_for_the_person_who_will_sew():
    silent = {code: file for code, file in problem_codes().items() if not is_told(code)}
    assert not silent, f"declare each among its check's findings, or in the told.py beside its room: {silent}"


def test_no_words_are_kept_for_a_problem_that_nothing_raises():
    raised = {
        node.value
        for path in files(APP)
        if path.name != "told.py"
        for node in ast.walk(tree(path))
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and CODE.match(node.value)
    }
    idle = {kind.code for kind in KINDS} - raised
    assert not idle, f"nothing raises these any more, take their words away: {sorted(idle)}"


def test_every_problem_of_the_core_has_its_place_and_its_remedy():
    bare = []
    for path in files(CORE):
        for node in ast.walk(tree(path)):
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == "Problem":
                given = dict(zip(("code", "message", "fix", "where"), node.args, strict=False))
                given |= {word.arg: word.value for word in node.keywords if word.arg}
                lacking = {"message", "fix", "where"} - {name for name, part in given.items() if not _is_nothing(part)}
                bare += [f"{path.relative_to(ROOT)}:{node.lineno} lacks {', '.join(lacking)}"] if lacking else []
    assert not bare, f"say where it is and what to do about it: {bare}"


def _is_nothing(node: ast.expr) -> bool:
    return isinstance(node, ast.Constant) and node.value in (None, "")
