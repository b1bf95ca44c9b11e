"""What a design's page says one gets and buys: each thing once, in both units, and only the pieces one is given."""

import pytest

from app.shop.catalogue.cards import card_of
from app.shop.catalogue.models import DraftVersion, Listing
from app.shop.catalogue.shopping import pieces_words, shopping_list
from tests.places import DRAFT_FILES


def offered(path, **settled):
    version = DraftVersion(text=path.read_text("utf-8"), number=1, sha256="")
    listing = Listing(slug=path.stem, title=path.stem, published=True, current_version=version, settled=settled)
    return listing, card_of(version, listing)


def named(name, **settled):
    return offered(next(path for path in DRAFT_FILES if path.stem == name), **settled)


@pytest.mark.parametrize("path", DRAFT_FILES, ids=lambda path: path.stem)
def test_every_thing_to_buy_is_named_once_and_no_metric_size_stands_alone(path):
    lines = shopping_list(*offered(path))
    things = [line.partition(":")[0] for line in lines]
    assert len(set(things)) == len(things)
    for line in lines:
        assert line.count(" cm") + line.count(" mm") + line.count(" m ") == line.count("(")


def test_pieces_of_options_that_exclude_each_other_are_not_added_up():
    assert pieces_words(*named("fitted_bodice")) == "2 to 4 pattern pieces, as you choose"
    assert pieces_words(*named("fitted_bodice", line="princess")) == "4 pattern pieces"
    assert pieces_words(*named("gore_skirt")) == "3 pattern pieces"


def test_what_only_some_choices_ask_for_is_said_to_depend_on_them():
    lines = shopping_list(*named("shirred_tunic"))
    assert "Bias binding, 12 mm (1/2 in) finished, if your choices call for it" in lines
    assert "Neck button, 10 mm (3/8 in), and thread for its loop: 1" in lines


def test_no_length_for_a_grown_woman_is_told_of_a_childs_garment():
    assert not any(" long" in line for line in shopping_list(*named("childs_pinafore")))
