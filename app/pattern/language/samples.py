"""A line to write like: the example nearest to what a line that cannot be read was meant to say."""

from __future__ import annotations

import re

__all__ = ["SAMPLES", "sample_for"]

#: For each rule the line it stands for, under "", and lines for what a word in it begins.
SAMPLES: dict[str, dict[str, str]] = {
    "draft_line": {"": 'draft "Garden skirt"'},
    "for_line": {"": "for women", "from": "for women from 150cm to 185cm"},
    "sheet_head": {"": "sheet body"},
    "needs_line": {"": "waist_girth, hip_girth"},
    "choice_line": {
        "": 'ease = 4cm from 2cm to 8cm "Room at the hip"',
        "yes": 'lined = yes "Lined"',
        "no": 'lined = no "Lined"',
        "one": 'length = knee one of knee, calf "Length"',
        "of": 'length = knee one of knee, calf "Length"',
    },
    "fabric_line": {
        "": 'main "Shell" width 140cm',
        "when": 'lining "Lining" width 140cm when lined',
        "shrinks": 'main "Shell" width 140cm shrinks 4%',
        "stretches": 'main "Jersey" width 160cm stretches 40%',
    },
    "notion_line": {
        "": 'elastic "Elastic, 1 cm" length waist_girth',
        "count": 'buttons "Buttons, 15 mm" count 5',
        "when": 'zip "Zip" count 1 when zipped',
    },
    "step_line": {
        "": "hip_side = hip_centre right panel",
        "repeat": "repeat row from 1 to 3",
        "solve": "solve bow from 1cm to 12cm until length(dipped) = 26cm",
        "when": "when lined and length > 60cm",
        "otherwise": "deep = 6cm when lined otherwise 3cm",
        "at": "nape = at 6cm, 12cm",
        "down": "waist = nape down 40cm",
        "up": "hip = hem up 12cm",
        "left": "pocket = side left 8cm",
        "right": "hip_side = hip_centre right panel",
        "between": "third = between nape and waist at 1/3",
        "middle": "half = middle of nape and waist",
        "along": "notch_place = along side by 9cm from waist",
        "crossing": "meet = crossing of armhole and level_line",
        "meeting": "meet = meeting of shoulder and centre",
        "foot": "square_foot = foot of neck on centre",
        "reach": "tip = reach side from neck by 26cm",
        "start": "first = start of hem",
        "end": "last = end of hem",
        "toward": "stop = waist toward hip by 10cm",
        "going": "tip = neck going 340deg by 12cm",
        "turned": "other = side turned 20deg about waist",
        "swung": "other = side swung about waist until hip meets centre",
        "mirrored": "other = side mirrored over centre",
        "level": "even = side level with waist",
        "plumb": "under = neck plumb with tip",
        "reversed": "back_way = side reversed",
        "line": "centre = line nape to waist to hem",
        "curve": "neck = curve nape to tip leaving right arriving up",
        "leaving": "neck = curve nape to tip leaving right arriving up",
        "arriving": "neck = curve nape to tip leaving right arriving up",
        "smooth": "hip_line = smooth waist, hip, hem leaving down",
        "arc": "round = arc waist to hip around middle_point",
        "radius": "round = arc around middle_point radius 9cm from 270deg to 360deg",
        "part": "lower = part of side from hip to hem",
        "join": "whole_side = join upper, lower",
        "parallel": "beside = parallel to hem by 2cm left",
        "trace": "block = trace hem, side, shoulder, centre holding bust_point",
        "pivot": "moved = pivot bust_dart of block to shoulder_point as shoulder_dart",
        "shorten": "backed = shorten bust_dart of block by 2cm",
        "cut": "part_a = cut block left of style_line as style",
        "tape": "whole = tape part_a to part_b on style",
        "unite": "whole = unite side_upper, side_lower of block as side",
        "spread": "full = spread block along slash_1, slash_2 by 4cm",
        "fan": "flared = fan block along slash_1, slash_2 by 6cm",
        "pleat": "pleated = pleat block along slash_1 deep 3cm",
        "box": "pleated = box pleat block along slash_1 deep 3cm",
        "inverted": "pleated = inverted pleat block along slash_1 deep 3cm",
        "tuck": "tucked = tuck block along slash_1, slash_2 deep 5mm",
        "making": "full = spread block along slash_1, slash_2 making hem 1.5 times as long",
        "through": "fair = true hem of flared through middle_point",
        "function": "long = length(side)",
        "move": "longer = move hem of block out by 4cm",
        "true": "fair = true hem of flared",
        "face": "facing = face block along neck deep 6cm",
        "dart": "waist_dart = dart dart_a to tip to dart_b pressed left",
        "pressed": "waist_dart = dart dart_a to tip to dart_b pressed left",
    },
    "piece_head": {
        "": 'piece back "Back" cut 1 on fold main',
        "from": 'piece back "Back" from body cut 1 on fold main',
        "mirrored": 'piece front "Front" cut 2 mirrored main',
        "when": 'piece lining "Lining" cut 2 lining when lined',
    },
    "piece_line": {
        "": "allowance 1cm, hem 3cm turned back",
        "outline": "outline fold centre, hem, side, waist",
        "of": "outline of block, fold centre",
        "grain": "grain (waist down 8cm) to (hem up 8cm)",
        "along": "grain along centre",
        "allowance": "allowance 1cm, hem 3cm turned back",
        "finish": "finish neck, armhole lined",
        "notch": "notch side at 20cm",
        "double": "double notch side at 20cm",
        "mark": 'mark fold fold_line "Fold here"',
        "repeated": "mark buttonhole top_button repeated 5 times down 9cm",
        "note": 'note "Cut one only."',
    },
    "sew_line": {
        "": "sew back.side to front.side",
        "notch": "sew back.side to front.side notch at 20cm",
        "ease": "sew sleeve.cap to back.armhole, front.armhole ease 1cm..3cm",
        "gather": "sew skirt.top to yoke.lower gather 1.5..2.5",
        "elastic": "sew skirt.top to band.attach elastic 1.3..1.7",
        "short": "sew lining.side to front.side short 2cm",
        "when": "sew lining.side to lining.side when lined",
    },
    "girth_line": {
        "": "girth bust = 2 * width(back, scye) body bust_girth ease bust_ease",
        "stretches": "girth waist = length(band.attach) stretches to 90cm passes hip_girth",
        "opens": "girth waist = length(band.attach) opens zip_length passes hip_girth",
        "passes": "girth waist = length(band.attach) opens zip_length passes hip_girth",
    },
    "fit_line": {"": "fit armhole = length(back.armhole) + length(front.armhole) body armscye_girth ease 2cm..4cm"},
    "brace": {"": "{length(front.hem)}", "seam": "{seam front.side}", "when": "## Line it {when lined}"},
}
#: Words that may follow others in one form: they count wherever they stand. The rest only where a form begins.
_ANYWHERE = frozenset(("radius", "making", "through"))
_MOVES = frozenset(
    (
        *("down", "up", "left", "right", "toward", "going", "turned", "swung", "mirrored", "level", "plumb"),
        *("reversed", "otherwise"),
    )
)
_WORD = re.compile(r'"[^"\n]*"?|[a-z]\w*\(?|[()]')


def sample_for(start: str, before: str) -> str:
    """The example for a line of the rule `start` that can be read up to `before` the wrong place, and no further.

    In brackets the form inside them counts, if one has begun there.
    """
    if start == "step_line":
        name, equals, rest = before.partition("=")
        # The name a step draws may be any word; a block's own = comes after its first word.
        if equals and len(name.split()) == 1:
            return _sample(SAMPLES[start], re.sub(r"\bwhen\b", "otherwise", rest), begins=True)
        return _sample(SAMPLES[start], before, begins=True)
    return _sample(SAMPLES[start], before, begins=False)


def _sample(samples: dict[str, str], before: str, *, begins: bool) -> str:
    """The sample by the words before the place; where a line `begins` with a form, its later words are parts of it."""
    found = [""]
    for word in _WORD.findall(before):
        key = word.rstrip("(") if word != "(" else ""
        if key in samples and key and not _settled(found[-1], key, begins=begins):
            found[-1] = key
        if word == ")" and len(found) > 1:
            found.pop()
        elif word.endswith("("):
            found.append("function" if key and key not in samples and "function" in samples else "")
    return samples[next((key for key in reversed(found) if key), "")]


def _settled(found: str, key: str, *, begins: bool) -> bool:
    """True where a form has begun of which `key` is only a part."""
    return begins and found not in ("", "function", *_MOVES) and key not in _ANYWHERE
