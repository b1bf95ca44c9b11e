"""How deep a line goes: what guards the stages that walk down into it."""

from __future__ import annotations

import re

from lark import Token, Tree

__all__ = ["depth", "nesting"]


def nesting(text: str) -> int:
    """How deep brackets stand inside one another."""
    depth = deepest = 0
    for sign in re.findall(r"[()]", text):
        depth += 1 if sign == "(" else -1
        deepest = max(deepest, depth)
    return deepest


def depth(tree: Tree[Token]) -> int:
    """How deep the parts of a line lie inside one another; counted without recursion, which is what it guards."""
    deepest, level = 0, [tree]
    while level:
        deepest += 1
        level = [part for whole in level for part in whole.children if isinstance(part, Tree)]
    return deepest
