"""The command line where a person names a wrong place: told in a line, with the status of a failure, nothing lost."""

import json

import pytest

from app.cli import main
from app.cli.words import choices_of, counted
from tests.places import APRON, DRAFTS
from tests.proved import SMALL_DRAFT

SKIRT = str(DRAFTS / "gore_skirt.draft")


@pytest.fixture
def home(tmp_path, monkeypatch):
    """A folder to work in: a draft, a body, a chart of one body, and a file where a folder is wanted."""
    monkeypatch.chdir(tmp_path)
    (tmp_path / "apron.draft").write_text(APRON, "utf-8")
    (tmp_path / "me.json").write_text('{"waist_girth": "76cm", "hip_girth": "100cm", "waist_to_hip": "20cm"}', "utf-8")
    (tmp_path / "bodies.csv").write_text("id,waist_girth,hip_girth,waist_to_hip\nana,760,1000,200\n", "utf-8")
    (tmp_path / "file").write_text("mine", "utf-8")
    return tmp_path


DRAW = ["draw", "apron.draft", "--body", "me.json"]


@pytest.mark.parametrize(
    ("command", "said"),
    [
        ([*DRAW, "--line", "24", "--out", "."], "tapeline: .: Is a directory."),
        ([*DRAW, "--all", "--out", "file"], "tapeline: file: File exists."),
        ([*DRAW, "--line", "24", "--out", "file/a.svg"], "tapeline: file: File exists."),
        (["guide", "--out", "file"], "tapeline: file/css: Not a directory."),
        (["grade", SKIRT, "--sizes", "84", "--out", "file"], "tapeline: file: File exists."),
        (["build", "apron.draft", "--body", "me.json", "--out", "file"], "tapeline: file: File exists."),
        (
            ["prove", "apron.draft", "--bodies", "bodies.csv", "--report", "nowhere/proof.json"],
            "tapeline: --report nowhere/proof.json: name a file in a folder that is there.",
        ),
        (
            ["prove", "apron.draft", "--bodies", "bodies.csv", "--report", "."],
            "tapeline: --report .: name a file in a folder that is there.",
        ),
    ],
    ids=lambda value: " ".join(value[:1] + value[-1:]) if isinstance(value, list) else "",
)
def test_a_place_that_cannot_be_written_is_told_in_a_line(home, capsys, command, said):
    assert main(command) == 1
    told = capsys.readouterr().err
    assert told.splitlines()[-1] == said
    assert "Traceback" not in told
    assert (home / "file").read_text("utf-8") == "mine"


def test_a_draft_that_cannot_be_written_anew_stays_as_it_is(home, capsys):
    draft = home / "apron.draft"
    messy = APRON.replace("    across   = ", "    across = ")
    draft.write_text(messy, "utf-8")
    draft.unlink()
    draft.mkdir()
    assert main(["format", "apron.draft"]) == 1
    assert capsys.readouterr().err == "tapeline: apron.draft: Is a directory.\n"


@pytest.mark.parametrize(
    ("content", "said"),
    [
        (b"\xff\xfe\x00", "tapeline: odd.draft is not a UTF-8 text file.\n"),
        (None, "tapeline: odd.draft: No such file or directory.\n"),
    ],
)
@pytest.mark.parametrize("command", ["check", "format"])
def test_a_draft_that_cannot_be_opened_is_named(home, capsys, command, content, said):
    if content is not None:
        (home / "odd.draft").write_bytes(content)
    assert main([command, "odd.draft"]) == 1
    assert capsys.readouterr().err == said


def test_of_several_drafts_each_is_laid_out_though_one_cannot_be_read(home, capsys):
    (home / "wrong.draft").write_text("drat", "utf-8")
    (home / "messy.draft").write_text(APRON.replace("    across   = ", "    across = "), "utf-8")
    assert main(["format", "wrong.draft", "messy.draft", "apron.draft"]) == 1
    said = capsys.readouterr()
    assert said.out == "messy.draft: laid out anew.\n"
    assert (home / "messy.draft").read_text("utf-8") == APRON
    assert "wrong.draft:1:1: error:" in said.err


def test_a_draft_in_the_one_layout_is_not_written_at_all(home, capsys):
    draft = home / "apron.draft"
    before = draft.stat().st_mtime_ns
    assert main(["format", "apron.draft"]) == 0
    assert main(["format", "--check", "apron.draft"]) == 0
    assert draft.stat().st_mtime_ns == before
    assert capsys.readouterr() == ("", "")


@pytest.mark.parametrize(
    ("text", "needs"),
    [
        (SMALL_DRAFT, "It needs: hip_girth.\n"),
        (APRON, "It needs: waist_girth, hip_girth, waist_to_hip.\n"),
        ('draft "Scarf"\nfabrics\n    main "Silk" width 140cm\n', "It needs: no measurement.\n"),
    ],
)
def test_check_says_what_a_draft_needs(home, capsys, text, needs):
    (home / "one.draft").write_text(text, "utf-8")
    assert main(["check", "one.draft"]) == 0
    assert needs in capsys.readouterr().out


@pytest.mark.parametrize(
    ("body", "said"),
    [
        ("", "This is not JSON"),
        ("[]", "error:"),
        ('"98cm"', "error:"),
        ("{}", "error:"),
        ('{"waist_girth": "76cm", "hip_girth": "100cm"}', "error:"),
        ('{"waist_girth": "76cm", "hip_girth": "9cm", "waist_to_hip": "20cm"}', "cannot be right"),
        ('{"waist_girth": "76cm", "hip_girth": "100cm", "waist_to_hip": null}', "error:"),
        ('{"waist_girth": "76cm", "hipgirth": "100cm", "waist_to_hip": "20cm"}', "Did you mean hip_girth?"),
    ],
)
def test_a_body_that_is_none_draws_nothing(home, capsys, body, said):
    (home / "me.json").write_text(body, "utf-8")
    assert main([*DRAW, "--line", "24", "--out", "a.svg"]) == 1
    told = capsys.readouterr().err
    assert said in told
    assert "Traceback" not in told
    assert not (home / "a.svg").exists()


def test_a_picture_is_written_into_folders_made_for_it(home, capsys):
    assert main([*DRAW, "--line", "24", "--out", "new/deep/a.svg"]) == 0
    assert (home / "new" / "deep" / "a.svg").read_text("utf-8").startswith("<svg")
    assert capsys.readouterr().out.endswith("new/deep/a.svg: 1 drawn.\n")


def test_a_choice_changes_what_is_drawn_and_a_wrong_one_is_told(home, capsys):
    for value in ("50cm", "70cm"):
        assert main([*DRAW, "--line", "24", "--choice", f"length={value}", "--out", f"{value}.svg"]) == 0
    assert (home / "50cm.svg").read_text("utf-8") != (home / "70cm.svg").read_text("utf-8")
    capsys.readouterr()
    assert main([*DRAW, "--line", "24", "--choice", "length=90cm", "--out", "90cm.svg"]) == 1
    assert "Keep it between 45 cm and 80 cm" in capsys.readouterr().err
    assert not (home / "90cm.svg").exists()


@pytest.mark.parametrize(
    ("csv", "said"),
    [
        ("", "no body could be read."),
        ("id,waist_girth,hip_girth,waist_to_hip\n", "no body could be read."),
        ("id,waist_girth,hip_girth,waist_to_hip\nana,x,y,z\n", "no body could be read."),
    ],
)
def test_a_file_of_bodies_without_one_proves_nothing(home, capsys, csv, said):
    (home / "bodies.csv").write_text(csv, "utf-8")
    command = ["prove", "apron.draft", "--bodies", "bodies.csv", "--report", "proof.json", "--processes", "1"]
    assert main(command) == 1
    assert said in capsys.readouterr().err
    assert not (home / "proof.json").exists()


def test_one_body_is_proved_and_written_down(home, capsys):
    command = ["prove", "apron.draft", "--bodies", "bodies.csv", "--report", "proof.json", "--processes", "1"]
    assert main(command) == 0
    told = capsys.readouterr().out
    assert told.startswith("1 of 1 body holds, with 2 warnings to read.\n")
    assert "The measurement hip_girth is asked for and never used." in told
    report = json.loads((home / "proof.json").read_text("utf-8"))
    assert [row["id"] for row in report["rows"]] == ["ana"]


# ---- words


@pytest.mark.parametrize(
    ("pairs", "choices"),
    [
        ([], {}),
        (["a=b"], {"a": "b"}),
        ([" a = b "], {"a": "b"}),
        (["a=b=c"], {"a": "b=c"}),
        (["a=1", "a=2"], {"a": "2"}),
        (["a="], {"a": ""}),
    ],
)
def test_choices_are_pairs(pairs, choices):
    assert choices_of(pairs) == choices


def test_what_is_no_pair_is_told_as_it_was_written(capsys):
    assert choices_of(["a=b", "length 60cm"]) is None
    assert capsys.readouterr().err == "tapeline: --choice length 60cm: write it as name=value.\n"


@pytest.mark.parametrize(("number", "words"), [(0, "0 pieces"), (1, "1 piece"), (2, "2 pieces")])
def test_things_are_counted(number, words):
    assert counted(number, "piece") == words
