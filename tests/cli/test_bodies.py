"""The command `bodies`: populations as files, read back whole; every wrong option told in a line."""

from __future__ import annotations

import csv
import json

import pytest

from app.cli import main
from app.pattern.body import MEASURES, read_bodies_csv
from app.pattern.body.populations_standard import standard_bodies
from tests.places import DRAFTS

PINAFORE = str(DRAFTS / "childs_pinafore.draft")


@pytest.fixture
def home(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    return tmp_path


def written(home, *options):
    assert main(["bodies", *options, "--out", "bodies.csv"]) == 0
    return (home / "bodies.csv").read_text("utf-8")


@pytest.mark.parametrize("group", ["women", "men", "children"])
def test_a_population_is_read_back_without_a_warning_or_loss(home, group, capsys):
    text = written(home, "--group", group, "--amount", "40", "--seed", "3")
    for told in (None, group):
        read = read_bodies_csv(text, "bodies.csv", told)
        assert read.problems == ()
        assert [(body.id, dict(body.body)) for body in read.bodies] == [
            (body.id, pytest.approx(dict(body.body), abs=0.06)) for body in standard_bodies(group, 40, 3)
        ]
    assert "40 drawn" in capsys.readouterr().out


def test_the_columns_are_the_id_and_every_measure_by_its_name(home):
    header, *rows = csv.reader(written(home, "--group", "men", "--amount", "2").splitlines())
    assert header == ["id", *MEASURES]
    assert all(len(row) == len(header) and all(row) for row in rows)


def test_a_draft_tells_whom_it_is_for_and_how_tall(home, capsys):
    text = written(home, "--for", PINAFORE, "--amount", "10")
    statures = [body.body["stature"] for body in read_bodies_csv(text, "b.csv").bodies]
    assert (min(statures), max(statures)) == (1040.0, 1400.0)
    assert capsys.readouterr().out == "bodies.csv: 21 bodies of children: 7 sizes, 4 corners, 10 drawn.\n"


def test_statures_asked_for_go_before_those_of_the_draft(home):
    text = written(home, "--for", PINAFORE, "--statures", "110cm..116cm", "--amount", "10")
    assert all(1100.0 <= body.body["stature"] <= 1160.0 for body in read_bodies_csv(text, "b.csv").bodies)


@pytest.mark.parametrize(("kind", "begins"), [("drawn", "drawn"), ("sizes", "size"), ("corners", "corner")])
def test_one_kind_is_the_same_bodies_as_among_all(home, kind, begins):
    every = written(home, "--group", "women", "--amount", "5").splitlines()
    some = written(home, "--group", "women", "--amount", "5", "--kind", kind).splitlines()
    assert some == [every[0], *(line for line in every if line.lstrip('"').startswith(begins))]
    assert len(some) > 1


def test_as_many_ends_as_asked_for_are_small_and_large_on_purpose(home, capsys):
    text = written(home, "--group", "women", "--amount", "13", "--kind", "ends")
    busts = [body.body["bust_girth"] for body in read_bodies_csv(text, "b.csv").bodies]
    assert len(busts) == 13
    assert all(bust < 840.0 or bust >= 1080.0 for bust in busts)
    assert main(["bodies", "--group", "children", "--kind", "ends", "--out", "c.csv"]) == 1
    assert "there are no children of the kind ends" in capsys.readouterr().err


def test_another_seed_draws_others_and_a_wider_spread_wider_ones(home):
    first, second = (
        written(home, "--group", "men", "--amount", "60", "--seed", seed, "--kind", "drawn") for seed in "12"
    )
    assert first != second
    narrow = written(home, "--group", "men", "--amount", "60", "--seed", "1", "--kind", "drawn", "--spread", "1")

    def chests(text):
        found = [body.body["bust_girth"] for body in read_bodies_csv(text, "b.csv").bodies]
        return max(found) - min(found)

    assert chests(narrow) < chests(first)


def test_what_it_writes_can_be_proved_on(home, capsys):
    written(home, "--for", PINAFORE, "--amount", "3", "--kind", "drawn")
    command = ["prove", PINAFORE, "--bodies", "bodies.csv", "--report", "proof.json", "--processes", "1"]
    assert main(command) == 0
    assert "3 of 3 bodies hold" in capsys.readouterr().out
    assert len(json.loads((home / "proof.json").read_text("utf-8"))["rows"]) == 3


WRONG = [
    (["--group", "dogs"], "--group dogs: there is no such group: --group women, men, children, or --for DRAFT."),
    ([], "say whose bodies: --group women, men, children, or --for DRAFT."),
    (["--for", "nowhere.draft"], "nowhere.draft: No such file or directory."),
    (["--group", "men", "--for", PINAFORE], f"--group men: {PINAFORE} is for children. Leave one of the two out."),
    (["--group", "men", "--amount", "0"], "--amount 0: draw at least 1 body and at most 5000."),
    (["--group", "men", "--amount", "10000000"], "--amount 10000000: draw at least 1 body and at most 5000."),
    (
        ["--group", "men", "--amount", "5000", "--statures", "230cm..230cm", "--kind", "drawn"],
        "there are no men of the kind drawn from 230 cm to 230 cm. Choose another --kind or other --statures.",
    ),
    (["--group", "men", "--seed", "-1"], "--seed -1: a seed is a whole number from 0 up."),
    (["--group", "men", "--spread", "9"], "--spread 9: choose from 1, as surveyed, to 3."),
    (["--group", "men", "--spread", "nan"], "--spread nan: choose from 1, as surveyed, to 3."),
    (
        ["--group", "children", "--statures", "140cm..104cm"],
        "--statures 140cm..104cm: the least comes first. Did you mean 104cm..140cm?",
    ),
    (
        ["--group", "children", "--statures", "104"],
        "--statures 104: write the least and the most with two points between them: 104cm..140cm.",
    ),
    (["--group", "children", "--statures", "a..b"], None),
    (
        ["--group", "children", "--statures", "40cm..104cm"],
        "statures 40 cm to 104 cm: we know children from 80 cm to 170 cm. Keep them between.",
    ),
    (
        ["--group", "women", "--statures", "80cm..104cm"],
        "statures 80 cm to 104 cm: we know women from 100 cm to 230 cm. Keep them between.",
    ),
]


@pytest.mark.parametrize(
    ("options", "said"), WRONG, ids=lambda value: " ".join(value[:4]) if isinstance(value, list) else ""
)
def test_what_cannot_be_followed_is_told_in_a_line_and_nothing_is_written(home, capsys, options, said):
    assert main(["bodies", *options, "--out", "bodies.csv"]) == 1
    told = capsys.readouterr()
    assert said is None or told.err.splitlines()[-1] == f"tapeline: {said}"
    assert told.err and "Traceback" not in told.err
    assert told.out == ""
    assert not (home / "bodies.csv").exists()


@pytest.mark.parametrize("out", [".", "nowhere/bodies.csv"])
def test_a_place_that_is_no_file_is_told(home, capsys, out):
    assert main(["bodies", "--group", "men", "--amount", "1", "--out", out]) == 1
    assert capsys.readouterr().err == f"tapeline: --out {out}: name a file in a folder that is there.\n"


def test_more_than_a_file_may_hold_is_told_with_what_may(home, capsys, monkeypatch):
    monkeypatch.setattr("app.cli.bodies.MOST_BODIES", 25)
    assert main(["bodies", "--group", "men", "--amount", "12", "--out", "b.csv"]) == 1
    assert capsys.readouterr().err.endswith("a file holds at most 25 bodies. Ask for 4 or fewer.\n")


def test_grade_takes_the_sizes_of_those_the_draft_is_for(home, capsys):
    assert main(["grade", PINAFORE, "--sizes", "104,116", "--out", "graded"]) == 0
    said = capsys.readouterr().out
    assert "Size 104: chest girth 54 cm" in said
    assert main(["grade", PINAFORE, "--sizes", "92", "--out", "graded"]) == 1
    assert "the chart has 104, 110, 116, 122, 128, 134, 140." in capsys.readouterr().err
