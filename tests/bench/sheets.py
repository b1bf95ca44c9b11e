"""How many sheets a plan takes, and how long planning and writing take: `python -m tests.bench.sheets`.

Figures are of processor time, since several programs may share the machine.
"""

import tempfile
from pathlib import Path
from time import process_time

from app.pattern.body import size_body
from app.pattern.drawing import preview_svg
from app.pattern.make import Made, make_pattern
from app.pattern.sheets import PAPERS, PrintInfo, plan_roll, plan_sheets, write_tiled_pdf
from app.pattern.units import Unit
from tests.pattern.drawing.hand_pieces import pattern as hand_pattern

DRAFTS = Path(__file__).resolve().parents[2] / "app" / "catalogue" / "drafts"


def patterns():
    """The hand-made pattern and each demo draft made for size 92."""
    yield "hand-made", hand_pattern()
    for file in sorted(DRAFTS.glob("*.draft")):
        made = make_pattern(file.read_text(encoding="utf-8"), file.name, size_body("92", stature=1680.0), {})
        if isinstance(made, Made):
            yield file.stem, made.pattern


def timed(work):
    start = process_time()
    result = work()
    return result, process_time() - start


def bench():
    print(f"{'pattern':<16}{'paper':<9}{'row':>4}{'plan':>6}{'saved':>7}{'plan s':>8}{'write s':>9}{'kB':>6}")
    for name, pattern in patterns():
        for paper in ("a4", "letter", "a3"):
            plan, planning = timed(lambda p=pattern, n=paper: plan_sheets(p, PAPERS[n]))
            with tempfile.TemporaryDirectory() as folder:
                path = Path(folder) / "sheets.pdf"
                info = PrintInfo(pattern.title, "K7F2Q")
                _, writing = timed(lambda a=plan, p=pattern, i=info, t=path: write_tiled_pdf(a, p, i, t))
                size = path.stat().st_size / 1000.0
            saved = 1.0 - len(plan.sheets) / plan.in_a_row
            print(
                f"{name:<16}{paper:<9}{plan.in_a_row:>4}{len(plan.sheets):>6}{saved:>7.0%}"
                f"{planning:>8.2f}{writing:>9.2f}{size:>6.0f}"
            )
        roll, rolling = timed(lambda p=pattern: plan_roll(p, 914.0))
        _, drawing = timed(lambda p=pattern: preview_svg(p, Unit.CM))
        print(f"{name:<16}roll of 914 mm: {roll.height:.0f} mm in {rolling:.2f} s; preview in {drawing * 1000:.0f} ms")


if __name__ == "__main__":
    bench()
