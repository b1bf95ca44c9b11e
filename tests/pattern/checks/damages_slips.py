"""Good drafts damaged by what a designer forgets or slips in: hems, notches, marks, linings, elastic, and ways in.

Three garments that hold, each changed in a line or two, and the one kind of problem that must be heard of it.
"""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path as File

from app.pattern.body import size_body
from app.pattern.drafting import Program
from app.pattern.drafting.advice import advice_of
from app.pattern.make import compiled, make_pattern
from app.pattern.problem import Refused

GARMENTS = File(__file__).parent / "garments"
BODY = size_body("92")


@dataclass(frozen=True)
class Slip:
    """What was changed in which garment, in words; what is written instead of what, everywhere; what must be heard."""

    check: str
    garment: str
    words: str
    code: str
    swaps: tuple[tuple[str, str], ...]
    also: tuple[str, ...] = ()


SKIRT, TOP, TROUSERS = "reed_skirt", "linnet_top", "sedge_trousers"
_FRONT_HEM = "allowance 1.5cm, hem 4cm turned back, waist_in 1cm, waist_out 1cm\n    mark"
_LAST_LEG = "waist 4cm turned back\n\nsew"
_POCKET = "pocket_mark = line (hip_c right 6cm) to (hip_c right 16cm)"
_NARROW = ("neck_base_girth / 5 + 5cm", "neck_base_girth / 5 - 0.2cm")
_TIGHT = ("wrist_girth + 9cm", "wrist_girth + 1cm")
_BACK = "outline of back, fold cb\n    grain (at 6cm, -15cm) to (at 6cm, 0cm - hem_at + 8cm)\n    allowance 1cm, hem "
_TAKEN = "2 * (width(front, hip_side) + width(back, hip_side))"

SLIPS = (
    Slip(
        "hems",
        SKIRT,
        "a front hem of 3 cm beside a back hem of 4",
        "checks.hem-unlike",
        ((_FRONT_HEM, _FRONT_HEM.replace("4cm", "3cm")),),
    ),
    Slip("hems", TOP, "a back hem of 2 cm", "checks.hem-unlike", ((_BACK + "2.5cm", _BACK + "2cm"),)),
    Slip(
        "hems",
        TROUSERS,
        "a casing of 3 cm beside one of 4",
        "checks.hem-unlike",
        ((_LAST_LEG, _LAST_LEG.replace("4cm", "3cm")),),
    ),
    Slip("hems", SKIRT, "hems of 40 cm", "checks.hem-deep", (("hem 4cm turned back", "hem 40cm turned back"),)),
    Slip("hems", TOP, "hems of 6 mm written 6 cm", "checks.hem-deep", (("hem 2.5cm", "hem 6cm"),)),
    Slip("hems", SKIRT, "a lining's hem of 15 cm", "checks.hem-deep", (("hem 2cm turned", "hem 15cm turned"),)),
    Slip(
        "hems",
        TOP,
        "an allowance of 6 in on a cuff",
        "checks.hem-deep",
        (("12cm up 3cm)\n    allowance 1cm", "12cm up 3cm)\n    allowance 1cm, top 6in"),),
    ),
    Slip(
        "hems",
        SKIRT,
        "a facing's inner edge with 5 cm for 5 mm",
        "checks.hem-deep",
        (("inner 0.5cm", "inner 5cm"),),
    ),
    Slip(
        "hems",
        SKIRT,
        "hems with none",
        "checks.hem-none",
        (("hem 4cm turned back", "hem none"),),
        ("checks.edge-unfinished",),
    ),
    Slip(
        "hems",
        SKIRT,
        "a flared hem not turned back",
        "checks.hem-corner",
        (
            ("hem_side = hip_side level with hem_c", "hem_side = (hip_side level with hem_c) right 3cm"),
            (
                "hem 4cm turned back, waist_in 1cm, waist_out 1cm",
                "hem 6cm, waist_in 1cm, waist_out 1cm\n    finish hem hemmed",
            ),
        ),
    ),
    Slip(
        "proportion",
        SKIRT,
        "seams of 15 cm for 15 mm",
        "checks.seam-wide",
        (("allowance 1.5cm, hem 4cm", "allowance 15cm, hem 4cm"),),
    ),
    Slip(
        "proportion",
        SKIRT,
        "an inner edge with half a millimetre",
        "checks.allowance-scrap",
        (("inner 0.5cm", "inner 0.5mm"),),
    ),
    Slip(
        "notch_pairs",
        SKIRT,
        "a notch on the front's side alone",
        "checks.notch-lone",
        (("    mark place pocket_mark", "    notch side at 30cm\n    mark place pocket_mark"),),
    ),
    Slip(
        "notch_pairs",
        TOP,
        "a notch on the sleeve's cap alone",
        "checks.notch-lone",
        (("    grain (mid up 5cm)", "    notch cap at 20cm\n    grain (mid up 5cm)"),),
    ),
    Slip(
        "notch_pairs",
        SKIRT,
        "notches 5 cm apart",
        "checks.notch-apart",
        (
            ("    mark place pocket_mark", "    notch side at 30cm\n    mark place pocket_mark"),
            ("mirrored main\n    outline of block", "mirrored main\n    notch side at 35cm\n    outline of block"),
        ),
    ),
    Slip(
        "notch_pairs",
        SKIRT,
        "a double notch against a single one",
        "checks.notch-odd",
        (
            ("    mark place pocket_mark", "    double notch side at 30cm\n    mark place pocket_mark"),
            ("mirrored main\n    outline of block", "mirrored main\n    notch side at 30cm\n    outline of block"),
        ),
    ),
    Slip(
        "notch_pairs",
        SKIRT,
        "a notch where the seam starts",
        "checks.notch-lost",
        (("notch at waist_to_hip\nsew back", "notch at 0cm\nsew back"),),
    ),
    Slip(
        "notch_pairs",
        TOP,
        "a notch at the end of a side",
        "checks.notch-lost",
        (("notch at 8cm\nsew sleeve", "notch at length(front.side)\nsew sleeve"),),
    ),
    Slip(
        "marks",
        SKIRT,
        "a pocket across a dart",
        "checks.mark-in-dart",
        ((_POCKET, "pocket_mark = line (waist_c right 3cm down 5cm) to (waist_c right 16cm down 5cm)"),),
    ),
    Slip(
        "marks",
        SKIRT,
        "a pocket past the hem line",
        "checks.mark-in-allowance",
        ((_POCKET, "pocket_mark = line (hem_c right 6cm down 2cm) to (hem_c right 16cm down 2cm)"),),
    ),
    Slip("marks", TOP, "buttons 5 mm apart", "checks.marks-close", (("5 times down 5cm", "5 times down 5mm"),)),
    Slip(
        "marks",
        TOP,
        "one button of a row 1 cm aside",
        "checks.marks-uneven",
        (
            (
                'mark button b1 repeated 5 times down 5cm "Buttons"',
                'mark button b1 repeated 3 times down 5cm "Buttons"\n'
                "    mark button (b1 down 16cm)\n    mark button (b1 down 20cm)",
            ),
        ),
    ),
    Slip(
        "linings",
        SKIRT,
        "a lining 1 cm longer than the skirt",
        "checks.lining-longer",
        (("short    = move hem of block in by 3cm", "short    = move hem of block out by 1cm"),),
    ),
    Slip(
        "linings",
        SKIRT,
        "a skirt shortened after its lining was taken",
        "checks.lining-longer",
        (
            ("    block    = trace", "    long     = trace"),
            (
                "    short    = move hem of block in",
                "    block    = move hem of long in by 8cm\n    short    = move hem of long in",
            ),
        ),
    ),
    Slip(
        "linings",
        TOP,
        "a facing as long as its neck, of another curve",
        "checks.facing-shape",
        (
            (
                "    ff      = face front",
                "    solve at_cf from 0cm to 4cm until length(other) = length(neck_f)\n"
                "        low     = neck_cf up at_cf\n"
                "        other   = curve low to point leaving right arriving square to shoulder pull 1.6\n"
                "    low_cf  = line low to hem_c\n"
                "    ff0     = trace low_cf as cf, hem, side, arm as armhole, shoulder, other as neck\n"
                "    ff      = face ff0",
            ),
            ("(neck_cf right 1cm down 4cm)", "(neck_cf right 1cm down 3cm)"),
        ),
    ),
    Slip(
        "elastic",
        TROUSERS,
        "elastic as long as the waist",
        "checks.elastic-slack",
        (("waist_girth * 0.88", "waist_girth"),),
    ),
    Slip(
        "elastic",
        TROUSERS,
        "elastic as long as the hip",
        "checks.elastic-slack",
        (("waist_girth * 0.88", "hip_girth"),),
    ),
    Slip("elastic", TROUSERS, "elastic of 4/10 of the waist", "checks.elastic-short", (("* 0.88", "* 0.4"),)),
    Slip(
        "elastic",
        TOP,
        "rows of shirring that end at an open edge",
        "checks.shirring-loose",
        (
            (
                "    fold_at = line (c up 5cm)",
                "    row_at  = line (c up 7cm) to (c right wide up 7cm)\n    fold_at = line (c up 5cm)",
            ),
            ('    mark fold fold_at "Fold"', '    mark fold fold_at "Fold"\n    mark stitch row_at "Shirr"'),
            ("sew cuff.far to cuff.near backwards\n", ""),
            (" passes wrist_girth * 1.35", " stretches to length(sleeve.wrist) passes wrist_girth * 1.35"),
        ),
        ("checks.edge-unfinished",),
    ),
    Slip(
        "ways_in",
        TOP,
        "a closed neck that no girth names",
        "checks.way-in-unsaid",
        (_NARROW, ("girth neck", "# girth")),
    ),
    Slip("ways_in", TOP, "a neck's girth that passes nothing", "checks.way-in-unsaid", (_NARROW, (" passes 60cm", ""))),
    Slip(
        "ways_in",
        TOP,
        "a neck whose edges have another name",
        "checks.way-in-unsaid",
        (
            _NARROW,
            ("girth neck", "# girth"),
            ("as neck", "as upper"),
            ("along neck", "along upper"),
            ("facing.neck", "facing.upper"),
            ("front.neck", "front.upper"),
            ("back.neck", "back.upper"),
        ),
    ),
    Slip(
        "ways_in", TOP, "a tight cuff that no girth names", "checks.way-in-unsaid", (_TIGHT, ("girth cuff", "# girth"))
    ),
    Slip(
        "ways_in",
        TOP,
        "a cuff's girth that passes nothing",
        "checks.way-in-unsaid",
        (_TIGHT, (" passes wrist_girth * 1.35", "")),
    ),
    Slip(
        "ways_in",
        SKIRT,
        "a waist that passes nothing while the hip does",
        "checks.way-in-unsaid",
        ((" opens zip_length passes hip_girth", ""), ("ease hip_ease", "ease hip_ease passes hip_girth")),
    ),
    Slip(
        "ways_in",
        SKIRT,
        "a waist that no girth names",
        "checks.way-in-unsaid",
        (("girth waist", "# girth"), ("ease hip_ease", "ease hip_ease passes hip_girth")),
        ("drafting.girth-unheld",),
    ),
    Slip(
        "openings",
        SKIRT,
        "an opening of 90 cm in a side of 63",
        "checks.opening-long",
        (("opens zip_length", "opens 90cm"),),
    ),
    Slip(
        "drafting",
        SKIRT,
        "a side moved after the lining was taken",
        "drafting.older-shape",
        (
            ("    facing   = face block", "    wider    = move side of block out by 1cm\n    facing   = face wider"),
            ("cut 1 on fold main\n    outline of block", "cut 1 on fold main\n    outline of wider"),
            ("mirrored main\n    outline of block", "mirrored main\n    outline of wider"),
        ),
        ("checks.finished-size", "checks.seam-walk"),
    ),
    Slip(
        "drafting",
        TOP,
        "a neck moved after its facing was taken",
        "drafting.older-shape",
        (
            ("    ff      = face", "    lower   = move neck of front in by 1cm\n    ff      = face"),
            ("outline of front, fold cf", "outline of lower, fold cf"),
        ),
        ("checks.seam-walk",),
    ),
    Slip(
        "notch_pairs",
        SKIRT,
        "two notches in one place",
        "checks.notch-lost",
        (("notch at waist_to_hip\nsew back", "notch at waist_to_hip notch at waist_to_hip\nsew back"),),
    ),
    Slip(
        "drafting",
        TOP,
        "a neck's girth written down",
        "drafting.girth-undrawn",
        (("= 2 * (length(back.neck) + length(front.neck)) passes", "= 65cm passes"),),
    ),
    Slip(
        "drafting",
        TOP,
        "a cuff that opens and passes nothing",
        "drafting.passes-unsaid",
        ((" passes wrist_girth * 1.35", " opens 8cm"),),
    ),
    Slip(
        "ways_in",
        TOP,
        "a buttoned cuff that no girth names",
        "checks.way-in-unsaid",
        (
            ("girth cuff", "# girth"),
            ("sew cuff.far to cuff.near backwards\n", ""),
            ("finish top", "finish far, near closed\n    finish top"),
        ),
        ("checks.finish-unsaid",),
    ),
    Slip(
        "ways_in",
        SKIRT,
        "a waist that opens fully over a hip that says nothing",
        "checks.way-in-unsaid",
        (("opens zip_length passes hip_girth", "opens fully"),),
    ),
    Slip("ways_in", SKIRT, "no girths", "checks.no-girth", (("girth waist", "# girth"), ("girth hip", "# girth"))),
    Slip(
        "drafting",
        SKIRT,
        "an ease that is what was drawn less the body",
        "drafting.ease-reckoned",
        (("body hip_girth ease hip_ease", f"body hip_girth ease {_TAKEN} - hip_girth"),),
    ),
    Slip(
        "drafting",
        SKIRT,
        "a girth of the draft's own figures",
        "drafting.girth-undrawn",
        ((f"= {_TAKEN} body", "= 4 * hip_q body"),),
    ),
)


def text_of(garment: str) -> str:
    """The draft of a garment that holds."""
    return (GARMENTS / f"{garment}.draft").read_text("utf-8")


def slipped(slip: Slip) -> str:
    """The text with the slip; fails when a place is not there."""
    text = text_of(slip.garment)
    for old, new in slip.swaps:
        assert old in text, f"“{old}” does not stand in {slip.garment}"
        text = text.replace(old, new)
    return text


def heard(text: str) -> tuple[str, ...]:
    """The codes of everything that is said of a draft: by the checks for the trial body, and as advice."""
    made = make_pattern(text, "slip.draft", BODY, {})
    problems = made.problems if isinstance(made, Refused) else made.findings
    program = compiled(text, "slip.draft")
    advice = advice_of(program) if isinstance(program, Program) else ()
    return tuple(sorted({problem.code for problem in (*problems, *advice)}))
