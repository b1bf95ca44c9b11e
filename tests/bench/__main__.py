"""Every figure of `make bench`, one script after another; nothing here is asserted."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

HERE = Path(__file__).parent


def main() -> int:
    """Run each bench beside this file as a process of its own; the worst exit status is ours."""
    worst = 0
    for script in sorted(HERE.glob("[a-z]*.py")):
        print(f"\n==== {script.stem} ====", flush=True)
        worst = max(worst, subprocess.run([sys.executable, str(script)], cwd=HERE.parents[1], check=False).returncode)
    return worst


if __name__ == "__main__":
    sys.exit(main())
