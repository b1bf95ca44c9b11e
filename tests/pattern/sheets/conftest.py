"""One pattern, planned and written once for all tests of the printed files."""

import pytest

from app.pattern.sheets import PAPERS, PrintInfo, plan_sheets, write_tiled_pdf
from tests.pattern.drawing.hand_pieces import pattern as hand_pattern

INFO = PrintInfo("Harbour dress", "K7F2Q", "Marit", "Studio Fieldwork")


@pytest.fixture(scope="session")
def info():
    return INFO


@pytest.fixture(scope="session")
def pattern():
    return hand_pattern()


@pytest.fixture(scope="session", params=["a4", "letter"])
def plan(request, pattern):
    return plan_sheets(pattern, PAPERS[request.param], tries=2)


@pytest.fixture(scope="session")
def tiled(plan, pattern, info, tmp_path_factory):
    """The tiled file of the plan, which wrote itself without a warning."""
    path = tmp_path_factory.mktemp("tiled") / f"{plan.paper.name}.pdf"
    assert write_tiled_pdf(plan, pattern, info, path) == ()
    return path
