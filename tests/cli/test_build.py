"""The command line, run as a person runs it: files in, files out, exit status."""

from __future__ import annotations

import csv
import json
import subprocess
import sys
from pathlib import Path

import pypdfium2
import pytest

from app.cli import main
from app.pattern.body import draw_bodies
from tests.places import DRAFTS, ROOT

SKIRT = str(DRAFTS / "gore_skirt.draft")


@pytest.fixture
def body(tmp_path):
    path = tmp_path / "me.json"
    path.write_text('{"waist_girth": "74.5cm", "hip_girth": "39 1/2in", "waist_to_hip": "20cm"}', "utf-8")
    return str(path)


@pytest.fixture
def bodies(tmp_path):
    path = tmp_path / "bodies.csv"
    rows = [{k: b[k] for k in ("waist_girth", "hip_girth", "waist_to_hip")} for b in draw_bodies(6, seed=3)]
    with path.open("w", newline="") as file:
        writer = csv.DictWriter(file, ["id", *rows[0]])
        writer.writeheader()
        writer.writerows({"id": f"b{i}", **row} for i, row in enumerate(rows))
    return path


def test_a_pack_is_built_without_shop_database_or_scipy():
    """What is not needed is not waited for: each of these takes longer to read than a garment takes to draft."""
    listing = (
        "import sys, app.cli.build; print(sorted({'app.shop', 'sqlalchemy', 'scipy', 'fastapi'} & set(sys.modules)))"
    )
    told = subprocess.run([sys.executable, "-c", listing], capture_output=True, text=True, check=True, cwd=ROOT)
    assert told.stdout.strip() == "[]"


def test_check_reads_a_draft_without_a_body(capsys):
    assert main(["check", SKIRT]) == 0
    assert "“Fernhill skirt” reads well: 3 pieces, 5 choices." in capsys.readouterr().out


def test_check_draws_the_middle_size_and_tells_what_the_checks_find(tmp_path, capsys):
    assert main(["check", SKIRT]) == 0
    assert "Drawn for size 96 at 14 settings of its choices: nothing to mend." in capsys.readouterr().out
    forgotten = tmp_path / "forgotten.draft"
    forgotten.write_text(Path(SKIRT).read_text("utf-8").replace(", hem hem_depth turned back", ""), "utf-8")
    assert main(["check", str(forgotten)]) == 0
    told = capsys.readouterr()
    assert "2 things to mend." in told.out
    assert "No seam sews centre.hem, and nothing says how it is finished" in told.err


def test_check_fails_a_draft_that_cannot_be_made_for_the_middle_size(tmp_path, capsys):
    wrong = tmp_path / "wrong.draft"
    wrong.write_text(Path(SKIRT).read_text("utf-8").replace("ease hip_ease", "ease hip_ease + 2cm"), "utf-8")
    assert main(["check", str(wrong)]) == 1
    assert "20 mm too narrow" in capsys.readouterr().err


def test_build_tells_what_it_warns_of_after_the_files(tmp_path, body, capsys):
    forgotten = tmp_path / "forgotten.draft"
    forgotten.write_text(Path(SKIRT).read_text("utf-8").replace(", hem hem_depth turned back", ""), "utf-8")
    assert main(["build", str(forgotten), "--body", body, "--no-projector", "--out", str(tmp_path / "pack")]) == 0
    told = capsys.readouterr().err
    assert "tapeline: 2 warnings to read before cloth is cut:" in told
    assert told.index("2 warnings") < told.index("No seam sews centre.hem")


def test_prove_tells_every_warning_with_the_bodies_that_have_it(tmp_path, bodies, capsys):
    forgotten = tmp_path / "forgotten.draft"
    forgotten.write_text(Path(SKIRT).read_text("utf-8").replace(", hem hem_depth turned back", ""), "utf-8")
    report = tmp_path / "report.json"
    assert main(["prove", str(forgotten), "--bodies", str(bodies), "--report", str(report), "--processes", "1"]) == 0
    told = capsys.readouterr().out
    assert "6 of 6 bodies hold, with 2 warnings to read." in told
    assert "6 are warned by checks.edge-unfinished: b0, b1, b2, b3, b4 and 1 more" in told
    warnings = json.loads(report.read_text("utf-8"))["warnings"]
    assert [(one["check"], one["about"], one["bodies"]) for one in warnings] == [
        ("checks.edge-unfinished", "centre, edge hem", 6),
        ("checks.edge-unfinished", "side, edge hem", 6),
    ]


def test_what_stops_a_build_stops_a_proof(tmp_path, bodies, body, capsys):
    narrow = tmp_path / "narrow.draft"
    narrow.write_text(Path(SKIRT).read_text("utf-8").replace("width 140cm", "width 40cm"), "utf-8")
    assert main(["build", str(narrow), "--body", body, "--out", str(tmp_path / "pack")]) == 1
    report = tmp_path / "report.json"
    assert main(["prove", str(narrow), "--bodies", str(bodies), "--report", str(report), "--processes", "1"]) == 1
    assert "0 of 6 bodies hold" in capsys.readouterr().out
    assert json.loads(report.read_text("utf-8"))["failed_checks"]["lay.too-wide"] == 6


def test_check_counts_one_choice_as_one(tmp_path, capsys):
    path = tmp_path / "one.draft"
    path.write_text('draft "One"\nchoices\n    long = 60cm from 40cm to 90cm "Length"\n', "utf-8")
    assert main(["check", str(path)]) == 0
    assert "“One” reads well: 0 pieces, 1 choice." in capsys.readouterr().out


def test_check_tells_a_wrong_line_and_fails(tmp_path, capsys):
    draft = tmp_path / "wrong.draft"
    draft.write_text(
        Path(SKIRT).read_text("utf-8").replace("waist_girth, hip_girth", "waist_grith, hip_girth"), "utf-8"
    )
    assert main(["check", str(draft)]) == 1
    said = capsys.readouterr().err
    assert said.count("error:") == 1
    assert ":5: error: “waist_grith” is no measurement" in said
    assert "Did you mean “waist_girth”?" in said


def test_build_writes_the_whole_pack(tmp_path, body, capsys):
    out = tmp_path / "pack"
    assert main(["build", SKIRT, "--body", body, "--choice", "length=60cm", "--out", str(out)]) == 0
    names = {p.name for p in out.iterdir()}
    assert {"pattern-a4.pdf", "pattern-one-sheet.pdf", "instructions.pdf", "report.json"} <= names
    assert {"pattern.dxf", "pieces-svg.zip"} <= names
    report = json.loads((out / "report.json").read_text("utf-8"))
    assert report["choices"]["length"] == pytest.approx(600.0)
    assert len(pypdfium2.PdfDocument(out / "pattern-a4.pdf")) > 3
    assert "report.json" in capsys.readouterr().out


@pytest.mark.parametrize(
    ("more", "said"),
    [
        (["--choice", "length=9m"], "Keep it between"),
        (["--choice", "lenght=60cm"], "Did you mean “length”?"),
        (["--choice", "length"], "name=value"),
        (["--choice", "length=60"], "60 what? Write 60cm"),
        (["--cloth", "wide"], "is not a length"),
        (["--cloth", "20cm"], "no cloth is 20 cm wide"),
        (["--cloth", "90m"], "Keep it between 30 cm and 320 cm"),
        (["--cloth", "velvet=90cm"], "no cloth “velvet”. It has: main, interfacing"),
        (["--paper", "papyrus"], "papyrus"),
    ],
)
def test_build_with_a_slip_writes_nothing_and_says_why(tmp_path, body, capsys, more, said):
    out = tmp_path / "pack"
    assert main(["build", SKIRT, "--body", body, "--out", str(out), *more]) == 1
    assert said in capsys.readouterr().err
    assert not out.exists() or not list(out.iterdir())


def test_a_width_is_that_of_the_first_cloth_unless_another_is_named(tmp_path, body):
    out = tmp_path / "pack"
    assert main(["build", SKIRT, "--body", body, "--cloth", "120cm", "--no-projector", "--out", str(out)]) == 0
    report = json.loads((out / "report.json").read_text("utf-8"))
    assert {cloth["fabric"]: cloth["width"] for cloth in report["cloths"]} == {
        "main": 1200.0,
        "interfacing": 900.0,
    }


def test_build_with_a_number_without_unit_says_so(tmp_path, capsys):
    path = tmp_path / "me.json"
    path.write_text('{"waist_girth": 74.5, "hip_girth": "100cm", "waist_to_hip": "20cm"}', "utf-8")
    assert main(["build", SKIRT, "--body", str(path), "--out", str(tmp_path / "x")]) == 1
    assert "unit" in capsys.readouterr().err


def test_a_file_that_is_not_there_is_named(tmp_path, body, capsys):
    assert main(["check", str(tmp_path / "none.draft")]) == 1
    assert "none.draft" in capsys.readouterr().err


def test_prove_reports_every_row(tmp_path, bodies, capsys):
    report = tmp_path / "report.json"
    assert main(["prove", SKIRT, "--bodies", str(bodies), "--report", str(report), "--processes", "1"]) == 0
    found = json.loads(report.read_text("utf-8"))
    assert found["passed"] == found["bodies"] == 6
    assert found["rows"][2]["id"] == "b2"
    assert set(found["rows"][2]["finished_mm"]) == {"waist", "hip", "hem"}
    assert "6 of 6 bodies hold" in capsys.readouterr().out


def test_prove_holds_the_choices_it_is_given_and_tells_one_that_the_draft_lacks_once(tmp_path, bodies, capsys):
    report = tmp_path / "proof.json"
    held = ["prove", SKIRT, "--bodies", str(bodies), "--report", str(report), "--processes", "1", "--choice"]
    assert main([*held, "hip_ease=9cm"]) == 0
    rows = json.loads(report.read_text())["rows"]
    girths = {each["id"]: each["finished_mm"]["hip"] for each in rows}
    assert main([*held, "hip_ease=6cm"]) == 0
    for each in json.loads(report.read_text())["rows"]:
        assert girths[each["id"]] - each["finished_mm"]["hip"] == pytest.approx(30.0, abs=0.01)
    report.unlink()
    capsys.readouterr()
    assert main([*held, "sleeve=long"]) == 1
    assert capsys.readouterr().err.count("This draft has no choice “sleeve”") == 1
    assert not report.exists()


def test_prove_fails_when_a_row_cannot_be_read(tmp_path, bodies, capsys):
    bodies.write_text(bodies.read_text().replace("b3,", "b3,x"), "utf-8")
    report = tmp_path / "report.json"
    assert main(["prove", SKIRT, "--bodies", str(bodies), "--report", str(report), "--processes", "1"]) == 1
    assert "bodies.csv" in capsys.readouterr().err
    assert json.loads(report.read_text("utf-8"))["bodies"] == 5


def test_prove_takes_a_column_of_names_as_the_bodies_names(tmp_path, bodies, capsys):
    bodies.write_text(bodies.read_text().replace("id,", "name,", 1), "utf-8")
    report = tmp_path / "report.json"
    assert main(["prove", SKIRT, "--bodies", str(bodies), "--report", str(report), "--processes", "1"]) == 0
    assert json.loads(report.read_text("utf-8"))["rows"][2]["id"] == "b2"


def test_prove_names_the_bodies_that_fail(tmp_path, bodies, capsys):
    wrong = tmp_path / "wrong.draft"
    wrong.write_text(Path(SKIRT).read_text("utf-8").replace("opens zip_length  passes hip_girth", "passes hip_girth"))
    report = tmp_path / "report.json"
    proved = ["prove", str(wrong), "--bodies", str(bodies), "--report", str(report), "--processes", "1"]
    assert main(proved) == 1
    assert "     6 fail at checks.getting-in: b0, b1, b2, b3, b4 and 1 more\n" in capsys.readouterr().out
    bodies.write_text("".join(bodies.read_text().splitlines(keepends=True)[:2]), "utf-8")
    assert main(proved) == 1
    assert "     1 fails at checks.getting-in: b0\n" in capsys.readouterr().out


def test_an_unknown_command_is_refused():
    with pytest.raises(SystemExit) as stop:
        main(["sew"])
    assert stop.value.code == 2
