"""A pack: every file or none, the same files for the same order, and what the order's page needs to know."""

import json
import re
from dataclasses import replace
from hashlib import sha256
from zipfile import ZipFile

import pikepdf
import pypdfium2
import pytest

from app.packs.build import build_pack
from app.packs.request import PackReady
from app.packs.stages import Stage
from app.pattern.make import read_draft
from app.pattern.pieces.model import Cloth
from app.pattern.plain_words import told_of
from app.pattern.problem import Refused

NAMES = [
    "instructions.pdf",
    "pattern-a4.pdf",
    "pattern-one-sheet.pdf",
    "pattern-projector.pdf",
    "pattern.dxf",
    "pieces-svg.zip",
    "report.json",
    "everything.zip",
]


def quiet(stage: str, share: float) -> None:
    """Listen to nothing."""


def test_what_she_is_to_look_at_first_stands_on_her_page_and_on_the_sheet_she_prints(tmp_path, order):
    """A front panel wider than the cloth that is suggested: her own cloth is wide enough."""
    narrow = replace(order, draft_text=re.sub(r"(main .*width )\d+cm", r"\g<1>25cm", order.draft_text))
    outcome = build_pack(narrow, tmp_path, quiet)
    assert isinstance(outcome, PackReady), outcome
    (note,) = outcome.summary["notes"]
    assert told_of("checks.cloth-width").words in note
    printed = pypdfium2.PdfDocument(tmp_path / "instructions.pdf")
    words = " ".join(" ".join(page.get_textpage().get_text_range() for page in printed).split())
    assert "Look at this first" in words
    assert "wider than the cloth that the designer suggests" in words


@pytest.fixture(scope="module")
def built(tmp_path_factory, order):
    """One pack, built once: its folder, what came back, and what the listener was told."""
    folder, told = tmp_path_factory.mktemp("pack"), []
    outcome = build_pack(order, folder, lambda stage, share: told.append((stage, share)))
    assert isinstance(outcome, PackReady), outcome
    return folder, outcome, told


def test_every_file_is_there_with_its_true_size_and_digest(built):
    folder, outcome, *_ = built
    assert [file.name for file in outcome.files] == NAMES
    assert sorted(path.name for path in folder.iterdir()) == sorted(NAMES)
    for file in outcome.files:
        content = (folder / file.name).read_bytes()
        assert (file.bytes, file.sha256) == (len(content), sha256(content).hexdigest())
        assert file.title


def test_the_zip_holds_every_other_file_unchanged(built):
    folder, *_ = built
    with ZipFile(folder / "everything.zip") as archive:
        assert archive.testzip() is None
        assert archive.namelist() == NAMES[:-1]
        for name in NAMES[:-1]:
            assert archive.read(name) == (folder / name).read_bytes()


def test_the_pieces_are_there_for_machines_each_and_together(built, order):
    folder, *_ = built
    with ZipFile(folder / "pieces-svg.zip") as archive:
        assert archive.namelist() == ["01-centre.svg", "02-side.svg", "03-band.svg", "all-pieces.svg"]
        assert order.title in archive.read("all-pieces.svg").decode("utf-8")
    assert f"STYLE NAME: {order.title}" in (folder / "pattern.dxf").read_text("cp1252")


def test_progress_is_told_each_stage_once_in_order_with_a_growing_share(built):
    _, _, told = built
    assert [stage for stage, _ in told] == list(Stage)
    shares = [share for _, share in told]
    assert shares == sorted(shares)
    assert 0.0 <= shares[0] <= shares[-1] < 1.0


def test_the_page_counts_in_the_report_are_those_of_the_files(built):
    folder, outcome, *_ = built
    report = json.loads((folder / "report.json").read_text("utf-8"))
    for sheet in report["sheets"]:
        with pikepdf.open(folder / sheet["file"]) as pdf:
            assert len(pdf.pages) == sheet["pages"]
    assert outcome.summary["sheets"] == report["sheets"][0]["pages"] - 1


def test_the_customers_own_cloth_is_the_one_that_is_laid(built):
    folder, outcome, *_ = built
    report = json.loads((folder / "report.json").read_text("utf-8"))
    cloths = {cloth["fabric"]: cloth for cloth in report["cloths"]}
    assert cloths["main"]["width"] == 1500.0
    assert cloths["interfacing"]["width"] == 900.0
    bought = {cloth["name"]: cloth["buy_mm"] for cloth in outcome.summary["cloths"]}
    assert bought == {name: cloth["buy"] for name, cloth in cloths.items()}


def test_a_cloth_with_a_nap_stays_one_way_whatever_the_customer_ticked(order, tmp_path):
    napped = order.draft_text.replace('"Skirt cloth"  width 140cm', '"Skirt cloth"  width 140cm one way')
    assert napped != order.draft_text
    build_pack(replace(order, draft_text=napped), tmp_path, quiet)
    report = json.loads((tmp_path / "report.json").read_text("utf-8"))
    assert next(cloth for cloth in report["cloths"] if cloth["fabric"] == "main")["one_way"]


def test_the_summary_can_be_kept_as_json(built):
    _, outcome, *_ = built
    assert json.loads(json.dumps(outcome.summary)) == outcome.summary
    assert outcome.summary["cloths"][0]["buy"].endswith(" m")


def test_the_same_order_gives_the_same_pattern_files(built, order, tmp_path):
    _, outcome, *_ = built
    again = build_pack(order, tmp_path, quiet)
    digests = {file.name: file.sha256 for file in again.files}
    for file in outcome.files:
        if file.name.startswith(("pattern", "pieces")):
            assert digests[file.name] == file.sha256


def test_letter_paper_gives_a_letter_file_and_sheet(order, tmp_path):
    outcome = build_pack(replace(order, paper="letter", unit="in"), tmp_path, quiet)
    assert "pattern-letter.pdf" in [file.name for file in outcome.files]
    for name in ("pattern-letter.pdf", "instructions.pdf"):
        with pikepdf.open(tmp_path / name) as pdf:
            box = [float(n) for n in pdf.pages[0]["/MediaBox"]]
            assert (box[2], box[3]) == pytest.approx((612.0, 792.0), abs=0.01)
    assert outcome.summary["cloths"][0]["buy"].endswith(" yd")


@pytest.mark.parametrize(
    "spoilt",
    [
        {"measurements": {"waist_girth": 760.0}},
        {"draft_text": "draft nothing at all"},
        {"choices": {"length": 5000.0}},
        {"cloths": {"main": Cloth(250.0, folded=False)}},
    ],
    ids=["a measurement missing", "a draft that cannot be read", "a choice out of range", "a cloth too narrow"],
)
def test_anything_wrong_stops_the_build_before_a_file_is_written(order, tmp_path, spoilt):
    outcome = build_pack(replace(order, **spoilt), tmp_path, quiet)
    assert isinstance(outcome, Refused)
    assert outcome.problems
    assert all(problem.message and problem.fix for problem in outcome.problems)
    assert list(tmp_path.iterdir()) == []


def words_of(path):
    document = pypdfium2.PdfDocument(path)
    text = " ".join(page.get_textpage().get_text_range() for page in document)
    document.close()
    return text


def test_what_a_design_settles_makes_the_pattern_and_is_not_told_as_the_customers_choice(order, tmp_path):
    longer = replace(order, title="Ash skirt", choices={"length": 700.0, "flare": 100.0}, settled=("length",))
    assert isinstance(build_pack(longer, tmp_path, quiet), PackReady)
    figures = json.loads((tmp_path / "report.json").read_text("utf-8"))
    assert (figures["title"], figures["choices"]["length"]) == ("Ash skirt", 700.0)
    told = words_of(tmp_path / "instructions.pdf").partition("As you chose it")[2].partition("What to buy")[0]
    titles = {choice.name: choice.title for choice in read_draft(order.draft_text, "t.draft").choices}
    assert titles["flare"] in told
    assert titles["length"] not in told


def test_a_design_that_settles_what_its_draft_lacks_is_refused(order, tmp_path):
    refused = build_pack(replace(order, choices={"sleeve": "long"}, settled=("sleeve",)), tmp_path, quiet)
    assert isinstance(refused, Refused)
    assert [problem.code for problem in refused.problems] == ["choice.unknown"]
    assert list(tmp_path.iterdir()) == []


def test_a_listener_that_raises_ends_the_build(order, tmp_path):
    class TakenAway(Exception):
        pass

    def taken(stage: str, share: float) -> None:
        if stage == Stage.LAY:
            raise TakenAway

    with pytest.raises(TakenAway):
        build_pack(order, tmp_path, taken)
    assert list(tmp_path.iterdir()) == []


#: A banner: one strip as long as asked for, on cloth that is as long.
BANNER = """
draft "Harbour banner"
needs
    waist_girth
choices
    length = 300cm from 50cm to 600cm "Length"
fabrics
    main "Cloth" width 140cm open
sheet strip
    bottom = at 0, 0
    lower = line bottom to (bottom right length)
    far   = line (bottom right length) to (bottom right length up 30cm)
    upper = line (bottom right length up 30cm) to (bottom up 30cm)
    near  = line (bottom up 30cm) to bottom
piece strip "Banner strip" from strip cut 1 main
    outline   lower, far, upper, near
    grain     (bottom right 5cm up 15cm) to (bottom right length - 5cm up 15cm)
    allowance 1cm
steps
    ## Hem
    Turn in every edge and stitch.
"""


def banner(order, length, **more):
    return replace(
        order,
        draft_text=BANNER,
        draft_name="banner.draft",
        measurements={"waist_girth": 760.0},
        choices={"length": length},
        cloths={},
        title="Harbour banner",
        **more,
    )


def built_names(outcome):
    assert isinstance(outcome, PackReady), outcome
    return [file.name for file in outcome.files]


def test_a_projector_file_that_no_page_holds_is_left_out_and_told_with_the_piece_and_what_to_use(order, tmp_path):
    outcome = build_pack(banner(order, 4900.0), tmp_path, quiet)
    assert "pattern-projector.pdf" not in built_names(outcome)
    assert "pattern-one-sheet.pdf" in built_names(outcome)
    (told,) = outcome.summary["left_out"]
    assert "no file for a projector: the piece “Banner strip” is 492 cm long" in told
    assert "Use the sheets" in told
    assert "projector" not in words_of(tmp_path / "instructions.pdf").lower()


def test_a_sheet_longer_than_a_page_is_left_out_and_told_while_the_rest_is_built(order, tmp_path):
    outcome = build_pack(banner(order, 5300.0), tmp_path, quiet)
    assert "pattern-one-sheet.pdf" not in built_names(outcome)
    assert "pattern-a4.pdf" in built_names(outcome)
    assert len(outcome.summary["left_out"]) == 2
    assert any("on one sheet would be" in told and "Use the sheets" in told for told in outcome.summary["left_out"])
    assert not any("wider roll" in told or "one-sheet file" in told for told in outcome.summary["left_out"])
    figures = json.loads((tmp_path / "report.json").read_text("utf-8"))
    assert [sheet["file"] for sheet in figures["sheets"]] == ["pattern-a4.pdf"]


def test_a_projector_file_nobody_asked_for_is_not_told_of(order, tmp_path):
    request = banner(order, 4900.0)
    outcome = build_pack(replace(request, prints=replace(request.prints, projector=False)), tmp_path, quiet)
    assert outcome.summary["left_out"] == []


def test_a_roll_narrower_than_a_piece_still_stops_the_build_with_the_width_to_choose(order, tmp_path):
    request = replace(order, prints=replace(order.prints, roll_mm=210.0))
    refused = build_pack(request, tmp_path, quiet)
    assert isinstance(refused, Refused)
    assert [problem.code for problem in refused.problems] == ["sheets.too-wide"]


def test_a_pack_without_anything_left_out_says_nothing_of_it_and_its_sheet_has_the_projectors_cautions(built):
    folder, outcome, *_ = built
    assert outcome.summary["left_out"] == []
    words = " ".join(words_of(folder / "instructions.pdf").split())
    assert "With a projector" in words
    assert "Never look into the lens or the beam" in words
    assert "outer edge to outer edge" in words


def test_letters_that_cannot_be_printed_are_told_with_what_to_do(order, tmp_path):
    outcome = build_pack(replace(order, customer="美咲"), tmp_path, quiet)
    (told,) = [note for note in outcome.summary["notes"] if "typeface" in note]
    assert "customer's name" in told
    assert "Latin, Greek or Cyrillic" in told


def test_no_file_is_named_for_tools_of_which_the_pack_has_no_caution(built):
    _, outcome, *_ = built
    assert not [file.title for file in outcome.files if "laser" in file.title.lower()]
