"""Ways in: whatever closes round the body and is narrower than what must go through it has a girth that says how.

Why: a neck of 39 cm, a cuff of 17 or a waist narrower than the hips holds every other check and cannot be put on;
only a girth that says what passes is looked at by `getting_in`. A head passes 60 cm (more than 98 men's in a
hundred, and more women's; survey of 1988), a child's 56 cm (from memory); a hand, its thumb folded in, 20 cm (the
knuckles are 19 cm round on women of the survey of 1988); a heel 30 cm (from memory, one and a half times an ankle
of 20 cm). What must pass a waist is the narrower of hips and bust, whichever way it goes on.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator

from app.pattern.checks.check import Check
from app.pattern.checks.getting_in import widest
from app.pattern.checks.joints import joints, sewn_edges
from app.pattern.checks.rings import EdgeRing, rings
from app.pattern.checks.table import CuttingTable, edge_place, finding
from app.pattern.pieces.model import Edge, Girth, Pattern, Piece
from app.pattern.problem import Measured, Place, Problem, Severity, Told
from app.pattern.units import mm

__all__ = ["CHECK", "CHILDS_HEAD", "HAND", "HEAD", "HEEL"]

#: What must go through a neck, a cuff and the hem of a leg, mm.
HEAD, CHILDS_HEAD, HAND, HEEL = 600.0, 560.0, 200.0, 300.0
#: A girth is that of a ring when it measures as much within this share.
_SAME = 0.02
#: A girth may be narrower by this much (mm) than what goes through: a body gives.
_GIVES = 10.0
#: The overlap and the ease that a buttoned cuff has at most, mm.
_LAP = 60.0
_NECK = re.compile(r"neck|collar", re.I)
_ARM = re.compile(r"arm|scye|cap", re.I)
_WRIST = re.compile(r"wrist|cuff|sleeve|hand", re.I)
_LEG = re.compile(r"inseam|inside_leg|inleg|crotch|rise", re.I)
_SLEEVE = re.compile(r"\bcuff|\bsleeve", re.I)
_TROUSERS = re.compile(r"\btrouser|\bleg\b|\bpant", re.I)
_FOOT = re.compile(r"\bhem|leg|ankle|foot|heel", re.I)
_TORSO = re.compile(r"waist|bust|chest|hip|seat", re.I)
_BODY = ("bust_girth", "waist_girth", "hip_girth")
_WAIST = re.compile(r"waist", re.I)


_UNSAID = Told(
    "checks.way-in-unsaid",
    "The design does not say how you get into a part that closes round you. Measure that part on the pattern, and "
    "what must go through it, before you cut.",
    Severity.WARNING,
)


_NONE = Told(
    "checks.no-girth",
    "The design states no girth, so that nobody has checked that it goes round you. Measure the paper pieces, and "
    "yourself, before you cut.",
    Severity.WARNING,
)


def _run(table: CuttingTable) -> Iterator[Problem]:
    """Every closed ring and every closed girth without a way in; and a garment that closes and states no girth."""
    pattern = table.pattern
    if not pattern.girths:
        closed = next(rings(pattern, lambda *_: True), None)
        if closed is not None and not pattern.fits:
            message = (
                f"The garment closes round the body ({closed.words}), and no girth is stated, so that nobody has "
                "checked that it fits, or that one gets in."
            )
            fix = (
                'Add a line for each girth that must fit, and how one gets in, such as: girth hip "Hip" = '
                "4 * width(front, hip_side)  body hip_girth  ease 4cm  opens zip_length  passes hip_girth"
            )
            yield finding(_NONE, message, fix, edge_place(*closed.edges[0]))
            return
    stretch = max((fabric.stretch for fabric in pattern.fabrics), default=0.0)
    open_front = any(girth.opens_fully and not _limb(girth) for girth in pattern.girths)
    if open_front:
        yield from _unlike(pattern)
    else:
        yield from _necks(pattern, stretch)
        yield from _torso(pattern, stretch)
    yield from list(_sleeves(pattern, stretch)) or _buttoned_cuffs(pattern, stretch)
    yield from _legs(pattern, stretch)


def _limb(girth: Girth) -> bool:
    return _WRIST.search(f"{girth.name} {girth.title} {girth.measure}") is not None


def _unlike(pattern: Pattern) -> Iterator[Problem]:
    """A girth of the body that says nothing, where another opens fully."""
    torso = [girth for girth in pattern.girths if girth.measure in _BODY]
    fully = next((girth for girth in torso if girth.opens_fully), None)
    for girth in torso:
        if fully is not None and not _says(girth) and not girth.opens and not girth.stretches_to:
            name, other = girth.title or girth.name, fully.title or fully.name
            message = f"{other} opens fully, and {name} does not say how one gets in."
            fix = (
                f"Write “opens fully” behind {name} as well; where it stays closed, what it passes: passes {_BODY[-1]}"
            )
            see = (("the girth", girth.span), ("the one that opens", fully.span))
            yield finding(_UNSAID, message, fix, Place(point=girth.name), see=see)
            return


def _buttoned_cuffs(pattern: Pattern, stretch: float) -> Iterator[Problem]:
    """A girth at the wrist that passes nothing, or a buttoned cuff that none names: no ring, closed all the same."""
    wrists = [girth for girth in pattern.girths if _is_called(girth, _WRIST)]
    for girth in wrists:
        if not _says(girth) and not girth.opens and widest(girth, stretch) < HAND - _GIVES:
            name = girth.title or girth.name
            message = (
                f"{name} closes to {mm(widest(girth, stretch))}, and a hand needs {mm(HAND)}: it does not say how."
            )
            fix = "Say behind it what opens it and what it passes, such as: opens slit_length  passes hand_girth + 2cm"
            see = (("the girth", girth.span),)
            measured = Measured(widest(girth, stretch), HAND)
            yield finding(_UNSAID, message, fix, Place(point=girth.name), see=see, measured=measured)
            return
    if wrists:
        return
    sewn = sewn_edges(pattern)
    closed = {piece.name for ring in rings(pattern, lambda piece, _: "cuff" in piece.name) for piece, _ in ring.edges}
    for piece in pattern.pieces:
        edges = [edge for edge in piece.edges if (piece.name, edge.name) in sewn]
        attach = max(edges, key=lambda edge: edge.sewn_length, default=None)
        if "cuff" not in piece.name or attach is None or piece.name in closed or piece.fold_edge is not None:
            continue
        if attach.sewn_length * (1.0 + stretch) < HAND + _LAP:
            message = (
                f"{piece.name} is {mm(attach.sewn_length)} round, and no girth says how a hand of {mm(HAND)} goes in."
            )
            fix = (
                f"Add a girth: girth {piece.name} = length({piece.name}.{attach.name})  body wrist_girth  ease 3cm  "
                "opens slit_length  passes hand_girth + 2cm"
            )
            measured = Measured(attach.sewn_length, HAND + _LAP)
            see = (("the edge", attach.span),)
            yield finding(_UNSAID, message, fix, edge_place(piece, attach), see=see, measured=measured)
            return


def _necks(pattern: Pattern, stretch: float) -> Iterator[Problem]:
    """Closed necks through which no head goes as they are."""
    head = CHILDS_HEAD if pattern.group == "children" else HEAD
    beside = _beside_shoulders(pattern)

    def at_neck(piece: Piece, edge: Edge) -> bool:
        return _NECK.search(edge.name) is not None or (piece.name, edge.name) in beside

    yield from _narrowest(pattern, rings(pattern, at_neck), (head, "a head", _NECK), stretch)


def _beside_shoulders(pattern: Pattern) -> frozenset[tuple[str, str]]:
    """Edges that meet at the inner end of a shoulder seam, whatever they are called."""
    found: set[tuple[str, str]] = set()
    for joint in joints(pattern):
        names = (joint.one_seam.name, joint.other_seam.name)
        across = (joint.one, joint.other)
        if any("shoulder" in name for name in names) and not any(_ARM.search(edge.name) for _, edge in across):
            found |= {(piece.name, edge.name) for piece, edge in across}
    arms = {
        (piece.name, edge.name)
        for seam in pattern.seams
        for own, other in ((seam.a, seam.b), (seam.b, seam.a))
        if any("cap" in run.edge for run in own)
        for piece, edge in ((pattern.piece(run.piece), pattern.piece(run.piece).edge(run.edge)) for run in other)
    }
    return frozenset(found - arms)


def _sleeves(pattern: Pattern, stretch: float) -> Iterator[Problem]:
    """Closed ends of sleeves, and closed cuffs, through which no hand goes."""

    def at_wrist(piece: Piece, edge: Edge) -> bool:
        sleeve = any(edge.name == "cap" or edge.name.startswith("cap_") for edge in piece.edges)
        called = _SLEEVE.search(f"{piece.name.replace('_', ' ')} {piece.title}") is not None
        return (sleeve or called) and not _ARM.search(edge.name)

    yield from _narrowest(pattern, rings(pattern, at_wrist), (HAND, "a hand", _WRIST), stretch)


def _legs(pattern: Pattern, stretch: float) -> Iterator[Problem]:
    """Closed hems of legs through which no heel goes."""

    def at_foot(piece: Piece, edge: Edge) -> bool:
        leg = any(_LEG.search(other.name) for other in piece.edges)
        leg = leg or _TROUSERS.search(f"{piece.name.replace('_', ' ')} {piece.title}") is not None
        return leg and edge.name.startswith(("hem", "ankle", "cuff", "bottom"))

    found = (ring for ring in rings(pattern, at_foot) if not ring.halved)
    yield from _narrowest(pattern, found, (HEEL, "a heel", _FOOT), stretch)


def _narrowest(
    pattern: Pattern, found: Iterator[EdgeRing], through: tuple[float, str, re.Pattern[str]], stretch: float
) -> Iterator[Problem]:
    """The narrowest of the rings through which `through` does not go, and of which no girth says how it does."""
    needed, what, called = through
    tight = [ring for ring in found if ring.length * (1.0 + stretch) < needed - _GIVES]
    if not tight or any(_says(girth) for girth in pattern.girths if _is_called(girth, called)):
        return
    tight = [ring for ring in tight if not any(_says(g) for g in pattern.girths if _measures(g, ring.length))]
    if not tight:
        return
    ring = min(tight, key=lambda one: one.length)
    girths = [girth for girth in pattern.girths if _is_called(girth, called) or _measures(girth, ring.length)]
    piece, edge = ring.edges[0]
    message = f"{ring.words} closes to {mm(ring.length)}, and {what} needs {mm(needed)}: no girth says how it goes in."
    see = (("the edge", edge.span), *((("the girth", girths[0].span),) if girths else ()))
    line = f"behind the girth “{girths[0].title or girths[0].name}”" if girths else "in a girth of its own"
    fix = f"Say {line} what must go through, and what opens it, such as: opens zip_length  passes {_measure(what)}"
    yield finding(_UNSAID, message, fix, edge_place(piece, edge), see=see, measured=Measured(ring.length, needed))


def _measure(what: str) -> str:
    return {"a head": "60cm", "a hand": "hand_girth + 2cm"}.get(what, "heel_girth")


def _says(girth: Girth) -> bool:
    """Whether a girth says how one gets through it."""
    return girth.opens_fully or girth.passes > 0.0


def _is_called(girth: Girth, called: re.Pattern[str]) -> bool:
    return called.search(f"{girth.name.replace('_', ' ')} {girth.title} {girth.measure}") is not None


def _measures(girth: Girth, length: float) -> bool:
    return abs(girth.measured - length) <= _SAME * length


def _torso(pattern: Pattern, stretch: float) -> Iterator[Problem]:
    """Closed girths of the body, and closed waists, narrower than what goes on over them."""
    torso = [girth for girth in pattern.girths if _TORSO.search(f"{girth.name} {girth.title} {girth.measure}")]
    needed, what = _passing(pattern, torso)
    if needed <= 0.0:
        return
    for girth in torso:
        if not _says(girth) and widest(girth, stretch) < needed - _GIVES:
            opened = f", opened {mm(widest(girth, stretch))}" if girth.opens or girth.stretches_to else ""
            name = girth.title or girth.name
            message = (
                f"{name} closes to {mm(girth.measured)}{opened}, and {what} of {mm(needed)} must go through: "
                "it does not say how."
            )
            fix = f"Say behind it what opens it and what it passes, such as: opens zip_length  passes {what}"
            see = (("the girth", girth.span),)
            measured = Measured(widest(girth, stretch), needed)
            yield finding(_UNSAID, message, fix, Place(point=girth.name), see=see, measured=measured)
            return
    if any(_is_called(girth, _WAIST) for girth in torso):
        return
    waists = rings(pattern, _called("waist"))
    tight = [ring for ring in waists if ring.halved and ring.length * (1.0 + stretch) < needed - _GIVES]
    for ring in tight[:1]:
        piece, edge = ring.edges[0]
        message = (
            f"{ring.words} closes to {mm(ring.length)}, and {what} of {mm(needed)} must go through: no girth says how."
        )
        fix = f'Add a girth: girth waist "Waist" = ... body waist_girth ease ... opens zip_length  passes {what}'
        see = (("the edge", edge.span),)
        yield finding(_UNSAID, message, fix, edge_place(piece, edge), see=see, measured=Measured(ring.length, needed))


def _passing(pattern: Pattern, torso: list[Girth]) -> tuple[float, str]:
    """What must go through the body of a garment: the narrower of hips and bust where both are in it, mm."""
    bodies = [(girth.body, girth.measure) for girth in torso if girth.body > 0.0 and girth.measure]
    bodies += [(fit.body, fit.measure) for fit in pattern.fits]
    widest_parts = [one for one in bodies if one[1] in ("hip_girth", "bust_girth", "chest_girth")]
    return min(widest_parts, default=(0.0, ""))


def _called(word: str) -> Callable[[Piece, Edge], bool]:
    return lambda _, edge: edge.name.startswith(word)


#: The check as every room knows it.
CHECK = Check("ways_in", "Ways in", _run, (_UNSAID, _NONE))
