"""What the person who will sew hears when a design cannot be drawn for her, and of its choices."""

from __future__ import annotations

from app.pattern.problem import Severity, Told, alike

__all__ = ["ROOM", "TOLD"]

#: What the room's problems are called together.
ROOM = "Drafting"
#: Every kind of problem of this room.
TOLD: tuple[Told, ...] = (
    *alike(
        "The text of this design has a slip in it, so that nothing can be drawn from it. There is nothing wrong "
        "with your entries.",
        "drafting.compare",
        "drafting.dimension",
        "drafting.folded",
        "drafting.kind",
        "drafting.limits",
        "drafting.name-twice",
        "drafting.no-cut",
        "drafting.no-seam",
        "drafting.no-unit",
        "drafting.odd-pair",
        "drafting.option",
        "drafting.parts",
        "drafting.piece-line",
        "drafting.reserved",
        "drafting.solves",
        "drafting.statures",
        "drafting.sum",
        "drafting.unknown-edge",
        "drafting.unknown-fabric",
        "drafting.unknown-form",
        "drafting.unknown-measurement",
        "drafting.unknown-name",
        "drafting.unknown-owner",
        "drafting.unknown-sheet",
        "drafting.untold",
        "drafting.width",
    ),
    *alike(
        "For these measurements and choices, lines of the drawing do not meet where they should, so that a piece "
        "cannot be drawn. The design does not reach this far as it stands.",
        "drafting.arc",
        "drafting.beyond-path",
        "drafting.cut-inside",
        "drafting.cut-nothing",
        "drafting.geometry",
        "drafting.join-gap",
        "drafting.no-crossing",
        "drafting.not-an-end",
        "drafting.off-outline",
        "drafting.off-path",
        "drafting.out-of-reach",
        "drafting.parallel",
        "drafting.trace-gap",
    ),
    *alike(
        "For these measurements and choices, a length or an angle of the drawing comes out as nothing, or as one "
        "that cannot be drawn. The design does not reach this far as it stands.",
        "drafting.arccos",
        "drafting.arcsin",
        "drafting.division",
        "drafting.far",
        "drafting.huge",
        "drafting.no-direction",
        "drafting.no-length",
        "drafting.pull",
        "drafting.root",
        "drafting.round",
    ),
    *alike(
        "The design looks for the one curve or length that fits, such as a sleeve that fits its armhole, and "
        "finds none for these measurements and choices.",
        "drafting.no-solution",
        "drafting.solve-jumps",
        "drafting.solve-limits",
    ),
    *alike(
        "A dart cannot be moved, turned or closed in its piece as the design wants it, for these measurements "
        "and choices.",
        "drafting.back-off",
        "drafting.facing-dart",
        "drafting.facing-legs",
        "drafting.facing-point",
        "drafting.not-a-dart",
        "drafting.pivot",
        "drafting.share",
    ),
    *alike(
        "A pleat or a tuck does not fit into its piece for these measurements and choices.",
        "drafting.fold-crosses",
        "drafting.folded-side",
        "drafting.pleat",
        "drafting.pleat-crowded",
        "drafting.pleat-edge",
        "drafting.tuck-stitched",
    ),
    *alike(
        "A piece cannot be spread, cut apart or joined as the design wants it, for these measurements and choices.",
        "drafting.facing",
        "drafting.facing-folds",
        "drafting.fan",
        "drafting.join-length",
        "drafting.join-shape",
        "drafting.move-side",
        "drafting.not-a-side",
        "drafting.not-on-shape",
        "drafting.slashes-cross",
        "drafting.spread",
        "drafting.times",
        "drafting.times-side",
        "drafting.unite",
        "drafting.trace",
        "drafting.true-through",
    ),
    *alike(
        "The design needs a piece or a line that your choices leave out. Another choice may do. That is a "
        "slip in the design.",
        "drafting.edge-gone",
        "drafting.not-drawn",
        "drafting.piece-left-out",
    ),
    *alike(
        "There is more to draw for these measurements and choices than any garment needs. That is a slip in "
        "the design.",
        "drafting.repeats",
        "drafting.too-many-parts",
        "drafting.too-many-steps",
    ),
    *alike(
        "The design lists something that it does not use. It changes nothing in what you cut.",
        "drafting.unused-choice",
        "drafting.unused-fabric",
        "drafting.unused-figure",
        "drafting.unused-need",
        "drafting.unused-sheet",
        severity=Severity.WARNING,
        maker=False,
    ),
    *alike("The design has no piece to cut yet.", "drafting.no-piece", severity=Severity.WARNING, maker=False),
    *alike(
        "The design asks for no measurement: it is the same for everybody.",
        "drafting.no-needs",
        severity=Severity.WARNING,
        maker=False,
    ),
    *alike("The design does not say how it is sewn.", "drafting.no-steps", severity=Severity.WARNING, maker=False),
    *alike(
        "The design does not say what of the body must go through it, so that nobody has checked whether it can "
        "be put on. Hold the paper pieces round you before you cut.",
        "drafting.getting-in-unsaid",
        "drafting.passes-itself",
        "drafting.passes-unsaid",
        severity=Severity.WARNING,
        maker=False,
    ),
    *alike(
        "A girth of the design does not show that the garment fits. Hold the paper pieces round you before you cut.",
        "drafting.ease-reckoned",
        "drafting.girth-undrawn",
        "drafting.girth-unheld",
        severity=Severity.WARNING,
        maker=False,
    ),
    *alike(
        "The list of seams names a seam twice. Sew it once.",
        "drafting.seam-twice",
        severity=Severity.WARNING,
        maker=False,
    ),
    *alike(
        "A lining or a facing may not have been changed with the garment. Lay it on the garment's piece before you cut "
        "it.",
        "drafting.older-shape",
        severity=Severity.WARNING,
        maker=False,
    ),
    *alike(
        "The design does not say how much room it leaves at a place where it touches the body. Look at that place on a "
        "toile before you cut your good cloth.",
        "drafting.fit-unsaid",
        severity=Severity.WARNING,
        maker=False,
    ),
    *alike(
        "One of your choices is not offered by this design any more. Open your entries and choose anew.",
        "choice.unknown",
    ),
    *alike(
        "One of your choices lies outside what this design allows. Open your entries and choose within what is "
        "offered.",
        "choice.wrong",
    ),
)
