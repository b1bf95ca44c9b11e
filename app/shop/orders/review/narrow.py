"""Cloth, paper or page too narrow for a customer's pieces: told on her review with what will do."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from app.pattern.drawing import Lines
from app.pattern.lay import folded_or_open, least_width
from app.pattern.make import Made
from app.pattern.problem import Refused, spelled_out
from app.pattern.sheets import PrintInfo, PrintStyle, least_roll, plan_projector
from app.pattern.units import Unit, show_least_width, show_length
from app.shop.orders.measure.print_form import ROLL
from app.shop.orders.models import Fitting
from app.shop.orders.review.preview import pattern_of, pieces_by_cloth
from app.shop.orders.service import prints_of
from app.web.words import sentence

__all__ = ["TooNarrow", "left_out", "narrow_cloths", "too_narrow"]

#: A cloth may be this much narrower than a piece needs, mm: nobody measures cloth so closely.
_HAIR = 1e-6


@dataclass(frozen=True, slots=True)
class TooNarrow:
    """What is too narrow, what is wrong in words, and the field of the form to change.

    `name` is the fabric, empty for paper; `goes_open`: the pieces do go on the same cloth laid open.
    """

    name: str
    title: str
    words: str
    field: str
    goes_open: bool = False

    @property
    def change(self) -> str:
        """The words of the link that leads to the field."""
        return "Change the cloth" if self.name else "Change the printing"


def too_narrow(fitting: Fitting) -> tuple[TooNarrow, ...]:
    """Everything on which the pieces do not go as she wants it; quick, since nothing is laid."""
    return (*narrow_cloths(fitting), *_narrow_sheet(fitting))


def narrow_cloths(fitting: Fitting) -> tuple[TooNarrow, ...]:
    """The fitting's cloths that are too narrow as she lays them."""
    unit = Unit(fitting.unit)
    found = []
    for fabric, items, cloth in pieces_by_cloth(fitting):
        least = least_width(items, cloth)
        if least is None or cloth.width >= least.mm - _HAIR:
            continue
        spread = least_width(items, replace(cloth, folded=False)) if cloth.folded else None
        goes_open = spread is not None and cloth.width >= spread.mm - _HAIR
        have, need = show_length(cloth.width, unit), show_least_width(least.mm, unit)
        words = (
            f"{have} is too narrow. {sentence(folded_or_open(cloth))}, this cloth must be at least {need} wide, "
            f"for the piece “{least.piece}”."
        )
        if goes_open:
            words += f" Laid open, in one layer, your {have} are enough."
        found.append(TooNarrow(fabric.name, fabric.title, words, f"cloth-{fabric.name}-width", goes_open))
    return tuple(found)


def _narrow_sheet(fitting: Fitting) -> Iterator[TooNarrow]:
    made, prints, unit = pattern_of(fitting), prints_of(fitting), Unit(fitting.unit)
    if prints.roll_mm is None or not isinstance(made, Made):
        return
    need, piece = least_roll(made.pattern, PrintStyle(lines=Lines(prints.lines)))
    if need > prints.roll_mm:
        have = show_length(prints.roll_mm, unit)
        words = (
            f"{have} is too narrow. It must be at least {show_least_width(need, unit)} wide, for the piece “{piece}”."
        )
        yield TooNarrow("", "The one-sheet file", words, ROLL)


def left_out(fitting: Fitting) -> tuple[str, ...]:
    """Why the pack will be without a file that she asked for; nothing stands in the way of the order itself.

    The one sheet is not asked about here: how long it is shows only when it is packed.
    """
    made, prints = pattern_of(fitting), prints_of(fitting)
    if not prints.projector or not isinstance(made, Made):
        return ()
    info = PrintInfo(fitting.listing.title, unit=Unit(fitting.unit))
    found = plan_projector(made.pattern, info, PrintStyle(lines=Lines(prints.lines)))
    return tuple(spelled_out([each]) for each in found.problems) if isinstance(found, Refused) else ()
