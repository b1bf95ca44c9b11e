"""Printing from the command line: papers, joints, rolls, outlines, and a run of fixed sizes."""

from __future__ import annotations

import csv
import json

import pikepdf
import pytest

from app.cli import main
from app.pattern.body import size_body
from tests.places import DRAFTS

SKIRT = str(DRAFTS / "gore_skirt.draft")
PT = 72.0 / 25.4


@pytest.fixture
def body(tmp_path):
    path = tmp_path / "me.json"
    path.write_text(json.dumps({name: f"{mm}mm" for name, mm in size_body("92").items()}), "utf-8")
    return str(path)


def sides(page):
    left, bottom, right, top = (float(n) / PT for n in page.mediabox)
    return round(right - left, 1), round(top - bottom, 1)


def test_build_prints_on_the_paper_roll_and_joint_asked_for(tmp_path, body):
    out = tmp_path / "pack"
    options = ["--paper", "210x330mm", "--margin", "12mm", "--join", "butt", "--sheets", "with", "--roll", "36in"]
    assert main(["build", SKIRT, "--body", body, "--out", str(out), *options]) == 0
    with pikepdf.open(out / "pattern-210x330mm.pdf") as tiled:
        assert {sides(page) for page in tiled.pages} == {(210.0, 330.0)}
    with pikepdf.open(out / "pattern-one-sheet.pdf") as roll:
        assert sides(roll.pages[0])[0] == 914.4
    with pikepdf.open(out / "pattern-projector.pdf") as projector:
        assert len(projector.pages) == 1
    counted = {sheet["file"] for sheet in json.loads((out / "report.json").read_text("utf-8"))["sheets"]}
    assert counted == {"pattern-210x330mm.pdf", "pattern-one-sheet.pdf", "pattern-projector.pdf"}


@pytest.mark.parametrize("paper", ["a3", "legal", "tabloid", "letter-landscape"])
def test_a_pack_for_any_paper_has_instructions_the_home_printer_takes(tmp_path, body, paper):
    out = tmp_path / "pack"
    assert main(["build", SKIRT, "--body", body, "--paper", paper, "--no-projector", "--out", str(out)]) == 0
    assert (out / f"pattern-{paper}.pdf").exists()
    assert not (out / "pattern-projector.pdf").exists()
    with pikepdf.open(out / "instructions.pdf") as sheet:
        assert sides(sheet.pages[0]) == ((210.0, 297.0) if paper == "a3" else (215.9, 279.4))


@pytest.mark.parametrize(
    ("more", "said"),
    [
        (["--paper", "100x60mm"], "check squares"),
        (["--margin", "wide"], "--margin"),
        (["--margin", "140mm"], "leaves nothing"),
        (["--roll", "narrow"], "--roll"),
        (["--roll", "80mm"], "no room for the check squares"),
    ],
)
def test_a_print_that_cannot_be_is_refused_in_words(tmp_path, body, capsys, more, said):
    out = tmp_path / "pack"
    assert main(["build", SKIRT, "--body", body, "--out", str(out), *more]) == 1
    assert said in capsys.readouterr().err
    assert not out.exists() or not list(out.iterdir())


def test_grade_writes_nested_sizes_and_the_table_of_gains(tmp_path, capsys):
    out = tmp_path / "run"
    assert main(["grade", SKIRT, "--sizes", "84,88, 92", "--paper", "letter", "--out", str(out)]) == 0
    assert {p.name for p in out.iterdir()} == {"sizes-letter.pdf", "sizes-one-sheet.pdf", "grading.pdf", "grading.csv"}
    said = capsys.readouterr().out
    assert "grading.csv" in said
    assert "Size 88: waist girth 74.5 cm, hip girth 97 cm." in said
    assert "named by bust, which this draft does not use" in said
    for name in ("sizes-letter.pdf", "sizes-one-sheet.pdf"):
        with pikepdf.open(out / name) as document:
            assert [str(g.Name) for g in document.Root.OCProperties.OCGs] == ["Size 84", "Size 88", "Size 92"]
            assert document.docinfo["/Title"] == "Fernhill skirt, sizes 84 to 92"
    table = list(csv.reader((out / "grading.csv").read_text("utf-8").splitlines()))
    attach = next(row for row in table if row[:2] == ["Waistband", "joining edge"])
    assert all(float(gain) > 0.0 for gain in attach[5:])


def test_grade_takes_the_designers_own_chart(tmp_path):
    chart = tmp_path / "chart.csv"
    with chart.open("w", newline="", encoding="utf-8") as file:
        rows = [{"id": name, **size_body(size)} for name, size in (("small", "84"), ("large", "100"))]
        writer = csv.DictWriter(file, list(rows[0]))
        writer.writeheader()
        writer.writerows(rows)
    out = tmp_path / "run"
    assert main(["grade", SKIRT, "--sizes", "small,large", "--chart", str(chart), "--out", str(out)]) == 0
    with pikepdf.open(out / "sizes-a4.pdf") as document:
        assert [str(group.Name) for group in document.Root.OCProperties.OCGs] == ["Size small", "Size large"]


@pytest.mark.parametrize(
    ("more", "said"),
    [
        (["--sizes", "84,85"], "the chart has 76, 80, 84"),
        (["--sizes", ","], "the chart has"),
        (["--sizes", "84,92", "--choice", "length=9m"], "size 84:"),
        (["--sizes", "84,92", "--paper", "papyrus"], "papyrus"),
        (["--sizes", "84,92", "--chart", "nowhere.csv"], "nowhere.csv"),
        (["--sizes", "84,92", "--roll", "210mm"], "Choose a roll at least"),
    ],
)
def test_grade_with_a_slip_writes_nothing_and_says_why(tmp_path, capsys, more, said):
    out = tmp_path / "run"
    assert main(["grade", SKIRT, "--out", str(out), *more]) == 1
    assert said in capsys.readouterr().err
    assert not out.exists()
