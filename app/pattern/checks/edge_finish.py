"""Edge finish: every edge is sewn, or the draft says how it is finished, and the steps do what it says.

Why: what no seam line names is sewn by nobody. A forgotten sleeve seam, facing or binding leaves a raw edge with a
seam allowance standing over it, and it is found when the sample is cut. Which ways there are to finish an edge, and
what each of them needs, is common practice.
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterable, Iterator

from app.pattern.checks.check import Check
from app.pattern.checks.cloths import cloth_cuts
from app.pattern.checks.finish import LEAST_SEAM
from app.pattern.checks.grain import off_grain
from app.pattern.checks.step_words import FASTENING, says, steps_text
from app.pattern.checks.table import CuttingTable, edge_place, finding
from app.pattern.names import and_list, dotted
from app.pattern.pieces.measure import edges_beside
from app.pattern.pieces.model import CornerCut, Edge, MarkKind, Pattern, Piece
from app.pattern.problem import Problem, Severity, Told
from app.pattern.units import mm

__all__ = ["CHECK"]

#: Edges whose lengths differ by less than this (mm) may be meant for one another.
_AS_LONG = 1.0
#: A selvedge runs along the grain to within this angle, radians (3 degrees).
_ALONG = 0.052
_TOLERANCE = 0.05
#: Ways that need an allowance to sew or turn.
_NEED_WIDTH = frozenset({"hemmed", "turned in", "faced", "lined", "closed", "zipped", "applied", "caught"})
#: Ways that cannot be meant of an edge that a seam sews all along, and of one that is turned back.
_NOT_SEWN = {"hemmed": "turned up", "raw": "left as it is cut"}
_NOT_TURNED = frozenset({"raw", "closed", "zipped", "caught", "lined", "applied", "selvedge"})
_BINDING = re.compile(r"bind|bias|tape|ribbon|braid|\brib|strip|galloon|lace|piping|petersham|grosgrain", re.I)
_FACING = re.compile(r"\bfac(e|ing)|bias|tape|ribbon|petersham|grosgrain", re.I)
#: What the middle of a garment is called.
_MIDDLE = re.compile(r"cent(?:re|er)|middle|fold|^c[bf]$|_c[bf]$|^c[bf]_")
#: Steps to write like, by what they do.
_STEP_FOR = {
    "hemmed": "## Hem: Turn up 3 cm and stitch.",
    "turned in": "Turn the edge under and fell it.",
    "faced": "Stitch the facing to the edge, clip, turn and understitch.",
    "lined": "Stitch lining and cloth together along the edge, clip and turn.",
    "bound": "Bind the edge.",
    "closed": "Fold it, right sides together, and stitch the ends.",
    "zipped": "Put in the zip.",
    "applied": "Topstitch it to its place.",
    "caught": "Tack it in place and catch it in the seam.",
    "neatened": "Neaten the edge.",
}

#: Ways that are said in a message with more words than one.
_TOLD_AS = {"hemmed": "turned up and hemmed", "caught": "caught in its seam"}

_NO_FINISH = Told(
    "checks.edge-unfinished",
    "An edge of a piece would stay raw: no seam sews it, and nothing says how to finish it. That is a fault of the "
    "design.",
    Severity.WARNING,
    maker=False,
)
_ODD = Told(
    "checks.finish-unlike",
    "The design says of an edge how it is finished, and that cannot be done. That is a fault of the design.",
    Severity.WARNING,
    maker=False,
)
_NO_STEP = Told(
    "checks.finish-unsaid",
    "The instructions do not say how an edge is finished. Hem, face or bind it before you wear it.",
    Severity.WARNING,
    maker=False,
)


def _run(table: CuttingTable) -> Iterator[Problem]:
    """Every edge that stays raw, every finish that cannot be, and every one that no step does."""
    pattern = table.pattern
    sewn = {(run.piece, run.edge) for seam in pattern.seams for run in (*seam.a, *seam.b)}
    loose: dict[str, list[Edge]] = {}
    done: dict[str, list[tuple[Piece, Edge]]] = defaultdict(list)
    for piece in pattern.pieces:
        if not cloth_cuts(pattern, piece):
            continue
        for edge in piece.edges:
            is_sewn = (piece.name, edge.name) in sewn
            odd = next(_objections(pattern, piece, edge, is_sewn), None) if edge.finish else None
            if odd is not None:
                yield finding(_ODD, *odd, edge_place(piece, edge), see=(("the edge", edge.span),))
            elif edge.finish:
                done[edge.finish].append((piece, edge))
            elif _is_turned(edge):
                done["hemmed"].append((piece, edge))
            elif not is_sewn and not edge.fold and (edge.allowance.width > 0.0 or not _bound_in_steps(pattern)):
                loose.setdefault(piece.name, []).append(edge)
    for name, edges in loose.items():
        yield _unfinished(pattern, pattern.piece(name), edges, loose)
    yield from _unsaid(pattern, done)


def _is_turned(edge: Edge) -> bool:
    return edge.allowance.corner is CornerCut.TURNED_BACK


def _bound_in_steps(pattern: Pattern) -> bool:
    return says(pattern, "bound") or re.search(r"\braw\b|\bselvedge", steps_text(pattern), re.I) is not None


# ---- raw edges
def _unfinished(pattern: Pattern, piece: Piece, edges: list[Edge], loose: dict[str, list[Edge]]) -> Problem:
    names = [dotted(piece.name, edge.name) for edge in edges]
    wide = edges[0].allowance.width
    are = "it is" if len(names) == 1 else "they are"
    over = f", with {mm(wide)} of allowance left over" if wide else ""
    message = f"No seam sews {and_list(names)}, and nothing says how {are} finished: raw edges{over}."
    partner = _partner(pattern, piece, edges, loose) or _on_fold(piece, edges)
    fix = f"Add to the piece {piece.name}: finish {', '.join(edge.name for edge in edges)} hemmed"
    fix += " (or turned in, faced, lined, bound, closed, zipped, applied, caught, neatened, raw, selvedge)"
    fix = (
        f"{partner} Or: {fix[0].lower()}{fix[1:]}."
        if partner
        else f"Sew {'it' if len(names) == 1 else 'them'} to what belongs there. Or: {fix[0].lower()}{fix[1:]}."
    )
    return finding(_NO_FINISH, message, fix, edge_place(piece, edges[0]), see=(("the edge", edges[0].span),))


def _partner(pattern: Pattern, piece: Piece, edges: list[Edge], loose: dict[str, list[Edge]]) -> str:
    """An edge that is as long and as loose, to which it was perhaps to be sewn; "" when there is none."""
    for edge in edges:
        for name, others in loose.items():
            for other in others:
                alike = abs(other.sewn_length - edge.sewn_length) < _AS_LONG and _named_alike(edge.name, other.name)
                if alike and other is not edge and not (name == piece.name and piece.fold_edge):
                    one, two = dotted(piece.name, edge.name), dotted(name, other.name)
                    return f"{two} is loose too and as long: perhaps sew {one} to {two}."
    return ""


def _on_fold(piece: Piece, edges: list[Edge]) -> str:
    """What is said of a straight middle along the grain, on which the piece was perhaps to lie on the fold."""
    for edge in edges:
        middle = _MIDDLE.search(edge.name) and piece.fold_edge is None and len(piece.edges) > 2
        if middle and _along_grain(piece, edge):
            return f"If {edge.name} lies on the fold: outline fold {edge.name}, and cut 1 on fold."
    return ""


def _named_alike(one: str, other: str) -> bool:
    """True for names with a word in common, as `seam_back` and `seam_front`, `side` and `side_upper`."""
    return bool(set(one.split("_")) & set(other.split("_")))


# ---- what cannot be
def _objections(pattern: Pattern, piece: Piece, edge: Edge, is_sewn: bool) -> Iterator[tuple[str, str]]:
    """What stands against an edge's finish, the plainest first."""
    how, name, width = edge.finish, dotted(piece.name, edge.name), edge.allowance.width
    if edge.fold:
        yield f"{name} lies on the fold and is said to be {how}.", f"Take {edge.name} out of the line finish."
    elif is_sewn and how in _NOT_SEWN:
        said = f"{name} is {how}, that is {_NOT_SEWN[how]}, and a seam sews it."
        yield said, f"Take the seam or the finish out, or cut {edge.name} in two edges where the seam ends."
    elif _is_turned(edge) and how in _NOT_TURNED:
        fix = f"Write allowance ... {edge.name} 1cm without “turned back”, or take the finish out."
        yield f"The allowance of {name} is turned back, which is a hem, and it is said to be {how}.", fix
    elif how in ("raw", "selvedge") and width > 0.0:
        said = f"{name} is left {how} and has an allowance of {mm(width)}: the garment would be longer there by that."
        yield said, f"Give it none: allowance ..., {edge.name} none."
    elif how in _NEED_WIDTH and width < LEAST_SEAM - _TOLERANCE:
        said = f"{name} is {how} and has an allowance of {mm(width)}; {mm(LEAST_SEAM)} is the least that holds."
        yield said, f"Give it {mm(LEAST_SEAM)} or more."
    elif how == "selvedge" and not _along_grain(piece, edge):
        yield f"{name} is a selvedge and does not run straight along the grain.", "Turn the grain, or hem that edge."
    else:
        yield from _lacking(pattern, piece, edge)


def _along_grain(piece: Piece, edge: Edge) -> bool:
    straight = edge.path.length - edge.path.start.distance(edge.path.end) < _AS_LONG
    return straight and off_grain(piece, edge.path) < _ALONG


def _lacking(pattern: Pattern, piece: Piece, edge: Edge) -> Iterator[tuple[str, str]]:
    """What a finish needs and the draft has not: a second cloth or layer, a zip, a binding, a facing."""
    how, name = edge.finish, dotted(piece.name, edge.name)
    if how == "lined" and not _has_lining(pattern, piece, edge):
        said = f"{name} is lined, and {piece.name} is cut from one cloth only."
        yield said, f"Cut it from the lining too: piece {piece.name} ... cut 2 main, cut 2 lining."
    elif how == "closed" and not _can_close(pattern, piece, edge):
        said = f"{name} is closed, that is sewn to its own other layer or half, and {piece.name} is cut once only."
        yield said, "Cut it twice, mark the line along which it is folded (mark fold ...), or write the seam."
    elif how == "zipped" and not any(map(FASTENING.search, _notion_words(pattern))):
        yield f"A zip or fastening goes along {name}, and none is bought.", "List it under notions."
    elif how == "bound" and not any(map(_BINDING.search, (*_notion_words(pattern), *_piece_words(pattern)))):
        fix = 'List a binding under notions: binding "Bias binding" length ..., or cut a strip as a piece.'
        yield f"{name} is bound, and there is nothing to bind it with.", fix
    elif how == "faced" and not any(map(_FACING.search, (*_notion_words(pattern), *_piece_words(pattern)))):
        fix = f"Draw one: facing = face SHAPE along {edge.name} deep 6cm, cut it and sew it to {name}."
        yield f"{name} is faced, and no piece is a facing.", fix


def _has_lining(pattern: Pattern, piece: Piece, edge: Edge) -> bool:
    cloths = cloth_cuts(pattern, piece)
    # Its own lining: two of it, or two pairs
    twice = any(cut.count > (3 if cut.pair else 1) for cut in piece.cuts if cut.fabric in cloths)
    # A lining drawn as a piece of its own, not one that is cut from both cloths itself
    others = [other for other in pattern.pieces if not cloth_cuts(pattern, other) & cloths]
    return len(cloths) > 1 or twice or any(e.name == edge.name for other in others for e in other.edges)


def _layers(pattern: Pattern, piece: Piece) -> int:
    cloths = cloth_cuts(pattern, piece)
    return sum(cut.count for cut in piece.cuts if cut.fabric in cloths)


def _can_close(pattern: Pattern, piece: Piece, edge: Edge) -> bool:
    """True for a second layer, a line to fold along, and the two ends of a piece on the fold, as a frill's."""
    if _layers(pattern, piece) > 1 or any(mark.kind is MarkKind.FOLD for mark in piece.marks):
        return True
    return piece.fold_edge is not None and not any(beside.fold for beside in edges_beside(piece, edge.name, False))


def _notion_words(pattern: Pattern) -> list[str]:
    return [f"{notion.name} {notion.title}".replace("_", " ") for notion in pattern.notions]


def _piece_words(pattern: Pattern) -> list[str]:
    return [f"{piece.name} {piece.title}".replace("_", " ") for piece in pattern.pieces]


# ---- what no step does
def _unsaid(pattern: Pattern, done: dict[str, list[tuple[Piece, Edge]]]) -> Iterator[Problem]:
    for how, finished in done.items():
        hems = [(p, e) for p, e in finished if how == "hemmed" and "hem" in e.name.split("_")]
        others = [(p, e) for p, e in finished if (p, e) not in hems]
        for family, some in (("hem", hems), (how, others)):
            if some and not says(pattern, family):
                yield _not_told(how, some)


def _not_told(how: str, some: Iterable[tuple[Piece, Edge]]) -> Problem:
    some = list(some)
    piece, edge = some[0]
    names = [dotted(p.name, e.name) for p, e in some]
    done = _TOLD_AS.get(how, how)
    message = f"No step says how {and_list(names)} {'is' if len(names) == 1 else 'are'} {done}."
    fix = f"Write it into a step, such as: {_STEP_FOR[how]}"
    return finding(_NO_STEP, message, fix, edge_place(piece, edge), see=(("the edge", edge.span),))


#: The check as every room knows it.
CHECK = Check("edge_finish", "Edge finish", _run, (_NO_FINISH, _ODD, _NO_STEP))
