"""A check as a value: its name, its title, the kinds of findings it can give, and what runs it."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass

from app.pattern.checks.table import CuttingTable
from app.pattern.problem import Problem, Told

__all__ = ["Check"]


@dataclass(frozen=True, slots=True)
class Check:
    """One check. `name` is that of its module, `title` what every reader knows it by.

    `findings` are all the kinds of problems that `run` can give for a pattern on the table. Raises ValueError for two
    kinds of one code, and where `run` gives one that is not among them.
    """

    name: str
    title: str
    run: Callable[[CuttingTable], Iterable[Problem]]
    findings: tuple[Told, ...]

    def __post_init__(self) -> None:
        """Each code is declared once, and is a check's."""
        codes = [told.code for told in self.findings]
        if not codes or len(set(codes)) < len(codes) or not all(code.startswith("checks.") for code in codes):
            raise ValueError(f"the check {self.name} declares its codes, each once and each as `checks.`: {codes}")

    def on(self, table: CuttingTable) -> Iterator[Problem]:
        """What the check finds, each of a kind that it declares."""
        severities = {told.code: told.severity for told in self.findings}
        for problem in self.run(table):
            if severities.get(problem.code) is not problem.severity:
                raise ValueError(f"the check {self.name} declares no {problem.severity} {problem.code}")
            yield problem
