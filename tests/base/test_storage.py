"""Kept packs: whole or not there at all, never found by a crooked name, and cleared of what dead builds left."""

import errno
import os
import shutil
from pathlib import Path

import pytest

from app.base.storage import LocalPacks


@pytest.fixture
def packs(tmp_path):
    return LocalPacks(tmp_path / "packs")


def write(packs, name="TL-4F7K-v1-ab", claim="c1", text="sheet"):
    draft = packs.begin(name, claim)
    (draft / "sheet.pdf").write_text(text)
    return draft


def test_a_pack_is_invisible_until_it_is_kept(packs):
    draft = write(packs)
    assert packs.read("TL-4F7K-v1-ab", "sheet.pdf", 99) is None
    assert packs.read(draft.name, "sheet.pdf", 99) is None
    assert packs.kept() == []
    packs.seal(draft)
    packs.keep(draft, "TL-4F7K-v1-ab")
    assert packs.read("TL-4F7K-v1-ab", "sheet.pdf", 99) == b"sheet"
    assert packs.kept() == ["TL-4F7K-v1-ab"]
    assert packs.leftovers() == []


def test_keeping_again_replaces_the_whole_pack(packs):
    old = write(packs, text="old")
    (old / "only-in-old.pdf").write_text("x")
    packs.keep(old, "TL-4F7K-v1-ab")
    packs.keep(write(packs, claim="c2", text="new"), "TL-4F7K-v1-ab")
    assert packs.read("TL-4F7K-v1-ab", "sheet.pdf", 99) == b"new"
    assert packs.read("TL-4F7K-v1-ab", "only-in-old.pdf", 99) is None
    assert packs.leftovers() == []


def test_no_more_is_read_than_is_asked_for(packs):
    packs.keep(write(packs), "TL-4F7K-v1-ab")
    assert packs.read("TL-4F7K-v1-ab", "sheet.pdf", 3) == b"she"


def folder_in_its_place(path):
    path.unlink()
    path.mkdir()


def link_in_its_place(path):
    path.rename(path.parent.parent / "elsewhere.pdf")
    path.symlink_to(path.parent.parent / "elsewhere.pdf")


def pipe_in_its_place(path):
    path.unlink()
    os.mkfifo(path)


@pytest.mark.parametrize("damage", [Path.unlink, folder_in_its_place, link_in_its_place, pipe_in_its_place])
def test_what_is_no_plain_file_is_not_there(packs, damage):
    packs.keep(write(packs), "TL-4F7K-v1-ab")
    damage(packs.root / "TL-4F7K-v1-ab" / "sheet.pdf")
    assert packs.read("TL-4F7K-v1-ab", "sheet.pdf", 99) is None


@pytest.mark.parametrize("kind", ["folder gone", "a file", "a link", "a link to nowhere", "the packs gone"])
def test_a_pack_takes_its_place_again_whatever_stands_there(packs, kind):
    packs.keep(write(packs), "TL-4F7K-v1-ab")
    place = packs.root / "TL-4F7K-v1-ab"
    shutil.rmtree(packs.root if kind == "the packs gone" else place)
    if kind == "a file":
        place.write_text("in the way")
    elif kind.startswith("a link"):
        target = packs.root.parent / "target"
        if kind == "a link":
            target.mkdir()
            (target / "sheet.pdf").write_text("not ours")
        place.symlink_to(target)
    assert packs.read("TL-4F7K-v1-ab", "sheet.pdf", 99) is None
    packs.keep(write(packs, claim="c2", text="new"), "TL-4F7K-v1-ab")
    assert packs.read("TL-4F7K-v1-ab", "sheet.pdf", 99) == b"new"
    assert packs.leftovers() == []
    assert kind != "a link" or (target / "sheet.pdf").read_text() == "not ours"


def test_a_pack_is_not_begun_on_a_disk_that_is_nearly_full(packs, monkeypatch):
    monkeypatch.setattr("app.base.storage.LEAST_ROOM", 10**18)
    with pytest.raises(OSError, match="No space left") as full:
        packs.begin("TL-4F7K-v1-ab", "c1")
    assert full.value.errno == errno.ENOSPC
    assert packs.leftovers() == []


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
    assert packs.read(name, file, 99) is None


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
