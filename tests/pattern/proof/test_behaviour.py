"""What code does, as one mark: words about it change nothing, and what a proof does not import is no part of it."""

from __future__ import annotations

import re
import shutil
import sys

import pytest

from app.pattern.body.populations_standard import standard_bodies
from app.pattern.proof.behaviour import behind, mark_of
from app.pattern.proof.examine import examine
from app.pattern.proof.fingerprint import EXAMINES, HOUSE, code_mark
from tests.places import DRAFTS

BEHIND = behind(HOUSE, EXAMINES)

#: A little house: `start` uses a name that a package hands on, a table of another package, and a data file.
FILES = {
    "house/__init__.py": "",
    "house/start.py": (
        '"""What it is for."""\n\n'
        "from __future__ import annotations\n\n"
        "import math\n"
        "from dataclasses import dataclass\n"
        "from typing import ClassVar\n\n"
        "from house.room import wall\n"
        "from house.words import Word\n"
        "from house.table import ROWS\n\n"
        '__all__ = ["Chair", "sit"]\n\n'
        "@dataclass\n"
        "class Chair:\n"
        '    """A chair."""\n\n'
        "    legs: int = 4\n"
        "    kind: ClassVar[str] = 'plain'\n\n"
        "def sit(chair: Chair, word: Word) -> float:\n"
        '    """Sit down."""\n'
        "    height: float = 450.0  # mm, common practice\n"
        "    return math.fsum((height, wall(chair.legs), len(ROWS)))\n"
    ),
    "house/words.py": "class Word:\n    pass\n",
    "house/room/__init__.py": "from house.room.far import window\nfrom house.room.near import wall\n",
    "house/room/near.py": "def wall(legs):\n    return 1.5 * legs\n",
    "house/room/far.py": "def window():\n    return 2\n",
    "house/table/__init__.py": (
        "from importlib.resources import files\n\nfrom house.table import rows\n\n"
        "ROWS = (files('house.table').joinpath('data/heights.csv').read_text(), rows.one)\n"
    ),
    "house/table/rows.py": "def one():\n    return 1\n",
    "house/table/README.md": "What it holds.\n",
    "house/table/data/heights.csv": "a,b\n1,2\n",
}
START = "house/start.py"


@pytest.fixture
def house(tmp_path):
    for name, text in FILES.items():
        path = tmp_path / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text)
    return tmp_path


def marked(house, name, old, new):
    """The mark once one file reads otherwise."""
    path = house / name
    assert path.read_text().count(old) == 1 or not old
    path.write_text(path.read_text().replace(old, new) if old else new)
    return mark_of(house, "house.start")


@pytest.mark.parametrize(
    ("name", "old", "new"),
    [
        (START, "# mm, common practice", "# millimetres\n    # and more"),
        (START, "What it is for.", "What it is for, in other words."),
        (START, "A chair.", "A chair with legs."),
        (START, '    """Sit down."""\n', ""),
        (START, "legs: int = 4", "legs: float = 4"),
        (START, "word: Word) -> float", "word: Word | None) -> int"),
        (START, "height: float = 450.0", "height = 450.0"),
        (START, "height: float = 450.0", "height: float = (\n        450.0\n    )"),
        (START, '["Chair", "sit"]', '["sit"]'),
        (START, "import math\nfrom dataclasses import dataclass\n", "from dataclasses import dataclass\nimport math\n"),
        ("house/words.py", "pass", "size = 3"),
        ("house/room/far.py", "2", "3"),
        ("house/room/__init__.py", "from house.room.far import window\n", ""),
        ("house/table/README.md", "What", "All that"),
    ],
)
def test_comments_docstrings_annotations_and_what_is_not_used_keep_the_mark(house, name, old, new):
    before = mark_of(house, "house.start")
    assert marked(house, name, old, new) == before


@pytest.mark.parametrize(
    ("name", "old", "new"),
    [
        (START, "450.0", "451.0"),
        (START, "450.0", "450"),
        (START, "legs: int = 4", "legs: int = 3"),
        (START, "legs: int = 4", "legs: int = 4\n    back: bool = True"),
        (START, "legs: int = 4", "legs: ClassVar[int] = 4"),
        (START, "math.fsum", "math.prod"),
        (START, "chair.legs", "-chair.legs"),
        (START, "@dataclass\n", "@dataclass(frozen=True)\n"),
        ("house/room/near.py", "1.5", "1.6"),
        ("house/room/__init__.py", "from house.room.near import wall", "from house.room.far import window as wall"),
        ("house/table/__init__.py", "rows.one)", "rows.one, rows.one)"),
        ("house/table/rows.py", "1", "2"),
        ("house/table/data/heights.csv", "1,2", "1,3"),
        ("house/table/data/more.csv", "", "a\n"),
    ],
)
def test_a_constant_a_field_a_call_and_a_data_file_change_the_mark(house, name, old, new):
    if not old:
        (house / name).touch()
    before = mark_of(house, "house.start")
    assert marked(house, name, old, new) != before


def test_a_library_counts_by_its_version_without_the_patch(house):
    (house / "house/room/near.py").write_text("import pytest\n\ndef wall(legs):\n    return pytest.approx(legs)\n")
    (house / "pytest.py").write_text("# As in a folder of installed packages, where libraries lie beside the house.\n")
    assert behind(house, "house.start")["pytest"] == ".".join(pytest.__version__.split(".")[:2])


def test_a_proof_hangs_on_the_checks_the_grammar_and_the_geometry_and_on_nothing_that_draws_or_prints():
    assert {"app.pattern.checks.seam_walk", "app.pattern.names", "app/pattern/language/grammar.lark"} <= set(BEHIND)
    assert {"lark", "numpy", "shapely"} == {name for name in BEHIND if not name.startswith("app")}
    rooms = {name.split(".")[2] for name in BEHIND if name.startswith("app.pattern.")}
    assert not rooms & {"guide", "exchange", "sheets", "drawing", "steps"}
    # Whether a piece goes on its cloth at all, and never how the pieces are laid on it.
    lay = {name.removeprefix("app.pattern.lay.") for name in BEHIND if name.startswith("app.pattern.lay.")}
    assert lay == {"convert", "layers", "model", "shapes"}
    # What a body likely measures is told by the survey and by the children's table: not by the bodies that are drawn.
    told = {"app.pattern.body.survey", "app.pattern.body.populations_children"}
    assert {name for name in BEHIND if "populations" in name or name.endswith("survey")} <= told


@pytest.mark.parametrize("draft", ["set_in_blouse", "pleated_skirt", "childs_pinafore"])
def test_every_module_that_runs_for_a_body_is_behind_its_proof(draft):
    text = (DRAFTS / f"{draft}.draft").read_text("utf-8")
    body = standard_bodies("children" if draft == "childs_pinafore" else "women", 0, 1)[0].body
    ran = set()
    before = sys.getprofile()
    sys.setprofile(lambda frame, event, _: ran.add(frame.f_globals.get("__name__", "")) if event == "call" else None)
    try:
        found = examine(text, f"{draft} looked through", body, {})
    finally:
        sys.setprofile(before)
    assert found.ok
    assert {name for name in ran if name.startswith("app.")} <= set(BEHIND)
    assert "app.pattern.language.parse" in ran


def test_the_mark_of_the_code_is_kept_by_a_comment_in_it_and_changed_by_a_tolerance(tmp_path):
    core = tmp_path / "app" / "pattern"
    shutil.copytree(HOUSE / "app" / "pattern", core, ignore=shutil.ignore_patterns("__pycache__"))
    shutil.copy(HOUSE / "app" / "__init__.py", tmp_path / "app")
    seam_walk = core / "checks" / "seam_walk.py"
    text = seam_walk.read_text("utf-8")
    seam_walk.write_text(text.replace('"""', '"""Told otherwise. ', 1) + "\n# The end.\n")
    assert mark_of(tmp_path, EXAMINES) == code_mark()
    wider, times = re.subn("(?m)^TOLERANCE = .+$", "TOLERANCE = 99.0", text)
    assert times
    seam_walk.write_text(wider)
    assert mark_of(tmp_path, EXAMINES) != code_mark()
