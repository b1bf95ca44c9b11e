"""The grammar of single lines, `grammar.lark`, made ready by Lark once it is needed."""

from __future__ import annotations

from functools import cache
from importlib.resources import files

from lark import Lark

__all__ = ["STARTS", "line_grammar"]

#: The rules by which whole lines are read, and what stands in braces in the instructions.
STARTS = (
    "draft_line",
    "for_line",
    "sheet_head",
    "needs_line",
    "choice_line",
    "fabric_line",
    "notion_line",
    "step_line",
    "piece_head",
    "piece_line",
    "sew_line",
    "girth_line",
    "fit_line",
    "brace",
)


@cache
def line_grammar() -> Lark:
    """The grammar of single lines, ready to read by any of its starting rules."""
    grammar = files(__package__).joinpath("grammar.lark").read_text("utf-8")
    return Lark(grammar, parser="lalr", lexer="contextual", start=list(STARTS), propagate_positions=True)
