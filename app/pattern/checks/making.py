"""Making: the steps speak of every piece and every notion, and what they speak of is bought.

Why: what is cut and named in no step is left on the table; a zip that is bought and never put in, or put in and never
bought, is found half-way through. Steps are heard by the nouns of titles and by the seams whose pictures they show.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from app.pattern.checks.check import Check
from app.pattern.checks.cloths import cloth_cuts
from app.pattern.checks.piece_words import head_noun, singular
from app.pattern.checks.step_words import is_judged, steps_text
from app.pattern.checks.table import CuttingTable, finding
from app.pattern.names import in_words
from app.pattern.pieces.model import Mark, MarkKind, Notion, Pattern, Piece
from app.pattern.problem import Place, Problem, Severity, Told

__all__ = ["CHECK", "notion_nouns"]

#: What is used all over, or is a tool: no step need speak of it.
_EVERYWHERE = re.compile(
    r"threads?|needles?|pins?|chalk|pens?|reels?|spools?|paper|scissors|foot|glue|marker|"
    r"rippers?|bodkins?|bobbins?|sprays?|thimbles?|measure",
    re.I,
)
#: Other words by which a step speaks of a notion.
_ALSO = {
    "button": r"buttons?\b(?!-|\s?hole)",
    "binding": "bind|bound|bias",
    "fastener": "snap|stud|popper|fasten",
    "snap": "stud|popper|fasten",
    "stud": "snap|popper|fasten",
    "popper": "snap|stud|fasten",
    "velcro": "hook-and-loop|fasten|touch",
    "hook": "eye|bar",
    "elastic": "casing|shirr",
    "tape": "stay",
    "cord": "drawstring",
    "drawstring": "cord",
    "ribbon": "bow",
    "boning": "bone",
    "bone": "boning",
    "piping": "pipe|cord",
    "trimming": "trim|lace|braid",
    "lace": "trim|edging",
    "interfacing": "fuse|interface",
    "closure": "fasten|clasp|button|hook",
}
#: What must be bought where a step puts it in.
_BOUGHT = {
    "zip": r"zips?|zippers?",
    "buttons": r"buttons?",
    "elastic": r"elastic",
    "hooks": r"hooks?",
    "eyelets": r"eyelets?|grommets?",
    "buckles": r"buckles?",
    "rings": r"d-rings?",
    "boning": r"boning",
    "shoulder pads": r"shoulder pads?",
    "rivets": r"rivets?",
    "piping": r"piping",
    "hook and loop tape": r"velcro|hook-and-loop",
    "press fasteners": r"press (?:fasteners?|studs?)|poppers?|snaps?",
}
_NEGATED = r"(?:no|without|never|instead of) (?:an? |any |the )?"
_LOOP = re.compile(r"\bbutton-?\s?holes?\b|\bloops?\b|\bfrogs?\b|\btoggles?\b|\bcovered snaps?\b", re.I)
#: A hole so marked is worked like a buttonhole, and something else goes through it.
_SLOT = re.compile(r"\b(?:slots?|slits?|ties?|cords?|drawstrings?|elastic|ribbons?)\b", re.I)
_PLAIN = re.compile(r"\b(?:fronts?|backs?|sides?|panels?|pieces?|body|everything|all)\b", re.I)

_UNNAMED = Told(
    "checks.piece-unnamed",
    "The instructions do not speak of one of the pieces. Look at its seams to see where it belongs.",
    Severity.WARNING,
    maker=False,
)
_UNUSED = Told(
    "checks.notion-unused",
    "Something is to be bought that the instructions never use.",
    Severity.WARNING,
    maker=False,
)
_LACKING = Told(
    "checks.notion-lacking",
    "The instructions use something that is not on the list of what to buy. Read them through before you shop.",
    Severity.WARNING,
    maker=False,
)
_BUTTONS = Told(
    "checks.buttons",
    "Buttons and buttonholes do not agree in number. Count them before you buy.",
    Severity.WARNING,
    maker=False,
)


def _run(table: CuttingTable) -> Iterator[Problem]:
    """Every piece and notion that no step speaks of, and what steps use and nobody buys."""
    pattern = table.pattern
    if is_judged(pattern):
        yield from _pieces(pattern)
        yield from _notions(pattern)
        yield from _lacking(pattern)
    yield from _buttons(pattern)


# ---- pieces
def _pieces(pattern: Pattern) -> Iterator[Problem]:
    shown = {index for step in pattern.steps for index in step.seams}
    seen = {run.piece for index in shown for run in (*pattern.seams[index].a, *pattern.seams[index].b)}
    for piece in pattern.pieces:
        if piece.name in seen or not cloth_cuts(pattern, piece) or _is_named(pattern, piece):
            continue
        message = f"No step speaks of {piece.name} (“{piece.title}”), and none shows a seam of it."
        fix = f"Say in a step where it goes, or show its seam there: {{seam {piece.name}.{_an_edge(pattern, piece)}}}."
        yield finding(_UNNAMED, message, fix, Place(piece.name), see=(("the piece", piece.span),))


def _is_named(pattern: Pattern, piece: Piece) -> bool:
    text, noun = _apart(pattern, piece), head_noun(piece)
    said = rf"\b(?:{re.escape(piece.title)}|{re.escape(in_words(piece.name))})\b"
    if re.search(said, text, re.I) or (noun and re.search(rf"\b{re.escape(noun)}(?:e?s)?\b", text, re.I)):
        return True
    return not noun and _PLAIN.search(text) is not None


def _apart(pattern: Pattern, piece: Piece) -> str:
    """The steps without the titles of other pieces that hold this one's noun: of a “Pocket bag” no pocket is meant."""
    text, noun = steps_text(pattern), head_noun(piece)
    for other in pattern.pieces:
        title = other.title.lower()
        if other is piece or not noun or head_noun(other) == noun or noun not in re.findall(r"[a-z]+", title):
            continue
        text = re.sub(rf"\b{re.escape(title)}(?:e?s)?\b", " ", text, flags=re.I)
    return text


def _an_edge(pattern: Pattern, piece: Piece) -> str:
    sewn = [run.edge for seam in pattern.seams for run in (*seam.a, *seam.b) if run.piece == piece.name]
    return next(iter((*sewn, *(edge.name for edge in piece.edges if not edge.fold))), piece.edges[0].name)


# ---- notions
def notion_nouns(notion: Notion) -> tuple[str, ...]:
    """What a notion is, by its title up to a comma or a “for”: `zip`, `hook` and `bar`; sizes and kinds left out."""
    title = re.split(r",|\(|\b(?:for|to|with|at|in|of)\b", notion.title.lower())[0]
    heads = [re.findall(r"[^\W\d_]+", part) for part in re.split(r"\band\b|\bor\b|/", title)]
    return tuple(singular(words[-1]) for words in heads if words)


def _notions(pattern: Pattern) -> Iterator[Problem]:
    text = steps_text(pattern)
    for notion in pattern.notions:
        nouns = notion_nouns(notion)
        if not nouns or any(map(_EVERYWHERE.fullmatch, nouns)):
            continue
        words = "|".join(_heard_as(noun) for noun in nouns)
        if not re.search(rf"\b(?:{words})", text, re.I):
            message = f"{notion.title} is bought, and no step uses it."
            fix = "Say in a step where it goes, or take it out of the notions."
            yield finding(_UNUSED, message, fix, Place(point=notion.name), see=(("the notion", notion.span),))


def _heard_as(noun: str) -> str:
    """How a notion is heard in a step: buttons by themselves, since a buttonhole is none; all else by how it begins."""
    return _ALSO[noun] if noun == "button" else f"{re.escape(noun)}|{_ALSO.get(noun, re.escape(noun))}"


def _lacking(pattern: Pattern) -> Iterator[Problem]:
    text = steps_text(pattern)
    bought = " ".join(in_words(f"{n.name} {n.title}") for n in pattern.notions)
    bought += " ".join(in_words(f"{p.name} {p.title}") for p in pattern.pieces)
    for what, words in _BOUGHT.items():
        told = re.sub(rf"\b{_NEGATED}(?:{words})\b", "", text, flags=re.I)
        used = re.search(rf"\b(?:{words})\b(?! foot| feet| side| stitch| seam| zig)", told, re.I)
        if used and not re.search(rf"\b(?:{words})\b|fasten", bought, re.I):
            message = f"A step speaks of “{used[0].lower()}”, and none is listed among the notions."
            fix = "List what is to be bought under notions, with its count or length."
            step = next((s for s in pattern.steps if used[0] in f"{s.title} {s.markdown}"), None)
            see = (("the step", step.span if step else None),)
            yield finding(_LACKING, message, fix, Place(point=what), see=see)


# ---- buttons
def _buttons(pattern: Pattern) -> Iterator[Problem]:
    """Buttons that nothing buttons, holes that no button is bought for, and too few of them."""
    bought = [n for n in pattern.notions if "button" in notion_nouns(n)]
    count = sum(n.count or 0.0 for n in bought)
    knobs, holes = _marked(pattern, MarkKind.BUTTON), _marked(pattern, MarkKind.BUTTONHOLE)
    if (knobs or holes) and not bought:
        piece, mark = next(_buttoned(pattern))
        message = f"{piece.name} marks a {mark.kind}, and no buttons are bought."
        fix = "List them under notions. What a tie, a cord or elastic goes through is said so: mark buttonhole … "
        fix += "“Slot for the tie”."
        yield finding(_BUTTONS, message, fix, Place(point="buttons"), see=(("the mark", mark.span),))
    elif bought and not holes and not _LOOP.search(steps_text(pattern)) and is_judged(pattern):
        message = f"{bought[0].title}: no buttonhole is marked, and no step makes a buttonhole or a loop."
        fix = "Mark the buttonholes: mark buttonhole POINT, or say in a step how it is buttoned."
        yield finding(_BUTTONS, message, fix, Place(point=bought[0].name), see=(("the buttons", bought[0].span),))
    elif bought and all(n.count is not None for n in bought) and count < max(knobs, holes):
        need = max(knobs, holes)
        message = f"{need:.0f} buttons are wanted at least by the marks on the pieces, and {count:.0f} are bought."
        fix = "Count them again, or mark fewer."
        yield finding(_BUTTONS, message, fix, Place(point=bought[0].name), see=(("the buttons", bought[0].span),))


def _buttoned(pattern: Pattern) -> Iterator[tuple[Piece, Mark]]:
    """Each mark of a button or of a hole for one, with its piece."""
    for piece in pattern.pieces:
        for mark in piece.marks:
            if mark.kind is MarkKind.BUTTON or (mark.kind is MarkKind.BUTTONHOLE and not _SLOT.search(mark.label)):
                yield piece, mark


def _marked(pattern: Pattern, kind: MarkKind) -> float:
    """How many places of a kind there are in the garment at the least: on one layer of each piece that is cut."""
    total = 0.0
    for piece in pattern.pieces:
        marks = sum(mark.kind is kind for owner, mark in _buttoned(pattern) if owner is piece)
        cuts = [cut for cut in piece.cuts if cut.fabric in cloth_cuts(pattern, piece)]
        # On the fold a mark may stand on the fold itself; of a pair one has holes where the other has knobs
        total += marks * max((1.0 if cut.on_fold else max(1.0, cut.count / 2.0) for cut in cuts), default=0)
    return total


#: The check as every room knows it.
CHECK = Check("making", "Making", _run, (_UNNAMED, _UNUSED, _LACKING, _BUTTONS))
