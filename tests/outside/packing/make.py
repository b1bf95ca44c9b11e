"""`python -m tests.outside.packing.make PROBLEM.json OUT.csv`: a published packing problem as a plain table.

The published form is that of the heuristic named in the README: `items`, each with `demand`, `allowed_orientations` and
a closed ring `shape.data`; and `strip_height`. The table has a line for each corner: kind, copies, x, y. Only problems
whose pieces may be turned by half a turn and no other way are taken, as cloth with a grain allows.
"""

from __future__ import annotations

import json
import sys
from collections.abc import Mapping
from pathlib import Path
from typing import Any


def table_of(problem: Mapping[str, Any]) -> str:
    """The problem as text: the width of the strip in a first line, then the corners of each kind of piece."""
    lines = [f"# strip {problem['strip_height']:g} wide", "kind,copies,x,y"]
    for item in problem["items"]:
        if item["allowed_orientations"] != [0.0, 180.0]:
            raise ValueError(f"piece {item['id']} turns otherwise than by half a turn")
        corners = item["shape"]["data"]
        if corners[0] != corners[-1]:
            raise ValueError(f"the ring of piece {item['id']} is open")
        lines += [f"{item['id']},{item['demand']},{x:g},{y:g}" for x, y in corners[:-1]]
    return "\n".join(lines) + "\n"


def main(source: str, target: str) -> None:
    """Write the table of a problem."""
    Path(target).write_text(table_of(json.loads(Path(source).read_text("utf-8"))), "utf-8")


if __name__ == "__main__":
    main(*sys.argv[1:3])
