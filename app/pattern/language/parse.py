"""From text to tree: `parse(text, file)`. Every line that cannot be read is told, and the rest is still read."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from functools import cache
from importlib.resources import files
from typing import Any

from lark import Lark, Token, Tree
from lark.exceptions import UnexpectedCharacters, UnexpectedInput, UnexpectedToken

from app.pattern.language import nodes as n
from app.pattern.language.build import Builder
from app.pattern.language.lines import LIMITS, Line, Source, cut_lines
from app.pattern.language.near import perhaps
from app.pattern.language.say import say_expected
from app.pattern.problem import Problem, Span

__all__ = ["HEADS", "SECTIONS", "UNDER", "Parsed", "line_grammar", "parse"]

_STARTS = (
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
    "brace",
)
SECTIONS = (
    "draft",
    "for",
    "needs",
    "choices",
    "fabrics",
    "notions",
    "figures",
    "sheet",
    "piece",
    "sew",
    "girth",
    "steps",
)
_LINE_LISTS = {"needs": "needs_line", "choices": "choice_line", "fabrics": "fabric_line", "notions": "notion_line"}
#: The rule by which the first line of a section is read; the other sections begin with their bare word.
HEADS = {
    "draft": "draft_line",
    "for": "for_line",
    "sheet": "sheet_head",
    "piece": "piece_head",
    "sew": "sew_line",
    "girth": "girth_line",
}
#: The rule by which the lines under a section are read.
UNDER = {**_LINE_LISTS, "figures": "step_line", "sheet": "step_line", "piece": "piece_line"}


@dataclass(frozen=True, slots=True)
class Parsed:
    """What was read: the draft (None only when nothing could be) and every problem found."""

    draft: n.Draft | None
    problems: tuple[Problem, ...]
    source: Source


@cache
def line_grammar() -> Lark:
    """The grammar of single lines, ready to read by any of its starting rules."""
    grammar = files(__package__).joinpath("grammar.lark").read_text("utf-8")
    return Lark(grammar, parser="lalr", lexer="contextual", start=list(_STARTS), propagate_positions=True)


class _Reader:
    """Collects the parts of one draft as its lines are read."""

    def __init__(self, source: Source) -> None:
        self.source = source
        self.problems: list[Problem] = []
        self.title: n.Text | None = None
        self.figures = 0
        self.parts: dict[str, list[Any]] = {name: [] for name in SECTIONS}

    # ---- one line
    def read(self, line: Line, start: str) -> Any | None:
        """The node of the line by the rule `start`, or None with a problem noted."""
        return self._parse(line.text, start, line.number, 0)

    def _parse(self, text: str, start: str, number: int, shift: int) -> Any | None:
        if len(self.problems) >= LIMITS.told:
            return None  # a text with so many problems is no draft: reading on would only cost time
        if (deep := _nesting(text)) > LIMITS.nesting:
            span = Span(self.source.file, number, 1, 2)
            self._note(
                "language.nesting", f"Brackets stand {deep} deep.", "Give inner parts a name of their own.", span
            )
            return None
        try:
            tree = line_grammar().parse(text, start=start)
        except UnexpectedInput as wrong:
            self._note_unexpected(wrong, text, number, shift, start)
            return None
        if (deep := _depth(tree)) > LIMITS.parts:
            said = f"The parts of this line lie {deep} deep inside one another."
            span = Span(self.source.file, number, 1, len(text.split("\n")[0]) + 1)
            self._note("language.nesting", said, "Give inner parts a name of their own.", span)
            return None
        return Builder(self.source.file, number, shift).transform(tree)

    def _note(self, code: str, message: str, fix: str, span: Span) -> None:
        self.problems.append(self.source.problem(code, message, fix, span))

    def _note_unexpected(self, wrong: UnexpectedInput, text: str, number: int, shift: int, start: str) -> None:
        row = wrong.line if wrong.line and wrong.line > 0 else text.count("\n") + 1
        column = wrong.column if wrong.column and wrong.column > 0 else len(text.rsplit("\n", 1)[-1]) + 1
        found = str(wrong.token) if isinstance(wrong, UnexpectedToken) else ""
        at_end = isinstance(wrong, UnexpectedToken) and wrong.token.type == "$END"
        if at_end:
            row, column = text.count("\n") + 1, len(text.rsplit("\n", 1)[-1]) + 1
        if isinstance(wrong, UnexpectedCharacters):
            found = text.split("\n")[row - 1][column - 1 : column]
        message, fix = say_expected(wrong, "" if at_end else found, start)
        shift = shift if row == 1 else 0
        span = Span(self.source.file, number + row - 1, column + shift, column + shift + max(1, len(found)))
        self._note("language.unreadable", message, fix, span)

    # ---- sections
    def section(self, line: Line) -> None:
        """One top line with what stands under it."""
        word = line.first_word
        if word not in SECTIONS:
            span = self._word_span(line)
            self._note(
                "language.section",
                f"No section begins with “{word or line.text.strip()[:20]}”.",
                perhaps(word, SECTIONS, "Begin with one of: " + ", ".join(SECTIONS) + "."),
                span,
            )
            return
        getattr(self, f"_{word}")(line)

    def _word_span(self, line: Line) -> Span:
        return Span(self.source.file, line.number, line.indent + 1, line.indent + 1 + max(1, len(line.first_word)))

    def _draft(self, line: Line) -> None:
        self._childless(line)
        title = self.read(line, "draft_line")
        if self.title is not None:
            self._note("language.second-title", "The draft is named twice.", "Keep one.", self._word_span(line))
        self.title = self.title or title

    def _for(self, line: Line) -> None:
        self._childless(line)
        if self.parts["for"]:
            said = "It is said twice whom the draft is for."
            self._note("language.second-for", said, "Keep one of the two.", self._word_span(line))
        self._keep("for", self.read(line, "for_line"))

    def _childless(self, line: Line) -> None:
        for child in line.children:
            span = self._word_span(child)
            self._note(
                "language.indent",
                f"Nothing can stand under “{line.first_word}”.",
                "Bring this line out to the margin.",
                span,
            )

    def _bare(self, line: Line) -> bool:
        extra = line.text.strip()[len(line.first_word) :].strip(" :")
        if extra:
            column = line.text.index(extra) + 1
            span = Span(self.source.file, line.number, column, column + len(extra.split("\n")[0]))
            self._note(
                "language.section", f"“{line.first_word}” stands alone on its line.", "Indent the rest below it.", span
            )
        return not extra

    def _listed(self, line: Line) -> None:
        self._bare(line)
        for child in line.children:
            self._childless(child)
            node = self.read(child, _LINE_LISTS[line.first_word])
            if node is not None:
                self.parts[line.first_word] += node if isinstance(node, tuple) else [node]

    _needs = _choices = _fabrics = _notions = _listed

    def _figures(self, line: Line) -> None:
        self._bare(line)
        self.parts["figures"] += self._steps_under(line)

    def _sheet(self, line: Line) -> None:
        head = self.read(line, "sheet_head")
        steps = self._steps_under(line)
        if head is not None:
            self.parts["sheet"].append(n.SheetNode(head.name, steps, head.span))

    def _steps_under(self, line: Line) -> tuple[n.StepNode, ...]:
        return tuple(node for child in line.children if (node := self._step(child)) is not None)

    def _step(self, line: Line) -> n.StepNode | None:
        node: n.StepNode | None = self.read(line, "step_line")
        inner = self._steps_under(line)
        if isinstance(node, n.Solve | n.WhenBlock | n.Repeat):
            if not inner:
                self._note("language.empty-block", "This block is empty.", "Indent its steps below it.", node.span)
            return replace(node, steps=inner)
        if node is not None:
            self._childless(line)
        return node

    def _piece(self, line: Line) -> None:
        head = self.read(line, "piece_head")
        clauses = []
        for child in line.children:
            self._childless(child)
            clauses.append(self.read(child, "piece_line"))
        if head is not None:
            self.parts["piece"].append(replace(head, clauses=tuple(c for c in clauses if c is not None)))

    def _sew(self, line: Line) -> None:
        self._childless(line)
        self._keep("sew", self.read(line, "sew_line"))

    def _girth(self, line: Line) -> None:
        self._childless(line)
        self._keep("girth", self.read(line, "girth_line"))

    def _keep(self, section: str, node: Any | None) -> None:
        if node is not None:
            self.parts[section].append(node)

    # ---- instructions
    def _steps(self, line: Line) -> None:
        self._bare(line)
        title: tuple[int, str] | None = None
        rows: list[tuple[int, str]] = []
        for number, row in line.raw:
            if row.lstrip().startswith("## "):
                self._close_step(title, rows)
                title, rows = (number, row), []
            elif title is not None:
                rows.append((number, row))
            elif row.strip():
                span = Span(self.source.file, number, 1, len(row) + 1)
                self._note(
                    "language.step-title",
                    "These words stand before the first step.",
                    "Begin with ## and a title.",
                    span,
                )
        self._close_step(title, rows)

    def _close_step(self, title: tuple[int, str] | None, rows: list[tuple[int, str]]) -> None:
        if title is None:
            return
        heading = self._braces([(title[0], title[1].replace("##", "  ", 1))])
        margin = min((len(r) - len(r.lstrip()) for _, r in rows if r.strip()), default=0)
        body = self._braces([(number, row) for number, row in rows], margin)
        tests = [p[1] for p in heading if isinstance(p, tuple) and p[0] == "when"]
        seams = tuple(p[1] for p in (*heading, *body) if isinstance(p, tuple) and p[0] == "seam")
        words = "".join(p for p in heading if isinstance(p, str)).strip()
        parts = tuple(p for p in body if not isinstance(p, tuple))
        span = Span(self.source.file, title[0], 1, len(title[1]) + 1)
        self.parts["steps"].append(n.StepSection(words, parts, seams, tests[0] if tests else None, span))

    def _braces(self, rows: list[tuple[int, str]], margin: int = 0) -> list[Any]:
        parts: list[Any] = []
        for number, row in rows:
            at = min(margin, len(row))
            for match in re.finditer(r"\{([^{}]*)\}", row):
                parts.append(row[at : match.start()])
                self.figures += 1
                if self.figures > LIMITS.figures:
                    self._too_many_figures(number)
                    return parts
                node = self._parse(match[1], "brace", number, match.start() + 1)
                parts += [node] if node is not None else []
                at = match.end()
            parts.append(row[at:] + "\n")
        return parts

    def _too_many_figures(self, number: int) -> None:
        if self.figures == LIMITS.figures + 1:
            said = f"The instructions hold more than {LIMITS.figures} braces."
            span = Span(self.source.file, number, 1, 2)
            self._note("language.too-long", said, "Keep to the figures a maker needs.", span)

    def draft(self, text_span: Span) -> n.Draft:
        """All that was read, as one draft."""
        p = {name: tuple(found) for name, found in self.parts.items()}
        title = self.title.text if self.title else ""
        if self.title is None and not self.problems:
            self._note("language.no-title", "The draft has no title.", 'Begin with: draft "Its name"', text_span)
        return n.Draft(
            title,
            p["needs"],
            p["choices"],
            p["fabrics"],
            p["notions"],
            p["figures"],
            p["sheet"],
            p["piece"],
            p["sew"],
            p["girth"],
            p["steps"],
            self.title.span if self.title else text_span,
            p["for"][0] if p["for"] else None,
        )


def _nesting(text: str) -> int:
    depth = deepest = 0
    for sign in text:
        depth += (sign == "(") - (sign == ")")
        deepest = max(deepest, depth)
    return deepest


def _depth(tree: Tree[Token]) -> int:
    """How deep the parts of a line lie inside one another; counted without recursion, which is what it guards."""
    deepest, level = 0, [tree]
    while level:
        deepest += 1
        level = [part for whole in level for part in whole.children if isinstance(part, Tree)]
    return deepest


def _too_large(text: str, source: Source) -> Problem | None:
    span = Span(source.file, 1, 1, 2)
    if len(text) > LIMITS.characters or len(source.rows) > LIMITS.lines:
        return Problem(
            "language.too-long",
            f"The draft has {len(source.rows)} lines and {len(text)} characters; "
            f"{LIMITS.lines} lines and {LIMITS.characters} characters are the most.",
            "Split it into several drafts.",
            span,
        )
    for number, row in enumerate(source.rows, 1):
        if len(row) > LIMITS.line_length:
            where = Span(source.file, number, LIMITS.line_length, LIMITS.line_length + 1)
            return source.problem(
                "language.long-line", f"Line {number} has {len(row)} characters.", "Break it into several.", where
            )
    return None


def parse(text: str, file: str) -> Parsed:
    """Read a draft. The tree holds every line that could be read; each that could not has a problem."""
    text = text.replace("\r\n", "\n").replace("\r", "\n").removeprefix("\ufeff")
    source = Source(file, tuple(text.split("\n")))
    if (large := _too_large(text, source)) is not None:
        return Parsed(None, (large,), source)
    lines, problems = cut_lines(source)
    reader = _Reader(source)
    for line in lines:
        reader.section(line)
    draft = reader.draft(Span(file, 1, 1, 2))
    return Parsed(draft, tuple(problems + reader.problems), source)
