"""One pattern handed on once for all tests of this room."""

import pytest

from app.pattern.exchange import StyleInfo, write_dxf, write_svg_files
from tests.pattern.drawing.hand_pieces import pattern as hand_pattern

INFO = StyleInfo("Harbour dress", "K7F2Q", "Marit", "Studio Fieldwork")


@pytest.fixture(scope="session")
def info():
    return INFO


@pytest.fixture(scope="session")
def pattern():
    return hand_pattern()


@pytest.fixture(scope="session")
def dxf_file(pattern, info, tmp_path_factory):
    path = tmp_path_factory.mktemp("dxf") / "pattern.dxf"
    write_dxf(pattern, info, path)
    return path


@pytest.fixture(scope="session")
def svg_folder(pattern, info, tmp_path_factory):
    folder = tmp_path_factory.mktemp("svg")
    write_svg_files(pattern, info, folder)
    return folder
