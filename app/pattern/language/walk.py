"""Walking a draft's tree: the parts of a node, everything below it, and all of one kind."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import fields, is_dataclass
from functools import cache
from typing import Any

__all__ = ["child_nodes", "find_all", "walk"]


def child_nodes(node: Any) -> list[Any]:
    """The nodes that a node is made of, in the order of its fields; of a tuple, the nodes in it."""
    kind: Any = type(node)
    values = node if kind is tuple else [getattr(node, name) for name in _fields_of(kind)]
    found: list[Any] = []
    for value in values:
        if isinstance(value, tuple):
            found += child_nodes(value)
        elif is_dataclass(value):
            found.append(value)
    return found


@cache
def _fields_of(kind: type) -> tuple[str, ...]:
    return tuple(field.name for field in fields(kind) if field.name != "span")


def walk(node: Any) -> Iterator[Any]:
    """A node and all nodes below it, each before its parts; of a tuple, its nodes likewise."""
    if not isinstance(node, tuple):
        yield node
    for part in child_nodes(node):
        yield from walk(part)


def find_all(node: Any, *kinds: type) -> Iterator[Any]:
    """The node itself and all nodes below it that are of one of the `kinds`, in the order of `walk`."""
    return (found for found in walk(node) if isinstance(found, kinds))
