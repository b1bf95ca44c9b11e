"""A first skirt in twenty lines: from two measurements to paper, each step drawn; then what makes it fit for sale."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from app.pattern.drafting.playback import frames_of
from app.pattern.drawing import piece_svg
from app.pattern.drawing.playback import box_of, frame_svg
from app.pattern.guide.examples import PlayedExample, cut_example, piece_drawing, play_example, seam_drawing
from app.pattern.pieces.model import Pattern

__all__ = ["FIRST_SKIRT", "TWENTY_LINES", "Lesson", "first_skirt"]

#: The skirt: two panels on the fold with a casing for elastic, which forgives a beginner.
TWENTY_LINES = """\
draft "First skirt"

needs
    hip_girth, waist_to_hip

fabrics
    main  "Skirt cloth"  width 140cm

sheet panel
    waist      = at 0, 0
    hip_side   = waist down waist_to_hip right (hip_girth + 6cm) / 4
    top_side   = hip_side level with waist
    hem_centre = waist down 60cm
    hem_side   = (hip_side level with hem_centre) right (60cm - waist_to_hip) / 15
    centre     = line waist to hem_centre
    top        = line waist to top_side
    side       = line top_side to hip_side to hem_side
    hem        = curve hem_centre to hem_side leaving right arriving square to (line hip_side to hem_side)

piece panel "Front and back" cut 2 on fold main
    outline   fold centre, hem, side, top
    grain     (waist right 8cm down 8cm) to (hem_centre right 8cm up 8cm)
    allowance 1cm, hem 3cm turned back, top 3cm turned back

sew panel.side to panel.side
"""

#: The same with what a customer and a maker need besides.
FIRST_SKIRT = """\
draft "First skirt"

needs
    waist_girth, hip_girth, waist_to_hip

choices
    length = 60cm from 40cm to 90cm  "Length"

fabrics
    main  "Skirt cloth"  width 140cm

notions
    elastic  "Elastic, 2 cm wide"  length waist_girth - 5cm

sheet panel
    waist      = at 0, 0
    hip_side   = waist down waist_to_hip right (hip_girth + 6cm) / 4
    top_side   = hip_side level with waist
    hem_centre = waist down length
    hem_side   = (hip_side level with hem_centre) right (length - waist_to_hip) / 15
    centre     = line waist to hem_centre
    top        = line waist to top_side
    side       = line top_side to hip_side to hem_side
    hem        = curve hem_centre to hem_side leaving right arriving square to (line hip_side to hem_side)

piece panel "Front and back" cut 2 on fold main
    outline   fold centre, hem, side, top
    grain     (waist right 8cm down 8cm) to (hem_centre right 8cm up 8cm)
    allowance 1cm, hem 3cm turned back, top 3cm turned back

sew panel.side to panel.side  notch at waist_to_hip

girth hip   "Hip"             = 4 * width(panel, hip_side)  body hip_girth  ease 6cm
girth waist "Waist, drawn in" = waist_girth - 5cm  stretches to 4 * length(panel.top)  passes hip_girth

steps
    ## Join the sides
    Stitch both side seams, {length(panel.side)} each, and press them open. {seam panel.side}

    ## Make the casing
    Turn the top down {3cm} and stitch {2.5cm} from the fold, leaving a gap.
    Thread {waist_girth - 5cm} of elastic through.

    ## Hem
    Turn up {3cm} and stitch.
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
    "hip_side": (
        "Go down and across to the hip",
        "Down from it as far as the tape says, then across by a quarter of the hip and of 6 cm of ease: there the side "
        "seam passes the hip. Measurements are used by their names; a bare 6 would be an error, since nothing says "
        "6 what.",
    ),
    "top_side": (
        "Level with the waist",
        "Straight above it, level with the waist. An elastic waist must pass over the hip, so it is as wide.",
    ),
    "hem_centre": ("Down to the hem", "The length of the skirt, down from the waist."),
    "hem_side": (
        "Flare the hem a little",
        "Brackets hold what needs no name of its own. The hem swings out by a fifteenth of its way down, to walk in.",
    ),
    "centre": ("Join the points", "A line runs from point to point. This one will lie on the fold of the cloth."),
    "top": ("The top edge", "Another line: the top, where the casing is turned down."),
    "side": ("The side seam", "A line through several points is one path, so that one name stands for the whole seam."),
    "hem": (
        "A hem that is square at the side",
        "The curve arrives square to the side, so that front and back run on without a corner.",
    ),
}


@cache
def first_skirt() -> tuple[Lesson, ...]:
    """The tutorial, drawn for the guide's body."""
    played, pattern = _drawn(TWENTY_LINES)
    _, grown = _drawn(FIRST_SKIRT)
    return (*_before(), *_sheet(played), *_after(pattern), *_beyond(grown))


def _drawn(text: str) -> tuple[PlayedExample, Pattern]:
    played = play_example(text)
    pattern = cut_example(played) if isinstance(played, PlayedExample) else ()
    if not isinstance(played, PlayedExample) or not isinstance(pattern, Pattern):
        raise ValueError("the tutorial's draft does not hold")
    return played, pattern


def _rows(text: str, first: str, last: str) -> tuple[str, ...]:
    """The rows of a draft from the one that begins with `first` to before the one that begins with `last`."""
    rows = text.split("\n")
    start = next(i for i, row in enumerate(rows) if row.startswith(first))
    end = next((i for i, row in enumerate(rows) if row.startswith(last)), len(rows)) if last else len(rows)
    return tuple("\n".join(rows[start:end]).strip("\n").split("\n"))


def _before() -> tuple[Lesson, ...]:
    return (
        Lesson(
            "Say what it is, what it needs and what it is cut from",
            "A draft is a text file. It begins with a name, the body measurements that it is drawn from, and its "
            "cloths. What belongs to a section is indented under its first word. A sheet is a piece of paper.",
            _rows(TWENTY_LINES, "draft", "    waist "),
        ),
    )


def _sheet(played: PlayedExample) -> tuple[Lesson, ...]:
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
            _rows(TWENTY_LINES, "piece", "sew"),
            piece_drawing(pattern),
        ),
        Lesson(
            "Say what is sewn to what",
            "One line for each seam: it is checked, and it draws the picture in the instructions. These are the twenty "
            "lines of a skirt that can be cut and sewn.",
            _rows(TWENTY_LINES, "sew", ""),
            seam_drawing(pattern),
        ),
    )


def _length_lines() -> tuple[str, ...]:
    """The lines of the sheet in which a name stands where the first skirt had 60cm."""
    return tuple(line for line in FIRST_SKIRT.split("\n") if line.strip().startswith(("hem_centre", "hem_side")))


def _beyond(pattern: Pattern) -> tuple[Lesson, ...]:
    """What turns the twenty lines into a pattern to sell."""
    return (
        Lesson(
            "Let her choose",
            "Give the length a name and limits, and write the name where 60cm stood. The customer is asked for it.",
            (*_rows(FIRST_SKIRT, "choices", "fabrics"), "", *_length_lines()),
        ),
        Lesson(
            "Say what is bought",
            "Elastic 5 cm shorter than her waist, so that it holds: the waist girth joins the needs.",
            (*_rows(FIRST_SKIRT, "needs", "choices"), "", *_rows(FIRST_SKIRT, "notions", "sheet")),
        ),
        Lesson(
            "Match the seams and prove the girths",
            "A notch on a seam is put on both its edges. A girth says what the garment must come to, and how one gets "
            "into it; if it does not hold on some body, you are told.",
            _rows(FIRST_SKIRT, "sew", "steps"),
            piece_svg(pattern.pieces[0]),
        ),
        Lesson(
            "Write the instructions",
            "Steps are Markdown. What stands in braces is reckoned anew for each customer. Try the draft on many "
            "bodies with tapeline prove, and make a toile of cheap cloth before you sell it. Mind the iron, the "
            "blades and the needles.",
            _rows(FIRST_SKIRT, "steps", ""),
        ),
    )
