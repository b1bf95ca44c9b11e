"""Tracing an outline: edges and darts, drawn in any direction, become one closed anticlockwise stitching line."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from app.pattern.geometry import Path, Point, Transform
from app.pattern.names import dotted
from app.pattern.pieces.dartcap import dart_cap
from app.pattern.pieces.model import Allowance, Dart, Edge
from app.pattern.pieces.spec import DartSpec, Traced
from app.pattern.pieces.welding import welded
from app.pattern.problem import Place, Problem, Refused, Related, Span
from app.pattern.units import mm

__all__ = ["GAP_TOLERANCE", "trace_outline"]

#: Neighbouring edges' ends no further apart than this (mm) count as one point, and are drawn together.
GAP_TOLERANCE = 0.05
#: An outline that encloses less than this (mm²) is no piece.
SMALLEST_AREA = 1.0

Item = Edge | DartSpec


@dataclass(frozen=True, slots=True)
class _EdgeTravelled:
    """An edge as it is travelled round the outline, and the dart that follows it, if one does."""

    edge: Edge
    path: Path
    forward: bool
    dart: DartSpec | None


def trace_outline(items: Sequence[Item], piece: str = "") -> Traced | Refused:
    """The closed outline that the items make in their order, anticlockwise; or what is wrong with them.

    Each edge may have been drawn in either direction and the list may go either way
    round. Ends within `GAP_TOLERANCE` mm of each other are brought together.
    """
    if faults := _list_faults(items, piece):
        return Refused(faults)
    stretches = _oriented(_paired(items))
    gaps = tuple(p for pair in _around(stretches) for p in _gap_faults(pair, piece))
    if gaps:
        return Refused(gaps)
    # The stretches with each start drawn exactly onto the end before it (a similarity of at most the gap's size)
    welded = []
    for i, here in enumerate(stretches):
        before = stretches[i - 1]
        if before.dart is None and before is not here:
            here = replace(here, path=_ends_moved(here.path, before.path.end, here.path.end))
        welded.append(here)
    stretches = welded
    area = _mouthed(stretches).signed_area
    if abs(area) < SMALLEST_AREA:
        first = stretches[0].edge
        message = f"The outline {', '.join(s.edge.name for s in stretches)} encloses nothing."
        fix = "List the edges in order round the piece; an edge there and the same edge back make no piece."
        return Refused.of(_fault("pieces.outline-flat", message, fix, piece, first.name, first.span))
    return _with_caps(stretches if area > 0.0 else _turned_round(stretches), piece)


def _list_faults(items: Sequence[Item], piece: str) -> tuple[Problem, ...]:
    edges = [item for item in items if isinstance(item, Edge)]
    if not edges:
        return (
            _fault("pieces.no-edges", "The outline has no edges.", "List its edges in order round the piece.", piece),
        )
    faults = []
    for one, two in pairwise([*items, items[0]]):
        if isinstance(one, DartSpec) and isinstance(two, DartSpec):
            message = f"Dart {dotted(piece, one.name)} is followed by dart {two.name}, with no edge between them."
            fix = "Put the edge between the two darts in the outline, or make them one dart."
            faults.append(_fault("pieces.darts-touch", message, fix, piece, two.name, two.span))
    return (*_repeated(items, piece), *faults)


def _repeated(items: Sequence[Item], piece: str) -> tuple[Problem, ...]:
    seen: set[str] = set()
    faults = []
    for item in items:
        if item.name in seen:
            message = f"{dotted(piece, item.name)} occurs twice in the outline."
            fix = "Name each edge and dart once, or give the second one a name of its own."
            faults.append(_fault("pieces.name-twice", message, fix, piece, item.name, item.span))
        seen.add(item.name)
    return tuple(faults)


def _paired(items: Sequence[Item]) -> list[_EdgeTravelled]:
    """Each edge with the dart that follows it; a dart that opens the list follows the last edge."""
    stretches: list[_EdgeTravelled] = []
    opening: DartSpec | None = None
    for item in items:
        if isinstance(item, Edge):
            stretches.append(_EdgeTravelled(item, item.path, True, None))
        elif stretches:
            stretches[-1] = replace(stretches[-1], dart=item)
        else:
            opening = item
    if opening is not None:
        stretches[-1] = replace(stretches[-1], dart=opening)
    return stretches


def _around(stretches: Sequence[_EdgeTravelled]) -> list[tuple[_EdgeTravelled, _EdgeTravelled]]:
    """Each stretch with the next one, the last with the first."""
    return [(one, stretches[(i + 1) % len(stretches)]) for i, one in enumerate(stretches)]


def _backward(stretch: _EdgeTravelled) -> _EdgeTravelled:
    return replace(stretch, path=stretch.path.reversed(), forward=not stretch.forward)


def _oriented(stretches: Sequence[_EdgeTravelled]) -> list[_EdgeTravelled]:
    """Each edge the way round that lets it meet its neighbours best; the first as drawn if that is as good."""
    ways = [(s, _backward(s)) for s in stretches]
    best: tuple[float, list[int]] | None = None
    for first in (0, 1):
        found = _best_chain(ways, first)
        if best is None or found[0] < best[0] - 1e-9:
            best = found
    assert best is not None
    return [pair[choice] for pair, choice in zip(ways, best[1], strict=True)]


def _best_chain(ways: Sequence[tuple[_EdgeTravelled, _EdgeTravelled]], first: int) -> tuple[float, list[int]]:
    """The cheapest choice of directions that starts with `first`: cost and the choices (dynamic programming)."""
    chains: dict[int, tuple[float, list[int]]] = {first: (0.0, [first])}
    for before, here in pairwise(ways):
        chains = {
            choice: min(
                (cost + _misfit(before[last], here[choice]), [*chain, choice]) for last, (cost, chain) in chains.items()
            )
            for choice in (0, 1)
        }
    return min((cost + _misfit(ways[-1][last], ways[0][first]), chain) for last, (cost, chain) in chains.items())


def _misfit(one: _EdgeTravelled, two: _EdgeTravelled) -> float:
    """How badly the end of one stretch meets the start of the next, mm."""
    end, start = one.path.end, two.path.start
    dart = one.dart
    if dart is None:
        return end.distance(start)
    legs = abs(end.distance(dart.tip) - start.distance(dart.tip)) + 0.1 * end.distance(start)
    return legs + _apart(end, dart.a) + _apart(start, dart.b)


def _apart(point: Point, wanted: Point | None) -> float:
    return 0.0 if wanted is None else point.distance(wanted)


def _gap_faults(pair: tuple[_EdgeTravelled, _EdgeTravelled], piece: str) -> tuple[Problem, ...]:
    one, two = pair
    if one.dart is not None:
        return _leg_faults(one, two, piece)
    gap = one.path.end.distance(two.path.start)
    if gap <= GAP_TOLERANCE:
        return ()
    name, other = one.edge.name, two.edge.name
    first, second = dotted(piece, name), dotted(piece, other)
    if one.edge is two.edge:
        message = f"The outline is the edge {first} alone, and its ends lie {mm(gap)} apart."
    else:
        message = f"The end of {first} lies {mm(gap)} from the start of {second}, which the outline puts next to it."
    fix = f"Let {name} and {other} end on the same point, or name in the outline the edge or dart between them."
    return (
        Problem(
            "pieces.outline-gap",
            message,
            fix,
            two.edge.span or Place(piece, other, at=two.path.start),
            related=(
                Related(f"{name} ends here", Place(piece, name, at=one.path.end)),
                Related(f"{other} starts here", Place(piece, other, at=two.path.start)),
            ),
        ),
    )


def _leg_faults(one: _EdgeTravelled, two: _EdgeTravelled, piece: str) -> tuple[Problem, ...]:
    dart = one.dart
    assert dart is not None
    ends = ((one.edge, one.path.end, dart.a, "a"), (two.edge, two.path.start, dart.b, "b"))
    return tuple(
        _fault(
            "pieces.dart-gap",
            f"Leg {leg} of dart {dotted(piece, dart.name)} lies {mm(gap)} from the end of {edge.name} beside it.",
            f"End {edge.name} on the dart's leg, or leave the leg out of the dart: the edge's end is then taken.",
            piece,
            dart.name,
            dart.span,
            at=end,
        )
        for edge, end, foot_point, leg in ends
        if (gap := _apart(end, foot_point)) > GAP_TOLERANCE
    )


def _ends_moved(path: Path, start: Point, end: Point) -> Path:
    """The path moved, turned and scaled so that it runs from start to end."""
    if path.start == start and path.end == end:
        return path
    old = complex(*path.end.minus(path.start))
    if abs(old) < 1e-6:
        return path.transformed(Transform.move(*start.minus(path.start)))
    ratio = complex(*end.minus(start)) / old
    shift = complex(*start) - ratio * complex(*path.start)
    return path.transformed(Transform(ratio.real, ratio.imag, shift.real, shift.imag))


def _mouthed(stretches: Sequence[_EdgeTravelled]) -> Path:
    """The outline with each dart's mouth closed by a straight line."""
    whole: Path | None = None
    for one, two in _around(stretches):
        whole = one.path if whole is None else whole.joined(one.path)
        if one.path.end.distance(two.path.start) > 1e-9:
            whole = whole.joined(Path.through(one.path.end, two.path.start))
    assert whole is not None
    return whole


def _turned_round(stretches: Sequence[_EdgeTravelled]) -> list[_EdgeTravelled]:
    """The same outline walked the other way."""
    return [replace(_backward(stretches[i]), dart=_swapped(stretches[i - 1].dart)) for i in _down(len(stretches))]


def _down(count: int) -> range:
    return range(count - 1, -1, -1)


def _swapped(dart: DartSpec | None) -> DartSpec | None:
    if dart is None:
        return None
    return replace(dart, a=dart.b, b=dart.a, pressed_to={"a": "b", "b": "a"}[dart.pressed_to])


def _with_caps(stretches: Sequence[_EdgeTravelled], piece: str) -> Traced | Refused:
    darts: list[Dart] = []
    mouths: list[int] = []
    faults: list[Problem] = []
    for i, (one, two) in enumerate(_around(stretches)):
        if one.dart is None:
            continue
        made = _capped(one, two, piece)
        if isinstance(made, Refused):
            faults += made.problems
        else:
            darts.append(made)
            mouths.append(i)
    if faults:
        return Refused(tuple(faults))
    edges = tuple(_settled(s) for s in stretches)
    return Traced(edges, tuple(darts), tuple(mouths), _stitching(stretches, dict(zip(mouths, darts, strict=True))))


def _settled(stretch: _EdgeTravelled) -> Edge:
    """The edge as the piece keeps it: drawn direction, with its direction round the outline, no allowance on a fold."""
    edge = stretch.edge
    path = stretch.path if stretch.forward else stretch.path.reversed()
    allowance = Allowance(0.0) if edge.fold else edge.allowance
    return replace(edge, path=path, with_outline=stretch.forward, allowance=allowance)


def _capped(one: _EdgeTravelled, two: _EdgeTravelled, piece: str) -> Dart | Refused:
    spec = one.dart
    assert spec is not None
    a, b = one.path.end, two.path.start
    if min(a.distance(b), a.distance(spec.tip), b.distance(spec.tip)) < GAP_TOLERANCE:
        message = f"Dart {dotted(piece, spec.name)} has no width: two of its three points lie in the same place."
        fix = "Give the dart an intake at the edge and a tip inside the piece."
        return Refused.of(_fault("pieces.dart-closed", message, fix, piece, spec.name, spec.span, at=spec.tip))
    beside = one.path.segments[-1].tangent(1.0).scaled(-1.0)
    if spec.pressed_to == "b":
        beside = two.path.segments[0].tangent(0.0)
    cap = dart_cap(a, spec.tip, b, beside=beside, pressed_to=spec.pressed_to)
    if cap is None:
        name = dotted(piece, spec.name)
        message = f"Dart {name} cannot be folded: pressed to its leg {spec.pressed_to}, its mouth runs off the paper."
        fix = "Move the tip inside the piece, press the dart the other way, or let the edges meet its legs squarely."
        return Refused.of(_fault("pieces.dart-cap", message, fix, piece, spec.name, spec.span, at=spec.tip))
    return Dart(spec.name, a, spec.tip, b, cap, spec.pressed_to, spec.keep_clear, spec.clear_by, spec.label, spec.span)


def _stitching(stretches: Sequence[_EdgeTravelled], caps: dict[int, Dart]) -> Path:
    caps_after = [caps[i].cap.segments if i in caps else () for i in range(len(stretches))]
    paths = zip(stretches, caps_after, strict=True)
    return welded(segment for stretch, cap in paths for segment in (*stretch.path.segments, *cap))


def _fault(
    code: str, message: str, fix: str, piece: str, edge: str = "", span: Span | None = None, *, at: Point | None = None
) -> Problem:
    return Problem(code, message, fix, span or Place(piece, edge, at=at))
