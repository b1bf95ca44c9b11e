"""The outlines of our own croquis: an adult figure, seven and a half heads tall, from the front, the back and the side.

Frame: x to the right with the body's middle at 0, y **down** from the crown at 0
to the floor at 750 (as SVG has it), so a head is 100 units. The levels follow the
mean proportions of the women of 1988 (waist at 65 % of stature, hip at 51 %,
crotch at 47 %, knee at 28 %); widths are drawn a little fuller than theirs.
Outlines are points to be joined smoothly; `|` marks a corner, `;` begins a hole.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

__all__ = ["VIEWS", "CroquisShape", "mirrored"]


@dataclass(frozen=True, slots=True)
class CroquisShape:
    """An outline or a line: its paint (`body`, `shoulder`, `cloth`, `faint`, `seat`) and its points in words."""

    paint: str
    points: str
    closed: bool = True


def mirrored(points: str) -> str:
    """The same points on the other side of the body, in the opposite order."""
    runs = [[_flip(pair) for pair in run.split()] for run in points.split("|")]
    return " | ".join(" ".join(reversed(run)) for run in reversed(runs))


def _flip(pair: str) -> str:
    x, y = pair.split(",")
    return f"{0.0 - float(x):g},{y}"


# The right-hand half of the front, from the neck round the arm and the leg to the crotch.
_NECK = "19,88 19.5,104 22,116 30,124 48,130 70,135"
_ARM = (
    "70,135 84,140 96,151 104,172 108,198 113,226 119,254 126,281 134,308 143,340 151,372 154,386"
    " 161,402 165,422 164,444 158,460 151,464 145,457 141,442 136,426 132,410 130,398 129,385"
    " 121,356 110,324 101,298 95,276 89,250 81,222 | 72,194"
)
_SIDE = "72,194 74,208 71,226 65,246 62,264 65,284 75,316 85,348 89,374"
_LEG = (
    "89,374 89,400 85,440 77,486 67,524 62,545 63,566 66,596 62,634 53,676 46,704 48,724 57,738"
    " 58,747 44,751 27,749"
    " 22,740 25,718 25,702 23,672 18,630 15.5,598 18,568 20,546 17,520 10,472 4,424 | 0,398"
)


_HALF = f"{_NECK} {_ARM} | {_SIDE} {_LEG}"
_BODY = CroquisShape("body", f"{_HALF} | {mirrored(_HALF)}")
_HEAD_HALF = "0,0 19,4.5 31,22 34,44 30.5,66 22,86 9,98 0,100"
_HEAD = CroquisShape("body", f"{_HEAD_HALF} {mirrored(_HEAD_HALF)}")


def _suit(neck: str, leg: str) -> CroquisShape:
    half = f"{neck} | 56,132 57,150 61,172 | 72,194 | {_SIDE} | {leg}"
    return CroquisShape("cloth", f"{half} | {mirrored(half)}")


_FRONT_SUIT = _suit("0,178 18,174 30,160 38,128", "89,374 60,376 32,388 | 6,404 0,405")
_BACK_SUIT = _suit("0,168 18,164 30,150 38,128", "89,374 76,390 54,403 28,409 8,406 0,403")


def _both(paint: str, points: str) -> tuple[CroquisShape, CroquisShape]:
    return CroquisShape(paint, points, closed=False), CroquisShape(paint, mirrored(points), closed=False)


_FRONT_LINES = (
    *_both("faint", "7,130 20,129 36,133 54,134"),
    *_both("faint", "13,214 22,226 40,232 58,227 68,212"),
    *_both("faint", "72,194 74,186 74,176"),
    *_both("faint", "30,550 37,555 46,553"),
)
_FRONT = (_BODY, _FRONT_SUIT, _HEAD, *_FRONT_LINES, *_both("faint", "139,396 142,410 140,424"))
_BACK = (
    _BODY,
    _BACK_SUIT,
    _HEAD,
    *_both("faint", "24,196 34,204 46,200"),
    *_both("faint", "72,194 74,186 73,174"),
    CroquisShape("faint", "0,372 0.5,388 0,402", closed=False),
    CroquisShape("faint", "0,150 0.5,160 0,166", closed=False),
    *_both("faint", "26,548 36,551 48,547"),
)

# The right hand rests on the hip, its fingers behind the body.
_BENT_ARM = (
    "70,135 84,140 97,150 109,168 121,194 135,222 150,247 157,259 159,270 155,281 138,302 120,324"
    " 107,342 100,356 93,364 | 89,374"
)
_BENT_HALF = f"{_NECK} {_BENT_ARM} | {_LEG}"
_GAP = (
    "72,194 74,208 71,226 65,246 62,264 65,284 72,307 | 72,307 83,314 92,312 106,298 119,283"
    " 126,273 125,262 114,244"
    " 98,226 84,210 | 72,194"
)
_BENT = (
    CroquisShape("body", f"{_BENT_HALF} | {mirrored(_HALF)}; {_GAP}"),
    _FRONT_SUIT,
    _HEAD,
    *_FRONT_LINES,
    CroquisShape("faint", "-139,396 -142,410 -140,424", closed=False),
)

_SIDE_HEAD = "2,0 26,5 40,22 44,44 43.5,62 43,76 41,90 34,99 24,98 11,91 -6,89 -24,84 -38,66 -42,42 -34,17 -17,4 2,0"
_SIDE_FRONT = "18,92 18,106 22,120 32,142 43,166 55,187 61,199 62,210 56,225 46,242 41,264 45,292 49,322 46,352 42,382"
_SIDE_LEG_FRONT = (
    "42,382 46,414 44,456 38,500 34,530 32,546 25,568 20,600 14,650 10,694 14,712 32,727 54,736"
    " 65,743 65,749 58,751 30,750 4,748 -28,751"
)
_SIDE_LEG_BACK = "-28,751 -35,743 -30,724 -25,704 -27,676 -38,632 -42,604 -37,574 -28,548 -30,520 -38,470 -46,424"
_SIDE_BACK = (
    "-46,424 -52,404 -63,380 -65,362 -60,336 -50,306 -42,276 -41,260 -46,232 -56,198 -59,172"
    " -52,142 -38,116 -31,100 -28,84"
)
_SIDE_BODY = CroquisShape("body", f"{_SIDE_FRONT} {_SIDE_LEG_FRONT} {_SIDE_LEG_BACK} {_SIDE_BACK} |")
_SIDE_SUIT = CroquisShape(
    "cloth",
    "-4,127 4,128 14,152 40,160 | 43,166 55,187 61,199 62,210 56,225 46,242 41,264 45,292 49,322"
    " 46,352 | 43,374"
    " 20,372 -10,382 -34,400 | -52,404 -63,380 -65,362 -60,336 -50,306 -42,276 -41,260 -46,232"
    " -56,198 -59,172 | -56,152"
    " -34,150 -18,140 -12,127 -4,127 |",
)
_SHOULDER = CroquisShape("shoulder", "-8,132 8,142 15,164 11,188 -2,199 -18,194 -28,174 -26,150 -8,132")
_PROFILE = (
    _SIDE_BODY,
    _SIDE_SUIT,
    _SHOULDER,
    CroquisShape("body", _SIDE_HEAD),
)

_FOOT_AND_LEG = (_SIDE_BODY,)

_SEATED_TRUNK = (
    "18,92 18,106 22,120 32,142 43,166 55,187 61,199 62,210 56,225 46,242 43,264 50,290 60,312"
    " 78,330 120,336 168,340 206,344"
    " 224,354 226,372 222,392 222,420 216,470 206,520 206,532 222,544 246,554 258,562 254,568 |"
    " 172,568 168,558 174,540"
    " 176,510 166,470 166,436 172,410 | 166,404 120,404 60,406 -20,406 | -44,406 -62,390 -66,366"
    " -60,336 -50,306 -42,276 -41,260"
    " -46,232 -56,198 -59,172 -52,142 -38,116 -31,100 -28,84 |"
)
_SEATED_SUIT = (
    "-4,127 4,128 14,152 40,160 | 43,166 55,187 61,199 62,210 56,225 46,242 43,264 50,290 60,312"
    " | 78,330 60,352 30,384 4,406 |"
    " -20,406 | -44,406 -62,390 -66,366 -60,336 -50,306 -42,276 -41,260 -46,232 -56,198 -59,172 |"
    " -56,152 -34,150 -18,140 -12,127 -4,127 |"
)
_CHAIR = (
    CroquisShape("seat", "-92,407 | 150,407 | 150,420 | -92,420 | -92,407"),
    CroquisShape("seat", "-84,420 | -74,420 | -74,570 | -84,570 | -84,420"),
    CroquisShape("seat", "130,420 | 140,420 | 140,570 | 130,570 | 130,420"),
)
_SEATED = (
    *_CHAIR,
    CroquisShape("body", _SEATED_TRUNK),
    CroquisShape("cloth", _SEATED_SUIT),
    _SHOULDER,
    CroquisShape("body", _SIDE_HEAD),
)

# A flat hand from the back, larger than the croquis: fingers up, the thumb to the right.
_HAND = (
    CroquisShape(
        "body",
        "-25,300 | -25,300 -26,262 -31,236 -40,204 -44,172 -43,150 -43,118 -42,92 -37,84 -31,86"
        " -28,98 | -27,140 | -27,140"
        " -25,92 -23,66 -17,58 -10,61 -7,72 | -6,138 | -6,138 -4,82 -2,56 4,48 11,52 13,66 | 13,138 |"
        " 13,138 16,86 19,68 25,62"
        " 31,67 33,80 32,118 33,150 36,168 42,172 50,158 58,138 66,124 74,120 78,127 76,142 68,166"
        " 58,190 46,212 34,230 28,252"
        " 27,276 27,300 |",
    ),
)

VIEWS: Mapping[str, tuple[CroquisShape, ...]] = MappingProxyType(
    {
        "front": _FRONT,
        "back": _BACK,
        "side": _PROFILE,
        "foot": _FOOT_AND_LEG,
        "seated": _SEATED,
        "hand": _HAND,
        "bent": _BENT,
    }
)
