"""The figures of the house, for whoever wants to know how it stands: `python -m tests.house.figures` prints them.

A line is one that is not blank. Drafts and expected messages kept as text count as lines of tests: each is read
by a test, which holds the program's answer against it.
"""

from __future__ import annotations

import ast
import re
from collections import defaultdict
from pathlib import Path
from statistics import median

from tests.house.source import APP, ROOT, files, functions, share, tree

TESTS = ROOT / "tests"
#: Text that tests read: drafts, and what is to be answered to them.
TEXTS = ("*.draft", "*.txt")
#: Folders whose folders are rooms of their own.
ROOFS = (APP / "pattern", APP / "shop")


def lines_of(paths: list[Path]) -> int:
    """Lines that are not blank."""
    return sum(bool(line.strip()) for path in paths for line in path.read_text("utf-8").splitlines())


def lines_of_code(folder: Path = APP) -> int:
    """Lines of code under a folder of `app`."""
    return lines_of(files(folder))


def lines_of_tests(folder: Path = APP, *, texts: bool = True) -> int:
    """Lines of the tests that mirror a folder of `app`; all tests for `app` itself."""
    mirror = TESTS / folder.relative_to(APP)
    return sum(lines_of(files(mirror, pattern)) for pattern in ("*.py", *(TEXTS if texts else ())))


def rooms() -> list[Path]:
    """The folders of `app`, and for each that is only a roof those in it."""
    tops = [path.parent for path in sorted(APP.glob("*/__init__.py"))]
    under = [path.parent for roof in ROOFS for path in sorted(roof.glob("*/__init__.py"))]
    return sorted([*(top for top in tops if top not in ROOFS), *under])


def classes_twice() -> dict[str, list[str]]:
    """Every class name that stands in more than one file of `app`, with those files."""
    found: defaultdict[str, set[str]] = defaultdict(set)
    for path in files():
        for node in ast.walk(tree(path)):
            if isinstance(node, ast.ClassDef):
                found[node.name].add(str(path.relative_to(ROOT)))
    return {name: sorted(where) for name, where in sorted(found.items()) if len(where) > 1}


def private_functions() -> tuple[int, int]:
    """How many private functions stand at the top of the files of `app`, and how many of them are named once more."""
    all_of_them = once = 0
    for path in files():
        text = path.read_text("utf-8")
        for node in tree(path).body:
            if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef) and node.name.startswith("_"):
                all_of_them += 1
                once += len(re.findall(rf"\b{node.name}\b", text)) <= 2
    return all_of_them, once


def main() -> None:
    """Print the figures."""
    code, tests = lines_of_code(), lines_of_tests(texts=False)
    texts = lines_of_tests() - tests
    print(f"{code:,} lines of code in {len(files())} files; {tests:,} of tests, and {texts:,} of text that they read")
    print(f"{tests / code:.2f} lines of tests for a line of code, {(tests + texts) / code:.2f} with the text\n")
    print(f"{'room':22} {'code':>6} {'tests':>6} {'text':>6}  tests for a line of code, with text")
    for room in rooms():
        lines, own = lines_of_code(room), lines_of_tests(room, texts=False)
        whole = lines_of_tests(room)
        name = str(room.relative_to(APP))
        print(f"{name:22} {lines:6,} {own:6,} {whole - own:6,}  {own / lines:.2f}  {whole / lines:.2f}")
    lengths = [function.lines for function in functions()]
    print(f"\n{len(list(APP.glob('*/__init__.py')))} rooms at the top")
    middle, most, long = median(lengths), share(lengths, 0.9), sum(length > 50 for length in lengths)
    print(f"{len(lengths):,} functions: median {middle:g} lines, 90 % within {most}, {long} over 50")
    private, once = private_functions()
    print(f"{private:,} private functions, {once / private:.0%} used once: {once / len(files()):.2f} to a file")
    twice = classes_twice()
    print(f"{len(twice)} class names in more than one file")
    for name, where in twice.items():
        print(f"  {name}: {', '.join(where)}")


if __name__ == "__main__":
    main()
