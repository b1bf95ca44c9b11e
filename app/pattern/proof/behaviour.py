"""What code does, as one mark: the modules that a result hangs on, found by their imports, without their words.

A module is read as its syntax tree; comments, layout, docstrings, annotations, `__all__` and whatever is imported for
annotations alone are left out, since they change no result. Data files count by their content, and libraries from
outside by their version without the patch (a patch release mends a fault; a newer minor one may draw otherwise).
"""

from __future__ import annotations

import ast
import sys
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import lru_cache
from hashlib import sha256
from importlib.metadata import version
from pathlib import Path
from typing import Any

__all__ = ["behind", "digest", "mark_of"]

#: What in a class's annotations says how the class is built; every other annotation is for readers and type checkers.
_BUILDS = ("ClassVar", "InitVar", "KW_ONLY")
#: Fields of a syntax tree that change nothing: reading or writing a name follows from its place.
_UNSAID = frozenset({"ctx", "kind", "type_comment", "type_params"})
#: Files of a package that are no data.
_NO_DATA = (".py", ".pyc", ".md")


def digest(*parts: str) -> str:
    """A short, steady name for some texts."""
    return sha256("\0".join(parts).encode()).hexdigest()[:24]


def mark_of(folder: Path, start: str) -> str:
    """The behaviour of the module named `start` and of all that it imports below `folder`, as one digest."""
    return digest(*(part for pair in behind(folder, start).items() for part in pair))


def behind(folder: Path, start: str) -> dict[str, str]:
    """What a module hangs on, each with what it does as text: modules, data files and libraries, sorted by name.

    A package that only hands names on is looked through: `from package import name` leads to the module that has it.
    """
    house = _House(folder, start.partition(".")[0])
    found: dict[str, str] = {}
    waiting = [start]
    while waiting:
        name = waiting.pop()
        if name in found:
            continue
        path = house.path(name)
        if path is None:
            found[name] = ".".join(version(name).split(".")[:2])  # a patch changes no result
            continue
        module = _read(path)
        found[name] = module.text
        found |= house.data(path, module)
        waiting += [source for each in module.imports if (source := house.source_of(each)) is not None]
    return dict(sorted(found.items()))


@dataclass(frozen=True, slots=True, order=True)
class _Import:
    """A name, its module and what it is called here; the name is empty where the module is imported whole."""

    module: str
    name: str
    called: str


@dataclass(frozen=True, slots=True)
class _Module:
    """A module as read: what it does as text, the imports that it uses, and those that are there to be handed on."""

    text: str
    imports: tuple[_Import, ...]
    handed_on: Mapping[str, _Import]


@dataclass(frozen=True, slots=True)
class _House:
    """The modules of one package below a folder, read and not run; packages that lie beside it are libraries."""

    folder: Path
    package: str

    def data(self, path: Path, module: _Module) -> dict[str, str]:
        """The data files of a module's package, by name, where the module reads any."""
        if not any(each.module == "importlib.resources" for each in module.imports):
            return {}
        files = (each for each in path.parent.rglob("*") if each.is_file() and each.suffix not in _NO_DATA)
        return {each.relative_to(self.folder).as_posix(): sha256(each.read_bytes()).hexdigest() for each in files}

    def source_of(self, each: _Import) -> str | None:
        """The module that an imported name comes from in the end; None for the standard library."""
        top = each.module.partition(".")[0]
        if top != self.package:
            return None if top in sys.stdlib_module_names else top
        if each.name and self.path(f"{each.module}.{each.name}") is not None:
            return f"{each.module}.{each.name}"
        return self._handed_on(each) or each.module

    def _handed_on(self, each: _Import) -> str | None:
        """Where a package has a name from that it only hands on; None for one that it makes itself."""
        path = self.path(each.module)
        if not each.name or path is None or path.name != "__init__.py":
            return None
        handed = _read(path).handed_on.get(each.name)
        return self.source_of(handed) if handed is not None else None

    def path(self, module: str) -> Path | None:
        """The file of a module; None for one that is not of this house."""
        if module.partition(".")[0] != self.package:
            return None
        stem = self.folder.joinpath(*module.split("."))
        return next((path for path in (stem.with_suffix(".py"), stem / "__init__.py") if path.is_file()), None)


def _read(path: Path) -> _Module:
    return _module(path.read_text("utf-8"))


#: The `__init__`s are asked again and again; a few hundred kilobytes of text need not stay.
@lru_cache(maxsize=32)
def _module(source: str) -> _Module:
    tree = ast.parse(source)
    imported = tuple(sorted(_imported(tree)))
    bare = _Words().visit(tree)
    used = {node.id for node in ast.walk(bare) if isinstance(node, ast.Name)}
    imports = tuple(each for each in imported if each.called in used)
    return _Module(repr((imports, _plain(bare))), imports, {each.called: each for each in imported})


def _imported(tree: ast.AST) -> Iterator[_Import]:
    for node in ast.walk(tree):
        if isinstance(node, ast.ImportFrom):
            assert node.module is not None and not node.level, "the house imports by whole names"
            yield from (_Import(node.module, alias.name, alias.asname or alias.name) for alias in node.names)
        elif isinstance(node, ast.Import):
            yield from (_Import(each.name, "", each.asname or each.name.partition(".")[0]) for each in node.names)


class _Words(ast.NodeTransformer):
    """Takes out whatever is only for readers and type checkers, and the imports, which are told apart from it."""

    def __init__(self) -> None:
        self._in_class = False

    def visit_Expr(self, node: ast.Expr) -> ast.AST | None:
        """A text that stands alone is a docstring."""
        stands_alone = isinstance(node.value, ast.Constant) and isinstance(node.value.value, str)
        return None if stands_alone else self.generic_visit(node)

    def visit_Import(self, node: ast.Import) -> None:
        """The order of imports changes nothing."""

    def visit_ImportFrom(self, node: ast.ImportFrom) -> None:
        """As `visit_Import`."""

    def visit_Assign(self, node: ast.Assign) -> ast.AST | None:
        """`__all__` only matters to `import *`, which the house does not use."""
        listed = any(isinstance(target, ast.Name) and target.id == "__all__" for target in node.targets)
        return None if listed else self.generic_visit(node)

    def visit_AnnAssign(self, node: ast.AnnAssign) -> ast.AST | None:
        """A field of a class stays a field, whatever its type; elsewhere only the value counts."""
        value = self.visit(node.value) if node.value is not None else None
        if self._in_class:
            said = ast.unparse(node.annotation)
            kept = ast.Constant(next((word for word in _BUILDS if word in said), ""))
            return ast.AnnAssign(target=node.target, annotation=kept, value=value, simple=node.simple)
        return ast.Assign(targets=[node.target], value=value) if value is not None else None

    def visit_arg(self, node: ast.arg) -> ast.AST:
        """A parameter without its type."""
        return ast.arg(arg=node.arg)

    def visit_ClassDef(self, node: ast.ClassDef) -> ast.AST:
        """A class, in which annotated names are fields."""
        return self._inside(node, in_class=True)

    def visit_FunctionDef(self, node: ast.FunctionDef) -> ast.AST:
        """A function without the type of what it gives back."""
        node.returns = None
        return self._inside(node, in_class=False)

    def _inside(self, node: ast.AST, *, in_class: bool) -> ast.AST:
        before, self._in_class = self._in_class, in_class
        found = self.generic_visit(node)
        self._in_class = before
        return found


def _plain(node: Any) -> Any:
    """A tree as tuples, without places; the same from every Python that the house runs on."""
    if isinstance(node, list):
        return tuple(_plain(each) for each in node)
    if isinstance(node, ast.AST):
        said = ((name, value) for name, value in ast.iter_fields(node) if name not in _UNSAID)
        return (type(node).__name__, *((name, _plain(value)) for name, value in said if value not in (None, [])))
    return node
