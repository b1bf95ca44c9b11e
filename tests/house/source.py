"""Reading the project's own source for the house rules."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from pathlib import Path

ROOT = Path(__file__).parents[2]
APP = ROOT / "app"
CORE = APP / "pattern"

Function = ast.FunctionDef | ast.AsyncFunctionDef


@dataclass(frozen=True)
class Found:
    """A function with the file it stands in."""

    file: str
    node: Function
    inside: str

    @property
    def lines(self) -> int:
        """Lines from `def` to its end, the docstring not counted."""
        body = self.node.body
        start, end = self.node.lineno, self.node.end_lineno or self.node.lineno
        words = ast.get_docstring(self.node, clean=False)
        spoken = (body[0].end_lineno or 0) - body[0].lineno + 1 if words is not None else 0
        return end - start + 1 - spoken

    def __str__(self) -> str:
        return f"{self.file}:{self.node.lineno} {self.node.name}"


def files(folder: Path = APP, pattern: str = "*.py") -> list[Path]:
    """Source files, migrations and caches left out."""
    found = sorted(folder.rglob(pattern))
    return [f for f in found if "versions" not in f.parts and "__pycache__" not in f.parts]


@cache
def tree(path: Path) -> ast.Module:
    """The parsed file."""
    return ast.parse(path.read_text("utf-8"))


def imported_names(path: Path) -> Iterator[str]:
    """The dotted name of every module that a file imports, or imports something from."""
    for node in ast.walk(tree(path)):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom) and node.module is not None and not node.level:
            yield node.module


def functions(folder: Path = APP) -> Iterator[Found]:
    """Every function and method with its file."""
    for path in files(folder):
        name = str(path.relative_to(ROOT))
        for node in ast.walk(tree(path)):
            for child in ast.iter_child_nodes(node):
                if isinstance(child, Function):
                    yield Found(name, child, type(node).__name__)


def share(lengths: list[int], part: float) -> int:
    """The length that `part` of the lengths do not exceed."""
    return sorted(lengths)[min(len(lengths) - 1, int(len(lengths) * part))]
