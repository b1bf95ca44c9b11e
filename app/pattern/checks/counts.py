"""Counts: what is sewn together is there equally often, cloth by cloth.

Why: one cuff for two sleeves, a back cut twice on the fold, a pocket bag too few: each piece is right by itself, and
the garment cannot be sewn. An edge is there as often as its piece is cut, twice as often on the fold; a seam is sewn
as often as its edges are there. What is cut double to be its own lining (a collar, a yoke in two layers) counts once.
"""

from __future__ import annotations

import re
from collections import Counter, defaultdict
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction
from itertools import combinations, product

from app.pattern.checks.check import Check
from app.pattern.checks.cloths import cloth_cuts, lies_between
from app.pattern.checks.layers import lies_double, may_lie_double
from app.pattern.checks.piece_words import head_noun, is_plural, nouns_of, pieces_called
from app.pattern.checks.step_words import steps_text
from app.pattern.checks.table import CuttingTable, finding, seam_words
from app.pattern.names import and_list, in_words
from app.pattern.pieces.measure import edges_beside
from app.pattern.pieces.model import Fabric, MarkKind, Pattern, Piece, Seam
from app.pattern.problem import Place, Problem, Severity, Told

__all__ = ["CHECK"]

_UNLIKE = Told(
    "checks.counts-unlike",
    "The list of cuts would give one piece more or less often than the pieces that it is sewn to.",
    Severity.WARNING,
    maker=False,
)
_PLACES = Told(
    "checks.counts-places",
    "There are more or fewer places marked for a piece than it is cut.",
    Severity.WARNING,
    maker=False,
)
_STEPS = Told(
    "checks.counts-steps",
    "The list of cuts gives one of a piece, and the instructions speak of several.",
    Severity.WARNING,
    maker=False,
)
_INTERFACING = Told(
    "checks.counts-interfacing",
    "A piece is cut more or less often from the interfacing than from the cloth.",
    Severity.WARNING,
    maker=False,
)

#: Edges that are faced all round: facings of one whose titles name no more run on into each other.
_AT_EDGE = {"neck", "neckline", "armhole", "waist", "hem"}
#: What is laid on a piece at a place that no seam gives.
_LAID_ON = re.compile(r"pockets?|flaps?|patch(?:es)?|tabs?|applique")
#: What a garment has two of or more, so that what belongs to it is wanted for each.
_PAIRED = re.compile("sleeve|pocket|cuff|leg|strap|welt|flap")
#: What steps say of it where it has a mark.
_AT_MARK = re.compile(
    r"\b(?:at|on|to|by|along) (?:its|the|their|each) (?:mark|placement)|\bmarked (?:line|place|spot)|\bas marked\b",
    re.I,
)
#: Pieces of which it is tried whether they lie double.
_MOST_OPEN = 6
#: An edge by its piece and its own name.
_Key = tuple[str, str]


@dataclass(frozen=True, slots=True)
class _Sewn:
    """A seam in one cloth: how often each of its edges occurs in it, and how often it is sewn by each."""

    seam: Seam
    cloth: str
    uses: Counter[_Key]
    often: dict[_Key, frozenset[Fraction]]


def _run(table: CuttingTable) -> Iterator[Problem]:
    """Every piece that is cut more or less often than what it is sewn to, or than its places, or its cloth."""
    pattern = table.pattern
    yield from _seams(pattern)
    yield from _placed(pattern)
    for piece in pattern.pieces:
        yield from _single(pattern, piece)
        yield from _of_another(pattern, piece)
        yield from _interfacing(pattern, piece)


# ---- across the seams
def _seams(pattern: Pattern) -> Iterator[Problem]:
    """What cannot be sewn, with those pieces taken as double that may be and make most of the seams right."""
    open_pieces = [p.name for p in pattern.pieces if may_lie_double(pattern, p) and not lies_double(p)][:_MOST_OPEN]
    sure = frozenset(piece.name for piece in pattern.pieces if lies_double(piece))
    best: tuple[list[_Sewn], list[_Sewn]] | None = None
    for some in product((True, False), repeat=len(open_pieces)):
        doubled = sure | {name for name, double in zip(open_pieces, some, strict=True) if double}
        sewn = [one for seam in pattern.seams for one in _in_cloths(pattern, seam, doubled)]
        wrong = _wrong(pattern, sewn)
        if best is None or len(wrong) < len(best[1]):
            best = (sewn, wrong)
    if best is not None:
        yield from _blamed(pattern, *best)


def _wrong(pattern: Pattern, sewn: list[_Sewn]) -> list[_Sewn]:
    """The seams whose edges are there unequally often."""
    alone = Counter((one.cloth, key) for one in sewn for key in one.uses)
    wrong: list[_Sewn] = []
    times: list[Fraction | None] = []
    for one in sewn:
        own = [often for key, often in one.often.items() if alone[one.cloth, key] == 1]
        agreed = frozenset.intersection(*own) if own else frozenset[Fraction]()
        whole = {value for value in agreed if value.denominator == 1}
        times.append(max(whole, default=None))
        if own and not whole:
            wrong.append(one)
    return [*wrong, *_shared(pattern, sewn, times, alone)]


def _in_cloths(pattern: Pattern, seam: Seam, doubled: frozenset[str]) -> Iterator[_Sewn]:
    """The seam in each cloth that all its pieces are cut from; where they share none, in whatever each is cut from."""
    uses: Counter[_Key] = Counter()
    for run in (*seam.a, *seam.b):
        uses[run.piece, run.edge] += run.times
    pieces = {name: pattern.piece(name) for name, _ in uses}
    cloths = [cloth_cuts(pattern, piece) for piece in pieces.values()]
    if not all(cloths) or not all(map(_is_counted, pieces.values())):
        return
    for cloth in sorted(frozenset.intersection(*cloths)) or [""]:
        often = {key: _often(pattern, pieces[key[0]], cloth, count, doubled) for key, count in uses.items()}
        yield _Sewn(seam, cloth, uses, often)


def _is_counted(piece: Piece) -> bool:
    """True for a list of cuts without the faults that the cut list tells of."""
    folded = piece.fold_edge is not None
    return all(c.count > 0 and not (c.pair and c.count % 2) and c.on_fold == folded for c in piece.cuts)


def _often(pattern: Pattern, piece: Piece, cloth: str, uses: int, doubled: frozenset[str]) -> frozenset[Fraction]:
    """How often a seam is sewn that uses an edge so many times; half as often where the piece lies double."""
    layers = 2 if piece.name in doubled else 1
    wanted = [cloth] if cloth else sorted(cloth_cuts(pattern, piece))
    return frozenset(Fraction(_there(piece, name), uses * layers) for name in wanted)


def _there(piece: Piece, cloth: str) -> int:
    """How often each edge of a piece is there in a cloth: for each piece that is cut, twice where it is on the fold."""
    return sum(cut.count * (2 if cut.on_fold else 1) for cut in piece.cuts if cut.fabric == cloth)


def _shared(
    pattern: Pattern, sewn: list[_Sewn], times: list[Fraction | None], alone: Counter[tuple[str, _Key]]
) -> Iterator[_Sewn]:
    """Seams that want more of an edge than is there: one edge in several seams goes into each, or is shared out."""
    for (cloth, key), count in alone.items():
        of = [(one, often) for one, often in zip(sewn, times, strict=True) if one.cloth == cloth and key in one.uses]
        if count < 2 or any(often is None for _, often in of):
            continue
        wanted = [one.uses[key] * (often or Fraction(0)) for one, often in of]
        there = {value * of[0][0].uses[key] for value in of[0][0].often[key]}
        if sum(wanted) in there or (set(wanted) <= there and not _beside(pattern, key, [one for one, _ in of])):
            continue
        if max(wanted) > max(there) or all(value < min(there) for value in wanted) or set(wanted) <= there:
            yield from (one for one, _ in of)


def _beside(pattern: Pattern, key: _Key, of: list[_Sewn]) -> bool:
    """True where seams sew an edge to edges that lie side by side, and not on one another: they share it.

    Such are different edges of one piece, and edges whose neighbours are sewn together, as front and back hem.
    """
    for one, other in combinations(of, 2):
        sides = [{edge for edge in each.uses if edge[0] != key[0]} for each in (one, other)]
        if {name for name, _ in sides[0] - sides[1]} & {name for name, _ in sides[1] - sides[0]}:
            return True
        if any(_joined(pattern, a, b) for a in sides[0] for b in sides[1] if a[0] != b[0]):
            return True
    return False


def _joined(pattern: Pattern, one: _Key, other: _Key) -> bool:
    """True when an edge beside the one and an edge beside the other are sewn to each other."""
    mine, its = (
        {(name, edge.name) for edge in edges_beside(pattern.piece(name), here, False)} for name, here in (one, other)
    )
    for seam in pattern.seams:
        a, b = ({(run.piece, run.edge) for run in side} for side in (seam.a, seam.b))
        if (a & mine and b & its) or (a & its and b & mine):
            return True
    return False


# ---- whose count is wrong
def _blamed(pattern: Pattern, sewn: list[_Sewn], wrong: list[_Sewn]) -> Iterator[Problem]:
    """One finding for each piece whose count explains most of what cannot be sewn."""
    left = wrong
    mine: defaultdict[str, int] = defaultdict(int)
    for one in sewn:
        for name in {name for name, _ in one.uses}:
            mine[name] += 1
    while left:
        blame = Counter(name for one in left for name in {name for name, _ in one.uses})
        name = max(blame, key=lambda each: (blame[each] / mine[each] >= 0.5, blame[each], blame[each] / mine[each]))
        its = [one for one in left if any(piece == name for piece, _ in one.uses)]
        yield _told(pattern, pattern.piece(name), its)
        left = [one for one in left if one not in its]


def _told(pattern: Pattern, piece: Piece, its: list[_Sewn]) -> Problem:
    one = its[0]
    names = list(dict.fromkeys(name for name, _ in one.uses))
    counts = and_list(f"{name} is cut {_cut_words(pattern.piece(name), one.cloth)}" for name in names)
    seams = f"The seam {seam_words(one.seam.a, one.seam.b)}"
    if len(names) == 1:
        message = f"{seams} sews {piece.name} to itself, and it is cut {_cut_words(piece, one.cloth)}."
    else:
        message = f"{seams} has more of one side than of the other: {counts}."
    want = _wanted(one, piece)
    more = f"Cut {piece.name} {want} instead. " if want else ""
    fix = (
        f"{more}An edge is there as often as its piece is cut, twice on the fold; “twice” in a seam takes both halves."
    )
    return finding(
        _UNLIKE, message, fix, Place(piece.name), see=(("the piece", piece.span), ("the seam", one.seam.span))
    )


def _times(count: int) -> str:
    return {1: "once", 2: "twice"}.get(count, f"{count} times")


def _cut_words(piece: Piece, cloth: str) -> str:
    cuts = [cut for cut in piece.cuts if cut.fabric == cloth] or list(piece.cuts[:1])
    return and_list(f"{cut.count}{' on fold' if cut.on_fold else ' mirrored' if cut.pair else ''}" for cut in cuts)


def _wanted(one: _Sewn, piece: Piece) -> str:
    """How often the piece must be cut so that it goes with the others; "" where that is no whole number."""
    others = [often for key, often in one.often.items() if key[0] != piece.name]
    agreed = frozenset.intersection(*others) if others else frozenset[Fraction]()
    uses = max((count for (name, _), count in one.uses.items() if name == piece.name), default=1)
    cuts = [cut for cut in piece.cuts if cut.fabric == one.cloth] or list(piece.cuts[:1])
    if not agreed:
        return "2 mirrored" if not others and not cuts[0].on_fold else ""
    count = max(agreed) * uses / (2 if cuts[0].on_fold else 1)
    if count.denominator != 1 or count < 1:
        return ""
    return f"{count}{' on fold' if cuts[0].on_fold else ' mirrored' if cuts[0].pair else ''}"


# ---- places marked for pieces
def _placed(pattern: Pattern) -> Iterator[Problem]:
    """Pieces sewn on to places that are marked on others: as many as there are places."""
    for noun, pieces in pieces_called(pattern).items():
        applied = [p for p in pieces if any(edge.finish in ("applied", "caught") for edge in p.edges)]
        places = _places(pattern, noun, pieces)
        there = sum(max((_there(p, cloth) for cloth in cloth_cuts(pattern, p)), default=0) for p in applied)
        sewn_on = [p for p in applied if any(edge.finish == "applied" for edge in p.edges)]
        if sewn_on and not places and _LAID_ON.fullmatch(noun) and _AT_MARK.search(steps_text(pattern)):
            yield _unplaced(sewn_on[0])
        double = there == 2 * places and all(may_lie_double(pattern, piece) for piece in applied)
        if not applied or not places or there == places or double:
            continue
        names = and_list(piece.name for piece in applied)
        are = "is" if len(applied) == 1 else "are"
        marked = "1 place is" if places == 1 else f"{places} places are"
        message = f"{marked} marked “{noun}”, and {names} {are} there {_times(there)}."
        fix = f"Cut {names} so that there is one for each place, or mark as many places as there are."
        yield finding(_PLACES, message, fix, Place(applied[0].name), see=(("the piece", applied[0].span),))


def _unplaced(piece: Piece) -> Problem:
    message = f"{piece.name} (“{piece.title}”) is sewn on at a mark, and no piece marks its place."
    fix = f"Mark its place there, such as: mark place LINE “{piece.title}”"
    return finding(_PLACES, message, fix, Place(piece.name), see=(("the piece", piece.span),))


def _places(pattern: Pattern, noun: str, pieces: Iterable[Piece]) -> int:
    """How many places on other pieces are marked with a word, each half of a piece on the fold by itself."""
    own = {piece.name for piece in pieces}
    word = re.compile(rf"\b{re.escape(noun)}s?\b", re.I)
    return sum(
        max((_there(piece, cloth) for cloth in cloth_cuts(pattern, piece)), default=0)
        for piece in pattern.pieces
        if piece.name not in own
        for mark in piece.marks
        if mark.kind is MarkKind.PLACE and word.search(in_words(mark.label))
    )


# ---- pieces that no seam counts
def _single(pattern: Pattern, piece: Piece) -> Iterator[Problem]:
    """A piece that is there once, where the steps speak of several."""
    if sum(cut.count for cut in piece.cuts if cut.fabric in cloth_cuts(pattern, piece)) != 1:
        return
    if is_plural(pattern, piece):
        message = f"The steps speak of several of {piece.name} (“{piece.title}”), and it is cut once."
        fix = "Cut it as often as it is needed, or speak of one in the steps."
        yield finding(_STEPS, message, fix, Place(piece.name), see=(("the piece", piece.span),))


def _of_another(pattern: Pattern, piece: Piece) -> Iterator[Problem]:
    """A piece sewn to nothing that belongs to another by its title, as a sleeve's placket: as often as that one."""
    called = pieces_called(pattern)
    nouns = [noun for noun in nouns_of(piece) if _PAIRED.fullmatch(noun)]
    owner = next((called[noun][0] for noun in nouns if noun in called and piece not in called[noun]), None)
    if owner is None or any(piece.name in {run.piece for run in (*s.a, *s.b)} for s in pattern.seams):
        return
    mine, its = (max((_there(p, c) for c in cloth_cuts(pattern, p)), default=0) for p in (piece, owner))
    if (mine and mine < its) or (mine > its and not may_lie_double(pattern, piece)):
        message = f"{piece.name} (“{piece.title}”) is there {_times(mine)} and {owner.name} {_times(its)}."
        yield finding(
            _STEPS, message, f"Cut {its} of it, one for each.", Place(piece.name), see=(("the piece", piece.span),)
        )


# ---- interfacing
def _interfacing(pattern: Pattern, piece: Piece) -> Iterator[Problem]:
    cloth = max((_there(piece, name) for name in cloth_cuts(pattern, piece)), default=0)
    for fabric in filter(lies_between, pattern.fabrics):
        stiff = _there(piece, fabric.name)
        few = 0 < stiff < cloth and not may_lie_double(pattern, piece)
        if cloth and (stiff > cloth or few):
            stiffer = f"{_times(stiff)} in {fabric.title.lower()}"
            message = f"{piece.name} is there {_times(cloth)} in cloth and {stiffer}."
            fix = f"Cut it from {fabric.name} as often as from the cloth that it stiffens."
            yield finding(_INTERFACING, message, fix, Place(piece.name), see=(("the piece", piece.span),))
        if cloth and not stiff and head_noun(piece) == "facing":
            yield from _limp(pattern, piece, fabric)


def _limp(pattern: Pattern, piece: Piece, fabric: Fabric) -> Iterator[Problem]:
    """A facing that runs on into another one, of which only the other is stiffened."""
    for seam in pattern.seams:
        names = {run.piece for run in (*seam.a, *seam.b)}
        if piece.name not in names or len(names) != 2:
            continue
        other = pattern.piece(next(name for name in names if name != piece.name))
        alike = {*nouns_of(other)} ^ {*nouns_of(piece)} <= _AT_EDGE
        if head_noun(other) == "facing" and alike and _there(other, fabric.name):
            message = f"{other.name} is cut from {fabric.title.lower()} as well, and {piece.name}, sewn to it, is not."
            fix = f"Cut {piece.name} from {fabric.name} too, or neither."
            yield finding(_INTERFACING, message, fix, Place(piece.name), see=(("the piece", piece.span),))
            return


#: The check as every room knows it.
CHECK = Check("counts", "Counts", _run, (_UNLIKE, _PLACES, _STEPS, _INTERFACING))
