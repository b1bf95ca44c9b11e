"""What each form of the language means, how it is written, and lines that use it on the guide's sheet."""

from __future__ import annotations

from dataclasses import dataclass

__all__ = ["FORM_MEANINGS", "GROUND", "FormMeaning"]

#: What stands on the sheet of paper before each example: a rectangle, its slant, and a block with a dart.
GROUND = """\
corner     = at 0, 0
hem_side   = corner right 24cm
top_side   = hem_side up 16cm
top        = corner up 16cm
hem        = line corner to hem_side
side       = line hem_side to top_side
slant      = line corner to top_side
"""
#: What pattern work needs besides: the rectangle traced, whole and with a dart in its side.
BLOCK = """\
dart_low   = hem_side up 7cm
dart_high  = hem_side up 9cm
tip        = corner right 13cm up 8cm
side_low   = line hem_side to dart_low
side_high  = line dart_high to top_side
side_dart  = dart dart_low to tip to dart_high pressed down
shoulder   = line top_side to top
centre     = line top to corner
slash      = line (corner right 9cm) to (top right 9cm)
plain      = trace hem, side, shoulder, centre
block      = trace hem, side_low, side_dart, side_high, shoulder, centre
"""


@dataclass(frozen=True, slots=True)
class FormMeaning:
    """How a form is written (parts in capitals), what it means, and lines that show it, its own last."""

    written: str
    says: str
    lines: tuple[str, ...]
    ground: str = GROUND


def _form(written: str, says: str, *lines: str) -> FormMeaning:
    return FormMeaning(written, says, lines)


def _work(written: str, says: str, *lines: str) -> FormMeaning:
    return FormMeaning(written, says, lines, GROUND + BLOCK)


_POINTS = {
    "at": _form(
        "at ACROSS, UP", "A point by its place on the sheet: so far to the right, so far up.", "nape = at 6cm, 12cm"
    ),
    "go down": _form(
        "POINT down LENGTH",
        "So far straight down. Moves may follow one another; whole paths and shapes move too.",
        "waist = top down 9cm",
    ),
    "go up": _form("POINT up LENGTH", "So far straight up.", "hip = corner up 5cm"),
    "go left": _form("POINT left LENGTH", "So far straight to the left.", "pocket = top_side left 8cm"),
    "go right": _form("POINT right LENGTH", "So far straight to the right.", "middle_hem = corner right 12cm"),
    "toward": _form(
        "POINT toward POINT by LENGTH",
        "So far along the straight way to another point, or beyond it.",
        "stop = corner toward top_side by 10cm",
    ),
    "going": _form(
        "POINT going ANGLE by LENGTH",
        "So far in a direction; 0deg is to the right, 90deg up.",
        "shoulder_tip = top going 340deg by 12cm",
    ),
    "between": _form(
        "between POINT and POINT at SHARE",
        "A share of the way from one point to the other.",
        "third = between corner and top_side at 1/3",
    ),
    "middle": _form("middle of POINT and POINT", "Halfway between two points.", "half = middle of corner and top_side"),
    "along": _form(
        "along PATH by LENGTH [from END]",
        "So far along a line or curve, measured on the curve itself, from its start or a named end.",
        "notch_place = along slant by 9cm from top_side",
    ),
    "crossing": _form(
        "crossing of PATH and PATH [near POINT]",
        "Where two paths cross; of several crossings the first, or the one nearest to a point.",
        "level_line = line (corner up 6cm) to (hem_side up 6cm)",
        "meet = crossing of slant and level_line",
    ),
    "meeting": _form(
        "meeting of LINE and LINE",
        "Where two straight lines would meet if they were long enough.",
        "short = line (top down 3cm) to (top right 5cm down 3cm)",
        "meet = meeting of slant and short",
    ),
    "foot": _form(
        "foot of POINT on LINE",
        "The point of a straight line that lies square to a point.",
        "square_foot = foot of top on slant",
    ),
    "reach": _form(
        "reach LINE from POINT by LENGTH",
        "The point of a straight line that lies so far from a point: a tape laid from one to the other.",
        "tip_point = reach side from corner by 26cm",
    ),
    "start": _form("start of PATH", "Where a path starts.", "first = start of slant"),
    "end": _form("end of PATH", "Where a path ends.", "last = end of slant"),
    "mirrored": _form(
        "THING mirrored over LINE",
        "The mirror image of a point, a path or a shape over a straight line.",
        "other = top mirrored over slant",
    ),
    "turned": _form(
        "THING turned ANGLE about POINT",
        "Turned about a point, anticlockwise; a minus turns it the other way.",
        "other = side turned 20deg about hem_side",
    ),
    "swung": _form(
        "THING swung about POINT until POINT meets PATH",
        "Pinned at one point and swung until another, of the same thing, lies on a line, by the smaller turn. So a "
        "sleeve is swung to the armhole of a raglan, a yoke to a shoulder. A straight line is met beyond its ends too.",
        "rest = line (corner up 5cm) to (hem_side up 5cm)",
        "leant = hem swung about hem_side until corner meets rest",
    ),
    "level": _form(
        "POINT level with POINT",
        "Moved up or down until it is level with another point.",
        "even = hem_side level with (corner up 10cm)",
    ),
    "plumb": _form(
        "POINT plumb with POINT",
        "Moved across until it lies plumb under or over another point.",
        "under = top plumb with (corner right 7cm)",
    ),
    "nearest()": _form(
        "nearest(PATH, POINT)",
        "The point of any path, curved or straight, that lies nearest to a point.",
        "arc_line = arc hem_side to top_side around (middle of hem_side and top_side)",
        "close = nearest(arc_line, top_side right 6cm)",
    ),
}
_PATHS = {
    "line": _form(
        "line POINT to POINT [to POINT]...",
        "Straight from point to point.",
        "zigzag = line corner to (top right 12cm) to hem_side",
    ),
    "curve": _form(
        "curve POINT to POINT leaving DIRECTION arriving DIRECTION [pull NUMBER]",
        "One smooth curve between two points by its directions of travel at both ends; more pull makes it fuller.",
        "neck = curve top to top_side leaving down arriving up",
    ),
    "smooth": _form(
        "smooth POINT, POINT, ...",
        "A smooth curve through points, in order.",
        "wave = smooth corner, (corner right 8cm up 6cm), (corner right 16cm up 5cm), top_side",
    ),
    "smooth leaving": _form(
        "smooth POINT, POINT, ... leaving DIRECTION",
        "A smooth curve through points that sets out in a direction.",
        "wave = smooth corner, (corner right 12cm up 5cm), top_side leaving right",
    ),
    "smooth arriving": _form(
        "smooth POINT, POINT, ... arriving DIRECTION",
        "A smooth curve through points that comes in from a direction.",
        "wave = smooth corner, (corner right 12cm up 5cm), top_side arriving up",
    ),
    "smooth leaving arriving": _form(
        "smooth POINT, POINT, ... leaving DIRECTION arriving DIRECTION",
        "A smooth curve through points with both its ends' directions given: a sleeve cap, for one.",
        "cap = smooth corner, (corner right 12cm up 12cm), hem_side leaving right arriving right",
    ),
    "arc": _form(
        "arc POINT to POINT around POINT",
        "Part of a circle between two points equally far from its middle, the shorter way round.",
        "round = arc (corner right 10cm) to (corner up 10cm) around corner",
    ),
    "arc_turn": _form(
        "arc around POINT radius LENGTH from ANGLE to ANGLE",
        "Part of a circle by its middle, its radius and two directions.",
        "waist_arc = arc around top radius 9cm from 270deg to 360deg",
    ),
    "part": _form(
        "part of PATH from POINT to POINT",
        "The stretch of a path between two points that lie on it.",
        "lower = part of slant from corner to (along slant by 12cm)",
    ),
    "join": _form(
        "join PATH, PATH, ...",
        "Paths that touch, made into one; one that was drawn the other way is turned round.",
        "l_shape = join hem, side",
    ),
    "reversed": _form("PATH reversed", "The same path walked from its end.", "back_way = slant reversed"),
    "parallel left": _form(
        "parallel to PATH by LENGTH left",
        "A line that runs beside a path at an even distance, on the left as you walk it.",
        "beside = parallel to slant by 2cm left",
    ),
    "parallel right": _form(
        "parallel to PATH by LENGTH right",
        "The same on the right as you walk it.",
        "beside = parallel to slant by 2cm right",
    ),
    "dart": _form(
        "dart POINT to TIP to POINT pressed DIRECTION [clear of POINT by LENGTH]",
        "A dart from the seam to its tip and back, the way it is pressed, and what its tip keeps clear of.",
        "waist_dart = dart (corner right 10cm) to (corner right 12cm up 9cm) to (corner right 14cm) pressed left",
    ),
    "direction down": _form(
        "leaving down", "The way down the sheet.", "curved = curve top to hem_side leaving down arriving right"
    ),
    "direction up": _form(
        "leaving up", "The way up the sheet.", "curved = curve corner to top_side leaving up arriving right"
    ),
    "direction left": _form(
        "leaving left", "The way to the left.", "curved = curve top_side to corner leaving left arriving down"
    ),
    "direction right": _form(
        "leaving right", "The way to the right.", "curved = curve corner to top_side leaving right arriving up"
    ),
    "direction angle": _form(
        "leaving ANGLE",
        "A direction as an angle from the right, anticlockwise.",
        "curved = curve corner to top_side leaving 10deg arriving 80deg",
    ),
    "direction toward": _form(
        "leaving toward POINT",
        "The way to a point.",
        "curved = curve corner to top_side leaving toward top arriving right",
    ),
    "direction away": _form(
        "arriving away from POINT",
        "The way that leads from a point.",
        "curved = curve corner to top_side leaving right arriving away from hem_side",
    ),
    "direction square": _form(
        "leaving square to LINE",
        "At a right angle to a straight line or to the line between a path's ends, on the side the curve goes.",
        "curved = curve top to hem_side leaving square to side arriving square to hem",
    ),
}
_NUMBERS = {
    "length()": _form("length(PATH)", "The length of a path, measured on the curve.", "long = length(slant)"),
    "distance()": _form(
        "distance(POINT, POINT)", "The straight distance between two points.", "far = distance(top, hem_side)"
    ),
    "across()": _form(
        "across(POINT, POINT)", "How far apart two points lie to the side.", "wide = across(top, hem_side)"
    ),
    "drop()": _form(
        "drop(POINT, POINT)", "How much lower the second point lies than the first.", "deep = drop(top, hem_side)"
    ),
    "intake()": _form(
        "intake(DART)",
        "The width of a dart at its mouth.",
        "a_dart = dart (corner right 10cm) to (corner right 11cm up 9cm) to (corner right 13cm) pressed left",
        "taken = intake(a_dart)",
    ),
    "angle()": _form(
        "angle(POINT, POINT)",
        "The direction from one point to another, from the right, anticlockwise.",
        "lean = angle(corner, top_side)",
    ),
    "sin()": _form(
        "sin(ANGLE)",
        "Across over length in a right-angled triangle.",
        "share = sin(30deg)",
        "rise = corner up 10cm * sin(30deg)",
    ),
    "cos()": _form(
        "cos(ANGLE)", "Along over length in a right-angled triangle.", "run = corner right 10cm * cos(60deg)"
    ),
    "tan()": _form("tan(ANGLE)", "Rise over run.", "rise = hem_side up 10cm * tan(45deg)"),
    "arctan()": _form(
        "arctan(NUMBER)", "The angle of a slope, from its rise over its run.", "lean = arctan(16cm / 24cm)"
    ),
    "arccos()": _form("arccos(NUMBER)", "The angle with this cosine.", "lean = arccos(24cm / length(slant))"),
    "arcsin()": _form("arcsin(NUMBER)", "The angle with this sine.", "lean = arcsin(16cm / length(slant))"),
    "full_turns()": _form(
        "full_turns(NUMBER)", "An angle as a share of a full turn.", "quarter_turn = full_turns(1/4)"
    ),
    "hypot()": _form("hypot(LENGTH, LENGTH)", "The long side of a right-angled triangle.", "long = hypot(24cm, 16cm)"),
    "round_up()": _form(
        "round_up(LENGTH, LENGTH)",
        "Up to the next whole step: a tape or a band in sizes that are sold.",
        "band_width = round_up(33mm, 5mm)",
    ),
    "sqrt()": _form("sqrt(AREA)", "The side of a square with this area.", "long = sqrt(24cm * 24cm + 16cm * 16cm)"),
}
_WORK = {
    "pivot": _work(
        "pivot DART of SHAPE to POINT [taking SHARE] as NAME",
        "Closes a dart, all or a share of it, and opens it again from a point of another side. Anticlockwise "
        "round the shape, the paper from the old dart on to the new one turns about the dart's point; all the rest "
        "stays.",
        "moved = pivot side_dart of block to (middle of top_side and top) as shoulder_dart",
    ),
    "shorten": _work(
        "shorten DART of SHAPE by LENGTH",
        "Backs a dart off its point, its mouth as it was.",
        "backed = shorten side_dart of block by 2.5cm",
    ),
    "cut left": _work(
        "cut SHAPE left of PATH [as NAME]",
        "The part of a shape on the left of a path that runs across it.",
        "left_part = cut plain left of slash as style",
    ),
    "cut right": _work(
        "cut SHAPE right of PATH [as NAME]",
        "The part of a shape on the right of a path.",
        "right_part = cut plain right of slash as style",
    ),
    "tape": _work(
        "tape SHAPE to SHAPE on SIDE [and SIDE]",
        "Joins two shapes on a seam, as with tape, and leaves the seam out.",
        "left_part = cut plain left of slash as style",
        "right_part = cut plain right of slash as style",
        "whole = tape left_part to right_part on style",
    ),
    "spread": _work(
        "spread SHAPE along PATH, ... by LENGTH",
        "Cut along lines and pushed apart evenly: for gathers. The paper to the left of each line stays where it is; "
        "that to its right, as the line runs, moves away.",
        "full = spread plain along slash by 4cm",
    ),
    "fan": _work(
        "fan SHAPE along PATH, ... by LENGTH",
        "Cut along lines and opened like a fan where each line starts, held at its end: for flare. The paper to the "
        "left of each line stays where it is; that to its right, as the line runs, turns about the line's end.",
        "flared = fan plain along slash by 5cm",
    ),
    "spread times": _work(
        "spread SHAPE along PATH, ... making SIDE NUMBER times as long",
        "Pushed apart just so far that a side becomes so many times as long: gathers by their ratio. The paper to the "
        "right of each line moves, as it does by a length.",
        "full = spread plain along slash making shoulder 1.5 times as long",
    ),
    "fan times": _work(
        "fan SHAPE along PATH, ... making SIDE NUMBER times as long",
        "Opened like a fan just so far that the side on which the lines start becomes so many times as long. The paper "
        "to the right of each line turns about its end.",
        "flared = fan plain along slash making hem 1.5 times as long",
    ),
    "pleat": _work(
        "pleat SHAPE along PATH, ... deep LENGTH",
        "Knife pleats. Each line is an edge that shows; the fold lies under the paper to its left, and the paper opens "
        "by twice the depth: what lies to the left of the line, as it runs, stays, and what lies to its right moves. "
        "Edges are shaped to lie true when folded, the fold lines are printed (pleat_1_edge, "
        "_turn and _place on the first), and the sides know what the pleats take in.",
        "pleated = pleat plain along slash deep 2cm",
    ),
    "box pleat": _work(
        "box pleat SHAPE along PATH, ... deep LENGTH",
        "Box pleats: a panel twice the depth wide stands over each line, its folds meeting beneath. The paper opens by "
        "four times the depth: what lies to the left of the line stays, what lies to its right moves.",
        "pleated = box pleat plain along slash deep 1.5cm",
    ),
    "inverted pleat": _work(
        "inverted pleat SHAPE along PATH, ... deep LENGTH",
        "Inverted pleats: two edges meet over each line, the folds lying under the paper on both sides. The paper "
        "opens by four times the depth: what lies to the left of the line stays, what lies to its right moves.",
        "pleated = inverted pleat plain along slash deep 1.5cm",
    ),
    "tuck": _work(
        "tuck SHAPE along PATH, ... deep LENGTH",
        "Tucks: folds stitched down all along each line and pressed to its left. The paper opens by twice the depth: "
        "what lies to the left of the line stays, what lies to its right moves. Both stitching lines and the fold are "
        "printed.",
        "tucked = tuck plain along slash deep 5mm",
    ),
    "tuck released": _work(
        "tuck SHAPE along PATH, ... deep LENGTH stitched LENGTH",
        "Tucks stitched from where each line starts for so far only: from there on their fullness is let out. "
        "The paper to the right of each line moves.",
        "tucked = tuck plain along slash deep 8mm stitched 6cm",
    ),
    "move out": _work(
        "move SIDE of SHAPE out by LENGTH",
        "A side moved outwards, its neighbours made longer.",
        "longer = move hem of plain out by 3cm",
    ),
    "move in": _work(
        "move SIDE of SHAPE in by LENGTH",
        "A side moved inwards: a lining's hem.",
        "shorter = move hem of plain in by 2cm",
    ),
    "true": _work(
        "true SIDE of SHAPE [through POINT, ...]",
        "A side that spreading or taping left in steps drawn again as one fair curve, through points of your own or "
        "else through the middles of its stretches.",
        "flared = fan plain along slash by 5cm",
        "fair = true hem of flared",
    ),
    "unite": _work(
        "unite SIDE, SIDE, ... of SHAPE as NAME",
        "Sides that follow one another made one side, as where a dart was pivoted away and its two sides are left.",
        "moved = pivot side_dart of block to (middle of top_side and top) as shoulder_dart",
        "whole = unite side_low, side_high of moved as side",
    ),
    "face": _work(
        "face SHAPE along SIDE, ... deep LENGTH",
        "The part of a shape that lies along some of its sides: a facing. Its new side is called inner. Darts between "
        "the sides are closed first, as you would fold them shut to trace it: anticlockwise round the shape, what "
        "comes before a dart stays and what follows it turns about its point.",
        "facing = face block along side_low, side_high deep 3cm",
    ),
}
FORM_MEANINGS: dict[str, FormMeaning] = {**_POINTS, **_PATHS, **_NUMBERS, **_WORK}
