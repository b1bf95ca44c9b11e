"""A draft's text as logical lines: comments off, continued lines joined, blocks by indentation.

A line that ends in a comma or an operator goes on with the next. The section `steps`
is kept as raw text, since it is Markdown.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from app.pattern.problem import Problem, Span

__all__ = ["LIMITS", "DraftLimits", "Layout", "LogicalLine", "Source", "comment_of", "cut_lines", "too_large"]


@dataclass(frozen=True, slots=True)
class DraftLimits:
    """How large a draft may be; beyond it a plain error ends the reading."""

    characters: int = 250_000
    lines: int = 4_000
    line_length: int = 1_000
    statement: int = 8_000  # characters of one line with the lines that go on from it
    depth: int = 8
    nesting: int = 40
    parts: int = 90  # how deep the parts of one line may lie inside one another
    figures: int = 2_000  # braces in the instructions
    told: int = 500  # problems of reading


LIMITS = DraftLimits()

_CONTINUES = re.compile(r"(,|\+|-|\*|/|=|\()\s*$")


@dataclass(frozen=True, slots=True)
class Source:
    """The whole text with its file name; gives excerpts for problems."""

    file: str
    rows: tuple[str, ...]

    def excerpt(self, span: Span) -> str:
        """The line of `span` with the place marked under it."""
        row = self.rows[span.line - 1] if 0 < span.line <= len(self.rows) else ""
        row = row[:160]
        start = min(max(span.column, 1), len(row) + 1)
        width = max(1, min(span.end_column, len(row) + 1) - start)
        return f"  {span.line:>4} | {row}\n       | {' ' * (start - 1)}{'^' * width}"

    def problem(self, code: str, message: str, fix: str, span: Span) -> Problem:
        """A problem of this text at `span`."""
        return Problem(code, message, fix, span, excerpt=self.excerpt(span))


@dataclass(slots=True)
class LogicalLine:
    """A logical line: `text` keeps its indentation and inner line breaks, so that places can be told.

    `shift` is by how many columns its first row stands further right in the file than in `text`;
    `cut_short` is true when lines under it stood too deep to be read, `told` when something is
    told of the line already.
    """

    text: str
    number: int
    indent: int
    children: list[LogicalLine] = field(default_factory=list)
    raw: list[tuple[int, str]] = field(default_factory=list)
    shift: int = 0
    cut_short: bool = False
    told: bool = False

    @property
    def first_word(self) -> str:
        """The word the line begins with."""
        match = re.match(r"\s*([A-Za-z_]\w*)", self.text)
        return match[1] if match else ""


@dataclass(frozen=True, slots=True)
class Layout:
    """The top lines of a text with their children under them, and what is wrong with how they are laid out."""

    lines: list[LogicalLine]
    problems: tuple[Problem, ...]


def cut_lines(source: Source) -> Layout:
    """The text as logical lines, as far as they can be told apart."""
    problems: list[Problem] = []
    top: list[LogicalLine] = []
    stack: list[LogicalLine] = []
    number = 0
    while number < len(source.rows):
        if stack and _in_steps(stack, source.rows[number]):
            stack[0].raw.append((number + 1, source.rows[number]))
            number += 1
            continue
        line, number = _logical(source, number, problems)
        if line is not None:
            _place(line, stack, top, problems, source)
    return Layout(top, (*problems, *_uneven(top, source)))


def _in_steps(stack: list[LogicalLine], row: str) -> bool:
    return stack[0].first_word == "steps" and (not row.strip() or row[0].isspace())


def _logical(source: Source, number: int, problems: list[Problem]) -> tuple[LogicalLine | None, int]:
    """The logical line that begins at row `number` (from 0), and the row after it; what is wrong goes to `problems`."""
    start, rows, size = number, [], 0
    while number < len(source.rows):
        row = source.rows[number]
        number += 1
        if "\t" in row:
            column = row.index("\t") + 1
            span = Span(source.file, number, column, column + 1)
            problems.append(
                source.problem("language.tab", "A tab stands here.", "Indent with spaces, four for each step in.", span)
            )
            row = row.replace("\t", "    ")
        row = _without_comment(row).rstrip()
        rows.append(row)
        if (size := size + len(row)) > LIMITS.statement:
            problems.append(_endless(source, start + 1))
            return None, number
        if not (row.strip() and _CONTINUES.search(row)):
            break
    text = "\n".join(rows)
    if not text.strip():
        return None, number
    return LogicalLine(text, start + 1, len(text) - len(text.lstrip())), number


def _endless(source: Source, number: int) -> Problem:
    span = Span(source.file, number, 1, len(source.rows[number - 1]) + 1)
    said = f"With the lines that go on from it, line {number} has over {LIMITS.statement} characters."
    return source.problem("language.long-line", said, "Give parts of it names of their own.", span)


def comment_of(row: str) -> str:
    """The comment at the end of a row, from its # on; "" when there is none."""
    return row[len(_without_comment(row)) :].rstrip()


def _without_comment(row: str) -> str:
    inside = False
    if "#" not in row:
        return row
    for index, sign in enumerate(row):
        if sign == '"':
            inside = not inside
        elif sign == "#" and not inside:
            return row[:index]
    return row


def _place(
    line: LogicalLine, stack: list[LogicalLine], top: list[LogicalLine], problems: list[Problem], source: Source
) -> None:
    while stack and stack[-1].indent >= line.indent:
        stack.pop()
    siblings = stack[-1].children if stack else top
    if not stack and line.indent:
        span = Span(source.file, line.number, 1, line.indent + 1)
        said = "This line is indented, but no section is open."
        problems.append(source.problem("language.indent", said, "Begin it at the margin.", span))
    if len(stack) >= LIMITS.depth:
        if not stack[-1].cut_short:
            span = Span(source.file, line.number, 1, line.indent + 1)
            said = f"Blocks stand more than {LIMITS.depth} deep."
            problems.append(source.problem("language.too-deep", said, "Bring the block further out.", span))
        stack[-1].cut_short = True
        return
    siblings.append(line)
    stack.append(line)


def _uneven(lines: Sequence[LogicalLine], source: Source) -> Iterator[Problem]:
    """Lines of one block that are indented otherwise than most beside them, block by block."""
    for line in lines:
        if line.children:
            usual = Counter(child.indent for child in line.children).most_common(1)[0][0]
            model = next(child for child in line.children if child.indent == usual)
            yield from (_stray(child, model, source) for child in line.children if child.indent != usual)
            yield from _uneven(line.children, source)


def _stray(line: LogicalLine, beside: LogicalLine, source: Source) -> Problem:
    return source.problem(
        "language.indent",
        f"This line is indented by {line.indent}, the lines beside it by {beside.indent}.",
        f"Indent it by {beside.indent} like line {beside.number}.",
        Span(source.file, line.number, 1, line.indent + 1),
    )


def too_large(text: str, source: Source) -> tuple[Problem, ...]:
    """What ends the reading before it begins: a text beyond the limits."""
    span = Span(source.file, 1, 1, 2)
    if len(text) > LIMITS.characters or len(source.rows) > LIMITS.lines:
        said = (
            f"The draft has {len(source.rows)} lines and {len(text)} characters; "
            f"{LIMITS.lines} lines and {LIMITS.characters} characters are the most."
        )
        return (Problem("language.too-long", said, "Split it into several drafts.", span),)
    for number, row in enumerate(source.rows, 1):
        if len(row) > LIMITS.line_length:
            where = Span(source.file, number, LIMITS.line_length, LIMITS.line_length + 1)
            said = f"Line {number} has {len(row)} characters."
            return (source.problem("language.long-line", said, "Break it into several.", where),)
    return ()
