"""Pieces and a pattern built by hand, so that drawing and sheets are tested without drafting anything."""

from math import pi, radians

from shapely.geometry import Polygon, box

from app.pattern.geometry import Arc, Line, Path, Point, curve
from app.pattern.pieces.model import (
    Allowance,
    Cut,
    Dart,
    Edge,
    EdgeRun,
    Fabric,
    Grain,
    Mark,
    MarkKind,
    Notch,
    Pattern,
    Piece,
    Seam,
)

SEAM = 10.0


def straight(*points):
    return Path.through(*(Point(*p) for p in points))


def edge(name, path, *, width=SEAM, fold=False):
    return Edge(name, path, Allowance(0.0 if fold else width), fold=fold)


def stitched(edges, darts=(), mouths=()):
    segments = []
    for index, one in enumerate(edges):
        segments += one.path.segments
        segments += [s for d, m in zip(darts, mouths, strict=True) if m == index for s in d.cap.segments]
    return Path(tuple(segments))


def grown(outline, edges, width=SEAM):
    """A plain cutting line round a stitching outline, cut off straight at the fold edges."""
    shape = Polygon(outline.flatten(0.02)).buffer(width, join_style="mitre", mitre_limit=3.0)
    for one in edges:
        if one.fold:
            x = one.path.start.x
            shape = shape.intersection(box(x, -5000.0, 5000.0, 5000.0))
    points = [Point(*xy) for xy in shape.exterior.coords[:-1]][::-1]
    path = Path.through(*points, points[0])
    return path if path.signed_area > 0 else path.reversed()


def piece(name, title, edges, grain, cuts, **more):
    darts, mouths = more.get("darts", ()), more.get("mouths", ())
    stitching = stitched(edges, darts, mouths)
    cutting = more.pop("cutting", None) or grown(stitching, edges)
    low, high = grain
    return Piece(
        name=name,
        title=title,
        edges=tuple(edges),
        grain=Grain(Point(*low), Point(*high)),
        cuts=tuple(cuts),
        stitching=stitching,
        cutting=cutting,
        **more,
    )


def rectangle(name, title, wide, high, *, cuts=None, **more):
    edges = (
        edge("hem", straight((0, 0), (wide, 0))),
        edge("right", straight((wide, 0), (wide, high))),
        edge("top", straight((wide, high), (0, high))),
        edge("left", straight((0, high), (0, 0))),
    )
    grain = ((wide * 0.5, high * 0.15), (wide * 0.5, high * 0.85))
    return piece(name, title, edges, grain, cuts or (Cut("shell", 2, pair=True),), **more)


def dart(name, a, tip, b, out, label=""):
    a, tip, b = Point(*a), Point(*tip), Point(*b)
    return Dart(name, a, tip, b, Path.through(a, Point(*out), b), "a", label=label)


def bodice_front():
    """Half a front on the fold: waist dart, side dart, curved neck and armhole, notches and a lengthen line."""
    neck = curve(Point(72, 432), Point(0, 350), radians(-95), radians(180))
    armhole = curve(Point(238, 215), Point(190, 392), radians(150), radians(75))
    edges = (
        edge("waist_a", straight((0, 0), (92, -4))),
        edge("waist_b", straight((128, -4), (198, 6))),
        edge("side_a", straight((198, 6), (218, 108))),
        edge("side_b", straight((224, 140), (238, 215))),
        edge("armhole", armhole),
        edge("shoulder", straight((190, 392), (72, 432))),
        edge("neck", neck),
        edge("centre", straight((0, 350), (0, 0)), fold=True),
    )
    darts = (
        dart("waist", (92, -4), (108, 150), (128, -4), (109, -9), "waist dart"),
        dart("side", (218, 108), (130, 170), (224, 140), (225, 121), "side dart"),
    )
    return piece(
        "front",
        "Bodice front",
        edges,
        ((48, 40), (48, 300)),
        (Cut("shell", 1, on_fold=True), Cut("lining", 1, on_fold=True)),
        darts=darts,
        mouths=(0, 2),
        notches=(Notch("armhole", 70.0), Notch("side_b", 30.0), Notch("waist_b", 40.0, double=True)),
        marks=(Mark(MarkKind.LENGTHEN, straight((0, 60), (90, 60)), Point(45, 60)),),
    )


def yoke():
    """A quarter-ring hem band of true arcs, with a cutting line of concentric arcs."""
    centre, inner, outer = Point(0, 0), 150.0, 210.0

    def ring_part(small, large, pad):
        low, high = -pad, pi / 2 + pad
        a, b = Arc(centre, large, low, high - low), Arc(centre, small, high, low - high)
        return (a, Line(a.end, b.start), b, Line(b.end, a.start))

    outer_arc, end, inner_arc, start = ring_part(inner, outer, 0.0)
    edges = (
        edge("hem", Path((outer_arc,))),
        edge("left", Path((end,))),
        edge("seam", Path((inner_arc,))),
        edge("right", Path((start,))),
    )
    cutting = Path(ring_part(inner - SEAM, outer + SEAM, SEAM / 180.0))
    return piece("yoke", "Yoke", edges, ((110, 118), (150, 158)), (Cut("shell", 2, pair=True),), cutting=cutting)


def skirt_panel():
    edges = (
        edge("hem", curve(Point(0, 0), Point(330, 0), radians(-6), radians(6)), width=SEAM),
        edge("side", straight((330, 0), (262, 640))),
        edge("waist", curve(Point(262, 640), Point(60, 640), radians(186), radians(174))),
        edge("centre", straight((60, 640), (0, 0))),
    )
    return piece(
        "skirt",
        "Skirt panel",
        edges,
        ((120, 160), (120, 520)),
        (Cut("shell", 4, pair=True),),
        notches=(Notch("side", 400.0), Notch("centre", 200.0, double=True)),
        marks=(Mark(MarkKind.STITCH, straight((180, 30), (300, 30)), Point(240, 30), "topstitch"),),
    )


def placket():
    marks = tuple(Mark(MarkKind.BUTTONHOLE, straight((20, y), (38, y)), Point(29, y), "") for y in (60.0, 150.0, 240.0))
    return rectangle("placket", "Button band", 58, 330, marks=marks)


def tab():
    return rectangle("tab", "Belt carrier", 14, 44, cuts=(Cut("shell", 5),))


def waistband():
    return rectangle("waistband", "Waistband", 700, 62, cuts=(Cut("shell", 1), Cut("interfacing", 1)))


def pattern():
    return Pattern(
        title="Harbour dress",
        pieces=(bodice_front(), skirt_panel(), yoke(), placket(), waistband(), tab()),
        seams=(
            Seam((EdgeRun("skirt", "side"),), (EdgeRun("front", "side_a"), EdgeRun("front", "side_b"))),
            Seam((EdgeRun("waistband", "hem"),), (EdgeRun("skirt", "waist", times=2),), kind="gather"),
        ),
        girths=(),
        fabrics=(
            Fabric("shell", "Shell", 1400.0),
            Fabric("lining", "Lining", 1400.0),
            Fabric("interfacing", "Interfacing", 900.0),
        ),
    )
