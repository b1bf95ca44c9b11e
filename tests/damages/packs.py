"""Every kind of damage to a kept pack, as somebody or some disk may do it, and what is seen of it."""

import os
import shutil
from collections.abc import Callable
from dataclasses import dataclass

import sqlalchemy as sa

from app.shop.orders.models import Order

FILE = "pattern-a4.pdf"


@dataclass(frozen=True)
class Damage:
    """What is done to the pack of an order, and what the designer reads of it."""

    title: str
    do: Callable
    how: str


def _in_place_of(shop, make):
    path = shop.pack / FILE
    path.unlink()
    make(path)


def _elsewhere(shop, path):
    target = shop.settings.packs_dir().parent / "somebody-elses.pdf"
    target.write_bytes(b"not hers")
    path.symlink_to(target)


def _pack_for_file(shop):
    shutil.rmtree(shop.pack)
    shop.pack.write_bytes(b"a file in the place of the folder")


def _pack_for_link(shop):
    aside = shop.settings.packs_dir().parent / "aside"
    shop.pack.rename(aside)
    shop.pack.symlink_to(aside)


def _list_changed(shop):
    with shop.database.writing() as session:
        files = [{**file, "sha256": "0" * 64} for file in shop.first.files]
        session.execute(sa.update(Order).values(files=files))


DAMAGES = (
    Damage("a file cut to 1,000 bytes", lambda shop: os.truncate(shop.pack / FILE, 1000), "holds 1,000 of the 69,000"),
    Damage("a file emptied", lambda shop: os.truncate(shop.pack / FILE, 0), "holds 0 of the 69,000"),
    Damage(
        "one byte of a file altered",
        lambda shop: _flip(shop.pack / FILE),
        "holds other bytes than were built",
    ),
    Damage(
        "bytes added to a file",
        lambda shop: (shop.pack / FILE).write_bytes((shop.pack / FILE).read_bytes() + b"more"),
        "is longer than the 69,000 bytes that were built",
    ),
    Damage("a file deleted", lambda shop: (shop.pack / FILE).unlink(), "is missing or cannot be read"),
    Damage(
        "a folder in the place of a file",
        lambda shop: _in_place_of(shop, lambda path: path.mkdir()),
        "is missing or cannot be read",
    ),
    Damage(
        "a link in the place of a file",
        lambda shop: _in_place_of(shop, lambda path: _elsewhere(shop, path)),
        "is missing or cannot be read",
    ),
    Damage("a pipe in the place of a file", lambda shop: _in_place_of(shop, os.mkfifo), "is missing or cannot be read"),
    Damage("the pack's folder deleted", lambda shop: shutil.rmtree(shop.pack), "is missing or cannot be read"),
    Damage("the pack's folder emptied", lambda shop: _empty(shop.pack), "is missing or cannot be read"),
    Damage("a file in the place of the pack's folder", _pack_for_file, "is missing or cannot be read"),
    Damage("a link in the place of the pack's folder", _pack_for_link, "is missing or cannot be read"),
    Damage(
        "the folder of all packs deleted",
        lambda shop: shutil.rmtree(shop.settings.packs_dir()),
        "is missing or cannot be read",
    ),
    Damage(
        "the checksums in the database altered", _list_changed, "is not the one that was written when they were built"
    ),
)


def _flip(path):
    content = bytearray(path.read_bytes())
    content[len(content) // 2] ^= 1
    path.write_bytes(content)


def _empty(folder):
    for path in folder.iterdir():
        path.unlink()
