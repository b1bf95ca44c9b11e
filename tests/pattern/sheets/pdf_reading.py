"""Reads the lines of a PDF page back in millimetres, with PDFium, which knows nothing of how they were written."""

import ctypes
from dataclasses import dataclass

import pypdfium2 as pdfium
import pypdfium2.raw as raw

PT = 72.0 / 25.4


@dataclass(frozen=True)
class PathRead:
    """One path: its points (curves with their handles), the width of its stroke, and its grey from 0 black to 255."""

    points: tuple[tuple[float, float], ...]
    segments: tuple[tuple[tuple[float, float], ...], ...]
    width: float
    grey: int

    @property
    def box(self):
        xs, ys = [p[0] for p in self.points], [p[1] for p in self.points]
        return min(xs), min(ys), max(xs), max(ys)

    @property
    def ink(self):
        """The box of the ink of a straight-sided path: half a stroke beyond its points."""
        left, bottom, right, top = self.box
        half = self.width / 2.0
        return left - half, bottom - half, right + half, top + half


def paths_of(page):
    """All paths of a page, points in mm from the page's lower left corner."""
    return [_path(o) for o in page.get_objects(filter=(raw.FPDF_PAGEOBJ_PATH,))]


def _path(obj):
    matrix = obj.get_matrix()
    count = raw.FPDFPath_CountSegments(obj.raw)
    points, kinds = [], []
    x, y = ctypes.c_float(), ctypes.c_float()
    for index in range(count):
        segment = raw.FPDFPath_GetPathSegment(obj.raw, index)
        raw.FPDFPathSegment_GetPoint(segment, x, y)
        points.append(tuple(n / PT for n in matrix.on_point(x.value, y.value)))
        kinds.append(raw.FPDFPathSegment_GetType(segment))
    width = ctypes.c_float()
    raw.FPDFPageObj_GetStrokeWidth(obj.raw, width)
    red, green, blue, alpha = (ctypes.c_uint() for _ in range(4))
    raw.FPDFPageObj_GetStrokeColor(obj.raw, red, green, blue, alpha)
    return PathRead(tuple(points), tuple(_segments(points, kinds)), width.value / PT, red.value)


def _segments(points, kinds):
    """Lines as two points and cubics as four."""
    index, here = 0, points[0]
    while index < len(points):
        if kinds[index] == raw.FPDF_SEGMENT_BEZIERTO:
            yield here, points[index], points[index + 1], points[index + 2]
            index += 2
        elif kinds[index] == raw.FPDF_SEGMENT_LINETO:
            yield here, points[index]
        here = points[index]
        index += 1


def open_pdf(path):
    return pdfium.PdfDocument(str(path))


def words_of(page):
    text = page.get_textpage()
    words = text.get_text_range()
    text.close()
    return words
