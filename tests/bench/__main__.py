"""The benches of `make bench`: a whole build first, then each room's own; or only those that are named.

python -m tests.bench [build] [lay] [sheets] [geometry]
"""

import runpy
import sys
from pathlib import Path

HERE = Path(__file__).parent
BENCHES = ("build", *sorted(path.stem for path in HERE.glob("[a-z]*.py") if path.stem != "build"))


def main(names: list[str]) -> None:
    """Run the named benches, each as its own script."""
    for name in names or BENCHES:
        print(f"\n== {name}")
        sys.argv = [name]
        runpy.run_path(str(HERE / f"{name}.py"), run_name="__main__")


if __name__ == "__main__":
    main(sys.argv[1:])
