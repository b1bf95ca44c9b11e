"""How long a build takes, stage by stage: run by `make bench`, never part of the test run, asserts nothing.

    python tests/bench/build.py [draft name ...]

Seconds of one machine mean little on another, so each figure is also given in yardsticks:
multiples of the time that this same machine takes for a fixed piece of plain Python work.
"""

from __future__ import annotations

import sys
from collections import defaultdict
from collections.abc import Callable, Mapping
from pathlib import Path
from tempfile import TemporaryDirectory
from time import perf_counter, process_time

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

from app.packs.build import build_pack  # noqa: E402
from app.packs.request import PackReady, PackRequest  # noqa: E402
from app.pattern.body import MEASURES  # noqa: E402
from app.pattern.drawing import preview_svg  # noqa: E402
from app.pattern.lay import EFFORT_QUICK, items_for, lay_plan_for  # noqa: E402
from app.pattern.make import DraftCard, Made, make_pattern, make_staged, read_draft  # noqa: E402
from app.pattern.pieces.model import Fabric  # noqa: E402
from app.pattern.units import Unit  # noqa: E402
from tests.places import DRAFTS  # noqa: E402

ROUNDS = 20


def yardstick() -> float:
    """Seconds for a fixed piece of plain Python work; the best of five."""
    return min(_once(lambda: sum(i * i % 7 for i in range(200_000))) for _ in range(5))


def _once(work: Callable[[], object]) -> float:
    start = process_time()
    work()
    return process_time() - start


def middling_body(card: DraftCard) -> dict[str, float]:
    """A body in the middle of each typical range, mm."""
    return {name: round(sum(MEASURES[name].typical) / 2.0) for name in card.needs}


def row(words: str, seconds: float, whole: float, stick: float) -> None:
    """One line of the table."""
    print(f"  {words:<34} {seconds * 1000:9.1f} ms {seconds / whole:7.0%} {seconds / stick:9.1f} y")


def bench_build(request: PackRequest, stick: float) -> None:
    """One whole pack, split by stage, in seconds of the processor and of the wall."""
    with TemporaryDirectory() as folder:
        began = perf_counter()
        begun: list[tuple[str, float]] = []
        outcome = build_pack(request, Path(folder), lambda stage, share: begun.append((stage, process_time())))
        wall, ends = perf_counter() - began, [*(moment for _, moment in begun[1:]), process_time()]
        stages = [(stage, end - start) for (stage, start), end in zip(begun, ends, strict=True)]
        if not isinstance(outcome, PackReady):
            print("  refused:", *outcome.problems, sep="\n    ")
            return
        whole = sum(seconds for _, seconds in stages)
        for words, seconds in stages:
            row(words, seconds, whole, stick)
        row("whole pack, processor", whole, whole, stick)
        row("whole pack, wall", wall, whole, stick)
        print(f"  {outcome.summary['sheets']} sheets, {sum(file.bytes for file in outcome.files) / 1024:.0f} kB")


def bench_making(text: str, name: str, body: Mapping[str, float], stick: float) -> None:
    """Drafts per second, and how each splits into reading, drafting, cutting and checking."""
    laps: dict[str, float] = defaultdict(float)

    at = start = process_time()

    def ended(stage: str) -> None:
        nonlocal at
        now = process_time()
        laps[stage] += (now - at) / ROUNDS
        at = now

    for _ in range(ROUNDS):
        at = process_time()
        make_staged(text, name, body, {}, Unit.CM, ended)
    each = (process_time() - start) / ROUNDS
    for stage, seconds in laps.items():
        row(f"making: {stage}", seconds, sum(laps.values()), stick)
    print(f"  {1 / each:.0f} drafts a second")


def bench_preview(text: str, name: str, body: Mapping[str, float], stick: float) -> None:
    """What a customer waits for on the review page: a made pattern, its picture and a quick lay."""

    def answer() -> None:
        made = make_pattern(text, name, body, {}, Unit.CM)
        if isinstance(made, Made):
            preview_svg(made.pattern, Unit.CM)
            for fabric in made.pattern.fabrics:
                cloth = Fabric(fabric.name, fabric.title, fabric.width, folded=fabric.folded, one_way=fabric.one_way)
                lay_plan_for(items_for(made.pattern, fabric.name), cloth, effort=EFFORT_QUICK)

    seconds = min(_once(answer) for _ in range(3))
    row("preview with a quick lay", seconds, seconds, stick)


def bench(path: Path, stick: float) -> None:
    """Everything for one draft, after one build that warms fonts and caches."""
    text, name = path.read_text("utf-8"), path.name
    card = read_draft(text, name)
    if not isinstance(card, DraftCard):
        print(f"{name}: not readable:", *card, sep="\n    ")
        return
    body = middling_body(card)
    request = PackRequest(text, name, body, {}, "cm", "a4", {}, "TL-0000", "Bench", "Bench", card.title)
    print(f"\n{card.title} ({name})")
    bench_build(request, stick)
    bench_making(text, name, body, stick)
    bench_preview(text, name, body, stick)


def main(names: list[str]) -> None:
    """Bench the named drafts of the catalogue, or all of them."""
    stick = yardstick()
    print(f"yardstick: {stick * 1000:.1f} ms of plain Python")
    for path in sorted(DRAFTS.glob("*.draft")):
        if not names or path.stem in names:
            bench(path, stick)


if __name__ == "__main__":
    main(sys.argv[1:])
