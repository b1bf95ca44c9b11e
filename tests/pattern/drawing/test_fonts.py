"""The house's typeface: its files, its licence, its widths."""

from pathlib import Path

import pytest
from fontTools.ttLib import TTFont

from app.pattern.drawing import Face
from app.pattern.drawing.fonts import CAP_HEIGHT, FAMILY, font_name, letters_lacking, width_of

FOLDER = Path(__file__).resolve().parents[3] / "static" / "fonts"


def test_every_face_has_its_file_with_the_licence_beside_it():
    for face in Face:
        assert (FOLDER / f"{font_name(face)}.ttf").is_file()
    assert "SIL Open Font License, Version 1.1" in (FOLDER / "OFL.md").read_text(encoding="utf-8")


def test_web_pages_find_the_same_cuts():
    names = {path.stem for path in FOLDER.glob("*.woff2")}
    assert {font_name(face) for face in Face} <= names


@pytest.mark.parametrize("face", sorted(Face))
def test_widths_are_those_in_the_font_itself(face):
    """fontTools reads the advance widths from the font's own table."""
    font = TTFont(FOLDER / f"{font_name(face)}.ttf")
    widths, letters = font["hmtx"].metrics, font.getBestCmap()
    words = "Place on fold · 38½ × 4"
    units = sum(widths[letters[ord(letter)]][0] for letter in words)
    assert width_of(words, 10.0, face) == pytest.approx(10.0 * units / font["head"].unitsPerEm, rel=1e-3)


def test_the_height_of_capitals_and_the_family_are_the_fonts_own():
    font = TTFont(FOLDER / f"{font_name(Face.REGULAR)}.ttf")
    assert font["OS/2"].sCapHeight / font["head"].unitsPerEm == pytest.approx(CAP_HEIGHT)
    assert font["name"].getBestFamilyName() == FAMILY


def test_the_fonts_may_be_embedded():
    """OS/2 fsType 0: installable embedding."""
    for face in Face:
        assert TTFont(FOLDER / f"{font_name(face)}.ttf")["OS/2"].fsType == 0


def test_everything_we_print_can_be_set():
    assert letters_lacking("“actual size” 100 % A1–A3 · ½¼⅛⅜⅝⅞ × ′ ″ ’") == ()
