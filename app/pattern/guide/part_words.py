"""What the trade knows of each part that is drafted from seams, and on which garment of the guide it is shown."""

from __future__ import annotations

from dataclasses import dataclass

__all__ = ["PART_CHAPTERS", "PartWords"]


@dataclass(frozen=True, slots=True)
class PartWords:
    """A part: its file of lines, the layers under it, plain words, and what is shown.

    `sheet` is the sheet whose shapes are pictured, "" for its last seam; `shows` the pieces, all of its own when empty.
    Values of the trade in `says` are marked "common practice".
    """

    name: str
    under: tuple[str, ...]
    says: str
    sheet: str = ""
    shows: tuple[str, ...] = ()


_TOP, _SLEEVED, _SKIRT = ("top", "sides"), ("top", "sides", "sleeve"), ("skirt",)

_WAIST = (
    PartWords(
        "waistband",
        _SKIRT,
        "Sewn to the whole waist, so it is as long as the waist is with its darts closed: length never counts a dart. "
        "The underlap lies beyond the opening and is a side of its own, or the seam would not walk. Cut along the "
        "lengthwise grain it does not stretch, and 3 cm of underlap take a hook and bar (common practice).",
    ),
    PartWords(
        "ties",
        _SKIRT,
        "A tie folded lengthwise is as wide at its base as the open end of the band it is sewn to. 60 cm from the "
        "waist make a small bow, 80 cm a full one (common practice). On children's clothes ties and cords are "
        "restricted, at neck and hood above all: mind the rules of the country you sell in.",
    ),
    PartWords(
        "waist_facing",
        _SKIRT,
        "Traced off the skirt with the dart folded shut, so the facing has no dart and lies flat. Closing the dart "
        "turns the part behind it: take the grain from the facing's own side, not from the sheet. 5 to 7 cm are "
        "deep enough (common practice), and no deeper than the dart is long.",
    ),
)
_SLEEVE = (
    PartWords(
        "cuff",
        _SLEEVED,
        "A ring, folded double, as long as the edge it is sewn to: no ease and no underlap. Its join meets the sleeve "
        "seam. Mind that the hand must pass: this one is as wide as the sleeve.",
    ),
    PartWords(
        "gathered_cuff",
        _SLEEVED,
        "The cuff is as long as the wrist and its room, the lap beside it a side of its own; the sleeve's edge is "
        "longer and is gathered in. The seam says how full it may come out: 1.2 to 2.2 times, whatever the body. "
        "1.5 times looks gathered, 2 times full (common practice).",
    ),
)
_NECK = (
    PartWords(
        "stand",
        _TOP,
        "Sewn to the neckline from front edge to front edge. The more its front rises, the closer the upper edge lies "
        "to the neck: 1 to 2 cm of rise are a mild stand, more a close one (common practice). However it is bent, its "
        "lower edge must be as long as the neckline: solve moves the front until it is.",
    ),
    PartWords(
        "collar",
        (*_TOP, "stand"),
        "Sewn to the top of the stand, not to the neckline, so it is as long as that. Its lower edge bends the other "
        "way, which lets the fall spread over the stand; it must be at least 1 cm deeper than the stand, to hide the "
        "seam (common practice).",
    ),
    PartWords(
        "bias_strip",
        _TOP,
        "As long as the edge it is stitched to, its grain at 45° so that it goes round the curve. Where a strip is "
        "joined, its ends lie on the straight grain, which stretches least, and the two slants are equally long. Many "
        "makers cut it 1 to 2 % shorter and stretch it round a hollow edge (common practice); then say so with ease.",
    ),
    PartWords(
        "neck_facing",
        _TOP,
        "The part of front and back along the neckline: the same curve, so it lies flat under it. Its shoulder seam "
        "meets the garment's. 5 to 7 cm deep (common practice), interfaced, the inner edge neatened and left loose.",
    ),
)
_CUT = (
    PartWords(
        "yoke",
        _TOP,
        "Cut the back in two along a line, and both parts have the same new seam: name it in the cut. The shoulder "
        "and the neck now belong to the yoke, so the shoulder seam is sewn to the yoke. An armhole cut in two is "
        "still one armhole to a sleeve: list both edges.",
        "yoke",
    ),
    PartWords(
        "side_panel",
        ("top",),
        "Taken off the front and taped to the back on the side seam, which is gone: one seam less to sew, and a line "
        "in front. Only sides of one length and shape can be taped, and a front must be mirrored first, or it would "
        "lie with the wrong side up. Look at the grain of the whole piece before you cut.",
        "panels",
    ),
    PartWords(
        "dart_split",
        ("top",),
        "Half of the bust dart stays in the side, half goes to the shoulder: two small darts sit softer than a big "
        "one. Both point at the bust point, then each is backed off it, 2 to 4 cm (common practice). The shoulder "
        "is now two edges with a dart between, and they are sewn as one seam.",
        "darted",
    ),
)
_FULL = (
    PartWords(
        "ruffle",
        _SKIRT,
        "Draw it first as long as the hem, then spread it until it is twice that: the ratio stays true on every body. "
        "1.5 times is sparse, 2 times usual, 3 times for sheer cloth (common practice). The skirt's hem is now a seam "
        "and loses its turning, so front and back are traced again.",
        "ruffle",
        ("ruffle",),
    ),
    PartWords(
        "box_pleat",
        (*_TOP, "yoke"),
        "The pleat is put into the part below the yoke. The opened edge is longer, but the side knows what is folded "
        "away, so it still walks against the yoke. A width across pleats is measured on open paper: take the folds "
        "off it yourself, four depths for each box pleat.",
        "pleated",
    ),
    PartWords(
        "tucks",
        _TOP,
        "Stitched down from the shoulder so far and released: the shoulder is as long as before, and the chest is "
        "wider by twice the depth of each tuck. Say so in the ease of the bust. Tucks of 3 to 5 mm lie flat in most "
        "blouse cloths (common practice).",
        "tucked",
    ),
)
_INSIDE = (
    PartWords(
        "lining",
        _SKIRT,
        "The shell's own shape with its hem and its side moved in: 2 to 3 cm shorter, so that it never shows (common "
        "practice), and a little narrower. Its waist is then shorter by what the side moved; the shell is eased to it, "
        "and the seam says how much.",
    ),
    PartWords(
        "pleat_lining",
        _SKIRT,
        "A shape is never changed, only made anew, so the shape from before the pleat is still there: line with that. "
        "The waists are equally long, since a pleated side knows what is folded away. Without a pleat the lining is "
        "narrow at the hem: leave a slit in its side, or you cannot walk.",
        "front_pleated",
    ),
    PartWords(
        "pocket",
        _TOP,
        "It needs no seam line: it is topstitched to a place, and its edges are printed there. Drawn on the front's "
        "own frame, pocket and place are the same lines and cannot disagree. As wide as the hand and some 3 cm "
        "(common practice); the mouth is turned back, so the allowance's ends are shaped for it.",
    ),
)
#: The parts by chapter, in the order of the page.
PART_CHAPTERS: dict[str, tuple[PartWords, ...]] = {
    "At the waist": _WAIST,
    "At the sleeve": _SLEEVE,
    "At neck and armhole": _NECK,
    "Cut off, taped on, turned": _CUT,
    "Full and folded": _FULL,
    "Inside, and on top": _INSIDE,
}
