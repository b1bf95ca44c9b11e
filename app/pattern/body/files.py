"""Bodies from files: one body as JSON with units, many as CSV in mm; every mistake with its line and column."""

from __future__ import annotations

import csv
import json
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from app.pattern.body.checked import CheckedBody, check_body, unknown_measure
from app.pattern.body.ranges import hard_range
from app.pattern.body.register import MEASURES
from app.pattern.problem import Place, Problem, Refused, Span
from app.pattern.units import MM_PER, LengthError, Unit, has_unit, read_length

__all__ = ["MOST_BODIES", "BodiesRead", "NamedBody", "read_bodies_csv", "read_body_file"]

_NUMBER = re.compile(r"\d{1,6}(\.\d{1,6})?")
#: More rows than this in one file are refused: a proof of that size belongs to a drawn population.
MOST_BODIES = 5000


@dataclass(frozen=True, slots=True)
class NamedBody:
    """A body (mm) with the id that its file gives it, or `row 2`, `row 3` by its line."""

    id: str
    body: Mapping[str, float]


@dataclass(frozen=True, slots=True)
class BodiesRead:
    """The bodies of a file in its order, and everything wrong with it; a body with an error is left out."""

    bodies: tuple[NamedBody, ...]
    problems: tuple[Problem, ...]


# --- one body, JSON ------------------------------------------------------------------------------------------------


def read_body_file(text: str, file: str, group: str | None = None) -> CheckedBody:
    """A body from JSON text such as `{"bust_girth": "96.5cm"}`; `file` is its name in messages.

    Every length carries its unit. The checks are those of `check_body`, for the group that the draft is for if told.
    """
    pairs = _pairs(text, file)
    if isinstance(pairs, Refused):
        return CheckedBody({}, pairs.problems, {})
    refused = [problem for pair in _faulty(pairs) for problem in [_placed(pair, text, file)]]
    entries = {name: str(value) for name, value in pairs if name not in MEASURES or _has_unit(value)}
    checked = check_body(entries, (), Unit.CM, group)
    placed = [_placed(problem, text, file) for problem in checked.problems]
    return CheckedBody(checked.body, (*refused, *placed), {name: str(value) for name, value in pairs})


def _pairs(text: str, file: str) -> list[tuple[str, object]] | Refused:
    try:
        found = json.loads(text, object_pairs_hook=list, parse_int=str, parse_float=str, parse_constant=str)
    except json.JSONDecodeError as error:
        where = Span(file, error.lineno, error.colno, error.colno + 1)
        return _unreadable(f"This is not JSON: {error.msg}.", _JSON_FIX, where)
    except RecursionError:
        return _unreadable("This is nested too deep for a body.", _JSON_FIX, Span(file, 1, 1, 2))
    if not found or not isinstance(found, list) or not all(isinstance(pair, tuple) for pair in found):
        return _unreadable("This is JSON, but not one body.", _JSON_FIX, Span(file, 1, 1, 2))
    return found


def _unreadable(message: str, fix: str, where: Span) -> Refused:
    return Refused.of(Problem("body.file-unreadable", message, fix, where))


_JSON_FIX = 'Write one body as {"bust_girth": "96.5cm", "waist_girth": "78cm"}.'


def _faulty(pairs: list[tuple[str, object]]) -> Iterator[Problem]:
    seen: set[str] = set()
    for name, value in pairs:
        if name in seen:
            yield Problem("body.file-twice", f"{name} is given twice.", "Keep one of the two.", Place(point=name))
        elif name not in MEASURES:
            pass  # `check_body` says so.
        elif not isinstance(value, str):
            message = f"{name}: this is not a length."
            yield Problem("body.unreadable", message, 'Write it like "96.5cm".', Place(point=name))
        elif _lacks_unit(value):
            message = f"{name}: {value} of what? The unit is missing."
            fix = f'Write "{value}cm", "{value}mm" or "{value}in", whichever it is, in quotes.'
            yield Problem("body.unit-missing", message, fix, Place(point=name))
        seen.add(name)


def _has_unit(value: object) -> bool:
    """True for a text that names its unit, or that is no length at all (which `check_body` then says)."""
    return isinstance(value, str) and not _lacks_unit(value)


def _lacks_unit(text: str) -> bool:
    """True for a text that would be a length if it had a unit."""
    return not has_unit(text) and _is_length(f"{text}mm")


def _is_length(text: str) -> bool:
    try:
        read_length(text, Unit.CM)
    except LengthError:
        return False
    return True


def _placed(problem: Problem, text: str, file: str) -> Problem:
    """The problem at the line and column where its measure is named in the file; of a name given twice, the last."""
    name = problem.where.point if isinstance(problem.where, Place) else ""
    found = [*re.finditer(re.escape(json.dumps(name)) + r"\s*:", text)]
    offset = found[-1].start() if found else 0
    line, column = text.count("\n", 0, offset) + 1, offset - (text.rfind("\n", 0, offset) + 1) + 1
    return replace(problem, where=Span(file, line, column, column + len(json.dumps(name))))


# --- many bodies, CSV ----------------------------------------------------------------------------------------------


def read_bodies_csv(text: str, file: str, group: str | None = None) -> BodiesRead:
    """Bodies from CSV text: a header of measures by name (mm) and an optional `id` or `name`, then a row for each body.

    An empty cell is a measure not taken. Problems carry the line and the number of the column. The checks are those of
    `check_body` for the group, if told; a body that we drew ourselves, known by its id, is not
    doubted: nobody measured it.
    """
    rows = _csv_rows(text, file)
    if isinstance(rows, Refused):
        return BodiesRead((), rows.problems)
    (_, header), *records = rows
    if faults := tuple(_header_faults(header, file)):
        return BodiesRead((), faults)
    if len(records) > MOST_BODIES:
        return BodiesRead((), (_too_many(len(records), file),))
    if other := _other_unit(header, records, file, group):
        return BodiesRead((), other)
    return _read_records(header, records, file, group)


#: Units in which people keep their tables, with how many mm each is.
_OTHER_UNITS = (("centimetres", "cm", MM_PER["cm"]), ("inches", "in", MM_PER["in"]))


def _other_unit(
    header: list[str], records: list[tuple[int, list[str]]], file: str, group: str | None
) -> tuple[Problem, ...]:
    """One problem for a whole table in centimetres or inches, where most of its bare numbers would fit as those."""
    bare = [
        (hard_range(name, group or "women"), float(cell))
        for _, cells in records
        for name, cell in zip(header, cells, strict=False)
        if name in MEASURES and _NUMBER.fullmatch(cell)
    ]
    for words, unit, mm in _OTHER_UNITS:
        fit = [value for (least, most), value in bare if value < least <= value * mm <= most]
        if 2 * len(fit) > len(bare):
            example = f"{fit[0]:g}"
            message = (
                f"These measurements look like {words}: {example}, for one. Numbers without a unit are millimetres."
            )
            fix = f"Write {fit[0] * mm:.0f} in place of {example}, or name the unit in each cell: {example}{unit}."
            return (Problem("body.file-unit", message, fix, Span(file, records[0][0], 1, 2)),)
    return ()


def _csv_rows(text: str, file: str) -> list[tuple[int, list[str]]] | Refused:
    """The rows with something in them, each with its line; at least a header and one body."""
    reader = csv.reader(text.lstrip("\ufeff").splitlines(), strict=True)
    try:
        rows = [
            (reader.line_num, [cell.strip() for cell in row]) for row in reader if any(cell.strip() for cell in row)
        ]
    except csv.Error as error:
        where = Span(file, reader.line_num, 1, 2)
        return _unreadable(f"This line is not CSV: {error}.", _CSV_FIX, where)
    if len(rows) < 2:
        where = Span(file, 1, 1, 2)
        return Refused.of(Problem("body.file-empty", "There is no body in this file.", _CSV_FIX, where))
    return rows


#: Columns that name a body, and are no measures.
_NAMING = ("id", "name")
#: Ids of the bodies that the populations give (`populations_standard`): "drawn 17", "corner tall and full".
_DRAWN = re.compile(r"(size|corner|end|drawn) \S")
_CSV_FIX = "Write a header such as id,bust_girth,waist_girth and below it a row for each body, in mm."


def _too_many(count: int, file: str) -> Problem:
    message = f"The file has {count} bodies; at most {MOST_BODIES} are read at a time."
    return Problem("body.file-too-long", message, "Split the file.", Span(file, MOST_BODIES + 2, 1, 2))


def _header_faults(header: list[str], file: str) -> Iterator[Problem]:
    for column, name in enumerate(header, start=1):
        where = Span(file, 1, column, column + 1)
        if name in header[: column - 1]:
            yield Problem("body.file-twice", f"The column {name} is there twice.", "Keep one of them.", where)
        elif name in _NAMING and any(other in header[: column - 1] for other in _NAMING):
            message = "Two columns name the bodies: id and name."
            yield Problem("body.file-twice", message, "Keep one of them.", where)
        elif name not in (*_NAMING, *MEASURES):
            yield replace(unknown_measure(name), where=where)


def _read_records(header: list[str], records: list[tuple[int, list[str]]], file: str, group: str | None) -> BodiesRead:
    bodies: list[NamedBody] = []
    problems: list[Problem] = []
    seen: set[str] = set()
    for line, cells in records:
        record = dict(zip(header, cells, strict=False))
        name = next((record.pop(column) for column in _NAMING if column in record), "") or f"row {line}"
        where = Span(file, line, 1, 2)
        found = [*_row_faults(header, cells, where)]
        if name in seen:
            said = f"The id {name} is there twice."
            found.append(Problem("body.file-twice", said, "Give each body an id of its own.", where))
        in_mm = {name: f"{cell}mm" if _lacks_unit(cell) else cell for name, cell in record.items()}
        checked = check_body(in_mm, (), Unit.CM, group)
        told = [problem for problem in checked.problems if problem.code != "body.unlikely" or not _DRAWN.match(name)]
        found += [_in_column(problem, header, file, line) for problem in told]
        seen.add(name)
        problems += found
        if not any(problem.severity == "error" for problem in found):
            bodies.append(NamedBody(name, checked.body))
    return BodiesRead(tuple(bodies), tuple(problems))


def _row_faults(header: list[str], cells: list[str], where: Span) -> Iterator[Problem]:
    if len(cells) != len(header):
        message = f"This row has {len(cells)} cells, the header has {len(header)}."
        yield Problem(
            "body.file-row-length", message, "Give each column a cell; leave a cell empty for no value.", where
        )


def _in_column(problem: Problem, header: list[str], file: str, line: int) -> Problem:
    name = problem.where.point if isinstance(problem.where, Place) else ""
    column = header.index(name) + 1 if name in header else 1
    return replace(problem, where=Span(file, line, column, column + 1))
