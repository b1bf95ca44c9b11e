"""Steps: every seam is shown or spoken of in a step, and so are darts, folds, gathers and what is stiffened.

Why: who sews goes by the steps. A seam that none shows is perhaps told in words: a verb of sewing with the name of one
of its edges or pieces for its object. Only what no step can be guessed to mean is told.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass

from app.pattern.checks.check import Check
from app.pattern.checks.cloths import lies_between
from app.pattern.checks.piece_words import head_noun, singular
from app.pattern.checks.step_words import is_judged, steps_text
from app.pattern.checks.table import CuttingTable, finding, seam_words, side_place
from app.pattern.pieces.model import MarkKind, Pattern, Seam
from app.pattern.problem import Place, Problem, Severity, Told

__all__ = ["CHECK"]

_VERB = (
    r"\b(?:stitch|sew|join|set|attach|put|line|fac|gather|ease|pin|clos|tack|mak|seam|bind|bound|lay|run|insert|fell|"
    r"topstitch|overlock|appl|mount|cas|fold|turn|press|work|tak|mark|shirr|draw|pull|plea|fus|fix)\w*"
)
_NOT_TO = r"(?:[^\w.]+(?!to\b|at\b|from\b|until\b|above\b|below\b|onto\b)[\w.,½¼¾]+){0,6}?[^\w.]+"
#: Words of edges' names that say nothing of which seam it is.
_EMPTY = re.compile(
    "upper|lower|left|right|in|out|near|far|top|bottom|edge|end|attach|seam|line|low|high|part|long|short|one|two|inner|"
    "outer|under|around|front|back|[a-z]|\\d+"
)
#: What an edge's name is called besides in a step.
_ALSO = {
    "cap": "sleeves?|armholes?",
    "armhole": "sleeves?|scyes?",
    "scye": "sleeves?|armholes?",
    "inseam": "inside legs?|inner legs?|legs?",
    "crotch": "seat|rise|fork",
    "underarm": "sleeves?|arms?",
    "wrist": "cuffs?|sleeves?",
    "neck": "necklines?|collars?",
    "centre": "center|centres?",
    "princess": "panels?",
    "leg": "inside|outside",
    "outseam": "sides?",
}

#: Names of edges by which a step would speak of their seam. One that is called otherwise (`ins`, `cl`) is not judged.
_KNOWN = re.compile(
    "sides?|shoulders?|armholes?|scye|cap|necks?|waists?|inseam|outseam|crotch|cent(?:re|er)|princess|underarm|wrists?|crown|"
    "yoke|panels?|hems?|raglan|gusset|godet|flounce|ruffle|frill|attach|face|base"
)

_SEAM = Told(
    "checks.seam-unsaid",
    "The instructions do not speak of one of the seams. Look for it in the list of seams, and sew it before those that "
    "cross it.",
    Severity.WARNING,
    maker=False,
)
_WORK = Told(
    "checks.work-unsaid",
    "The instructions do not speak of something that the pieces ask for, as a dart to close.",
    Severity.WARNING,
    maker=False,
)


@dataclass(frozen=True, slots=True)
class _Work:
    """Something that pieces or seams ask for: what it is called, how it is heard in a step, and whether it is there."""

    called: str
    heard: str
    step: str
    there: Callable[[Pattern], Place | None]


def _run(table: CuttingTable) -> Iterator[Problem]:
    """Every seam and every piece of work that no step can be guessed to mean."""
    pattern = table.pattern
    if not is_judged(pattern):
        return
    shown = {index for step in pattern.steps for index in step.seams}
    for index, seam in enumerate(pattern.seams):
        if index not in shown and not _is_spoken_of(pattern, seam):
            yield _unsaid(pattern, seam)
    for work in _WORKS:
        place = work.there(pattern)
        if place is not None and not re.search(work.heard, steps_text(pattern), re.I):
            message = f"No step says how {work.called}."
            yield finding(_WORK, message, f"Write it into a step, such as: {work.step}", place)


# ---- seams
def _is_spoken_of(pattern: Pattern, seam: Seam) -> bool:
    """True when a verb of sewing has an edge or a piece of the seam for its object, or a heading names one."""
    edges = {word for run in (*seam.a, *seam.b) for word in run.edge.split("_")}
    words = _words(pattern, seam)
    if not words or not any(map(_KNOWN.fullmatch, edges)):
        return True
    named = rf"(?:{'|'.join(sorted(words))})"
    text = steps_text(pattern)
    headings = " ".join(step.title for step in pattern.steps)
    return bool(re.search(rf"{_VERB}{_NOT_TO}{named}\b", text, re.I) or re.search(rf"\b{named}\b", headings, re.I))


def _words(pattern: Pattern, seam: Seam) -> set[str]:
    runs = (*seam.a, *seam.b)
    edges = {word for run in runs for word in run.edge.split("_") if not _EMPTY.fullmatch(word)}
    nouns = {head_noun(pattern.piece(run.piece)) for run in runs} - {""}
    words = {rf"{re.escape(singular(word))}(?:e?s)?" for word in edges | nouns}
    own = {run.piece for run in runs}
    # What joins two halves of one piece is that piece's seam: the back seam
    words |= {rf"{re.escape(own.pop().split('_')[0])} seams?"} if len(own) == 1 else set()
    return words | {_ALSO[word] for word in edges if word in _ALSO}


def _unsaid(pattern: Pattern, seam: Seam) -> Problem:
    run = seam.a[0]
    message = f"No step shows or speaks of the seam {seam_words(seam.a, seam.b)}."
    fix = f"Say in a step when it is sewn, and show it there: {{seam {run.piece}.{run.edge}}}."
    return finding(_SEAM, message, fix, side_place(pattern, seam.a), see=(("the seam", seam.span),))


# ---- other work
def _darts(pattern: Pattern) -> Place | None:
    return next((Place(piece.name, dart.name) for piece in pattern.pieces for dart in piece.darts), None)


def _gathers(pattern: Pattern) -> Place | None:
    return next((side_place(pattern, seam.a) for seam in pattern.seams if seam.kind == "gather"), None)


def _pleats(pattern: Pattern) -> Place | None:
    folded = ((piece, edge) for piece in pattern.pieces for edge in piece.edges if edge.folds)
    return next((Place(piece.name, edge.name) for piece, edge in folded), None)


def _stiffened(pattern: Pattern) -> Place | None:
    between = {fabric.name for fabric in pattern.fabrics if lies_between(fabric)}
    cut = ((piece, cut) for piece in pattern.pieces for cut in piece.cuts if cut.fabric in between)
    return next((Place(piece.name, point=cut.fabric) for piece, cut in cut), None)


def _holes(pattern: Pattern) -> Place | None:
    return next((Place(p.name) for p in pattern.pieces for m in p.marks if m.kind is MarkKind.BUTTONHOLE), None)


_WORKS = (
    _Work(
        "the darts are closed",
        rf"{_VERB}{_NOT_TO}(?:darts?|it)\b.*\bdarts?\b|{_VERB}{_NOT_TO}darts?\b|\bdarts? (?:is|are) \w+ed",
        "Stitch the darts from the edge to the point.",
        _darts,
    ),
    _Work(
        "the gathers are drawn up",
        r"\bgather|\bdraw\w* (?:\w+ ){0,4}up|\bruffle|\bpull|\bshirr|\bfrill|\bstretch|\belastic|\btucks?\b|\bpleat",
        "Run two gathering threads along the edge and draw them up.",
        _gathers,
    ),
    _Work("the pleats or tucks are folded", r"\bpleat|\btuck|\bfold", "Fold the pleats and tack them down.", _pleats),
    _Work(
        "the interfacing is put in",
        r"\binter-?(?:fac|lin)|\bfus|\biron-on|\bstiffen|\bcanvas|\bwadding|\bquilt",
        "Fuse the interfacing to the wrong side.",
        _stiffened,
    ),
    _Work(
        "the buttonholes are made",
        r"\bbutton-?\s?holes?\b|\bholes?\b|\bbuttons?\b",
        "Work the buttonholes and sew the buttons opposite.",
        _holes,
    ),
)

#: The check as every room knows it.
CHECK = Check("steps", "Steps", _run, (_SEAM, _WORK))
