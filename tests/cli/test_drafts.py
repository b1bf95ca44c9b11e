"""The commands that help to write drafts: layout, drawing, guide."""

from __future__ import annotations

import shutil
import subprocess
import sys

import pytest

from app.cli import main
from tests.places import DRAFTS

ROUGH = 'draft "T"\nsheet s\n  a=at 0,0\n  longer = a down 3cm\n'
NEAT = 'draft "T"\n\nsheet s\n    a      = at 0, 0\n    longer = a down 3cm\n'


@pytest.fixture
def rough(tmp_path):
    path = tmp_path / "rough.draft"
    path.write_text(ROUGH, "utf-8")
    return path


@pytest.fixture
def body(tmp_path):
    path = tmp_path / "me.json"
    path.write_text('{"waist_girth": "74.5cm", "hip_girth": "39 1/2in", "waist_to_hip": "20cm"}', "utf-8")
    return str(path)


def test_format_lays_a_draft_out_anew_and_only_once(rough, capsys):
    assert main(["format", str(rough)]) == 0
    assert rough.read_text("utf-8") == NEAT
    assert "laid out anew" in capsys.readouterr().out
    assert main(["format", str(rough)]) == 0
    assert capsys.readouterr().out == ""


def test_format_check_changes_nothing_and_fails(rough, capsys):
    assert main(["format", "--check", str(rough)]) == 1
    assert rough.read_text("utf-8") == ROUGH
    assert "rough.draft" in capsys.readouterr().err
    rough.write_text(NEAT, "utf-8")
    assert main(["format", "--check", str(rough)]) == 0


def test_format_does_not_touch_what_it_cannot_read(rough, capsys):
    rough.write_text(ROUGH.replace("0,0", "0 0"), "utf-8")
    other = rough.with_name("other.draft")
    shutil.copyfile(DRAFTS / "gore_skirt.draft", other)
    assert main(["format", str(rough), str(other)]) == 1
    assert "rough.draft:3:10" in capsys.readouterr().err
    assert "0 0" in rough.read_text("utf-8")


def test_draw_writes_the_sheet_up_to_a_line(tmp_path, body, capsys):
    out = tmp_path / "pictures" / "hip.svg"
    line = (DRAFTS / "gore_skirt.draft").read_text("utf-8").split("\n").index("sheet centre") + 3
    assert main(["draw", str(DRAFTS / "gore_skirt.draft"), "--body", body, "--line", str(line), "--out", str(out)]) == 0
    assert "Sheet centre" in out.read_text("utf-8")
    assert "1 drawn" in capsys.readouterr().out


def test_draw_all_writes_every_line_of_every_sheet(tmp_path, body):
    out = tmp_path / "pictures"
    assert main(["draw", str(DRAFTS / "gore_skirt.draft"), "--body", body, "--all", "--out", str(out)]) == 0
    names = sorted(path.name for path in out.iterdir())
    assert {name.split("-")[0] for name in names} == {"centre", "side", "band"}
    assert len(names) > 40


def test_draw_tells_what_is_wrong(tmp_path, body, rough, capsys):
    rough.write_text(NEAT.replace("down", "donw"), "utf-8")
    assert main(["draw", str(rough), "--body", body, "--line", "4", "--out", str(tmp_path / "x.svg")]) == 1
    assert "Did you mean “down”?" in capsys.readouterr().err
    assert not (tmp_path / "x.svg").exists()


@pytest.mark.parametrize("line", ["0", "9999"])
def test_draw_refuses_a_line_that_is_not_there_and_names_the_last(tmp_path, body, rough, capsys, line):
    rough.write_text(NEAT, "utf-8")
    assert main(["draw", str(rough), "--body", body, "--line", line, "--out", str(tmp_path / "x.svg")]) == 1
    assert "rough.draft is 5" in capsys.readouterr().err
    assert not (tmp_path / "x.svg").exists()


def test_check_tells_what_is_listed_and_never_used_without_failing(rough, capsys):
    rough.write_text(NEAT.replace("sheet s", "needs\n    hip_girth\nsheet s"), "utf-8")
    assert main(["check", str(rough)]) == 0
    told = capsys.readouterr()
    assert "warning: The measurement hip_girth is asked for and never used." in told.err
    assert "reads well" in told.out


def test_check_needs_nothing_of_the_shop():
    program = (
        "import sys; from app.cli import main; status = main(['check', sys.argv[1]]); "
        "print(sorted({name.split('.')[0] for name in sys.modules} & {'fastapi', 'sqlalchemy', 'dbos', 'ezdxf'})); "
        "sys.exit(status)"
    )
    draft = str(DRAFTS / "gore_skirt.draft")
    run = subprocess.run([sys.executable, "-c", program, draft], capture_output=True, text=True, check=True)
    assert run.stdout.splitlines()[-1] == "[]"


def test_draw_needs_a_line_or_all(rough, body):
    with pytest.raises(SystemExit) as stop:
        main(["draw", str(rough), "--body", body, "--out", "x"])
    assert stop.value.code == 2


def test_guide_writes_its_pages(tmp_path, capsys):
    assert main(["guide", "--out", str(tmp_path)]) == 0
    assert (tmp_path / "first-skirt.html").stat().st_size > 10_000
    assert "index.html" in capsys.readouterr().out
