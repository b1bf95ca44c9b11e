"""How short lays come out and how long they take: the dress of the lay tests on eight cloths."""

import runpy
import sys
import time
from pathlib import Path as File

ROOT = File(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

from app.pattern.lay import EFFORT_FULL, EFFORT_QUICK, LayPlan, lay_plan_for  # noqa: E402
from app.pattern.pieces.model import Fabric  # noqa: E402

CLOTHS = [
    Fabric("cloth", f"{width:.0f} mm {'folded' if folded else 'open'} {'one-way' if one_way else 'two-way'}", width,
          folded=folded, one_way=one_way)
    for width in (1120.0, 1400.0)
    for folded in (True, False)
    for one_way in (False, True)
]  # fmt: skip


def main() -> None:
    """Print a row for each cloth and effort: length, share of the cloth used, processor and waiting time."""
    dress = runpy.run_path(str(ROOT / "tests/pattern/lay/conftest.py"))["dress_items"]()
    print(f"{'cloth':26} {'effort':6} {'length mm':>9} {'used':>6} {'cpu s':>6} {'wait s':>6}")
    for cloth in CLOTHS:
        for name, effort in (("quick", EFFORT_QUICK), ("full", EFFORT_FULL)):
            wait, cpu = time.perf_counter(), time.process_time()
            lay = lay_plan_for(dress, cloth, effort=effort)
            wait, cpu = time.perf_counter() - wait, time.process_time() - cpu
            assert isinstance(lay, LayPlan), lay
            print(f"{cloth.title:26} {name:6} {lay.length:9.0f} {lay.utilisation:6.1%} {cpu:6.2f} {wait:6.2f}")


if __name__ == "__main__":
    main()
