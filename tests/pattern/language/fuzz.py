"""Spoils drafts on purpose and reads, draws, cuts and checks what comes out: nothing may break, nothing may run on.

`python -m tests.pattern.language.fuzz --count 20000` runs the long count. Each case
is told by its seed alone, so a finding is repeated with `--first SEED --count 1`.
With `--multiply` the drafts are not spoiled but blown up: repeats inside repeats, thousands
of lines, curves of hundreds of points, huge numbers, everything up to 256 KB.
"""

from __future__ import annotations

import argparse
import random
import re
import resource
import sys
import time
from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from types import FrameType
from typing import Any

from app.pattern.body import size_body
from app.pattern.make import Made, make_pattern, read_draft
from app.pattern.problem import Problem, Refused
from tests.places import DRAFTS

SMALL = Path(__file__).parent / "small"
NAME = "fuzz.draft"
#: Python calls that one input may cost: the whole making of the largest draft of the catalogue costs under a tenth.
MOST_CALLS = 12_000_000
#: Characters that a draft is blown up to at most.
MOST_CHARACTERS = 256 * 1024
TOKEN = re.compile(r'"[^"\n]*"|[A-Za-z_]\w*|\d+(?:\.\d+)?(?:cm|mm|in|m|deg|°|%)?|\.\.|[<>]=|\n *| +|.')
NUMBER = re.compile(r"(?<![\w.])\d+(?:\.\d+)?")
WORD = re.compile(r"\b[a-z][a-z0-9_]*\b")
ODD_NUMBERS = ("0", "1", "2", "7", "0.0000001", "0.5", "24", "360", "49999", "999999999", "1/3", "1/0", "38 1/2")
ODD_LINES = (
    "    when yes\n",
    "    when no\n",
    "    solve odd_one from 1cm to 900000cm until length(hem) = 999999cm\n",
    "        solve odd_two from 0cm to 1cm until odd_two = odd_one\n",
    "    odd = at 0, 0\n",
    "sheet odd\n",
    "figures\n",
    "steps\n",
    "\t\n",
    "    " * 9 + "x = 1\n",
    "    x = " + "(" * 45 + "1cm" + ")" * 45 + "\n",
    "    x = " + "-" * 400 + "1cm\n",
    "    x = 1cm" + " + 1cm" * 140 + "\n",
    "    x = a" + " down 1cm" * 100 + "\n",
)
Mutation = Callable[[random.Random, str], str]


class RanOn(BaseException):
    """An input that costs more calls than any draft may."""


@dataclass(frozen=True)
class Case:
    """One input with what became of it."""

    seed: int
    text: str
    outcome: str
    calls: int
    seconds: float


@cache
def sources() -> tuple[tuple[str, ...], ...]:
    """The drafts that are spoiled: the catalogue's, and small quick ones that use the forms those do not."""
    return tuple(tuple(p.read_text("utf-8") for p in sorted(f.glob("*.draft"))) for f in (DRAFTS, SMALL, SMALL, SMALL))


# ---- ways of spoiling: bytes


def spoil_bytes(draw: random.Random, text: str) -> str:
    """A few bytes changed, put in or taken away."""
    raw = bytearray(text.encode())
    for _ in range(draw.randint(1, 6)):
        at = draw.randrange(len(raw) + 1)
        act = draw.randrange(4)
        if act == 0 and at < len(raw):
            raw[at] = draw.randrange(256)
        elif act == 1:
            raw[at:at] = bytes(draw.randrange(256) for _ in range(draw.randint(1, 8)))
        elif act == 2:
            del raw[at : at + draw.randint(1, 40)]
        else:
            start = draw.randrange(len(raw) + 1)
            raw[at:at] = raw[start : start + draw.randint(1, 200)]
    return raw.decode("utf-8", errors="replace")


# ---- ways of spoiling: the grammar's own pieces


def spoil_lines(draw: random.Random, text: str) -> str:
    """A line taken away, written twice, moved, put elsewhere, or an odd one put in."""
    rows = text.splitlines(keepends=True) or ["\n"]
    a, b = draw.randrange(len(rows)), draw.randrange(len(rows))
    act = draw.randrange(6)
    if act == 0:
        del rows[a]
    elif act == 1:
        rows.insert(a, rows[a])
    elif act == 2:
        rows[a], rows[b] = rows[b], rows[a]
    elif act == 3:
        rows.insert(a, rows[b])
    elif act == 4:
        rows.insert(a, draw.choice(ODD_LINES))
    else:
        rows[a] = draw.choice(("", "    ", "        ")) + rows[a].lstrip(" ")
    return "".join(rows)


def spoil_tokens(draw: random.Random, text: str) -> str:
    """Words of the language taken away, doubled, changed about, or put in the place of others."""
    tokens = TOKEN.findall(text) or [" "]
    for _ in range(draw.randint(1, 3)):
        a, b = draw.randrange(len(tokens)), draw.randrange(len(tokens))
        act = draw.randrange(4)
        if act == 0 and len(tokens) > 1:
            del tokens[a]
        elif act == 1:
            tokens.insert(a, tokens[a])
        elif act == 2:
            tokens[a], tokens[b] = tokens[b], tokens[a]
        else:
            tokens[a] = tokens[b]
    return "".join(tokens)


def spoil_numbers(draw: random.Random, text: str) -> str:
    """A number made very small, very large, nothing or negative."""

    def other(match: re.Match[str]) -> str:
        return draw.choice(("", "", "-")) + draw.choice(ODD_NUMBERS)

    return _replaced(draw, text, NUMBER, other)


def spoil_names(draw: random.Random, text: str) -> str:
    """A name put in the place of another: of a wrong kind, too early, or its own."""
    names = WORD.findall(text) or ["a"]
    return _replaced(draw, text, WORD, lambda match: draw.choice(names))


def spoil_kinds(draw: random.Random, text: str) -> str:
    """A name replaced by one from the same sheet or block, so that many of these still draw something odd."""
    rows = text.split("\n")
    assigned = [i for i, row in enumerate(rows) if re.match(r" +\w+ += ", row)]
    if not assigned:
        return text
    at = draw.choice(assigned)
    near = [rows[i].split()[0] for i in assigned if abs(i - at) < 12]
    head, _, tail = rows[at].partition("=")
    rows[at] = head + "=" + _replaced(draw, tail, WORD, lambda match: draw.choice(near))
    return "\n".join(rows)


def _replaced(draw: random.Random, text: str, what: re.Pattern[str], other: Callable[[re.Match[str]], str]) -> str:
    found = list(what.finditer(text))
    if not found:
        return text
    match = draw.choice(found)
    return text[: match.start()] + other(match) + text[match.end() :]


MUTATIONS: Sequence[Mutation] = (
    spoil_bytes,
    spoil_lines,
    spoil_tokens,
    spoil_numbers,
    spoil_numbers,
    spoil_numbers,
    spoil_names,
    spoil_kinds,
    spoil_kinds,
    spoil_kinds,
)


def spoiled(seed: int) -> str:
    """The text of the case `seed`: a draft spoiled one to four times."""
    draw = random.Random(seed)
    text = draw.choice(draw.choice(sources()))
    for _ in range(draw.choice((1, 1, 1, 2, 3, 4))):
        text = draw.choice(MUTATIONS)(draw, text)
    return text


# ---- ways of blowing up


def in_repeats(draw: random.Random, text: str) -> str:
    """Some lines drawn over and over, in one to three repeats inside one another."""
    rows = text.split("\n")
    at = draw.choice([i for i, row in enumerate(rows) if re.match(r"    \w+ += ", row)] or [0])
    size, heads = draw.randint(1, 8), []
    for depth in range(draw.randint(1, 3)):
        heads.append(
            "    " * (depth + 1) + f"repeat odd_{draw.randrange(10**6)} from 1 to {draw.choice((20, 199, 200))}"
        )
    inside = [heads[0][:0] + "    " * len(heads) + row for row in rows[at : at + size]]
    return "\n".join([*rows[:at], *heads, *inside, *rows[at + size :]])


def many_lines(draw: random.Random, text: str) -> str:
    """A line, or a few, written over and over, each time under other names."""
    rows = text.split("\n")
    at, size = draw.randrange(len(rows)), draw.choice((1, 1, 2, 5, 20))
    block = "\n".join(rows[at : at + size])
    names = re.findall(r"^ +(\w+) += |^(?:piece|sheet|girth) (\w+)", block, re.MULTILINE)
    copies = []
    for number in range(draw.choice((10, 100, 1000, 4000))):
        copy = block
        for name in {a or b for a, b in names}:
            copy = re.sub(rf"\b{name}\b", f"{name}_{number}", copy)
        copies.append(copy)
    return "\n".join([*rows[: at + size], *copies, *rows[at + size :]])


def many_parts(draw: random.Random, text: str) -> str:
    """A list made long: the points of a curve, the sides of an outline, the parts of a sum or a function."""
    rows = text.split("\n")
    at = draw.choice([i for i, row in enumerate(rows) if "," in row or "+" in row] or [0])
    sign = "," if "," in rows[at] else "+"
    head, _, tail = rows[at].partition(sign)
    part = tail.split(sign)[0].strip() or "1cm"
    times = draw.choice((5, 30, 120, 800))
    shifted = [f"({part} right {n}mm up {n * 37 % 200}mm)" if draw.random() < 0.5 else part for n in range(times)]
    lines = [f"{sign} ".join(shifted[k : k + 12]) for k in range(0, times, 12)]
    return "\n".join(
        [*rows[:at], head + sign + " " + f"{sign}\n        ".join([*lines, tail.strip()]), *rows[at + 1 :]]
    )


def zigzags(draw: random.Random, text: str) -> str:
    """Curves that turn to and fro, with lines beside them, crossings and parts, over and over."""
    rows = text.split("\n")
    at = draw.choice([i for i, row in enumerate(rows) if re.match(r"    \w+ += ", row)] or [0])
    high, count = draw.choice((5, 200, 2000)), draw.choice((4, 12, 30, 100))
    points = [f"(at {draw.randrange(high)}mm, {draw.randrange(high)}mm)" for _ in range(count)]
    curve = "    odd_z = smooth " + ",\n        ".join(", ".join(points[k : k + 12]) for k in range(0, count, 12))
    works = (
        "parallel to odd_z by {}mm left",
        "crossing of odd_z and (odd_z up {}mm)",
        "nearest(odd_z, (at {}mm, 1mm))",
        "odd_z turned {}deg about (at 0, 0)",
        "smooth (at 0, 0), (start of odd_z), (at {}mm, 0)",
    )
    copies = [f"    odd_{n} = {draw.choice(works).format(n % 90 + 1)}" for n in range(draw.choice((1, 20, 500)))]
    return "\n".join([*rows[:at], curve, *copies, *rows[at:]])


def huge_numbers(draw: random.Random, text: str) -> str:
    """Every number of a line made larger by the same factor."""
    rows = text.split("\n")
    at, factor = draw.randrange(len(rows)), draw.choice((3, 10, 100))
    rows[at] = NUMBER.sub(lambda match: f"{float(match[0]) * factor:g}", rows[at])
    return "\n".join(rows)


BLOWN_UP: Sequence[Mutation] = (
    in_repeats,
    in_repeats,
    many_lines,
    many_lines,
    many_parts,
    zigzags,
    zigzags,
    huge_numbers,
)


def multiplied(seed: int) -> str:
    """The text of the case `seed`: a draft blown up one to four times, and cut off where it becomes too long."""
    draw = random.Random(seed)
    text = draw.choice(draw.choice(sources()))
    for _ in range(draw.randint(1, 4)):
        text = draw.choice(BLOWN_UP)(draw, text)
    return text[:MOST_CHARACTERS]


# ---- running


@contextmanager
def counted() -> Iterator[list[int]]:
    """Counts Python calls, and ends what costs too many of them."""
    calls = [0]

    def count(frame: FrameType, event: str, argument: Any) -> None:
        if event == "call":
            calls[0] += 1
            if calls[0] > MOST_CALLS:
                raise RanOn(f"more than {MOST_CALLS} calls")

    sys.setprofile(count)
    try:
        yield calls
    finally:
        sys.setprofile(None)


def run(text: str, seed: int = 0) -> Case:
    """Read, draw, cut and check a text; a problem without place or fix fails like an exception."""
    began = time.process_time()
    with counted() as calls:
        card = read_draft(text, NAME)
        made = make_pattern(text, NAME, size_body("92"), {})
    problems = made.findings if isinstance(made, Made) else made.problems
    _sound(problems)
    outcome = "made" if isinstance(made, Made) else "refused: " + problems[0].code.partition(".")[0]
    outcome = outcome if isinstance(made, Made) or not isinstance(card, Refused) else "refused: not read"
    return Case(seed, text, outcome, calls[0], time.process_time() - began)


def _sound(problems: Sequence[Problem]) -> None:
    for problem in problems:
        assert problem.where is not None, f"a problem without a place: {problem}"
        assert problem.fix.strip(), f"a problem without a remedy: {problem}"
        assert problem.message.strip(), f"a problem without a message: {problem.code}"


def main() -> int:
    """Run many cases and say what came of them; 1 when one of them broke something."""
    parser = argparse.ArgumentParser(prog="fuzz", description=__doc__)
    parser.add_argument("--count", type=int, default=20_000)
    parser.add_argument("--first", type=int, default=0, help="the first seed")
    parser.add_argument("--multiply", action="store_true", help="blow drafts up in place of spoiling them")
    options = parser.parse_args()
    outcomes: Counter[str] = Counter()
    worst: list[Case] = []
    broken = 0
    for seed in range(options.first, options.first + options.count):
        text = multiplied(seed) if options.multiply else spoiled(seed)
        try:
            case = run(text, seed)
        except (Exception, RanOn) as wrong:  # noqa: BLE001  (every kind must be caught: this is what is looked for)
            broken += 1
            print(f"seed {seed}: {type(wrong).__name__}: {wrong}", flush=True)
            continue
        outcomes[case.outcome] += 1
        worst = sorted([*worst, case], key=lambda c: -c.seconds)[:5]
    print(f"{options.count} inputs, {broken} broke something")
    for outcome, count in outcomes.most_common():
        print(f"{count:8} {outcome}")
    print(f"{resource.getrusage(resource.RUSAGE_SELF).ru_maxrss // 1024} MB of memory at most")
    for case in worst:
        print(f"seed {case.seed}: {case.calls} calls, {case.seconds:.2f} s of processor, {case.outcome}")
    return 1 if broken else 0


if __name__ == "__main__":
    sys.exit(main())
