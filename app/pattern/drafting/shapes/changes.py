"""What pattern work did to lengths: of sides on paper and once folded, of darts across mouths and down legs."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from app.pattern.drafting.shapes.shape import Change, Shape, Side
from app.pattern.units import Unit, show_length

__all__ = ["changes", "change_in_words"]

#: A length that differs by less (mm) has not changed.
_SAME = 0.05
_WHAT = {"mouth": "{}, across its mouth", "legs": "{}, down its legs"}


@dataclass(slots=True)
class _Measured:
    """Lengths in mm by name and what was measured, and what folds take away from each."""

    lengths: dict[tuple[str, str], float]
    folds: dict[tuple[str, str], float]


def changes(before: Sequence[Shape], after: Shape) -> tuple[Change, ...]:
    """Every length that differs between the shapes that work began with and the one it gave, in order round that."""
    was, now = _measured(before), _measured([after])
    found = []
    for key in dict.fromkeys((*now.lengths, *was.lengths)):
        old, new = was.lengths.get(key), now.lengths.get(key)
        if old is not None and new is not None and abs(old - new) < _SAME:
            continue
        folded = now.folds.get(key, 0.0)
        found.append(Change(*key, old, new, new - folded if new is not None and folded else None))
    return tuple(found)


def _measured(shapes: Iterable[Shape]) -> _Measured:
    found = _Measured({}, {})
    for shape in shapes:
        for item in shape.items:
            if isinstance(item, Side):
                _add(found.lengths, (item.name, "length"), item.path.length)
                _add(found.folds, (item.name, "length"), item.taken_in)
            else:
                dart = item.dart
                _add(found.lengths, (item.name, "mouth"), dart.a.distance(dart.b))
                _add(found.lengths, (item.name, "legs"), max(dart.tip.distance(dart.a), dart.tip.distance(dart.b)))
    return found


def _add(sums: dict[tuple[str, str], float], key: tuple[str, str], value: float) -> None:
    sums[key] = sums.get(key, 0.0) + value


def change_in_words(change: Change, unit: Unit) -> str:
    """A change as a cutter would say it, its lengths in the person's unit."""
    what = _WHAT.get(change.measure, "{}").format(change.name.replace("_", " "))
    was = show_length(change.before, unit) if change.before is not None else ""
    if change.after is None:
        return f"{what}: gone, was {was}"
    now = show_length(change.after, unit)
    if change.folded is not None:
        now += f" on paper, {show_length(change.folded, unit)} once folded"
    return f"{what}: {was}, now {now}" if was else f"{what}: new, {now}"
