"""Kept packs: whole or not there at all, never found by a crooked name, and cleared of what dead builds left."""

import pytest

from app.storage import LocalPacks


@pytest.fixture
def packs(tmp_path):
    return LocalPacks(tmp_path / "packs")


def write(packs, name="TL-4F7K-v1-ab", claim="c1", text="sheet"):
    draft = packs.begin(name, claim)
    (draft / "sheet.pdf").write_text(text)
    return draft


def test_a_pack_is_invisible_until_it_is_kept(packs):
    draft = write(packs)
    assert packs.file("TL-4F7K-v1-ab", "sheet.pdf") is None
    assert packs.file(draft.name, "sheet.pdf") is None
    assert packs.kept() == []
    packs.seal(draft)
    packs.keep(draft, "TL-4F7K-v1-ab")
    assert packs.file("TL-4F7K-v1-ab", "sheet.pdf").read_text() == "sheet"
    assert packs.kept() == ["TL-4F7K-v1-ab"]
    assert packs.leftovers() == []


def test_keeping_again_replaces_the_whole_pack(packs):
    old = write(packs, text="old")
    (old / "only-in-old.pdf").write_text("x")
    packs.keep(old, "TL-4F7K-v1-ab")
    packs.keep(write(packs, claim="c2", text="new"), "TL-4F7K-v1-ab")
    assert packs.file("TL-4F7K-v1-ab", "sheet.pdf").read_text() == "new"
    assert packs.file("TL-4F7K-v1-ab", "only-in-old.pdf") is None
    assert packs.leftovers() == []


def test_a_reader_keeps_what_it_opened_while_the_pack_is_replaced(packs):
    packs.keep(write(packs, text="old"), "TL-4F7K-v1-ab")
    with packs.file("TL-4F7K-v1-ab", "sheet.pdf").open() as reader:
        packs.keep(write(packs, claim="c2", text="new"), "TL-4F7K-v1-ab")
        assert reader.read() == "old"


@pytest.mark.parametrize(
    ("name", "file"),
    [
        ("..", "session.key"),
        ("TL-4F7K-v1-ab", "../../session.key"),
        ("TL-4F7K-v1-ab/..", "session.key"),
        ("", "sheet.pdf"),
        ("TL-4F7K-v1-ab", ""),
        ("TL-4F7K-v1-ab", ".hidden"),
        ("/etc", "passwd"),
        ("TL-4F7K-v1-ab", "missing.pdf"),
    ],
)
def test_no_name_reaches_outside_a_pack(packs, name, file):
    packs.keep(write(packs), "TL-4F7K-v1-ab")
    (packs.root / "TL-4F7K-v1-ab" / ".hidden").write_text("x")
    (packs.root.parent / "session.key").write_text("secret")
    (packs.root / "session.key").write_text("secret")
    assert packs.file(name, file) is None


def test_beginning_again_under_the_same_claim_starts_empty(packs):
    write(packs)
    assert list(packs.begin("TL-4F7K-v1-ab", "c1").iterdir()) == []


def test_leftovers_name_their_claim_and_can_be_thrown_away(packs):
    write(packs, claim="dead")
    write(packs, claim="live")
    leftovers = {leftover.claim: leftover.folder for leftover in packs.leftovers()}
    assert set(leftovers) == {"dead", "live"}
    packs.discard(leftovers["dead"])
    packs.discard(leftovers["dead"])
    assert [leftover.claim for leftover in packs.leftovers()] == ["live"]


def test_a_kept_pack_can_be_removed_and_crooked_names_remove_nothing(packs):
    packs.keep(write(packs), "TL-4F7K-v1-ab")
    packs.remove("../packs")
    packs.remove("")
    assert packs.kept() == ["TL-4F7K-v1-ab"]
    packs.remove("TL-4F7K-v1-ab")
    packs.remove("TL-4F7K-v1-ab")
    assert packs.kept() == []
