"""The instruction sheet: what the customer reads while she cuts and sews, with her own figures in it."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from markupsafe import Markup

from app.base.prose import printed
from app.base.templates import fill
from app.packs.press import press
from app.pattern.body.wording import measures_for
from app.pattern.drawing import WIDE_SHAPE, Lines, piece_svg, preview_svg, seam_svg
from app.pattern.lay import LayPlan, cloth_in_words, laid, lay_plan_svg
from app.pattern.make import Choice, Made
from app.pattern.names import in_words
from app.pattern.pieces.model import Pattern, Piece
from app.pattern.steps import (
    Caution,
    ClipAdvice,
    CuttingRow,
    MakingStep,
    NotionRow,
    SizeWords,
    allowance_list,
    cautions_for,
    cutting_list,
    making_order,
    notions_list,
    seam_in_words,
    seam_notes,
    seams_without_step,
    sizes_in_words,
)
from app.pattern.steps.clipping import STOP_SHORT, TRIM_INNER, TRIM_OUTER
from app.pattern.units import Unit, show_cloth_length, show_length, show_seam_width, with_other_units

__all__ = [
    "ClothToBuy",
    "FigureRow",
    "InstructionSheet",
    "LayPicture",
    "PieceCard",
    "SeamPicture",
    "SheetFor",
    "StepBlock",
    "instruction_html",
    "instruction_pdf",
    "instruction_sheet",
]

#: The space between a figure and its unit or fraction, where no line may break.
_BEFORE_UNIT = re.compile(r"(?<=\d) (?=(?:cm|mm|m|in|yd)\b|%|\d/\d)")

_VIEW = re.compile(r'viewBox="\S+ \S+ (\S+) (\S+)"')
#: More rows of figures than this in a column of the cover, and the picture above them is made smaller.
_ROOMY = 11


@dataclass(frozen=True, slots=True)
class SheetFor:
    """Whom the sheet is for, and in which unit and on which paper ("a4" or "letter") it is set.

    `lines` are those that her pieces are printed with; `projector`: she has a file for one.
    """

    title: str
    customer: str
    studio: str
    order_number: str
    unit: Unit
    paper: str
    lines: Lines = Lines.BOTH
    projector: bool = False


@dataclass(frozen=True, slots=True)
class FigureRow:
    """A name and its figure in words."""

    title: str
    value: str


@dataclass(frozen=True, slots=True)
class ClothToBuy:
    """A cloth to buy: its usable width, how much, and how it is laid."""

    title: str
    width: str
    buy: str
    how: str


@dataclass(frozen=True, slots=True)
class PieceCard:
    """A piece's picture with what to cut of it: (cloth, count in words)."""

    title: str
    picture: Markup
    cuts: tuple[tuple[str, str], ...]
    note: str


@dataclass(frozen=True, slots=True)
class LayPicture:
    """A lay plan's picture and the sentence under it."""

    title: str
    caption: str
    picture: Markup


@dataclass(frozen=True, slots=True)
class SeamPicture:
    """The picture of a seam with what to do with it; `wide` when it is much wider than high."""

    svg: Markup
    caption: str
    wide: bool


@dataclass(frozen=True, slots=True)
class StepBlock:
    """One step as printed: text, pictures of its seams, and asides on clipping."""

    number: int
    title: str
    text: Markup
    pictures: tuple[SeamPicture, ...]
    asides: tuple[str, ...]

    @property
    def beside(self) -> bool:
        """True when its one picture goes beside the text; more of them, and a wide one, stand in a row below."""
        return len(self.pictures) == 1 and not self.pictures[0].wide


@dataclass(frozen=True, slots=True)
class InstructionSheet:
    """Everything the template prints; all lengths are already words in the customer's unit."""

    to: SheetFor
    cover: Markup
    measurements: tuple[FigureRow, ...]
    choices: tuple[FigureRow, ...]
    sizes: tuple[SizeWords, ...]
    cloths: tuple[ClothToBuy, ...]
    notions: tuple[NotionRow, ...]
    pieces: tuple[PieceCard, ...]
    lays: tuple[LayPicture, ...]
    allowances: tuple[FigureRow, ...]
    usual_allowance: str
    trims: tuple[str, str]
    cautions: tuple[Caution, ...]
    notes: tuple[str, ...]
    steps: tuple[StepBlock, ...]
    other_seams: tuple[str, ...]

    @property
    def crowded(self) -> bool:
        """True when the cover has so many figures that its picture must be smaller."""
        return max(len(self.measurements), len(self.sizes) + len(self.choices)) > _ROOMY


def instruction_sheet(
    made: Made, lay_plans: Mapping[str, LayPlan], to: SheetFor, notes: tuple[str, ...] = ()
) -> InstructionSheet:
    """The sheet's contents; `lay_plans` by fabric, `notes` what the checks would have her look at first."""
    pattern, unit = made.pattern, to.unit
    allowances = allowance_list(pattern)
    seams, cuts = seam_notes(pattern), cutting_list(pattern)
    plans = [lay_plans[fabric.name] for fabric in pattern.fabrics if fabric.name in lay_plans]
    measured = [name for name in made.card.needs if name in made.body]
    known = measures_for(made.card.group)
    cautions = cautions_for(pattern)
    if unit is not Unit.CM:
        cautions = tuple(replace(each, words=with_other_units(each.words)) for each in cautions)
    return InstructionSheet(
        to=to,
        cover=Markup(preview_svg(pattern, unit)),
        measurements=tuple(FigureRow(known[name].title, show_length(made.body[name], unit)) for name in measured),
        choices=tuple(_choice(choice, made.choices[choice.name], unit) for choice in made.card.choices),
        sizes=sizes_in_words(pattern, unit),
        cloths=tuple(_cloth(plan, unit) for plan in plans),
        notions=notions_list(pattern, unit),
        pieces=tuple(_card(piece, cuts) for piece in pattern.pieces),
        lays=tuple(_lay_picture(plan, unit) for plan in plans),
        allowances=tuple(
            FigureRow(row.edges, show_seam_width(row.width, unit) if row.width else "None") for row in allowances[1:]
        ),
        usual_allowance=show_seam_width(allowances[0].width, unit) if allowances else "",
        trims=(show_length(TRIM_OUTER, unit), show_length(TRIM_INNER, unit)),
        cautions=cautions,
        notes=notes,
        steps=tuple(_step(pattern, step, unit) for step in making_order(pattern)),
        other_seams=tuple(seam_in_words(seams[index], unit) for index in seams_without_step(pattern)),
    )


def instruction_html(sheet: InstructionSheet) -> str:
    """The sheet as HTML for the press."""
    return _BEFORE_UNIT.sub("\u00a0", fill("packs/instructions.html", sheet=sheet))


def instruction_pdf(sheet: InstructionSheet) -> bytes:
    """The sheet as a PDF."""
    return press(instruction_html(sheet), "instructions.css", sheet.to.paper)


def _choice(choice: Choice, value: float | str | bool, unit: Unit) -> FigureRow:
    if isinstance(value, bool):
        return FigureRow(choice.title, "yes" if value else "no")
    if isinstance(value, str):
        return FigureRow(choice.title, in_words(value))
    return FigureRow(choice.title, show_length(value, unit) if choice.kind == "length" else f"{value:g}")


def _card(piece: Piece, cuts: Sequence[CuttingRow]) -> PieceCard:
    hers = tuple((row.fabric, row.count) for row in cuts if row.piece_name == piece.name)
    return PieceCard(piece.title, Markup(piece_svg(piece)), hers, piece.note)


def _cloth(plan: LayPlan, unit: Unit) -> ClothToBuy:
    cloth = plan.cloth
    shrinking = f"; {cloth.shrinkage:.0%} added for shrinking" if cloth.shrinkage else ""
    how = f"{laid(cloth)}{shrinking}"
    return ClothToBuy(cloth.title, show_length(cloth.width, unit), show_cloth_length(plan.buy, unit), how)


def _lay_picture(plan: LayPlan, unit: Unit) -> LayPicture:
    caption = (
        f"The pieces take {show_length(plan.length, unit)} of cloth {cloth_in_words(plan.cloth, unit)}, "
        f"and use {plan.utilisation:.0%} of it."
    )
    return LayPicture(plan.cloth.title, caption, Markup(lay_plan_svg(plan, unit)))


def _step(pattern: Pattern, step: MakingStep, unit: Unit) -> StepBlock:
    pictures = []
    for note in step.notes:
        svg = seam_svg(pattern, pattern.seams[note.index])
        view = _VIEW.search(svg)
        shape = float(view[1]) / float(view[2]) if view else 1.0
        pictures.append(SeamPicture(Markup(svg), seam_in_words(note, unit), shape > WIDE_SHAPE))
    clips = tuple(_clip(clip, unit) for clip in step.clips)
    return StepBlock(step.number, step.title, printed(step.markdown), tuple(pictures), clips)


def _clip(clip: ClipAdvice, unit: Unit) -> str:
    """What to do to the allowance of a curved seam, in words."""
    every, stop = show_length(clip.spacing, unit), show_length(STOP_SHORT, unit)
    most = " most tightly" if clip.part == "tightest" else ""
    if clip.how == "clip":
        what = f"where the edge bends inward{most}, clip into the allowance every {every}, so that it spreads"
    else:
        what = f"where the edge bends outward{most}, notch the allowance every {every}, so that it lies flat"
    return f"{clip.where}: {what}. Stop {stop} short of the stitching."
