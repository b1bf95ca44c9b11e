"""From text to tree: `parse(text, file)`. Every line that cannot be read is told, and the rest is still read."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from typing import Any

from lark.exceptions import UnexpectedInput

from app.pattern.language import nodes as n
from app.pattern.language.budget import too_many
from app.pattern.language.build import Builder
from app.pattern.language.deep import depth, nesting
from app.pattern.language.grammar import line_grammar
from app.pattern.language.line_reader import read_line
from app.pattern.language.lines import LIMITS, LogicalLine, Source, cut_lines, too_large
from app.pattern.language.near import nearest, suggest
from app.pattern.language.recovery import (
    CLAUSES,
    assigned,
    assigned_here,
    clause_word,
    dotted_in,
    first_name,
    first_token,
    heads_block,
    names_in,
    possible_names,
    second_name,
    sheet_name,
    step_names,
)
from app.pattern.language.slips import Slip
from app.pattern.language.syntax_errors import explain_syntax_error, stop_of
from app.pattern.problem import Problem, Span, in_order

__all__ = ["HEADS", "SECTIONS", "UNDER", "Parsed", "parse"]

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
    "fit",
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
    "fit": "fit_line",
}
#: Problems of layout that leave lines out altogether.
_LOSING = ("language.long-line", "language.too-deep")
#: The rule by which the lines under a section are read.
UNDER = {**_LINE_LISTS, "figures": "step_line", "sheet": "step_line", "piece": "piece_line"}


@dataclass(frozen=True, slots=True)
class Parsed:
    """What was read: the draft (None only when nothing could be) and every problem found."""

    draft: n.Draft | None
    problems: tuple[Problem, ...]
    source: Source


class _Reader:
    """Collects the parts of one draft as its lines are read."""

    def __init__(self, source: Source) -> None:
        self.source = source
        self.problems: list[Problem] = []
        self.title: n.Text | None = None
        self.titled = False
        self.figures = 0
        self.parts: dict[str, list[Any]] = {name: [] for name in SECTIONS}
        self.unread: list[str] = []
        self.lost = False
        self.last = ""

    # ---- one line
    def read(self, line: LogicalLine, start: str) -> Any | None:
        """The node of the line by the rule `start`, or None with a problem noted, if none is told of it yet."""
        if line.told:
            return self._read_quietly(line, start)
        return self._parse(line.text, start, line.number, line.shift)

    def _read_quietly(self, line: LogicalLine, start: str) -> Any | None:
        """The node of a line of which a problem is told already, or None with nothing noted."""
        noted, self.problems = self.problems, []
        node = self._parse(line.text, start, line.number, line.shift)
        self.problems = noted
        return node

    def _parse(self, text: str, start: str, number: int, shift: int) -> Any | None:
        if len(self.problems) >= LIMITS.told:
            self.lost = True
            return None  # a text with so many problems is no draft: reading on would only cost time
        if (deep := nesting(text)) > LIMITS.nesting:
            span = Span(self.source.file, number, 1, 2)
            self._note(
                "language.nesting", f"Brackets stand {deep} deep.", "Give inner parts a name of their own.", span
            )
            return None
        try:
            node, made = read_line(text, start, Builder(self.source.file, text, number, shift))
        except UnexpectedInput as wrong:
            slip = explain_syntax_error(wrong, text, start, _stops)
            self._note("language.unreadable", slip.message, slip.fix, self._span(text, slip, number, shift))
            return None
        if made > LIMITS.parts and (deep := depth(line_grammar().parse(text, start=start))) > LIMITS.parts:
            said = f"The parts of this line lie {deep} deep inside one another."
            span = Span(self.source.file, number, 1, len(text.split("\n")[0]) + 1)
            self._note("language.nesting", said, "Give inner parts a name of their own.", span)
            return None
        return node

    def _span(self, text: str, slip: Slip, number: int, shift: int) -> Span:
        """Where a slip in a line stands in the draft; only what is in its first row."""
        rows = text[: slip.begin].split("\n")
        column = len(rows[-1]) + 1 + (shift if len(rows) == 1 else 0)
        width = len(text[slip.begin : slip.end].split("\n")[0])
        return Span(self.source.file, number + len(rows) - 1, column, column + max(1, width))

    def _note(self, code: str, message: str, fix: str, span: Span) -> None:
        self.problems.append(self.source.problem(code, message, fix, span))

    # ---- sections
    def section(self, line: LogicalLine) -> None:
        """One top line with what stands under it."""
        word = line.first_word
        if word in SECTIONS:
            self.last = word
            getattr(self, f"_{word}")(line)
            return
        token, meant = first_token(line)
        self._note(
            "language.section",
            f"No section begins with “{word or line.text.strip()[:20]}”.",
            suggest(meant, SECTIONS, "Begin with one of: " + ", ".join(SECTIONS) + "."),
            self._word_span(line),
        )
        section = meant if meant in SECTIONS else nearest(meant, SECTIONS)
        if assigned_here(line) or (self.last == "piece" and word in CLAUSES):
            self._astray(line)
        elif section is None:
            self._headless(line)
        else:
            text, shift = line.text.replace(token, section, 1), len(token) - len(section)
            self.section(LogicalLine(text, line.number, line.indent, line.children, line.raw, shift, told=True))

    def _headless(self, line: LogicalLine) -> None:
        """A line that begins no section, not even nearly: by what stands under it a sheet or a piece, or astray."""
        if any(child.first_word in CLAUSES for child in line.children):
            self._unread_piece(line, "")
            self.last = "piece"
        elif assigned(line):
            unread: list[str] = []
            steps = self._steps_under(line, unread)
            self.parts["sheet"].append(n.SheetNode("", steps, self._line_span(line), tuple(unread)))
            self.last = "sheet"
        else:
            self._astray(line)

    def _astray(self, line: LogicalLine) -> None:
        """A line at the margin that begins no section: what it and those under it say belongs to the section above."""
        if self.last in ("sheet", "figures"):
            unread: list[str] = []
            node = self._read_quietly(line, "step_line")
            beside = [node, *self._steps_under(line, unread)] if isinstance(node, n.Assign) else []
            steps = beside or self._steps_of(node, line, unread)
            if self.last == "sheet":
                above = self.parts["sheet"][-1]
                self.parts["sheet"][-1] = replace(above, steps=(*above.steps, *steps), unread=(*above.unread, *unread))
            else:
                self.parts["figures"] += steps
                self.unread += unread
        elif self.last == "piece":
            above = self.parts["piece"][-1]
            clause = self._read_quietly(line, "piece_line")
            clauses, words = self._clauses(line.children)
            clauses = [*above.clauses, *([clause] if clause is not None else []), *clauses]
            words = [*above.unread, *([] if clause is not None else [clause_word(line)]), *words]
            self.parts["piece"][-1] = replace(above, clauses=tuple(clauses), unread=tuple(words))
        elif self.last in _LINE_LISTS:
            self._list(self.last, line, self._read_quietly(line, _LINE_LISTS[self.last]))
            for child in line.children:
                self._list(self.last, child, self.read(child, _LINE_LISTS[self.last]))
        else:
            self.unread += assigned(line)

    def _word_span(self, line: LogicalLine) -> Span:
        first = line.indent + 1
        return Span(self.source.file, line.number, first, first + max(1, len(line.first_word) + line.shift))

    def _line_span(self, line: LogicalLine) -> Span:
        width = len(line.text.split("\n")[0]) + line.shift
        return Span(self.source.file, line.number, line.indent + 1, width + 1)

    def _draft(self, line: LogicalLine) -> None:
        title = self._whole(line, "draft_line")
        if self.titled:
            self._note("language.second-title", "The draft is named twice.", "Keep one.", self._word_span(line))
        self.titled = True
        self.title = self.title or title
        self._sections_under(line)

    def _for(self, line: LogicalLine) -> None:
        if self.parts["for"]:
            said = "It is said twice whom the draft is for."
            self._note("language.second-for", said, "Keep one of the two.", self._word_span(line))
        self._keep("for", self._whole(line, "for_line"))
        self._sections_under(line)

    def _whole(self, line: LogicalLine, start: str) -> Any | None:
        """The node of a line under which nothing can stand. (What stands under an unreadable one may go on from it.)"""
        node = self.read(line, start)
        if node is not None:
            self._nothing_under(line)
        return node

    def _nothing_under(self, line: LogicalLine) -> None:
        if line.children:
            said = f"Nothing can stand under “{line.first_word}”."
            level = f"as far in as that line, by {line.indent} spaces" if line.indent else "at the margin"
            fix = f"Begin this line {level}."
            self._note("language.indent", said, fix, self._word_span(line.children[0]))

    def _sections_under(self, line: LogicalLine) -> None:
        """Sections that were indented under a line which holds none: told by now, and read all the same."""
        for child in line.children:
            if child.first_word in SECTIONS:
                self.section(child)
            else:
                self.unread += [*assigned(child), *names_in(child.text)]

    def _bare(self, line: LogicalLine) -> bool:
        extra = line.text.strip()[len(line.first_word) :].strip(" :")
        if extra:
            column = line.text.index(extra) + 1 + line.shift
            span = Span(self.source.file, line.number, column, column + len(extra.split("\n")[0]))
            self._note(
                "language.section", f"“{line.first_word}” stands alone on its line.", "Indent the rest below it.", span
            )
            self.unread += names_in(extra)
        return not extra

    def _listed(self, line: LogicalLine) -> None:
        self._bare(line)
        section = line.first_word
        for child in line.children:
            node = self._whole(child, _LINE_LISTS[section])
            self._list(section, child, node)
            read = self.read if node is not None else self._read_quietly
            for inner in child.children:
                self._list(section, inner, read(inner, _LINE_LISTS[section]))

    _needs = _choices = _fabrics = _notions = _listed

    def _list(self, section: str, line: LogicalLine, node: Any | None) -> None:
        """Keep a line of a list; of one that could not be read, the names that it may stand for."""
        if node is not None:
            self.parts[section] += node if isinstance(node, tuple) else [node]
        elif section == "fabrics":
            span = self._line_span(line)
            self.parts[section].append(n.FabricLine(first_name(line), "", None, False, False, None, None, None, span))
        else:
            self.unread += names_in(line.text) if section == "needs" else possible_names(line)

    def _figures(self, line: LogicalLine) -> None:
        self._bare(line)
        self.parts["figures"] += self._steps_under(line, self.unread)

    def _sheet(self, line: LogicalLine) -> None:
        head = self.read(line, "sheet_head")
        unread: list[str] = []
        steps = self._steps_under(line, unread)
        name, span = (head.name, head.span) if head is not None else (second_name(line), self._line_span(line))
        self.parts["sheet"].append(n.SheetNode(name, steps, span, tuple(unread)))

    def _steps_under(self, line: LogicalLine, unread: list[str], *, quietly: bool = False) -> tuple[n.StepNode, ...]:
        """The steps under a line; names that unreadable ones may draw go to `unread`."""
        read = self._read_quietly if quietly else self.read
        return tuple(
            step for child in line.children for step in self._steps_of(read(child, "step_line"), child, unread)
        )

    def _steps_of(self, node: n.StepNode | None, line: LogicalLine, unread: list[str]) -> list[n.StepNode]:
        """A line's own step and those under it; what stands under a line that could not be read hangs on a test."""
        if node is None:
            return self._unread_step(line, unread)
        if isinstance(node, n.Assign):
            self._nothing_under(line)
            return [node, *self._steps_under(line, unread)]
        if not (line.children or line.cut_short):
            self._note("language.empty-block", "This block is empty.", "Indent its steps below it.", node.span)
        return [replace(node, steps=self._steps_under(line, unread))]

    def _unread_step(self, line: LogicalLine, unread: list[str]) -> list[n.StepNode]:
        unread += step_names(line)
        inner = self._steps_under(line, unread, quietly=not heads_block(line))
        span = self._line_span(line)
        return [n.WhenBlock(n.Name("yes", span), inner, span)] if inner else []

    def _piece(self, line: LogicalLine) -> None:
        head: n.PieceNode | None = self.read(line, "piece_head")
        if head is None:
            self._unread_piece(line, second_name(line))
            return
        clauses, unread = self._clauses(line.children)
        self.parts["piece"].append(replace(head, clauses=tuple(clauses), unread=tuple(unread)))

    def _unread_piece(self, line: LogicalLine, name: str) -> None:
        clauses, unread = self._clauses(line.children)
        sheet, span = sheet_name(line), self._line_span(line)
        self.parts["piece"].append(n.PieceNode(name, "", sheet, (), tuple(clauses), None, span, ("piece", *unread)))

    def _clauses(self, lines: list[LogicalLine], *, quietly: bool = False) -> tuple[list[Any], list[str]]:
        """The clauses that could be read, and the first words of those that could not."""
        clauses: list[Any] = []
        unread: list[str] = []
        for line in lines:
            node = self._read_quietly(line, "piece_line") if quietly else self._whole(line, "piece_line")
            clauses += [node] if node is not None else []
            unread += [clause_word(line)] if node is None else []
            inner, more = self._clauses(line.children, quietly=quietly or node is None)
            clauses += inner
            unread += more
        return clauses, unread

    def _sew(self, line: LogicalLine) -> None:
        node = self._whole(line, "sew_line")
        self._keep("sew", node)
        self.unread += dotted_in(line.text) if node is None else []
        self._sections_under(line)

    def _girth(self, line: LogicalLine) -> None:
        self._keep("girth", self._whole(line, "girth_line"))
        self._sections_under(line)

    def _fit(self, line: LogicalLine) -> None:
        self._keep("fit", self._whole(line, "fit_line"))
        self._sections_under(line)

    def _keep(self, section: str, node: Any | None) -> None:
        if node is not None:
            self.parts[section].append(node)

    # ---- instructions
    def _steps(self, line: LogicalLine) -> None:
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
                    if self.figures == LIMITS.figures + 1:
                        said = f"The instructions hold more than {LIMITS.figures} braces."
                        span = Span(self.source.file, number, 1, 2)
                        self._note("language.too-long", said, "Keep to the figures a maker needs.", span)
                    return parts
                node = self._parse(match[1], "brace", number, match.start() + 1)
                parts += [node] if node is not None else []
                at = match.end()
            parts.append(row[at:] + "\n")
            self._lone_brace(number, row)
        return parts

    def _lone_brace(self, number: int, row: str) -> None:
        """A brace without its fellow on the line, which would be printed as it stands."""
        found = re.search(r"[{}]", re.sub(r"\{[^{}]*\}", lambda whole: " " * len(whole[0]), row))
        if found is not None:
            opens = found[0] == "{"
            said = "This brace is not closed." if opens else "This brace closes nothing."
            fix = "Close it with } on the same line." if opens else "Open it with { on the same line, or take it out."
            self._note("language.brace", said, fix, Span(self.source.file, number, found.start() + 1, found.end() + 1))

    def draft(self, text_span: Span) -> n.Draft:
        """All that was read, as one draft."""
        p = {name: tuple(found) for name, found in self.parts.items()}
        title = self.title.text if self.title else ""
        if not self.titled:
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
            tuple(self.unread),
            self.lost,
            p["fit"],
        )


def _stops(text: str, start: str) -> int | None:
    """Where the reading of a line by a rule stops; None when all of it can be read."""
    try:
        line_grammar().parse(text, start=start)
    except UnexpectedInput as wrong:
        return stop_of(wrong, text)[0]
    return None


def parse(text: str, file: str) -> Parsed:
    """Read a draft. The tree holds every line that could be read; each that could not has a problem."""
    text = text.replace("\r\n", "\n").replace("\r", "\n").removeprefix("\ufeff")
    source = Source(file, tuple(text.split("\n")))
    if large := too_large(text, source):
        return Parsed(None, large, source)
    layout = cut_lines(source)
    reader = _Reader(source)
    reader.lost = any(problem.code in _LOSING for problem in layout.problems)
    for line in layout.lines:
        reader.section(line)
    draft = reader.draft(Span(file, 1, 1, 2))
    if many := tuple(too_many(draft, source)):
        return Parsed(None, in_order((*layout.problems, *many)), source)
    return Parsed(draft, in_order((*layout.problems, *reader.problems)), source)
