"""How long each catalogue draft takes: reading once, then drafting, cutting and checking for one body.

Median and worst over many bodies, in milliseconds, and again in yardsticks (multiples of
a fixed piece of plain Python work on this machine). Last, how the times grow for a
draft ten times as long.
"""

from __future__ import annotations

from statistics import median
from time import perf_counter

from app.pattern.body import draw_bodies
from app.pattern.drafting import choose, compile_draft, draw_sheets
from app.pattern.language import parse
from app.pattern.make import make_pattern
from tests.places import DRAFTS

BODIES = draw_bodies(100, seed=5)


def yardstick() -> float:
    """Seconds of a fixed piece of plain Python work."""

    def once() -> float:
        start = perf_counter()
        sum(i * i % 7 for i in range(200_000))
        return perf_counter() - start

    return min(once() for _ in range(5))


def timed(work, rounds: int) -> list[float]:
    """Seconds of each of some rounds of `work(index)`."""
    times = []
    for index in range(rounds):
        start = perf_counter()
        work(index)
        times.append(perf_counter() - start)
    return times


def read(text: str, name: str):
    """Parse and compile, without the cache."""
    parsed = parse(text, name)
    return compile_draft(parsed.draft, parsed.source)


def main() -> None:
    unit = yardstick()
    print(f"yardstick {unit * 1e3:.1f} ms")
    print(f"{'draft':<20}{'lines':>6}{'read ms':>9}{'median ms':>11}{'worst ms':>10}{'yardsticks':>12}")
    for path in sorted(DRAFTS.glob("*.draft")):
        text = path.read_text("utf-8")
        make_pattern(text, path.name, BODIES[0], {})
        times = timed(lambda i, t=text, p=path: make_pattern(t, p.name, BODIES[i % len(BODIES)], {}), 100)
        reading = median(timed(lambda i, t=text, p=path: read(t, p.name), 3))
        print(
            f"{path.stem:<20}{text.count(chr(10)):>6}{reading * 1e3:>9.0f}{median(times) * 1e3:>11.1f}"
            f"{max(times) * 1e3:>10.1f}{median(times) / unit:>12.2f}"
        )
    growth(unit)


def growth(unit: float) -> None:
    """Reading and drawing a sheet of n steps and of ten times as many."""
    print("\nsteps   read ms   draw ms")
    for steps in (200, 2000):
        rows = ["    p0 = at 0, 0"] + [f"    p{i} = p{i - 1} right 1mm down waist_girth / 900" for i in range(1, steps)]
        text = 'draft "Long"\nneeds\n    waist_girth\nsheet s\n' + "\n".join(rows)
        program = read(text, "long")
        chosen = choose(program.choices, {})
        reading = median(timed(lambda i, t=text: read(t, "long"), 3))
        drawing = median(timed(lambda i, p=program, c=chosen: draw_sheets(p, BODIES[0], c), 9))
        print(f"{steps:>5}{reading * 1e3:>10.0f}{drawing * 1e3:>10.2f}")


if __name__ == "__main__":
    main()
