"""Short ways to write edges and outlines in tests of pieces."""

from __future__ import annotations

from dataclasses import dataclass
from math import pi, radians

import pytest
import shapely

from app.pattern.geometry import Path, Point, curve
from app.pattern.pieces import DartSpec, PieceSpec, Traced, trace_outline
from app.pattern.pieces.allowance import cutting_outline
from app.pattern.pieces.model import Allowance, CornerCut, Cut, Edge, Grain


def path(*points: tuple[float, float]) -> Path:
    return Path.through(*(Point(*p) for p in points))


@dataclass(frozen=True)
class Kit:
    """Builders of edges, pieces and polygons."""

    @staticmethod
    def path(*points: tuple[float, float]) -> Path:
        return path(*points)

    @staticmethod
    def edge(
        name: str,
        line: Path,
        width: float = 10.0,
        corner: CornerCut = CornerCut.PLAIN,
        *,
        fold: bool = False,
    ) -> Edge:
        return Edge(name, line, Allowance(width, corner), fold)

    def polygon_edges(self, *points: tuple[float, float], width: float = 10.0) -> list[Edge]:
        """One edge for each side of a polygon: e0 from the first point to the second, and so on."""
        count = len(points)
        return [self.edge(f"e{i}", path(points[i], points[(i + 1) % count]), width) for i in range(count)]

    @staticmethod
    def spec(*items: Edge | DartSpec, name: str = "piece", **more: object) -> PieceSpec:
        grain = Grain(Point(50.0, 50.0), Point(50.0, 150.0))
        return PieceSpec(name, name.title(), tuple(items), grain, (Cut("main", 1),), **more)

    @staticmethod
    def traced(*items: Edge | DartSpec) -> Traced:
        traced = trace_outline(items, "piece")
        assert isinstance(traced, Traced), traced
        return traced

    def cutting(self, *items: Edge | DartSpec) -> Path:
        return cutting_outline(self.traced(*items))

    def skirt(self) -> PieceSpec:
        """Half a skirt on the fold, its waist darted, listed clockwise and drawn every which way."""
        side = curve(Point(200.0, 606.0), Point(240.0, 5.0), radians(-80.0), radians(-88.0))
        return self.spec(
            self.edge("waist_middle", path((80.0, 600.0), (0.0, 600.0))),
            DartSpec("dart", Point(92.0, 480.0)),
            self.edge("waist_side", curve(Point(104.0, 600.0), Point(200.0, 606.0), 0.0, radians(10.0))),
            self.edge("side", side, 15.0),
            self.edge(
                "hem", curve(Point(240.0, 5.0), Point(0.0, 0.0), radians(182.0), pi), 40.0, CornerCut.TURNED_BACK
            ),
            self.edge("centre", path((0.0, 0.0), (0.0, 600.0)), 0.0, fold=True),
        )

    def bodice(self, width: float = 10.0, **widths: float) -> PieceSpec:
        """Half a bodice, open at the centre, with a curved neck and armhole."""
        slope = radians(-19.3)
        armhole = curve(Point(190.0, -20.0), Point(230.0, -200.0), slope - pi / 2.0, 0.0)
        lines = {
            "neck": curve(Point(0.0, -60.0), Point(70.0, 22.0), 0.0, slope + pi / 2.0),
            "shoulder": path((70.0, 22.0), (190.0, -20.0)),
            "armhole": armhole,
            "side": path((230.0, -200.0), (225.0, -400.0)),
            "hem": path((225.0, -400.0), (0.0, -400.0)),
            "centre": path((0.0, -400.0), (0.0, -60.0)),
        }
        return self.spec(*(self.edge(n, line, widths.get(n, width)) for n, line in lines.items()), name="bodice")

    @staticmethod
    def shape(outline: Path, tolerance: float = 0.005) -> shapely.Polygon:
        return shapely.Polygon(outline.flatten(tolerance))


@pytest.fixture(scope="session")
def kit() -> Kit:
    """The builders."""
    return Kit()
