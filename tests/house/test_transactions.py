"""Transactions begin and end in one place, and are held over nothing."""

import ast

from tests.house.source import APP, ROOT, files, tree

#: Where sessions are opened by hand: the database itself, and what works behind the pages with no request waiting.
BEHIND = {"database.py", "demo.py", "demo_proofs.py", "prover.py", "worker.py", "serve.py", "wellbeing.py"}


def test_no_page_holds_a_session():
    """A page's dependency that yields a session would keep it while its handler waits for a thread."""
    guilty = [
        f"{path.relative_to(ROOT)}:{node.lineno}"
        for path in files(APP)
        if path.name not in BEHIND
        for node in ast.walk(tree(path))
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute)
        if node.func.attr in ("reading", "writing")
    ]
    assert not guilty, f"say database.read(service.look, ...) or database.write(service.do, ...): {guilty}"


def test_no_handler_and_no_dependency_of_a_page_is_handed_a_session_by_the_framework():
    guilty = [
        f"{path.relative_to(ROOT)}: {ast.unparse(node)[:60]}"
        for path in files(APP)
        for node in ast.walk(tree(path))
        if isinstance(node, ast.Assign | ast.AnnAssign) and "Annotated[Session" in ast.unparse(node)
    ]
    assert not guilty, f"ask for TheDatabase instead: {guilty}"
