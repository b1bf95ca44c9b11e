"""A pairwise cover: few settings of many choices in which any two values of two choices meet at least once.

Most faults hang on one choice or on two together (common practice in testing); trying every
combination of eight choices with three values each would take 6,561 settings, the cover
takes some 15. Greedy: a setting is grown from each pair not yet met, always with the
value that meets most such pairs, and the best of those settings is kept. The same
choices give the same cover.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from itertools import combinations
from typing import TypeVar

__all__ = ["pairwise"]

V = TypeVar("V")

#: A choice by its place, and one of its values by its place.
_Value = tuple[int, int]
_Pair = frozenset[_Value]
_Row = dict[int, int]


def pairwise(values: Mapping[str, Sequence[V]]) -> list[dict[str, V]]:
    """Settings that cover every pair of values of two choices; the first has the first value of every choice."""
    names = list(values)
    sizes = [len(values[name]) for name in names]
    return [{name: values[name][row[place]] for place, name in enumerate(names)} for row in _rows(sizes)]


def _rows(sizes: Sequence[int]) -> list[_Row]:
    first: _Row = dict.fromkeys(range(len(sizes)), 0)
    if len(sizes) == 1:
        return [{0: value} for value in range(sizes[0])]
    unmet = dict.fromkeys(_pairs(sizes))
    rows = [first]
    while _tick(unmet, rows[-1]):
        often = Counter(value for pair in unmet for value in pair)
        grown = [_grown(pair, sizes, unmet, often) for pair in unmet]
        rows.append(max(grown, key=lambda row: sum(pair in unmet for pair in _met(row))))
    return rows


def _pairs(sizes: Sequence[int]) -> list[_Pair]:
    return [
        frozenset({(one, i), (other, j)})
        for one, other in combinations(range(len(sizes)), 2)
        for i in range(sizes[one])
        for j in range(sizes[other])
    ]


def _tick(unmet: dict[_Pair, None], row: _Row) -> bool:
    """Strike out the pairs that a row meets; True while others are left."""
    for pair in _met(row):
        unmet.pop(pair, None)
    return bool(unmet)


def _met(row: _Row) -> list[_Pair]:
    return [frozenset(pair) for pair in combinations(row.items(), 2)]


def _grown(pair: _Pair, sizes: Sequence[int], unmet: Mapping[_Pair, None], often: Mapping[_Value, int]) -> _Row:
    """A whole setting around a pair: each value meets most pairs, or else is in most pairs that are still unmet."""
    row = dict(sorted(pair))
    for place, size in enumerate(sizes):
        if place not in row:
            met = [sum(frozenset({(place, i), known}) in unmet for known in row.items()) for i in range(size)]
            worth = [(met[i], often.get((place, i), 0)) for i in range(size)]
            row[place] = worth.index(max(worth))
    return row
