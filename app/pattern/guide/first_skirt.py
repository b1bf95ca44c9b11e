"""A first skirt in twenty lines: from three measurements to two pieces of paper, each step drawn."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from app.pattern.drafting.playback import frames_of
from app.pattern.drawing import piece_svg
from app.pattern.drawing.playback import box_of, frame_svg
from app.pattern.guide.examples import Played, cut_example, play_example
from app.pattern.pieces.model import Pattern

__all__ = ["FIRST_SKIRT", "Lesson", "first_skirt"]

#: The whole draft: a skirt of two panels on the fold with an elastic waist, which forgives a beginner.
FIRST_SKIRT = """\
draft "First skirt"

needs
    waist_girth, hip_girth, waist_to_hip

choices
    length = 60cm from 40cm to 90cm  "Length"

fabrics
    main  "Skirt cloth"  width 140cm

notions
    elastic  "Elastic, 2 cm wide"  length waist_girth

sheet panel
    waist      = at 0, 0
    hip        = waist down waist_to_hip
    hem_centre = waist down length
    quarter    = (hip_girth + 6cm) / 4
    hip_side   = hip right quarter
    waist_side = hip_side level with waist
    hem_side   = (hip_side level with hem_centre) right 3cm
    centre     = line waist to hem_centre
    top        = line waist to waist_side
    side       = join (line waist_side to hip_side), (line hip_side to hem_side)
    hem        = curve hem_centre to hem_side leaving right arriving square to (line hip_side to hem_side)

piece panel "Front and back" from panel cut 2 on fold main
    outline   fold centre, hem, side, top
    grain     (waist right 8cm down 8cm) to (hem_centre right 8cm up 8cm)
    allowance 1cm, hem 3cm turned back, top 3cm turned back

sew panel.side to panel.side  notch at waist_to_hip

girth hip   "Hip"             = 4 * width(panel, hip)  body hip_girth  ease 6cm
girth waist "Waist, drawn in" = waist_girth  stretches to 4 * length(panel.top)  passes hip_girth

steps
    ## Join the sides
    Stitch both side seams, {length(panel.side)} each, and press them open. {seam panel.side}

    ## Make the casing
    Turn the top down 3 cm and stitch 2.5 cm from the fold, leaving a gap. Thread {waist_girth} of elastic through.
"""


@dataclass(frozen=True, slots=True)
class Lesson:
    """One step of the tutorial: a heading, what to understand, the lines it adds, and a picture ("" when none)."""

    title: str
    says: str
    lines: tuple[str, ...]
    drawing: str = ""


#: What each line of the sheet teaches, by the name it draws.
_DRAWN = {
    "waist": (
        "Begin with a point",
        "The sheet is an empty piece of paper. A first point may lie anywhere: at 0, 0 is as good as any.",
    ),
    "hip": (
        "Go down to the hip",
        "The next point lies under the first, as far as the tape says: a measurement is used by its name.",
    ),
    "hem_centre": (
        "And to the hem",
        "Lengths are added as you would say it. A bare 4 would be an error, since nothing says 4 what.",
    ),
    "quarter": (
        "Reckon a quarter",
        "A quarter of the hip and of 6 cm of ease. It draws nothing: it is used below.",
    ),
    "hip_side": ("Go across", "From the hip to the right by that quarter: this is where the side seam passes the hip."),
    "waist_side": (
        "Level with the waist",
        "Straight above it, level with the waist. An elastic waist must pass over the hip, so it is as wide.",
    ),
    "hem_side": (
        "Flare the hem a little",
        "Brackets hold a point that needs no name of its own; 3 cm beyond it makes room for walking.",
    ),
    "centre": ("Join the points", "A line runs from point to point. This one will lie on the fold of the cloth."),
    "top": ("The top edge", "Another line: the top, where the casing is turned down."),
    "side": ("The side seam", "Two lines joined are one path, so that one name stands for the whole seam."),
    "hem": (
        "A hem that is square at the side",
        "The curve arrives square to the side, so that front and back run on without a corner.",
    ),
}


@cache
def first_skirt() -> tuple[Lesson, ...]:
    """The tutorial, drawn for the guide's body."""
    played = play_example(FIRST_SKIRT)
    pattern = cut_example(played) if isinstance(played, Played) else ()
    if not isinstance(played, Played) or not isinstance(pattern, Pattern):
        raise ValueError("the tutorial's draft does not hold")
    return (_before(), *_sheet(played), *_after(pattern))


def _rows(first: str, last: str) -> tuple[str, ...]:
    """The draft's rows from the one that begins with `first` to before the one that begins with `last`."""
    rows = FIRST_SKIRT.split("\n")
    start = next(i for i, row in enumerate(rows) if row.startswith(first))
    end = next((i for i, row in enumerate(rows) if row.startswith(last)), len(rows)) if last else len(rows)
    return tuple("\n".join(rows[start:end]).strip("\n").split("\n"))


def _before() -> Lesson:
    return Lesson(
        "Say what it is and what it needs",
        "A draft is a text file. It begins with a name, the body measurements it is drawn from, what the customer may "
        "choose, and what has to be bought. What belongs to a section is indented under its first word.",
        _rows("draft", "sheet"),
    )


def _sheet(played: Played) -> tuple[Lesson, ...]:
    frames = frames_of(played.env, played.program, "panel")
    box = box_of(frames)
    lessons = []
    for frame in frames:
        title, says = _DRAWN[frame.words.split()[0]]
        lessons.append(Lesson(title, says, (" ".join(frame.words.split()),), frame_svg(frame, box)))
    return tuple(lessons)


def _after(pattern: Pattern) -> tuple[Lesson, ...]:
    return (
        Lesson(
            "Trace the piece",
            "A piece is traced off the sheet: its edges in order round it, the one on the fold marked so, then the "
            "grain and the allowances. The hem and the top are turned back, so their ends are shaped to lie flat.",
            _rows("piece", "sew"),
            piece_svg(pattern.pieces[0]),
        ),
        Lesson(
            "Say what is sewn to what",
            "One statement for each seam: it is checked, it puts matching notches on both edges, and it draws the "
            "picture in the instructions. A girth says what the garment must come to; if it does not, you are told.",
            _rows("sew", "steps"),
        ),
        Lesson(
            "Write the instructions",
            "Steps are Markdown. What stands in braces is reckoned anew for each customer. Try the draft on many "
            "bodies with tapeline prove, and make a toile of cheap cloth before you sell it. Mind the iron, the "
            "blades and the needles.",
            _rows("steps", ""),
        ),
    )
