"""One line read straight to its node: the tables are those that Lark makes of the grammar, the loop over them is ours.

Lark's loop makes an object of every word and a tree of every rule, each with its places, only for the trees to be
walked again; that was most of the time of reading a draft. A line that cannot be read goes to Lark, which says why.
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Callable
from dataclasses import dataclass
from functools import cache
from typing import Any

from lark.grammar import Rule
from lark.lexer import PatternStr, TerminalDef
from lark.parsers.lalr_analysis import Shift

from app.pattern.language.build import Builder, Make, maker_of
from app.pattern.language.build_expressions import Word
from app.pattern.language.grammar import STARTS, line_grammar

__all__ = ["read_line"]

_END = "$END"
_Match = Callable[[str, int], re.Match[str] | None]


@dataclass(frozen=True, slots=True)
class _Reduction:
    """What ends a rule: its last `size` values become one value of `origin`.

    `parts` are the values that go into it, by index (-1 for an absent clause), and whether one is a list to be spread
    out. `make` makes the value of them; without it the only part is handed on, or, in a helper rule, they are `listed`.
    `renames` is true when nothing changes but what the one value is called.
    """

    origin: str
    size: int
    parts: tuple[tuple[int, bool], ...]
    make: Make | None
    listed: bool
    renames: bool

    def value(self, values: list[Any], builder: Builder, begin: int, end: int) -> Any:
        """The value made of `values`, which stand from `begin` to `end` in the line's text."""
        given: list[Any] = []
        for index, spread in self.parts:
            if spread:
                given = given + values[index] if given else values[index]
            else:
                given.append(values[index] if index >= 0 else None)
        if self.make is not None:
            return self.make(builder, builder.span(begin, end), given)
        return given if self.listed else given[0]


class _State:
    """A state of the parser: where each word or part that may come next leads, and how the next word is matched.

    The group that `match` names is the kind of the word, save for `keywords`, which the pattern of names matches too.
    """

    __slots__ = ("keywords", "match", "moves")

    def __init__(self) -> None:
        self.moves: dict[str, _State | _Reduction] = {}
        self.keywords: dict[str, str] = {}
        self.match: _Match = self._match_first

    def _match_first(self, text: str, at: int) -> re.Match[str] | None:
        """Patterns are compiled when they are first needed: a draft comes by half of the states."""
        match, self.keywords = _matcher(frozenset(self.moves))
        self.match = match  # last, that another thread which finds it finds the keywords too
        return match(text, at)


def read_line(text: str, start: str, builder: Builder) -> tuple[Any, int]:
    """The node of a line by the rule `start`, and how many values were made on the way.

    Raises lark's UnexpectedInput for a line that cannot be read.
    """
    read = _run(text, start, builder)
    if read is None:
        line_grammar().parse(text, start=start)
        raise AssertionError(f"Lark reads by its tables what we cannot: {text!r}")
    return read


def _run(text: str, start: str, builder: Builder) -> tuple[Any, int] | None:
    """As `read_line`; None for a line that cannot be read."""
    first, last = _states()[start]
    states: list[Any] = [first]
    values: list[Any] = []
    begins: list[int] = []
    at = end = made = 0
    while (found := states[-1].match(text, at)) is not None:
        group = found.lastgroup
        begin, at = found.span(group)
        kind = states[-1].keywords.get(found[group], group)
        move = states[-1].moves.get(kind)
        while move.__class__ is _Reduction:
            if not move.renames:
                made, size = made + 1, move.size
                values[-size:] = (move.value(values[-size:], builder, begins[-size], end),)
                del states[len(states) - size + 1 :], begins[len(begins) - size + 1 :]
            state = states[-1] = states[-2].moves[move.origin]
            if state is last and kind == _END:
                return values[0], made
            move = state.moves.get(kind)
        if move is None:
            break
        states.append(move)
        values.append(Word(found[group]))
        values[-1].begin = begin
        begins.append(begin)
        end = at
    return None


@cache
def _states() -> dict[str, tuple[_State, _State]]:
    """The first and the last state of each starting rule."""
    grammar = line_grammar()
    states: dict[Any, _State] = defaultdict(_State)
    reductions = {rule: _reduction(rule) for rule in grammar.rules}
    found = {}
    for start in STARTS:
        table = grammar.parse_interactive("", start=start).parser_state.parse_conf
        found[start] = states[table.start_state], states[table.end_state]
    for key, moves in table.states.items():
        states[key].moves = {
            kind: states[target] if action is Shift else reductions[target] for kind, (action, target) in moves.items()
        }
    return found


def _reduction(rule: Rule) -> _Reduction:
    """What a rule of the grammar does, by Lark's own conventions for words, absent clauses and helper rules."""
    parts: list[tuple[int, bool]] = []
    symbols = enumerate(rule.expansion)
    for absent in rule.options.empty_indices or [False] * len(rule.expansion):
        index, symbol = (-1, None) if absent else next(symbols)
        if not getattr(symbol, "filter_out", False):
            parts.append((index, symbol is not None and not symbol.is_term and symbol.name.startswith("_")))
    origin = str(rule.origin.name)
    listed = origin.startswith("_")
    through = rule.options.expand1 and not rule.alias and len(parts) == 1
    make = None if listed or through else maker_of(str(rule.alias or origin))
    renames = make is None and not listed and len(rule.expansion) == 1
    return _Reduction(origin, len(rule.expansion), tuple(parts), make, listed, renames)


@cache
def _matcher(kinds: frozenset[str]) -> tuple[_Match, dict[str, str]]:
    """What finds the next word where words of these kinds may stand, and the kinds of those that a name matches too."""
    grammar = line_grammar()
    ignored = "|".join(t.pattern.to_regexp() for t in grammar.terminals if t.name in grammar.ignore_tokens)
    known = sorted((t for t in grammar.terminals if t.name in kinds), key=_rank)
    keywords = {t.pattern.value: t.name for t in known if _is_name(t, known)}
    groups = [f"(?P<{t.name}>{t.pattern.to_regexp()})" for t in known if t.pattern.value not in keywords]
    words = "|".join([*groups, r"(?P<END>\Z)"])
    return re.compile(f"(?:{ignored})*(?:{words})").match, {**keywords, "": _END}


def _rank(terminal: TerminalDef) -> tuple[int, int, int, str]:
    """The order in which Lark tries kinds of words."""
    pattern = terminal.pattern
    return -terminal.priority, -pattern.max_width, -len(pattern.value), terminal.name


def _is_name(terminal: TerminalDef, known: list[TerminalDef]) -> bool:
    """True for a fixed word that is matched by the pattern of another kind as well."""
    word = terminal.pattern
    others = (t.pattern.to_regexp() for t in known if t.pattern.type == "re" and t.priority == terminal.priority)
    return isinstance(word, PatternStr) and any(re.fullmatch(pattern, word.value) for pattern in others)
