"""The parts of the draft page, ready to print: problems, outline, numbered lines, what the text draws, changes."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from difflib import SequenceMatcher

from markupsafe import Markup

from app.pattern.drawing import preview_svg
from app.pattern.guide.drawing import DrawnDraft
from app.pattern.language.outline import DraftOutline, Listed
from app.pattern.lay import cloth_in_words, lay_plan_svg
from app.pattern.problem import Place, Problem, Refused, Severity, Span, spelled_out
from app.pattern.steps import SizeWords, sizes_in_words
from app.pattern.units import Unit, show_cloth_length
from app.shop.orders.shown import Finding, girths_caption
from app.shop.studio.drafts.check import ClothTried, DraftTrial
from app.web.words import count

__all__ = [
    "ChangeRow",
    "CheckRow",
    "ClothLine",
    "DraftResult",
    "NumberedRow",
    "OutlineEntry",
    "OutlineGroup",
    "ProblemLine",
    "change_rows",
    "lines_of",
    "draft_result",
    "numbered_rows",
    "outline_groups",
    "problem_line",
]

#: Unchanged lines shown on either side of a change, and the most rows of changes that are shown.
_AROUND, _MOST_CHANGES = 2, 400


@dataclass(frozen=True, slots=True)
class ProblemLine:
    """A problem with its place (line and column from 1, 0 for none) and its line in three parts, the middle marked."""

    line: int
    column: int
    before: str
    marked: str
    after: str
    place: str
    message: str
    fix: str
    kind: str
    see: tuple[Finding, ...]


@dataclass(frozen=True, slots=True)
class OutlineEntry:
    """One thing of a draft with its line; `plays` is the line up to which its sheet is played, 0 for none."""

    name: str
    words: str
    line: int
    plays: int = 0


@dataclass(frozen=True, slots=True)
class OutlineGroup:
    """Things of one kind."""

    title: str
    entries: tuple[OutlineEntry, ...]


@dataclass(frozen=True, slots=True)
class NumberedRow:
    """A row of the text: whether it draws something, and whether something is wrong in it."""

    number: int
    text: str
    plays: bool
    wrong: bool


@dataclass(frozen=True, slots=True)
class CheckRow:
    """A check and what it found; nothing when it holds."""

    title: str
    findings: tuple[ProblemLine, ...]


@dataclass(frozen=True, slots=True)
class ClothLine:
    """A cloth: how much of it to buy with the lay, or why it cannot be laid."""

    title: str
    words: str
    problem: str
    drawing: Markup


@dataclass(frozen=True, slots=True)
class DraftResult:
    """What a text gives for one body; `refused` says why it gives no pattern."""

    refused: tuple[ProblemLine, ...]
    drawing: Markup
    checks_words: str
    checks: tuple[CheckRow, ...]
    held: tuple[str, ...]
    girths: tuple[SizeWords, ...]
    girths_words: str
    cloths: tuple[ClothLine, ...]


@dataclass(frozen=True, slots=True)
class ChangeRow:
    """A row of the changes between two texts: `kind` is "same", "gone", "new" or "gap"; a number is 0 for none."""

    kind: str
    before: int
    after: int
    text: str


# ---- problems


def problem_line(problem: Problem, rows: list[str]) -> ProblemLine:
    """A problem beside the text it was found in."""
    span = problem.where if isinstance(problem.where, Span) else None
    row = rows[span.line - 1] if span is not None and span.line <= len(rows) else ""
    start, end = (span.column - 1, max(span.end_column - 1, span.column)) if span is not None else (0, 0)
    seen = tuple(Finding(one.message, f"{one.where.line}") for one in problem.related if isinstance(one.where, Span))
    return ProblemLine(
        line=span.line if span is not None else 0,
        column=span.column if span is not None else 0,
        before=row[:start],
        marked=row[start:end],
        after=row[end:],
        place=str(problem.where) if isinstance(problem.where, Place) and problem.where != Place() else "",
        message=problem.message,
        fix=problem.fix,
        kind="grave" if problem.severity is Severity.ERROR else "slight",
        see=seen,
    )


# ---- the outline


def outline_groups(outline: DraftOutline, ends: dict[str, tuple[int, int]]) -> tuple[OutlineGroup, ...]:
    """A draft at a glance; `ends` are the first and last line that draws, by sheet."""
    sheets = [
        OutlineEntry(sheet.name, count(len(sheet.names), "step"), sheet.line, ends.get(sheet.name, (0, 0))[0])
        for sheet in outline.sheets
    ]
    only = outline.sheets[0].name if len(outline.sheets) == 1 else ""
    pieces = []
    for piece in outline.pieces:
        edges = ", ".join(edge.name for edge in piece.edges)
        words = ": ".join(part for part in (piece.title, edges) if part)
        # A piece is traced from the sheet it names, else from the only one there is, else from its namesake.
        sheet = piece.sheet or only or piece.name
        pieces.append(OutlineEntry(piece.name, words, piece.line, ends.get(sheet, (0, 0))[1]))
    seams = [
        OutlineEntry(
            f"{', '.join(seam.a)} to {', '.join(seam.b)}", "" if seam.kind == "plain" else seam.kind, seam.line
        )
        for seam in outline.seams
    ]
    groups = (
        ("Measurements", _entries(outline.needs)),
        ("Choices", _entries(outline.choices)),
        ("Cloth and notions", [*_entries(outline.fabrics), *_entries(outline.notions)]),
        ("Sheets", sheets),
        ("Pieces", pieces),
        ("Seams", seams),
        ("Girths", _entries(outline.girths)),
        ("Fit", _entries(outline.fits)),
        ("Steps", [OutlineEntry(step.title, "", step.line) for step in outline.steps]),
    )
    return tuple(OutlineGroup(title, tuple(entries)) for title, entries in groups if entries)


def _entries(listed: Iterable[Listed]) -> list[OutlineEntry]:
    return [OutlineEntry(one.name, one.title, one.line) for one in listed]


# ---- the text, numbered


def numbered_rows(rows: list[str], draws: Mapping[str, Iterable[int]], wrong: set[int]) -> tuple[NumberedRow, ...]:
    """Every row of the text with its number; `draws` are the lines that draw something, by sheet."""
    playing = {line for lines in draws.values() for line in lines}
    return tuple(NumberedRow(number, row, number in playing, number in wrong) for number, row in enumerate(rows, 1))


def lines_of(drawing: DrawnDraft) -> dict[str, tuple[int, ...]]:
    """The lines that draw something, by sheet, for each sheet that has any."""
    found: dict[str, set[int]] = {}
    for step in drawing.env.trace:
        sheet, dot, _ = step.key.removeprefix("sheet ").partition(".")
        if dot and step.key.startswith("sheet "):
            found.setdefault(sheet, set()).add(step.line)
    return {sheet: tuple(sorted(lines)) for sheet, lines in found.items()}


# ---- what it draws


def draft_result(tried: DraftTrial, rows: list[str]) -> DraftResult:
    """What a text that can be read gives for one body."""
    found = [CheckRow(title, tuple(problem_line(one, rows) for one in some)) for title, some in tried.findings]
    failing = tuple(row for row in found if row.findings)
    pattern = tried.pattern
    return DraftResult(
        refused=tuple(problem_line(one, rows) for one in tried.problems),
        drawing=Markup(preview_svg(pattern, Unit.CM)) if pattern is not None else Markup(),
        checks_words=_checks_words(failing, len(found)),
        checks=failing,
        held=tuple(row.title for row in found if not row.findings),
        girths=sizes_in_words(pattern, Unit.CM) if pattern else (),
        girths_words=girths_caption(Unit.CM),
        cloths=tuple(_cloth(one) for one in tried.cloths),
    )


def _checks_words(failing: tuple[CheckRow, ...], whole: int) -> str:
    if not failing:
        return f"All {whole} checks hold."
    errors = [row for row in failing if any(one.kind == "grave" for one in row.findings)]
    if not errors:
        return f"All {whole} checks hold; {count(len(failing), 'has', 'have')} a remark."
    return f"{len(errors)} of {whole} checks {'does' if len(errors) == 1 else 'do'} not hold."


def _cloth(tried: ClothTried) -> ClothLine:
    fabric, plan = tried.fabric, tried.plan
    if isinstance(plan, Refused):
        return ClothLine(fabric.title, "", spelled_out(plan.problems), Markup())
    words = f"{show_cloth_length(plan.buy, Unit.CM)} of cloth {cloth_in_words(plan.cloth, Unit.CM)}"
    return ClothLine(fabric.title, words, "", Markup(lay_plan_svg(plan, Unit.CM)))


# ---- what changed


def change_rows(before: str, after: str) -> tuple[ChangeRow, ...]:
    """The rows that differ between two texts, with a few on either side; cut off where there are very many."""
    old, new = before.split("\n"), after.split("\n")
    rows: list[ChangeRow] = []
    for group in SequenceMatcher(None, old, new).get_grouped_opcodes(_AROUND):
        if group[0][1] or group[0][3]:
            rows.append(ChangeRow("gap", 0, 0, ""))
        for tag, old_from, old_to, new_from, new_to in group:
            if tag == "equal":
                kept = zip(range(old_from, old_to), range(new_from, new_to), strict=True)
                rows += [ChangeRow("same", at + 1, now + 1, old[at]) for at, now in kept]
                continue
            rows += [ChangeRow("gone", at + 1, 0, old[at]) for at in range(old_from, old_to)]
            rows += [ChangeRow("new", 0, at + 1, new[at]) for at in range(new_from, new_to)]
    return tuple(rows[:_MOST_CHANGES])
