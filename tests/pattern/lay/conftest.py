"""A dress of our own invention as lay items, its grain along x: what the lay tests cut from cloth."""

from __future__ import annotations

from math import cos, pi, sin

import pytest

from app.pattern.geometry import Point
from app.pattern.lay import LayItem

Ring = tuple[Point, ...]


def ring(*points: tuple[float, float]) -> Ring:
    return tuple(Point(float(x), float(y)) for x, y in points)


def rectangle(length: float, width: float) -> Ring:
    return ring((0, 0), (length, 0), (length, width), (0, width))


def scoop(
    centre: tuple[float, float], radius: float, degrees: tuple[float, float], steps: int = 12
) -> list[tuple[float, float]]:
    """Points of an arc from the first angle to the second, degrees."""
    first, last = degrees[0] * pi / 180, degrees[1] * pi / 180
    angles = [first + (last - first) * k / steps for k in range(steps + 1)]
    return [(centre[0] + radius * cos(a), centre[1] + radius * sin(a)) for a in angles]


def bodice(neck: float, arm: float) -> Ring:
    """Half a bodice: waist at x = 0, shoulder to the right, the fold or centre along y = 0."""
    neckline = scoop((430, 0), neck, (180, 90))
    armhole = scoop((400, 250), arm, (150, 230))[::-1]
    return ring((0, 0), *neckline, (415, 170), *[(x - 10, y + 10) for x, y in armhole], (215, 265), (0, 205))


def skirt(hem: float) -> Ring:
    hemline = [(620 * (1 - 0.02 * sin(k / 10 * pi / 2)), hem * k / 10) for k in range(11)]
    side = [(440, 275), (300, 252), (120, 215)]
    return ring((0, 0), *[(x, y) for x, y in hemline], *side, (0, 170))


def sleeve() -> Ring:
    cap = [(420 + 120 * sin(k / 16 * pi) ** 1.5, 380 * k / 16) for k in range(17)]
    return ring((0, 60), *cap, (0, 320))


FOLD_BODICE = (Point(0, 0), Point(340, 0))
FOLD_SKIRT = (Point(0, 0), Point(620, 0))


def dress_items() -> tuple[LayItem, ...]:
    """Seventeen pieces of a lined summer dress when laid open."""
    return (
        LayItem("front", "Bodice front", bodice(90, 70), 1, on_fold=True, fold=FOLD_BODICE),
        LayItem("back", "Bodice back", bodice(55, 62), 2, pair=True),
        LayItem("skirt-front", "Skirt front", skirt(330), 1, on_fold=True, fold=FOLD_SKIRT),
        LayItem("skirt-back", "Skirt back", skirt(345), 2, pair=True),
        LayItem("sleeve", "Sleeve", sleeve(), 2, pair=True),
        LayItem(
            "facing",
            "Front neck facing",
            ring((0, 0), *scoop((215, 0), 150, (180, 90)), (215, 200), (140, 200), (30, 120)),
            1,
            on_fold=True,
            fold=(Point(0, 0), Point(65, 0)),
        ),
        LayItem(
            "back-facing",
            "Back neck facing",
            ring((0, 0), (70, 0), *scoop((125, 0), 55, (180, 90)), (130, 150), (30, 140)),
            2,
            pair=True,
        ),
        LayItem(
            "pocket",
            "Pocket bag",
            ring((0, 0), (240, 0), (300, 60), (300, 120), (220, 170), (60, 170), (0, 110)),
            4,
            pair=True,
        ),
        LayItem("waistband", "Waistband", rectangle(760, 70), 1),
        LayItem("belt-loop", "Belt carrier", rectangle(90, 40), 1),
    )


@pytest.fixture(scope="session")
def dress() -> tuple[LayItem, ...]:
    """The dress: eleven outlines on folded cloth, seventeen on open cloth."""
    return dress_items()
