"""Sheets: how many a plan takes, how true the files are, and the time: `python -m tests.bench.sheets [draft ...]`.

`row` are the sheets that pieces in a row on the grid would touch, `bound` those that their
area alone needs, `strip` the narrowest strip in mm that some sheet is there for. Figures of
time are of the processor, since several programs may share the machine.
"""

import sys
import tempfile
from itertools import pairwise
from math import ceil
from pathlib import Path
from time import process_time

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

from shapely.geometry import box  # noqa: E402

from app.pattern.body import complete_body, size_body  # noqa: E402
from app.pattern.drawing import GREY, LineStyle, preview_svg  # noqa: E402
from app.pattern.make import Made, make_pattern  # noqa: E402
from app.pattern.problem import Refused  # noqa: E402
from app.pattern.sheets import (  # noqa: E402
    PAPERS,
    ROLLS,
    PrintInfo,
    plan_projector,
    plan_roll,
    plan_sheets,
    write_projector_pdf,
    write_roll_pdf,
    write_tiled_pdf,
)
from app.pattern.sheets.artwork import OnePattern  # noqa: E402
from app.pattern.sheets.footprint import moved  # noqa: E402
from app.pattern.units import Unit  # noqa: E402
from tests.pattern.drawing.hand_pieces import pattern as hand_pattern  # noqa: E402
from tests.pattern.sheets.pdf_reading import open_pdf, paths_of  # noqa: E402
from tests.places import DRAFTS  # noqa: E402

PAPER_NAMES = ("a4", "letter", "legal", "a3", "tabloid")
#: As many further orders as the packs of orders try.
TRIES = 20
#: A child of about six years, mm: for drafts that no grown body fits.
CHILD = {"stature": 1160.0, "bust_girth": 600.0, "waist_girth": 550.0, "hip_girth": 630.0}


def patterns(names):
    """The hand-made pattern and each draft of the catalogue that can be made for a grown body or a child's."""
    yield "hand-made", hand_pattern()
    bodies = (size_body("92", stature=1680.0), complete_body(CHILD))
    for file in sorted(DRAFTS.glob("*.draft")):
        if names and file.stem not in names:
            continue
        made = (make_pattern(file.read_text(encoding="utf-8"), file.name, body, {}) for body in bodies)
        found = next((one for one in made if isinstance(one, Made)), None)
        if found is None:
            print(f"{file.stem:<18} cannot be made for the bodies of this bench")
        else:
            yield file.stem, found.pattern


def timed(work):
    start = process_time()
    result = work()
    return result, process_time() - start


def strips(plan, pattern):
    """For each sheet, the width in mm of the widest thing it carries."""
    grounds = {g.piece: g.shape for g in OnePattern(pattern).grounds()}
    shapes = {p.piece: moved(grounds[p.piece], p.transform) for p in plan.placed}
    for sheet in plan.sheets:
        held = [shapes[name].intersection(box(*sheet.box)).bounds for name in sheet.pieces]
        yield max(min(b[2] - b[0], b[3] - b[1]) for b in held)


def bound(plan, pattern):
    wide, high = plan.paper.printable
    return ceil(sum(g.shape.area for g in OnePattern(pattern).grounds()) / (wide * high))


def errors(plan, path):
    """The largest error of a check square (edge to edge), and the largest gap between a line on two sheets."""
    width, margin = GREY.strokes[LineStyle.CUTTING].width, plan.paper.margin
    with open_pdf(path) as document:
        sides = [p.ink[2] - p.ink[0] for p in paths_of(document[0])]
        scale = max(min(abs(side - true) for side in sides) for true in (50.0, 50.8))
        held = []
        for number, sheet in enumerate(plan.sheets, start=1):
            shift = (sheet.box.left - margin, sheet.box.bottom - margin)
            lines = [p.points for p in paths_of(document[number]) if abs(p.width - width) < 0.005]
            held += [[(x + shift[0], y + shift[1]) for x, y in points] for points in lines]
    alike = {}
    for points in held:
        alike.setdefault((len(points), round(points[0][0] / 2.0), round(points[0][1] / 2.0)), []).append(points)
    gaps = [
        max(abs(a - b) for p, q in zip(one, two, strict=True) for a, b in zip(p, q, strict=True))
        for group in alike.values()
        for one, two in pairwise(group)
    ]
    return scale, max(gaps, default=0.0)


def bench_papers(name, pattern, folder, totals):
    for paper in PAPER_NAMES:
        plan, planning = timed(lambda n=paper: plan_sheets(pattern, PAPERS[n], tries=TRIES))
        path = folder / f"{paper}.pdf"
        _, writing = timed(lambda a=plan, t=path: write_tiled_pdf(a, pattern, PrintInfo(pattern.title, "K7F2Q"), t))
        scale, gap = errors(plan, path)
        count, row = len(plan.sheets), plan.in_a_row
        totals.setdefault(paper, []).append((row, count, bound(plan, pattern)))
        print(
            f"{name:<18}{paper:<9}{row:>4}{count:>6}{bound(plan, pattern):>7}{1.0 - count / row:>7.0%}"
            f"{min(strips(plan, pattern)):>7.0f}{planning:>8.2f}{writing:>9.2f}{path.stat().st_size / 1000.0:>6.0f}"
            f"{scale:>10.4f}{gap:>9.4f}"
        )


def bench_whole(name, pattern, folder):
    roll, rolling = timed(lambda: plan_roll(pattern, ROLLS["36in"], tries=4))
    info = PrintInfo(pattern.title, "K7F2Q")
    if isinstance(roll, Refused):
        print(f"{name:<18}36 in roll: {roll.problems[0].message}")
    else:
        write_roll_pdf(roll, pattern, info, folder / "roll.pdf")
        size = (folder / "roll.pdf").stat().st_size / 1000.0
        print(f"{name:<18}36 in roll: {roll.height:.0f} mm in {rolling:.2f} s, {size:.0f} kB", end="; ")
    _, projecting = timed(lambda: write_projector_pdf(plan_projector(pattern, info), pattern, info, folder / "p.pdf"))
    _, drawing = timed(lambda: preview_svg(pattern, Unit.CM))
    print(f"projector in {projecting:.2f} s; preview in {drawing * 1000:.0f} ms")


def bench(names):
    print(
        f"{'pattern':<18}{'paper':<9}{'row':>4}{'plan':>6}{'bound':>7}{'saved':>7}{'strip':>7}"
        f"{'plan s':>8}{'write s':>9}{'kB':>6}{'scale mm':>10}{'seam mm':>9}"
    )
    totals = {}
    with tempfile.TemporaryDirectory() as loose:
        for name, pattern in patterns(names):
            bench_papers(name, pattern, Path(loose), totals)
            bench_whole(name, pattern, Path(loose))
    print("\nover all patterns")
    for paper, rows in totals.items():
        row, count, least = (sum(column) for column in zip(*rows, strict=True))
        print(f"{paper:<9}{row:>5} in a row {count:>5} planned {least:>5} by area {1.0 - count / row:>6.0%} saved")


if __name__ == "__main__":
    bench(sys.argv[1:])
