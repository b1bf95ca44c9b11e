"""From a draft's text to its program: everything wrong with it told at once, in the order of its lines."""

from __future__ import annotations

from functools import lru_cache

from app.pattern.drafting.program import Program, compile_draft
from app.pattern.language import parse
from app.pattern.problem import Refused, has_errors, in_order

__all__ = ["compiled"]


@lru_cache(maxsize=64)
def compiled(text: str, name: str) -> Program | Refused:
    """The compiled draft, or what is wrong with it; kept, since a listing's text is read again for every customer.

    `name` is the file name that problems carry. Names and kinds are looked at even where
    some lines cannot be read: what those may stand for is blamed on nothing else.
    """
    parsed = parse(text, name)
    if parsed.draft is None:
        return Refused(parsed.problems)
    program = compile_draft(parsed.draft, parsed.source)
    told = in_order((*parsed.problems, *program.problems))
    return Refused(told) if has_errors(told) else program
