"""Work that hangs on a designer's text, done in processes of its own, so that it can hurt nobody.

`run` and `run_or_busy` run a function of the core or the studio there and hand back its value.
"""

from app.base.aside.door import Aside, Bounds, BrokenOff, run, run_or_busy, set_up
from app.base.aside.memory import bound_memory

__all__ = ["Aside", "Bounds", "BrokenOff", "bound_memory", "run", "run_or_busy", "set_up"]
