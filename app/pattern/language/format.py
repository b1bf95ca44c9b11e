"""The one canonical layout of a draft: `format_draft(text, file)`. No word changes, no comment is lost.

Four spaces for each step in, one space round operators, `=` and titles aligned in a
block, one blank line between sections, long lists broken after commas. Instructions
keep their Markdown; only their margin is set.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import groupby

from app.pattern.language.lines import LogicalLine, Source, comment_of, cut_lines
from app.pattern.language.parse import HEADS, UNDER, parse
from app.pattern.language.spelling import GAPS, Spelled, spell
from app.pattern.problem import Refused

__all__ = ["WIDTH", "format_draft"]

#: Columns after which a list is broken.
WIDTH = 120
_STEP = "    "
#: Lines that are sections of their own and may still follow one another without a blank line.
_PLAIN_FOLLOWERS = ("sew", "girth", "fit")
_NOTHING = Spelled("", ())


@dataclass(frozen=True, slots=True)
class _Item:
    """A row of the draft to come: `sort` is line, comment, blank or words (of the instructions).

    `head` is the section's first word on the line that begins it; `block` numbers the
    block of siblings a line stands in, whose cells are aligned together.
    """

    sort: str
    depth: int = 0
    spelled: Spelled = _NOTHING
    text: str = ""
    head: str = ""
    block: int = 0


def format_draft(text: str, file: str) -> str | Refused:
    """The draft in its canonical layout, or what is wrong with it: a draft that cannot be read is not touched."""
    parsed = parse(text, file)
    if parsed.problems:
        return Refused(parsed.problems)
    items = _spaced(_items(parsed.source, cut_lines(parsed.source).lines))
    rows = [row for block in _blocks(items) for row in _laid(block)]
    return "\n".join(rows).strip("\n") + "\n"


# ---- from rows to items


def _items(source: Source, lines: Sequence[LogicalLine]) -> list[_Item]:
    """The draft's rows in order, each line spelled anew, each comment kept."""
    starts = {line.number: (line, item) for top in lines for line, item in _spelled(top)}
    words = {number: item for top in lines for number, item in _words(top)}
    items: list[_Item] = []
    number = 1
    while number <= len(source.rows):
        if number in starts:
            line, item = starts[number]
            size = line.text.count("\n") + 1
            # A line with its comments: the last row's behind it, those of earlier rows above it
            rows = source.rows[number - 1 : number - 1 + size]
            *above, last = [comment_of(row) for row in rows]
            before = [_Item("comment", item.depth, text=comment) for comment in above if comment]
            items += [*before, replace(item, text=last)]
            number += size
            continue
        items.append(words.get(number) or _silent(source.rows[number - 1]))
        number += 1
    # The items, an indented comment as deep as the line below it: in a solve or a repeat it stands in the block
    settled: list[_Item] = []
    depth = 0
    for item in reversed(items):
        if item.sort == "line":
            depth = item.depth
        settled.append(replace(item, depth=max(1, depth)) if item.sort == "comment" and item.depth else item)
    return settled[::-1]


def _spelled(top: LogicalLine) -> Iterator[tuple[LogicalLine, _Item]]:
    """A section's lines, each with its item."""
    word = top.first_word
    spelled = spell(top.text, HEADS[word]) if word in HEADS else Spelled("", (word,))
    yield top, _Item("line", 0, spelled, head=word)
    yield from _under(top, UNDER.get(word, ""), 1)


def _under(parent: LogicalLine, rule: str, depth: int) -> Iterator[tuple[LogicalLine, _Item]]:
    for line in parent.children:
        yield line, _Item("line", depth, spell(line.text, rule), block=parent.number)
        yield from _under(line, rule, depth + 1)


def _silent(row: str) -> _Item:
    comment = comment_of(row)
    depth = 1 if row[:1].isspace() else 0
    return _Item("comment", depth, text=comment) if comment else _Item("blank")


def _words(top: LogicalLine) -> Iterator[tuple[int, _Item]]:
    """The rows of the instructions with their margin set; rows before the first step and after the last are blank."""
    section: list[tuple[int, str]] = []
    for number, row in top.raw:
        if row.lstrip().startswith("## "):
            yield from _step_words(section)
            section = []
            yield number, _Item("words", text=_STEP + "## " + row.strip()[3:].strip())
        else:
            section.append((number, row))
    yield from _step_words(section)


def _step_words(rows: Sequence[tuple[int, str]]) -> Iterator[tuple[int, _Item]]:
    margin = min((len(row) - len(row.lstrip()) for _, row in rows if row.strip()), default=0)
    for number, row in rows:
        yield number, _Item("words", text=_STEP + row[margin:] if row.strip() else "")


# ---- blank lines


def _spaced(items: Sequence[_Item]) -> list[_Item]:
    """One blank line between sections, at most one inside them, none after a section's head."""
    spaced: list[_Item] = []
    for item in items:
        if item.head:
            _open_section(spaced, item)
        if not _is_blank(item) or _may_part(spaced, item):
            spaced.append(item)
    return spaced


def _may_part(spaced: Sequence[_Item], item: _Item) -> bool:
    """True when a blank row may stand here: not first, not right under a head, not twice outside the instructions."""
    if not spaced or spaced[-1].head not in ("", *_PLAIN_FOLLOWERS):
        return False
    return item.sort == "words" or spaced[-1].sort != "blank"


def _is_blank(item: _Item) -> bool:
    return item.sort in ("blank", "words") and not item.text


def _open_section(spaced: list[_Item], item: _Item) -> None:
    """Put a blank line above the section to come, and above the comments that stand right over it."""
    parted = _trim(spaced)
    comments: list[_Item] = []
    while spaced and spaced[-1].sort == "comment" and not spaced[-1].depth:
        comments.insert(0, spaced.pop())
    parted_above = _trim(spaced)
    follows = item.head in _PLAIN_FOLLOWERS and bool(spaced) and spaced[-1].head == item.head
    if spaced and (parted_above or not follows or (parted and not comments)):
        spaced.append(_Item("blank"))
    spaced += comments
    if comments and parted:
        spaced.append(_Item("blank"))


def _trim(spaced: list[_Item]) -> bool:
    """Take the blank rows off the end; True when there were any."""
    before = len(spaced)
    while spaced and _is_blank(spaced[-1]):
        spaced.pop()
    return len(spaced) < before


# ---- columns


def _blocks(items: Sequence[_Item]) -> Iterator[list[_Item]]:
    """Runs of rows without a blank line between them: siblings in them are aligned, comments or not."""
    for _, run in groupby(items, key=lambda item: item.sort == "blank"):
        yield list(run)


def _laid(items: Sequence[_Item]) -> Iterator[str]:
    widths: dict[tuple[str, int, int], list[int]] = {}
    for item in items:
        if item.spelled.shape in GAPS:
            lengths = [len(cell) for cell in item.spelled.cells]
            known = widths.setdefault(_column(item), [0] * len(lengths))
            known[:] = map(max, known, lengths)
    for item in items:
        yield from _rows(item, widths.get(_column(item), []))


def _column(item: _Item) -> tuple[str, int, int]:
    """What an item is aligned with: siblings of its shape; lines that are sections of their own are all siblings."""
    return item.spelled.shape, item.depth, item.block


def _rows(item: _Item, widths: Sequence[int]) -> list[str]:
    if item.sort != "line":
        return [item.text if item.sort == "words" else _STEP * item.depth + item.text if item.text else ""]
    code = _STEP * item.depth + _aligned(item.spelled, widths)
    rows = _broken(code, _STEP * (item.depth + 2))
    rows[-1] += "  " + item.text if item.text else ""
    return rows


def _aligned(spelled: Spelled, widths: Sequence[int]) -> str:
    if not widths:
        return " ".join(cell for cell in spelled.cells if cell)
    words = ""
    for cell, width, gap in zip(spelled.cells, widths, (*GAPS[spelled.shape], 0), strict=True):
        words += cell.ljust(width) + " " * gap if width else ""
    return words.rstrip()


def _broken(code: str, margin: str) -> list[str]:
    """A line in rows of at most `WIDTH` columns where commas outside brackets and quotes allow it."""
    rows = []
    while len(code) > WIDTH:
        commas = [at for at in _free_commas(code) if at < WIDTH and code[: at + 1].strip()]
        if not commas or not code[commas[-1] + 1 :].strip():
            break
        rows.append(code[: commas[-1] + 1])
        code = margin + code[commas[-1] + 1 :].strip()
    return [*rows, code]


def _free_commas(code: str) -> list[int]:
    depth, quoted, found = 0, False, []
    for at, sign in enumerate(code):
        quoted ^= sign == '"'
        if not quoted:
            depth += (sign == "(") - (sign == ")")
            if sign == "," and not depth:
                found.append(at)
    return found
