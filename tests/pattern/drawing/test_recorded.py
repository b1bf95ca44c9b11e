"""Whole drawings of the hand-made pieces against recordings kept beside this file, one line for each mark.

When a drawing is changed on purpose: `python -m tests.pattern.drawing.test_recorded`, then read the difference.
"""

from pathlib import Path

import pytest

from app.pattern.drawing import DrawingLook, piece_marks
from app.pattern.drawing.record import Filled, Lined
from app.pattern.geometry import Arc, Cubic
from tests.pattern.drawing.hand_pieces import pattern

FOLDER = Path(__file__).parent / "recorded"
LOOK = DrawingLook(garment="Harbour dress", order_number="K7F2Q", customer="Marit", fabrics={"shell": "Shell"})


def place(point):
    return f"{point.x + 0.0:.1f},{point.y + 0.0:.1f}".replace("-0.0", "0.0")


def traced(path):
    words = [place(path.start)]
    for segment in path.segments:
        kind = "arc" if isinstance(segment, Arc) else "curve" if isinstance(segment, Cubic) else "line"
        words.append(f"{kind} {place(segment.end)}")
    return " ".join(words) + (" closed" if path.closed else "")


def told(mark):
    if isinstance(mark, Lined) and len(mark.path.segments) > 12:
        box = ", ".join(f"{n:.0f}" for n in mark.path.bounds)
        return f"line {mark.style}: {len(mark.path.segments)} segments within {box}"
    if isinstance(mark, Lined):
        return f"line {mark.style}: {traced(mark.path)}"
    if isinstance(mark, Filled):
        return f"fill {mark.style}: {traced(mark.path)}"
    set_in = mark.lettering
    how = f"{set_in.face} {set_in.size:.1f} mm {set_in.angle:.2f} rad {set_in.anchor}"
    return f"text {how} {place(mark.at)}: {mark.words}"


def recording(piece):
    return "".join(f"{told(mark)}\n" for mark in piece_marks(piece, LOOK))


@pytest.mark.parametrize("piece", pattern().pieces, ids=lambda p: p.name)
def test_the_drawing_is_the_recorded_one(piece):
    assert recording(piece).splitlines() == (FOLDER / f"{piece.name}.txt").read_text(encoding="utf-8").splitlines()


def test_every_recording_has_its_piece():
    assert {path.stem for path in FOLDER.glob("*.txt")} == {piece.name for piece in pattern().pieces}


if __name__ == "__main__":
    for one in pattern().pieces:
        (FOLDER / f"{one.name}.txt").write_text(recording(one), encoding="utf-8")
