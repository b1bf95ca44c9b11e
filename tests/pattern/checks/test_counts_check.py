"""Counts across seams, layers, places and interfacing; lopsided pieces: tried on plain panels and the trial tunic."""

from __future__ import annotations

import pytest

from app.pattern.checks.piece_words import head_noun, is_doubled, is_plural, nouns_of, singular
from app.pattern.geometry import Path, Point
from app.pattern.make import Made, make_pattern
from app.pattern.pieces.model import Allowance, Cut, Edge, Grain, Pattern, Piece, StepText
from tests.pattern.checks.mutations import BODY, TEXT

UNLIKE, PLACES, STEPS, STIFF = (f"checks.counts-{kind}" for kind in ("unlike", "places", "steps", "interfacing"))
MIRROR = "checks.pair-unmirrored"
MINE = {UNLIKE, PLACES, STEPS, STIFF, MIRROR}

HEAD = """\
draft "Boxes"
needs
    hip_girth
fabrics
    main "Cloth" width 140cm
    lining "Lining" width 140cm
    stiff "Interfacing" width 90cm
sheet box
    a = at 0, 0
    b = a right hip_girth / 10
    c = b up 30cm
    d = a up 30cm
    low = line a to b
    side = line b to c
    top = line d to c
    near = line a to d
    slant = line d to (c up 4cm)
    tall = line b to (c up 4cm)
    across = line (a up 15cm) to (b up 15cm)
"""


def box(name, cut, *, fold="", more="", outline="low, side, top, near"):
    """A rectangle of 30 cm height, perhaps with its left edge on the fold."""
    edges = outline.replace("near", "fold near") if fold else outline
    allowance = "    allowance 1cm\n    finish low, top hemmed\n" if "low" in outline else "    allowance 1cm\n"
    head = f'piece {name} "{name.capitalize()}" from box {cut}\n'
    return f"{head}    outline {edges}\n    grain along near\n{allowance}{more}"


def heard(*parts, steps="Sew them together and hem them."):
    text = HEAD + "".join(parts) + f"steps\n    ## Sew\n    {steps}\n"
    made = make_pattern(text, "boxes.draft", BODY, {})
    problems = made.findings if isinstance(made, Made) else made.problems
    assert all(p.code.startswith("checks.") for p in problems), "\n".join(map(str, problems))
    return [p for p in problems if p.code in MINE]


def codes(*parts, **more):
    return [p.code for p in heard(*parts, **more)]


# ---- across a seam


@pytest.mark.parametrize(
    ("one", "other", "fits"),
    [
        ("cut 1 main", "cut 1 main", True),
        ("cut 2 mirrored main", "cut 2 mirrored main", True),
        ("cut 2 main", "cut 2 mirrored main", True),
        ("cut 1 main", "cut 2 mirrored main", False),
        ("cut 4 main", "cut 2 mirrored main", False),
        ("cut 1 main, cut 1 lining", "cut 1 main, cut 1 lining", True),
        ("cut 1 main, cut 2 lining", "cut 1 main, cut 1 lining", False),
        ("cut 1 main, cut 1 lining", "cut 1 main", True),
        ("cut 2 lining", "cut 2 main", True),
        ("cut 1 lining", "cut 2 main", False),
        ("cut 1 main, cut 3 stiff", "cut 1 main", None),
    ],
)
def test_both_sides_of_a_seam_are_there_equally_often_cloth_by_cloth(one, other, fits):
    seam = "sew front.side to back.near\n"
    ends = "sew front.near to back.side\n"
    found = codes(box("front", one), box("back", other), seam, ends)
    assert (UNLIKE in found) is (fits is False)
    assert (STIFF in found) is (fits is None)


def test_a_piece_on_the_fold_has_each_edge_twice():
    fold = box("front", "cut 1 on fold main", fold="yes")
    pair = box("back", "cut 2 mirrored main", more="    finish near hemmed\n")
    assert codes(fold, pair, "sew front.side to back.side\n") == []
    twice = box("front", "cut 2 on fold main", fold="yes")
    (problem,) = heard(twice, pair, "sew front.side to back.side\n")
    assert "front is cut 2 on fold and back is cut 2 mirrored" in problem.message
    assert problem.fix.startswith("Cut front 1 on fold instead.") or problem.fix.startswith("Cut back 4 mirrored")


def test_twice_in_a_seam_takes_both_halves():
    half = box("front", "cut 1 on fold main", fold="yes", outline="low, side, top, near")
    band = box("band", "cut 1 main", more="    finish side, near hemmed\n").replace(
        "finish low, top hemmed", "finish low hemmed"
    )
    part = "sew front.top twice to band.top ease -90cm..90cm\n"
    assert codes(half.replace("finish low, top hemmed", "finish low, side hemmed"), band, part) == []


def test_a_piece_sewn_to_itself_must_be_there_twice():
    alone = box("back", "cut 1 main", more="    finish side hemmed\n")
    (problem,) = heard(alone, "sew back.near to back.near\n")
    assert "sews back to itself, and it is cut 1" in problem.message
    assert (
        codes(box("back", "cut 2 mirrored main", more="    finish side hemmed\n"), "sew back.near to back.near\n") == []
    )


def test_an_edge_shared_out_over_two_seams_is_there_for_both():
    """One strip round two panels that lie side by side, as a ruffle round front and back, must be there for each."""
    front = box("front", "cut 1 main").replace("finish low, top hemmed", "finish low hemmed")
    back = box("back", "cut 1 main").replace("finish low, top hemmed", "finish low hemmed")
    sides = "sew front.side to back.side\nsew front.near to back.near\n"
    top = "sew front.top to frill.top\nsew back.top to frill.top\n"

    def frill(cut):
        return box("frill", cut, more="    finish side, near closed\n").replace(
            "finish low, top hemmed", "finish low hemmed"
        )

    assert codes(front, back, frill("cut 2 main"), sides, top) == []
    assert codes(front, back, frill("cut 1 main"), sides, top) == [UNLIKE]


def test_the_piece_that_explains_most_is_told_once():
    text = TEXT.replace('piece back "Back" from body cut 1 on fold', 'piece back "Back" from body cut 2 on fold')
    made = make_pattern(text, "whole.draft", BODY, {})
    found = [p for p in made.findings if p.code in MINE]
    assert [(p.code, p.where.piece) for p in found] == [(UNLIKE, "back")]
    assert found[0].fix.startswith("Cut back 1 on fold instead.")


# ---- layers


def collar(cut, more=""):
    piece = box("collar", cut, fold="yes" if "fold" in cut else "", more="    finish side, low closed\n" + more)
    return piece.replace("    finish low, top hemmed\n", "")


def neck(cut="cut 1 on fold main"):
    body = box("body", cut, fold="yes", more="    finish side hemmed\n")
    return body.replace("finish low, top hemmed", "finish low hemmed")


def test_a_collar_in_two_layers_counts_once():
    seam = "sew collar.top to body.top\n"
    assert codes(collar("cut 2 on fold main"), neck(), seam) == []
    assert UNLIKE in codes(collar("cut 4 on fold main"), neck(), seam)
    assert UNLIKE in codes(collar("cut 1 on fold main"), neck(), seam)


def test_a_band_folded_along_its_line_is_there_once():
    fold = '    mark fold across "Fold"\n'
    band = box("band", "cut 2 main", more="    finish side, near closed\n    finish low turned in\n" + fold)
    band = band.replace("    finish low, top hemmed\n", "")
    pair = box("body", "cut 2 mirrored main", more="    finish side, near hemmed\n").replace(
        "low, top hemmed", "low hemmed"
    )
    assert codes(band, pair, "sew band.top to body.top\n") == []
    assert codes(band.replace("cut 2 main", "cut 4 main"), pair, "sew band.top to body.top\n") == [UNLIKE]


def test_an_inner_and_an_outer_one_in_the_steps_are_two_layers():
    yoke = box("yoke", "cut 2 on fold main", fold="yes", more="    finish side hemmed\n")
    yoke = yoke.replace("finish low, top hemmed", "finish low hemmed")
    seam = "sew yoke.top to body.top\n"
    assert codes(yoke, neck(), seam) == [UNLIKE]
    assert codes(yoke, neck(), seam, steps="Sew the outer yoke on, turn the inner yoke under and hem it.") == []


def test_interfacing_is_cut_as_often_as_the_cloth_or_for_one_layer_of_two():
    more = "    finish side, near hemmed\n"
    assert codes(box("band", "cut 2 main, cut 2 stiff", more=more)) == []
    assert codes(box("band", "cut 2 main, cut 1 stiff", more=more)) == [STIFF]
    seam = "sew collar.top to body.top\n"
    assert codes(collar("cut 2 on fold main, cut 1 on fold stiff"), neck(), seam) == []


# ---- left and right


def test_a_lopsided_piece_cut_twice_alike_is_two_left_ones():
    slanting = "low, tall, slant, near"
    more = "    finish tall, slant, near hemmed\n"

    def piece(cut):
        return box("sleeve", cut, outline=slanting, more=more).replace("finish low, top hemmed", "finish low hemmed")

    (problem,) = heard(piece("cut 2 main"))
    assert problem.code == MIRROR
    assert "cut 2 mirrored main" in problem.fix
    assert codes(piece("cut 2 mirrored main")) == []
    assert codes(piece("cut 1 main")) == []
    assert codes(piece("cut 3 main")) == []
    even = box("sleeve", "cut 2 mirrored main", more="    finish side, near hemmed\n")
    assert codes(even) == [], "what is its own mirror image may be cut in pairs"


def test_panels_sewn_to_one_another_in_a_ring_are_cut_alike():
    def panel(cut):
        return box("panel", cut, outline="low, tall, slant, near", more="    finish slant hemmed\n").replace(
            "finish low, top hemmed", "finish low hemmed"
        )

    ring = "sew panel.tall to panel.near ease 0cm..9cm\n"
    assert codes(panel("cut 4 main"), ring) == []
    assert codes(panel("cut 2 main"), ring) == [MIRROR]


# ---- what the steps speak of


def pocket(cut):
    more = "    finish side, low, near applied\n"
    return box("pocket", cut, more=more).replace("    finish low, top hemmed\n", "    finish top hemmed\n")


def front(marks=""):
    return box("front", "cut 2 mirrored main", more=f"    finish side, near hemmed\n{marks}")


def test_as_many_are_cut_as_there_are_places():
    place = '    mark place across "Top of the pocket"\n'
    steps = "Hem the front and topstitch the pocket to its place."
    assert codes(front(place), pocket("cut 2 main"), steps=steps) == []
    assert codes(front(place), pocket("cut 1 main"), steps=steps) == [PLACES]
    assert codes(front(place), pocket("cut 3 main"), steps=steps) == [PLACES]


@pytest.mark.parametrize("words", ["Sew on the pockets.", "Topstitch each pocket down.", "Sew a pocket to each front."])
def test_several_in_the_steps_and_one_in_the_list_of_cuts(words):
    assert codes(front(), pocket("cut 1 main"), steps=f"Hem them. {words}") == [STEPS]
    assert codes(front(), pocket("cut 2 main"), steps=f"Hem them. {words}") == []


def test_what_belongs_to_a_sleeve_is_there_for_each_and_a_bow_once():
    sleeve = box("sleeve", "cut 2 mirrored main", more="    finish side, near hemmed\n")

    def small(name, title, cut):
        made = box(name, cut, more="    finish side, near applied\n").replace("low, top hemmed", "low, top applied")
        return made.replace(f'"{name.capitalize()}"', f'"{title}"')

    steps = "Stitch on the placket and the bow, then hem the sleeve."
    assert codes(sleeve, small("placket", "Sleeve placket", "cut 2 mirrored main"), steps=steps) == []
    assert codes(sleeve, small("placket", "Sleeve placket", "cut 1 main"), steps=steps) == [STEPS]
    assert codes(sleeve, small("bow", "Bodice bow", "cut 1 main"), steps=steps) == []


def piece(title, name="x"):
    line = Path.through(Point(0, 0), Point(10, 0))
    edges = (Edge("low", line, Allowance(0.0), fold=True),)
    return Piece(name, title, edges, Grain(Point(0, 0), Point(0, 9)), (Cut("main", 2),), line, line)


@pytest.mark.parametrize(
    ("title", "noun"),
    [
        ("Pocket bag, upper", "bag"),
        ("Tie of the upper front", "tie"),
        ("Front", ""),
        ("Front and back", ""),
        ("Centre gore, front and back", "gore"),
        ("Waistband", "waistband"),
        ("Sleeve placket", "placket"),
        ("Patch pockets", "pocket"),
    ],
)
def test_the_noun_of_a_title(title, noun):
    assert head_noun(piece(title)) == noun


def test_words_of_a_piece_and_their_singular():
    assert nouns_of(piece("Front waist facings", "waist_facing")) == ("waist", "facing")
    assert [singular(word) for word in ("Ties", "dress", "bus", "cuffs")] == ["tie", "dress", "bus", "cuff"]


def test_layers_and_several_are_told_apart_by_words():
    def told(words, *titles):
        pieces = tuple(piece(title, f"p{i}") for i, title in enumerate(titles))
        return Pattern("T", pieces, (), (), (), steps=(StepText("Sew", words),)), pieces[0]

    assert is_doubled(*told("Lay the back between the two yokes.", "Yoke"))
    assert is_doubled(*told("Turn the inner yoke under.", "Yoke"))
    assert not is_doubled(*told("Sew the under bag to it.", "Pocket bag, under", "Pocket bag, upper"))
    assert not is_doubled(*told("Stitch both yokes to it.", "Front yoke", "Back yoke"))
    assert is_plural(*told("Sew on the cuffs.", "Cuff"))
    assert not is_plural(*told("Sew on the cuff.", "Cuff"))
    assert not is_plural(*told("Join the facings.", "Front facing", "Back facing"))
