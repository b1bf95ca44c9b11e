"""One way to hand back what is wrong: every function of the house that tells of problems has one of a few shapes."""

from __future__ import annotations

import ast
from collections.abc import Iterator

import pytest

from tests.house.source import functions

#: Where something is only looked at, or one problem is put into words.
LOOKS = ("Problem", "tuple[Problem, ...]", "Iterator[Problem]")
#: What a function may hand back in the place of what it makes; each is a `Refused` that carries its problems.
REFUSALS = ("Refused", "BrokenOff", "Failed")
TEACHES = (
    "hand problems back in one way: what makes something or cannot is `-> Thing | Refused`; what only looks is "
    "`-> tuple[Problem, ...]` (empty when all is well) or, inside, `Iterator[Problem]`; findings that come with a "
    "thing are a field of it; None says nothing, and a pair is easily read without its problems"
)


def members(node: ast.expr) -> Iterator[ast.expr]:
    """The members of a union; of anything else itself."""
    if isinstance(node, ast.BinOp) and isinstance(node.op, ast.BitOr):
        yield from members(node.left)
        yield from members(node.right)
    else:
        yield node


def names(node: ast.expr) -> set[str]:
    return {inner.id for inner in ast.walk(node) if isinstance(inner, ast.Name)} | {
        inner.attr for inner in ast.walk(node) if isinstance(inner, ast.Attribute)
    }


def holds(returns: ast.expr) -> bool:
    """Whether an annotation that names problems or a refusal has one of the shapes of the house."""
    if "Problem" in names(returns):
        return ast.unparse(returns) in LOOKS
    made = [node for node in members(returns) if ast.unparse(node) not in REFUSALS]
    nothing = any(ast.unparse(node) == "None" for node in made)
    return not nothing and not any(names(node) & set(REFUSALS) for node in made)


def test_problems_are_handed_back_in_one_way():
    told = [(each, each.node.returns) for each in functions() if each.node.returns is not None]
    told = [(each, returns) for each, returns in told if names(returns) & {"Problem", *REFUSALS}]
    assert len(told) > 100, "hardly a function tells of problems: have they another name now?"
    wrong = [f"{each} -> {ast.unparse(returns)}" for each, returns in told if not holds(returns)]
    assert not wrong, f"{TEACHES}: {wrong}"


@pytest.mark.parametrize(
    ("returns", "right"),
    [
        ("Made | Refused", True),
        ("tuple[Part, ...] | Refused", True),
        ("Refused", True),
        ("tuple[Problem, ...]", True),
        ("Iterator[Problem]", True),
        ("Problem", True),
        ("Made | Problem", False),
        ("Made | tuple[Problem, ...]", False),
        ("Problem | None", False),
        ("list[Problem]", False),
        ("tuple[Pattern | None, tuple[Problem, ...]]", False),
        ("Refused | None", False),
        ("Made | Refused | None", False),
        ("tuple[Made | Refused, int]", False),
    ],
)
def test_the_shapes_of_the_house_are_told_from_others(returns, right):
    assert holds(ast.parse(returns, mode="eval").body) is right
