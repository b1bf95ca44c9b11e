"""The commonest slips of the pen, each told as what it is: one table, asked where a line cannot be read."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from unicodedata import normalize

__all__ = ["FORM_WORDS", "Slip", "Stops", "Stuck", "slip_at"]

#: Where a text stops that is read by a rule; None when all of it can be read.
Stops = Callable[[str, str], int | None]


@dataclass(frozen=True, slots=True)
class Stuck:
    """A line that cannot be read: its text, the place and the signs it stops at, and the rule it was read by.

    `stops(text, rule)` tells where another text stops.
    """

    text: str
    at: int
    found: str
    start: str
    stops: Stops


@dataclass(frozen=True, slots=True)
class Slip:
    """What was written, from `begin` to `end`, and how it is written; `mended` is the line with it put right."""

    message: str
    fix: str
    begin: int
    end: int
    mended: str = ""


Look = Callable[[Stuck], Slip | None]

#: Units as people write them, by the short form that is read.
_UNITS = {
    "cm": ("cm", "cms", "centimeter", "centimeters", "centimetre", "centimetres"),
    "mm": ("mm", "mms", "millimeter", "millimeters", "millimetre", "millimetres"),
    "in": ("in", "ins", "inch", "inches"),
    "m": ("m", "meter", "meters", "metre", "metres"),
    "deg": ("deg", "degs", "degree", "degrees"),
    "%": ("%", "percent"),
    "°": ("°", "º"),
}
_SHORT = {word: short for short, words in _UNITS.items() for word in words}
_UNIT = "|".join(sorted(map(re.escape, _SHORT), key=len, reverse=True))
_SIZE = r"\d+(?:\.\d+)?(?:\s+\d+/\d+)?|\d+/\d+"
#: Signs that letters and word processors put in, and what a draft is written with.
_SIGNS = {
    **dict.fromkeys("–—−‐‑", "-"),
    **dict.fromkeys("×·∙✕✖", "*"),
    **dict.fromkeys("÷∕⁄", "/"),
    **dict.fromkeys("“”„‟«»‘’'", '"'),
    "≤": "<=",
    "≥": ">=",
    "≠": "is not",
    "…": "..",
    ";": ",",
    "º": "°",
    "˚": "°",
    "[": "(",
    "]": ")",
    "½": " 1/2",
    "¼": " 1/4",
    "¾": " 3/4",
    "⅓": " 1/3",
    "⅔": " 2/3",
    "⅛": " 1/8",
    "⅜": " 3/8",
    "⅝": " 5/8",
    **dict.fromkeys("\u00a0\u2009\u202f\u2007", " "),
}
#: Words with which a form begins that has to stand in brackets inside another.
FORM_WORDS = frozenset(
    re.findall(
        r"\w+",
        "along arc at between box crossing curve cut dart end face fan foot inverted join line meeting middle move "
        "parallel part pivot pleat reach shorten smooth spread start tape trace true tuck unite",
    )
)
#: Words that go on from a point; what they go on from stands before them.
_MOVE_WORDS = frozenset(
    re.findall(r"\w+", "down up left right toward going turned swung mirrored level plumb reversed")
)
_BEFORE_NAME = {
    "sheet_head": r"\s*sheet\s+",
    "piece_head": r"\s*piece\s+",
    "girth_line": r"\s*girth\s+",
    "fit_line": r"\s*fit\s+",
}
_NAMED = ("step_line", "choice_line", "fabric_line", "notion_line", *_BEFORE_NAME)
_BLOCK = re.compile(r"\s*(solve|repeat|when)\b")
_MOST_ENDS = 24  # places at which a form inside another is tried to end
_LONG = 300  # signs of a line beyond which nobody looks for a form inside another: each try reads the line again
_DEEP = 3  # forms inside others that are put into brackets at once


def slip_at(stuck: Stuck) -> Slip | None:
    """The slip at the place where a line stops, if it is a common one; that which mends the whole line comes first."""
    slips = [slip for look in _SLIPS if (slip := look(stuck)) is not None]
    whole = (slip for slip in slips if slip.mended and stuck.stops(slip.mended, stuck.start) is None)
    return next(whole, slips[0] if slips else None)


def _touching(pattern: str, stuck: Stuck) -> re.Match[str] | None:
    """What matches at the place where the line stops: around it, or up to it."""
    found = re.finditer(pattern, stuck.text)
    return next((match for match in found if match.start() <= stuck.at <= match.end()), None)


def _instead(stuck: Stuck, match: re.Match[str], message: str, written: str) -> Slip:
    """A slip that is mended by writing something else in its place."""
    begin, end = match.span()
    return Slip(message, f"Write {written}.", begin, end, stuck.text[:begin] + written + stuck.text[end:])


# ---- sizes
def _unit(stuck: Stuck) -> Slip | None:
    match = _touching(rf"(?<![\w.])({_SIZE})(\s*)((?i:{_UNIT}))(?![A-Za-z_0-9])", stuck)
    if match is None or (not match[2] and match[3] in _UNITS):
        return None
    short = _SHORT[match[3].lower()]
    said = f"A unit is written in its short form: {short}."
    return _instead(stuck, match, "No space stands before a unit." if match[3] == short else said, match[1] + short)


def _fraction(stuck: Stuck) -> Slip | None:
    """A number with a fraction beside it is read as inches only."""
    match = _touching(r"(?<![\w.])(\d+)\s+(\d+)/([1-9]\d*)(cm|mm|m|deg|°|%)?(?![\w.])(?!\s*[a-z\"″”])", stuck)
    if match is None:
        return None
    size = f"{int(match[1]) + int(match[2]) / int(match[3]):.6g}"
    unit = match[4] or ""
    inches = "" if unit else f", or {match[1]} {match[2]}/{match[3]}in if they are inches"
    slip = _instead(stuck, match, "Only inches are written with a fraction beside a number.", size + unit)
    return Slip(slip.message, f"Write {size}{unit}{inches}.", slip.begin, slip.end, slip.mended)


def _decimal_comma(stuck: Stuck) -> Slip | None:
    match = _touching(rf"(?<![\w.])(\d+),(\d+)(?:\s*((?i:{_UNIT})))?(?![A-Za-z_0-9])", stuck)
    if match is None:
        return None
    written = f"{match[1]}.{match[2]}{_SHORT[match[3].lower()] if match[3] else ''}"
    return _instead(stuck, match, "A decimal comma stands here; a comma divides one part from the next.", written)


def _inches(stuck: Stuck) -> Slip | None:
    """The inch sign: a straight one begins a text, so that the line may stop a good way behind it."""
    for match in re.finditer(rf"(?<![\w.])({_SIZE})(\s*[″”“]|\"|'')", stuck.text):
        if match.start() > stuck.at:
            return None
        outside = stuck.text.count('"', 0, match.start()) % 2 == 0
        if outside and (match[2].strip() in '"' or match.start() <= stuck.at <= match.end()):
            slip = _instead(stuck, match, "Inches are written with “in”.", f"{match[1]}in")
            rest = re.sub(rf"({_SIZE})[\"″”“]", r"\1in", stuck.text[match.start() :])
            return Slip(slip.message, slip.fix, slip.begin, slip.end, stuck.text[: match.start()] + rest)
    return None


# ---- signs
def _sign(stuck: Stuck) -> Slip | None:
    found = stuck.text[stuck.at : stuck.at + 1]
    plain = _SIGNS.get(found)
    if plain is None:
        return None
    mended = "".join(_SIGNS.get(sign, sign) for sign in stuck.text)
    if plain == " ":
        return Slip("A space of another kind stands here.", "Type a plain space.", stuck.at, stuck.at + 1, mended)
    if plain == '"':
        said, fix = "These quotes are not read in a draft.", 'Put a text between two straight ones: "Hem".'
        return Slip(said, fix, stuck.at, stuck.at + 1, mended)
    said = f"“{found}” is no sign that a draft is written with."
    return Slip(said, f"Write {plain.strip()} instead.", stuck.at, stuck.at + 1, mended)


def _unknown_unit(stuck: Stuck) -> Slip | None:
    match = _touching(r"(?<![\w.])\d+(?:\.\d+)?([A-Za-z_]\w*)", stuck)
    if match is None or match[1].lower() in _SHORT:
        return None
    fix = "The units are cm, mm, in, m, deg and %; a name begins with a letter."
    return Slip(f"“{match[1]}” is no unit.", fix, *match.span(1))


def _times(stuck: Stuck) -> Slip | None:
    size = rf"(?:\d+(?:\.\d+)?(?:{_UNIT})?)"
    match = _touching(rf"(?<![\w.])({size})\s*([xX])\s*(?={size}|\()", stuck)
    match = match or _touching(r"(?<=[\w)°%])(\s+)([xX])\s+(?=[\da-z(])", stuck)
    if match is None:
        return None
    begin, end = match.span(2)
    mended = f"{stuck.text[: match.end(1)]} * {stuck.text[match.end() :]}"
    return Slip("“x” is no sign: it would be a name.", "Write * for times.", begin, end, mended)


# ---- names
def _two_dots(stuck: Stuck) -> Slip | None:
    match = re.search(r"([a-z]\w*)\.([a-z]\w*)$", stuck.text[: stuck.at])
    third = re.match(r"\.([a-z]\w*)", stuck.text[stuck.at :])
    if match is None or third is None:
        return None
    name = f"{match[2]}_{third[1]}"
    fix = f"Name it in its own sheet first: {name} = {match[2]}.{third[1]}. Then write {match[1]}.{name} here."
    return Slip("Only one dot can stand in a name.", fix, match.start(), stuck.at + third.end())


def _several_words(stuck: Stuck) -> Slip | None:
    if stuck.start not in _NAMED or (stuck.start == "step_line" and _BLOCK.match(stuck.text)):
        return None
    ends = r'\s*(?:["=]|$)' if stuck.start == "sheet_head" else r'\s*["=]'
    head = _BEFORE_NAME.get(stuck.start, r"\s*")
    match = re.match(rf"{head}([^\W\d]\w*(?:(?:\s*-\s*|\s+)\w+)+){ends}", stuck.text)
    if match is None or not match.start(1) <= stuck.at <= match.end(1):
        return None
    begin, end = match.span(1)
    name = _plain(re.sub(r"[\s-]+", "_", match[1]))
    mended = stuck.text[:begin] + name + stuck.text[end:]
    return Slip("A name is one word; _ stands between its parts.", f"Write {name}.", begin, end, mended)


def _letters(stuck: Stuck) -> Slip | None:
    match = _touching(r"[^\W\d]\w*", stuck)
    if match is None or re.fullmatch(r"[a-z_0-9]+", match[0]):
        return None
    name = _plain(match[0])
    if not re.fullmatch(r"[a-z]\w*", name, re.ASCII):
        said = "A name has the letters a to z, figures and _ only."
        return Slip(said, "Choose a name of such letters.", *match.span())
    small = "Names and words are written in small letters."
    return _instead(stuck, match, small if match[0].isascii() else "A name has the letters a to z only.", name)


def _plain(name: str) -> str:
    """A name in small letters without accents; `waistCentre` becomes `waist_centre`."""
    bare = "".join(sign for sign in normalize("NFKD", name) if not "\u0300" <= sign <= "\u036f")
    return re.sub(r"(?<=[a-z0-9])(?=[A-Z])", "_", bare).lower()


# ---- forms
def _nested(stuck: Stuck) -> Slip | None:
    """A form that stands inside another without brackets."""
    begin = _form_begin(stuck) if len(stuck.text) <= _LONG else None
    if begin is None:
        return None
    said = "A form inside another stands in brackets."
    mended = _bracketed(stuck, begin, _DEEP)
    if mended is not None:
        return Slip(said, f"Write: {' '.join(mended.split())}", begin, stuck.at + len(stuck.found), mended)
    opened = f"{stuck.text[:begin]}("
    inside = re.search(r"[a-z]\s+$", stuck.text[:begin]) and stuck.stops(opened, stuck.start) == len(opened)
    if not (inside and stuck.found and stuck.text[begin : stuck.at].strip() in FORM_WORDS):
        return None
    fix = "Put it in brackets, as in: place = along (line nape to waist) by 6cm"
    return Slip(said, fix, begin, stuck.at + len(stuck.found))


def _form_begin(stuck: Stuck) -> int | None:
    """Where the inner form begins: its word was read as a name, or it goes on from the point before it."""
    if stuck.found in FORM_WORDS:
        return stuck.at
    if re.fullmatch(r"from\s+end", stuck.found):  # two words that are one sign elsewhere
        return stuck.at + len(stuck.found) - len("end")
    before = re.search(r"([a-z_][\w.]*)\s+$", stuck.text[: stuck.at])
    if before is None:
        return None
    return before.start() if before[1] in FORM_WORDS or stuck.found in _MOVE_WORDS else None


def _bracketed(stuck: Stuck, begin: int, deep: int) -> str | None:
    """The line with brackets round the form that begins at `begin`, and round others behind it; None if none help."""
    # Where the inner form may end, the furthest first
    ends = [stuck.at + match.end() for match in re.finditer(r"[\w.°%]+|\)", stuck.text[stuck.at :])]
    for end in reversed(ends[:_MOST_ENDS]):
        inner = stuck.text[begin:end]
        if stuck.stops(inner, "brace") is not None:
            continue
        mended = f"{stuck.text[:begin]}({inner}){stuck.text[end:]}"
        stop = stuck.stops(mended, stuck.start)
        if stop is None:
            return mended
        if deep > 1 and stop > end + 1:
            word = re.match(r"\w*", mended[stop:])
            behind = Stuck(mended, stop, word[0] if word else "", stuck.start, stuck.stops)
            again = _form_begin(behind)
            if again is not None and again > end:
                return _bracketed(behind, again, deep - 1)
    return None


#: Each look at a line in the order in which one goes before another.
_SLIPS: tuple[Look, ...] = (
    _inches,
    _sign,
    _decimal_comma,
    _fraction,
    _unit,
    _times,
    _unknown_unit,
    _two_dots,
    _several_words,
    _letters,
    _nested,
)
