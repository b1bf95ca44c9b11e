"""What each line of a draft means, how it is written, and an example of it in the guide's small garment."""

from __future__ import annotations

from dataclasses import dataclass

__all__ = ["GARMENT", "LINE_MEANINGS", "PLUMBING", "LineMeaning"]

#: A whole small garment, section by section; each example puts its own lines in.
GARMENT: dict[str, tuple[str, ...]] = {
    "draft": ('draft "Tea cloth"',),
    "needs": ("waist_girth",),
    "choices": ('wide = 24cm from 12cm to 60cm "Width"', 'lined = yes "Lined"'),
    "fabrics": ('main "Cloth" width 140cm', 'lining "Lining" width 140cm when lined'),
    "notions": ('thread "Sewing thread" count 1',),
    "figures": ("high = wide * 2 / 3",),
    "sheet cloth": (
        "corner    = at 0, 0",
        "hem_side  = corner right wide",
        "top_side  = hem_side up high",
        "top       = corner up high",
        "hem       = line corner to hem_side",
        "side      = line hem_side to top_side",
        "edge      = line top to top_side",
        "centre    = line corner to top",
        "low       = corner right 4cm up 3cm",
    ),
    'piece cloth "Cloth" from cloth cut 2 mirrored main': (
        "outline   hem, side, edge, centre",
        "grain     low to (low up 9cm)",
        "allowance 1cm",
    ),
    "sew": ("sew cloth.side to cloth.side",),
    "girth": ('girth round "Round" = 4 * length(cloth.hem)',),
    "fit": (),
    "steps": ("## Sew", "Stitch {length(cloth.side)}."),
}
#: Rules of the grammar that are only parts of others and need no entry of their own.
PLUMBING = frozenset(
    (
        "again",
        "atom",
        "brace",
        "comparison",
        "conjunction",
        "corner",
        "cut_way",
        "direction",
        "dotted",
        "edge_allowance",
        "expr",
        "fabric_trait",
        "finished",
        "form",
        "fuller_by",
        "fuller_times",
        "fullness",
        "function",
        "held",
        "move",
        "name",
        "negation",
        "no",
        "notion_trait",
        "opening",
        "outline_item",
        "path_ref",
        "piece_line",
        "product",
        "pulled",
        "quantity",
        "rest_allowance",
        "run",
        "run_way",
        "runs",
        "slashes",
        "start",
        "step_line",
        "sum",
        "test",
        "through",
        "unary",
        "when_tail",
        "yes",
    )
)


@dataclass(frozen=True, slots=True)
class LineMeaning:
    """How a line is written, what it means, and lines of one section of the garment that show it.

    Lines take the place of the garment's own that begin with the same word (or draw the
    same name); others are added. `section` may be a piece's or a sheet's whole head.
    """

    written: str
    says: str
    section: str
    lines: tuple[str, ...]
    head: str = ""


def _line(section: str, written: str, says: str, *lines: str) -> LineMeaning:
    return LineMeaning(written, says, section, lines)


_SHEET, _PIECE = "sheet cloth", 'piece cloth "Cloth" from cloth cut 2 mirrored main'


def _piece(written: str, says: str, *lines: str, head: str = "") -> LineMeaning:
    return LineMeaning(written, says, _PIECE, lines, head)


_SECTIONS = {
    "draft_line": _line(
        "draft", 'draft "TITLE"', "The garment's name: the first line of every draft.", 'draft "Tea cloth"'
    ),
    "for_line": _line(
        "for",
        "for WHOM [from LENGTH to LENGTH]",
        "Whom the draft is for, and the statures it is offered for.",
        "for women from 150cm to 185cm",
    ),
    "needs_line": _line(
        "needs",
        "MEASURE, MEASURE, ...",
        "The body measurements the draft is drawn from, by their names in ISO 8559-1.",
        "waist_girth, hip_girth",
    ),
    "choice_line": _line(
        "choices",
        'NAME = DEFAULT [from LEAST to MOST] ["TITLE"]',
        "Something the customer chooses, with its default.",
        'lined = no "Lined"',
    ),
    "limits": _line(
        "choices",
        "from LEAST to MOST",
        "How little and how much may be chosen of a length or a number.",
        'depth = 6cm from 4cm to 9cm "Depth of the band"',
    ),
    "options": _line(
        "choices", "one of NAME, NAME, ...", "The options of a choice.", 'length = knee one of knee, calf "Length"'
    ),
    "fabric_line": _line(
        "fabrics",
        'NAME "TITLE" [width LENGTH] ... [when TEST]',
        "A cloth the garment is cut from.",
        'main "Shirt cloth" width 150cm',
    ),
    "trait_width": _line(
        "fabrics",
        "width LENGTH",
        "The width the designer suggests; the customer's own cloth may differ.",
        'main "Cloth" width 110cm',
    ),
    "trait_one_way": _line(
        "fabrics",
        "one way",
        "Cloth with nap or a print that has an up and a down: all pieces lie one way.",
        'main "Corduroy" width 140cm one way',
    ),
    "trait_open": _line(
        "fabrics", "open", "Cloth that is laid single, not folded.", 'main "Interfacing" width 90cm open'
    ),
    "trait_shrinks": _line(
        "fabrics",
        "shrinks SHARE",
        "What the cloth loses in the first wash: so much more is bought.",
        'main "Linen" width 140cm shrinks 4%',
    ),
    "trait_stretches": _line(
        "fabrics",
        "stretches SHARE",
        "How far a knit can be drawn out and come back.",
        'main "Jersey" width 160cm stretches 40%',
    ),
    "notion_line": _line(
        "notions",
        'NAME "TITLE" [count NUMBER] [length LENGTH] [when TEST]',
        "Something to buy besides cloth.",
        'elastic "Elastic, 2 cm" length waist_girth',
    ),
    "trait_count": _line("notions", "count NUMBER", "How many to buy.", 'buttons "Buttons, 15 mm" count 5'),
    "trait_length": _line(
        "notions",
        "length LENGTH",
        "What length to buy, from the garment's own figures.",
        'tape "Tape" length 2 * length(cloth.hem) + 5cm',
    ),
    "sheet_head": LineMeaning(
        "sheet NAME",
        "A sheet of drafting paper: the steps indented under it are drawn on it, in order.",
        _SHEET,
        ("low = corner right 5cm up 4cm",),
        "sheet cloth",
    ),
}
_STEPS = {
    "assign": _line(
        _SHEET, "NAME = FORM", "One drafting step: a name, and what it stands for.", "pocket = corner right 8cm up 9cm"
    ),
    "solve": _line(
        _SHEET,
        "solve NAME from LEAST to MOST until THIS = THAT",
        "Finds the one value between two limits at which a condition holds, drawing the lines under it for each trial.",
        "solve bow from 1cm to 12cm until length(dipped) = 26cm",
        "    dip = (middle of top and top_side) down bow",
        "    dipped = smooth top, dip, top_side",
    ),
    "when_block": _line(
        _SHEET,
        "when TEST",
        "The steps under it are drawn only when the test holds.",
        "when lined",
        "    facing_line = line (top down 3cm) to (top_side down 3cm)",
    ),
    "repeat": _line(
        _SHEET,
        "repeat NAME from NUMBER to NUMBER",
        "The steps under it are drawn once for each whole number.",
        "repeat row from 1 to 3",
        "    rung = line (corner up row * 4cm) to (hem_side up row * 4cm)",
    ),
    "when_otherwise": _line(
        _SHEET,
        "THIS when TEST otherwise THAT",
        "One of two things, by a test.",
        "deep = 6cm when lined otherwise 3cm",
        "mark_at = top down deep",
    ),
    "compare": _line(
        _SHEET,
        "A < B, A > B, A <= B, A >= B",
        "A test of two measures of one kind.",
        "when wide > 20cm",
        "    mid = middle of corner and hem_side",
    ),
    "is_": _line(
        _SHEET,
        "CHOICE is OPTION",
        "A test of what was chosen.",
        "when lined is yes",
        "    mid = middle of corner and hem_side",
    ),
    "is_not": _line(
        _SHEET,
        "CHOICE is not OPTION",
        "The opposite of that test.",
        "when lined is not no",
        "    mid = middle of corner and hem_side",
    ),
    "and_": _line(
        _SHEET,
        "TEST and TEST",
        "Both must hold.",
        "when lined and wide > 20cm",
        "    mid = middle of corner and hem_side",
    ),
    "or_": _line(
        _SHEET,
        "TEST or TEST",
        "One of them must hold.",
        "when lined or wide > 20cm",
        "    mid = middle of corner and hem_side",
    ),
    "not_": _line(
        _SHEET,
        "not TEST",
        "It must not hold.",
        "when not lined or wide > 20cm",
        "    mid = middle of corner and hem_side",
    ),
    "trace": _line(
        _SHEET,
        "trace SIDE, SIDE, ... [holding NAME, ...]",
        "A closed shape traced off the sheet, side after side, for pattern work; what it holds moves with it. "
        "However its sides were drawn, they are walked anticlockwise round it from then on: of two pieces that mirror "
        "each other one side may therefore need “backwards” in a seam.",
        "block = trace hem, side, edge, centre holding low",
    ),
}
_CLAUSES = {
    "piece_head": _piece(
        'piece NAME "TITLE" [from SHEET] cut ... [when TEST]',
        "A pattern piece, traced off a sheet.",
        "outline   hem, side, edge, centre",
        head='piece cloth "Tea cloth" from cloth cut 2 main',
    ),
    "cut": _piece(
        "cut COUNT [mirrored] [on fold] FABRIC",
        "How many to cut from which cloth.",
        head='piece cloth "Cloth" from cloth cut 4 main',
    ),
    "way_mirrored": _piece(
        "cut 2 mirrored FABRIC",
        "Half of them turned over: a left and a right.",
        head='piece cloth "Cloth" from cloth cut 2 mirrored main',
    ),
    "way_fold": _piece(
        "cut 1 on fold FABRIC",
        "Cut on folded cloth, the edge marked fold lying on the fold.",
        "outline hem, side, edge, fold centre",
        head='piece cloth "Cloth" from cloth cut 1 on fold main',
    ),
    "outline": _piece(
        "outline [fold] EDGE [as NAME], ...",
        "The edges and darts of the piece in order round it; one may lie on the fold, each may get another name.",
        "outline hem, side, edge as top, centre",
    ),
    "outline_of": _piece(
        "outline of SHAPE [, fold SIDE]",
        "The outline of a shape from pattern work, sides and darts with their names.",
        "outline of (trace hem, side, edge, centre), fold centre",
        head="",
    ),
    "grain_along": _piece(
        "grain along PATH", "The grain line lies on a path of the sheet.", "grain along (centre right 5cm)"
    ),
    "grain_points": _piece(
        "grain POINT to POINT", "The grain line from a point to another, lower end first.", "grain low to (low up 8cm)"
    ),
    "allowance": _piece(
        "allowance LENGTH [CORNER], EDGE LENGTH [CORNER], ...",
        "The seam allowance of all edges, then of those that differ.",
        "allowance 1cm, side 1.5cm",
    ),
    "allowance_edge": _piece("allowance LENGTH, EDGE LENGTH", "One edge's own allowance.", "allowance 1cm, edge 2cm"),
    "allowance_none": _piece(
        "allowance LENGTH, EDGE none",
        "An edge without allowance: it is bound, or cut to the line. Say which: finish edge bound.",
        "allowance 1cm, edge none",
    ),
    "turned_back": _piece(
        "EDGE LENGTH turned back",
        "A hem whose ends are shaped so that it lies flat when it is folded up.",
        "allowance 1cm, hem 3cm turned back",
    ),
    "squared": _piece(
        "EDGE LENGTH squared",
        "An allowance whose ends stand square to its own edge.",
        "allowance 1cm, side 2cm squared",
    ),
    "finish": _piece(
        "finish EDGE, EDGE, ... WORD [when TEST]",
        "How edges are finished that no seam sews: hemmed (turned up and stitched), turned in (turned under and "
        "edgestitched, felled or topstitched), faced, lined (sewn to the same edge of the piece in another cloth), "
        "bound, closed (sewn to the piece's own other layer or half), zipped (a zip or another fastening goes along "
        "it), applied (sewn on to another piece inside its edges), caught (laid into a seam of other edges), neatened "
        "(overcast, and no more), raw, or selvedge. An allowance that is turned back says hemmed by itself.",
        "finish hem, centre hemmed",
        "finish edge bound",
    ),
    "notch_single": _piece(
        "notch EDGE at LENGTH [from END]", "A notch of the piece's own on an edge.", "notch side at 5cm"
    ),
    "notch_double": _piece(
        "double notch EDGE at LENGTH [from END]",
        "A double notch: by custom it says back.",
        "double notch side at 5cm from top_side",
    ),
    "mark": _piece(
        'mark KIND THING [repeated N times DIRECTION LENGTH] ["WORDS"] [when TEST]',
        "A line or point inside the piece: stitch, fold, lengthen, gather, place, button, buttonhole or drill.",
        'mark fold (line (corner up 8cm) to (hem_side up 8cm)) "Fold"',
        "mark buttonhole low repeated 3 times right 5cm",
    ),
    "note": _piece('note "WORDS"', "Words printed on the piece.", 'note "Press towards the hem."'),
}
_SEAMS = {
    "sew_line": _line(
        "sew",
        "sew EDGES to EDGES [EASE] [NOTCHES] [when TEST]",
        "Two sides sewn to each other; the checks, the matching notches and the pictures all follow from it.",
        "sew cloth.side to cloth.centre",
    ),
    "run_backwards": _line(
        "sew",
        "PIECE.EDGE backwards",
        "An edge walked from its end, where the two were drawn in opposite directions.",
        "sew cloth.side to cloth.centre backwards notch at 4cm",
    ),
    "run_twice": _line(
        "sew",
        "PIECE.EDGE twice",
        "An edge that comes twice in the seam: both halves of a piece on the fold, walked to the fold and away again.",
        "sew cloth.side twice to cloth.centre twice",
    ),
    "ease": _line(
        "sew",
        "ease LEAST..MOST",
        "The first side is so much longer and is eased in.",
        "sew cloth.side to cloth.centre ease -0.5cm..0.5cm",
    ),
    "short": _line(
        "sew",
        "short LENGTH, or short LEAST..MOST",
        "The first side is so much shorter and is meant to end short of the second, as a lining above a hem; both are "
        "laid together where they start. Nothing is stretched, and the instructions say so.",
        "sew cloth.side to cloth.centre short 0cm..1cm",
    ),
    "gather": _line(
        "sew",
        "gather LEAST..MOST",
        "The first side is so many times as long and is gathered.",
        "sew cloth.hem to cloth.side gather 1.3..1.7",
    ),
    "elastic": _line(
        "sew",
        "elastic LEAST..MOST",
        "The first side is so many times as long and is drawn in with elastic.",
        "sew cloth.hem to cloth.side elastic 1.3..1.7",
    ),
    "seam_notch": _line(
        "sew",
        "notch at LENGTH [from end]",
        "A notch on both sides that must meet; a plain number is a share of the seam.",
        "sew cloth.side to cloth.centre notch at 1/2",
    ),
    "seam_notch_double": _line(
        "sew",
        "double notch at LENGTH [from end]",
        "A double notch on both sides.",
        "sew cloth.side to cloth.centre double notch at 5cm from end",
    ),
    "seam_notch_facing": _line(
        "sew",
        "notch facing LENGTH",
        "A notch where so much of the other side lies: facing a seam there.",
        "sew cloth.side to cloth.centre notch facing 6cm",
    ),
    "girth_line": _line(
        "girth",
        'girth NAME ["TITLE"] = LENGTH [body LENGTH ease LENGTH] [stretches to ...] [opens ...] [passes ...]',
        "A girth of the finished garment, read off the pieces and held against the body and its ease.",
        'girth round "Round the cloth" = 4 * length(cloth.hem)',
    ),
    "passes": _line(
        "girth",
        "passes LENGTH",
        "What of the body must go through this girth when the garment is put on: hips, bust, hand or head. Of hand "
        "and head write a length, such as 1.35 * wrist_girth and 57cm, or ask for head_girth among the needs. It is "
        "checked against the girth as it is, with what stretches and opens it. Say it of every narrow girth.",
        'girth round "Round" = 4 * length(cloth.hem)  passes waist_girth',
    ),
    "stretches_to": _line(
        "girth",
        "stretches to LENGTH",
        "What the girth measures pulled out, where elastic or shirring draws it in: the width of the cloth there. "
        "The girth itself is then the relaxed one.",
        'girth round "Round, drawn in" = waist_girth  stretches to 4 * length(cloth.hem)  passes waist_girth',
    ),
    "opens_by": _line(
        "girth",
        "opens LENGTH",
        "The zip, slit or placket that opens the girth, measured from the girth to its end. Both its sides go round "
        "what must pass, so that the girth is wider by twice this length.",
        'girth round "Round" = 4 * length(cloth.hem)  opens 20cm  passes waist_girth',
    ),
    "opens_fully": _line(
        "girth",
        "opens fully",
        "The garment opens all the way, so that this girth need not pass over anything.",
        'girth round "Round" = 4 * length(cloth.hem) opens fully',
    ),
    "fit_line": _line(
        "fit",
        'fit NAME ["TITLE"] = LENGTH body MEASURE ease LEAST..MOST [when TEST]',
        "What the garment leaves at a place where it touches the body: armhole, upper arm, neck, back, crotch. The "
        "length is read off the pieces; the measure is any of the register, asked of the customer or not: one that is "
        "not asked is told from those that are. Where the garment may be smaller, LEAST is below nothing.",
        'fit waist "Waist" = 4 * length(cloth.hem)  body waist_girth  ease 0cm..40cm',
    ),
    "brace_value": _line(
        "steps",
        "{FIGURE}",
        "A figure in the instructions, in the customer's own numbers.",
        "## Sew the side",
        "Stitch {length(cloth.side)} from the hem up.",
    ),
    "brace_seam": _line(
        "steps",
        "{seam PIECE.EDGE}",
        "The picture of a seam beside its step.",
        "## Sew the side",
        "Right sides together. {seam cloth.side}",
    ),
    "brace_when": _line(
        "steps",
        "## TITLE {when TEST}",
        "A step that is there only when the test holds.",
        "## Put in the lining {when lined}",
        "Slip it inside.",
    ),
}
LINE_MEANINGS: dict[str, LineMeaning] = {**_SECTIONS, **_STEPS, **_CLAUSES, **_SEAMS}
