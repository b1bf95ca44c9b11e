"""Every word of the draft language: where it stands, and whether a point, a figure or a piece may be named like it.

Words are reserved only where they can stand, so nobody keeps a list of them: each is tried as a name, here, and what
the reader of drafts says of it is the answer.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache

from app.pattern.drafting.program import compile_draft
from app.pattern.guide.reference import Entry, reference
from app.pattern.language import parse
from app.pattern.language.grammar import line_grammar
from app.pattern.language.parse import SECTIONS
from app.pattern.problem import has_errors

__all__ = ["LanguageWord", "language_words"]

#: What the grammar spells that is no word: names, texts, figures and signs.
_NO_WORDS = ("NAME", "STRING", "QUANTITY", "COUNT", "COMPARE")
#: A draft that names one thing and draws from it.
_TRIAL = 'draft "Trial"\nsheet paper\n    {word} = at 0, 0\n    other = {word} down 1cm\n'


@dataclass(frozen=True, slots=True)
class LanguageWord:
    """A word of the language, the forms and lines it stands in, and whether something may be named like it."""

    word: str
    entries: tuple[Entry, ...]
    free: bool


@cache
def language_words() -> tuple[LanguageWord, ...]:
    """Every word of the language in the order of the alphabet."""
    entries = reference()
    by_key = {_plain(entry.key): entry for entry in entries}
    stands: dict[str, dict[str, Entry]] = {word: {} for word in SECTIONS}
    for terminal, rules in _rules_by_terminal().items():
        for word in _words_in(terminal):
            found = stands.setdefault(word, {})
            found |= {entry.key: entry for rule in rules if (entry := by_key.get(_plain(rule))) is not None}
    for entry in entries:
        function = entry.key.removesuffix("()")
        if function != entry.key:
            stands.setdefault(function, {})[entry.key] = entry
        for word in _words_in(entry.written) & stands.keys():
            stands[word][entry.key] = entry
    return tuple(LanguageWord(word, tuple(stands[word].values()), _is_free(word)) for word in sorted(stands))


def _rules_by_terminal() -> dict[str, set[str]]:
    """The rules of the grammar by what they spell: each pattern of a word, with the rules that it stands in."""
    patterns = {terminal.name: terminal.pattern.value for terminal in line_grammar().terminals}
    found: dict[str, set[str]] = {}
    for rule in line_grammar().rules:
        for symbol in rule.expansion:
            if symbol.is_term and symbol.name not in _NO_WORDS:
                # What may not follow a word, and the signs and gaps in a pattern, are no words.
                pattern = re.sub(r"\(\?!.*?\)|\[.*?\]|\\s", " ", patterns[symbol.name])
                found.setdefault(pattern, set()).add(str(rule.alias or rule.origin.name))
    return found


def _plain(key: str) -> str:
    """A form, line or rule by its name alone."""
    return re.sub(r"^(f_|d_|direction )", "", key).replace(" ", "_")


def _words_in(text: str) -> set[str]:
    return set(re.findall(r"(?<![A-Za-z_0-9.])[a-z][a-z_0-9]+(?![A-Za-z_0-9])", text))


def _is_free(word: str) -> bool:
    """True when a point may be named so."""
    parsed = parse(_TRIAL.format(word=word), "trial.draft")
    if parsed.draft is None or has_errors(parsed.problems):
        return False
    return not has_errors(compile_draft(parsed.draft, parsed.source).problems)
