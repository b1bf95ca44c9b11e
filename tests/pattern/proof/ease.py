"""How much room the catalogue's drafts leave on bodies of the survey itself, at each place that they declare.

    python -m tests.pattern.proof.ease [DRAFT ...]

prints a row for each fit line as offered, over `BODIES` bodies drawn like those surveyed (spread 1: no customers at
large), in mm: the mean, the standard deviation, the least and the most of the ease, and the range that the draft wants.
`ease.md` keeps such a table beside what the same places came to while armholes were drawn from the bust alone and
thighs from the hip.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from statistics import fmean, pstdev

from app.pattern.body import draw_bodies
from app.pattern.body.populations_children import draw_children
from app.pattern.make import Failed, Made, make_pattern
from app.pattern.pieces.model import FitPlace
from tests.places import DRAFT_FILES

#: So many bodies are drawn, and the seed they are drawn with: not that of the proofs.
BODIES, SEED = 2_000, 11


@dataclass(frozen=True)
class Ease:
    """The ease at one place of a draft over the bodies, mm; `wanted` from the least to the most that is declared."""

    draft: str
    title: str
    bodies: int
    mean: float
    sd: float
    least: float
    most: float
    wanted: tuple[float, float]

    @property
    def row(self) -> str:
        """A row of the table."""
        low, high = self.wanted
        return (
            f"| {self.draft} | {self.title} | {self.bodies} | {self.mean:.1f} | {self.sd:.1f} | {self.least:.0f} "
            f"| {self.most:.0f} | {low:.0f} to {high:.0f} |"
        )


HEAD = "| draft | place | bodies | mean | SD | least | most | wanted |\n|---|---|---:|---:|---:|---:|---:|---:|"


def bodies_for(group: str, amount: int) -> Sequence[Mapping[str, float]]:
    """Women or men as surveyed, or children as estimated, mm."""
    if group == "children":
        return draw_children(amount, SEED)
    return draw_bodies(amount, SEED, "men" if group == "men" else "women", spread=1.0)


def eases_of(text: str, name: str, bodies: Sequence[Mapping[str, float]]) -> Iterator[Ease]:
    """The ease at each place of a draft, as offered; bodies of which nothing is drawn are left out."""
    found: dict[str, list[FitPlace]] = {}
    for body in bodies:
        made = make_pattern(text, name, body, {})
        for place in made.pattern.fits if isinstance(made, Made | Failed) else ():
            found.setdefault(place.name, []).append(place)
    for places in found.values():
        eases = [place.ease for place in places]
        wanted = (min(place.least for place in places), max(place.most for place in places))
        yield Ease(name, places[0].title, len(eases), fmean(eases), pstdev(eases), min(eases), max(eases), wanted)


def main(names: Sequence[str]) -> None:
    """Print the table of all drafts, or of those named by the stems of their files."""
    print(HEAD)
    for path in DRAFT_FILES:
        if not names or path.stem in names:
            text = path.read_text("utf-8")
            group = "children" if "\nfor children" in text else "men" if "\nfor men" in text else "women"
            for ease in eases_of(text, path.stem.replace("_", " "), bodies_for(group, BODIES)):
                print(ease.row, flush=True)


if __name__ == "__main__":
    main(sys.argv[1:])
