"""A few hundred spoiled drafts through every stage; the long count is `python -m tests.pattern.language.fuzz`."""

from __future__ import annotations

import pytest

from app.pattern.make import Made, make_pattern
from tests.pattern.language import fuzz

#: Seeds that once broke something: bare errors out of reading, drafting, matching and assembling.
ONCE_BROKEN = (199, 100250, 100518, 100536, 100671, 100711, 2361, 3190, 3199, 3242, 3994)


@pytest.mark.parametrize("first", range(0, 240, 40))
def test_spoiled_drafts_end_in_a_pattern_or_in_plain_problems(first):
    for seed in range(first, first + 40):
        fuzz.run(fuzz.spoiled(seed), seed)


@pytest.mark.parametrize("seed", ONCE_BROKEN)
def test_what_once_broke_no_longer_does(seed):
    fuzz.run(fuzz.spoiled(seed), seed)


def test_the_same_seed_spoils_the_same_way():
    assert fuzz.spoiled(7) == fuzz.spoiled(7)
    assert len({fuzz.spoiled(seed) for seed in range(50)}) == 50


@pytest.mark.parametrize("first", range(0, 12, 4))
def test_drafts_that_are_blown_up_end_soon_all_the_same(first):
    for seed in range(first, first + 4):
        fuzz.run(fuzz.multiplied(seed), seed)


def test_every_kind_of_spoiling_changes_something():
    text = fuzz.sources()[0][0]
    for spoil in {*fuzz.MUTATIONS, *fuzz.BLOWN_UP}:
        changed = [spoil(fuzz.random.Random(seed), text) != text for seed in range(20)]
        assert sum(changed) >= 10, spoil.__name__


@pytest.mark.parametrize("path", sorted(fuzz.SMALL.glob("*.draft")), ids=lambda p: p.stem)
def test_the_small_drafts_are_sound_before_they_are_spoiled(path):
    made = make_pattern(path.read_text("utf-8"), path.name, fuzz.size_body("92"), {})
    assert isinstance(made, Made), "\n".join(map(str, made.problems))
    assert not [p for p in made.findings if p.severity == "error"]


# ---- endless work

GROUND = """draft "T"
needs
    waist_girth
fabrics
    main "C" width 140cm
sheet s
    a = at 0, 0
    b = a right 40cm
    c = b up 60cm
    d = a up 60cm
    low = line a to b
    side = line b to c
    top = line d to c
    near = line a to d
"""
PIECE = """piece p "P" cut 1 main
    outline low, side, top, near
    grain (a right 1cm up 2cm) to (d right 1cm down 1cm)
    allowance 1cm
"""
ZIGZAG = "smooth " + ", ".join(f"(a right {i * 3}mm up {i * 37 % 200}mm)" for i in range(35))
ENDLESS = {
    "minus signs": GROUND + "    x = " + "-" * 900 + "1cm\n" + PIECE,
    "not not not": GROUND + "    when " + "not " * 240 + "yes\n        x = 1\n" + PIECE,
    "a sum over thousands of lines": GROUND + "    x = 1cm" + " +\n        1cm" * 5000 + "\n" + PIECE,
    "a list over hundreds of lines": GROUND + "    x = smooth a" + (", b, a" * 100 + ",\n  b, a") * 300 + "\n" + PIECE,
    "an inch over nothing": GROUND + "    x = 1/0in\n",
    "braces in thousands": GROUND + PIECE + "steps\n    ## A\n" + ("    " + "{a}" * 300 + "\n") * 40,
    "unknown names in thousands": GROUND + "".join(f"    nane_{i} = nam_{i} down 1cm\n" for i in range(2900)),
    "solves in solves": GROUND
    + f"    z = {ZIGZAG}\n"
    + """    solve x from 1cm to 9cm until length(g) = 30.123cm
        solve y from 1cm to 9cm until length(f) = x + 1mm
            f = line a to (a right y + 0.01mm)
            k = crossing of z and (z up y)
        g = line a to (a right x)
"""
    + PIECE,
    "paths that double": GROUND
    + "    j0 = line a to (a right 0.00001mm)\n"
    + "".join(f"    j{i + 1} = join j{i}, (j{i} reversed)\n" for i in range(40))
    + PIECE,
    "parallels of a zigzag": GROUND
    + f"    z = {ZIGZAG}\n"
    + "".join(f"    k{i} = parallel to z by {i % 9 + 1}mm left\n" for i in range(1000))
    + PIECE,
    "repeats in repeats": GROUND
    + """    repeat i from 1 to 200
        repeat j from 1 to 200
            z = curve a to c leaving right arriving right
            zz = parallel to z by 1mm left
"""
    + PIECE,
    "pivots of pivots": GROUND
    + "    m = dart (b up 29cm) to (a right 10cm up 30cm) to (b up 31cm) pressed down\n"
    + "    lo = line b to (b up 29cm)\n    hi = line (b up 31cm) to c\n    s0 = trace low, lo, m as d0, hi, top, near\n"
    + "".join(f"    s{i + 1} = pivot d{i} of s{i} to (a right {100 + i * 3}mm) as d{i + 1}\n" for i in range(60))
    + PIECE,
    "infinite numbers": GROUND + "    x = sin(1deg" + " * 999999" * 60 + ")\n" + PIECE,
    "an outline that crosses itself": GROUND
    + "    e = line a to c\n    f = line b to d\n"
    + PIECE.replace("low, side, top, near", "low, f, top, e"),
    "an outline with a zigzag": GROUND
    + "    w = "
    + ZIGZAG.replace("(a right", "(b right").replace("smooth ", "smooth b, ")
    + ", c\n"
    + "".join(PIECE.replace("low, side,", "low, w,").replace("piece p ", f"piece p{i} ") for i in range(4)),
    "smooth curves in three repeats": GROUND
    + """    repeat i from 1 to 200
        repeat j from 1 to 200
            repeat k from 1 to 200
                z = smooth a, b, c, d
"""
    + PIECE,
    "long sums in repeats": GROUND
    + "    repeat i from 1 to 200\n        repeat j from 1 to 200\n            x = max("
    + ",\n                ".join(["1cm * i, 2cm * j"] * 90)
    + ")\n"
    + PIECE,
    "widths in braces": GROUND
    + PIECE
    + "steps\n    ## A\n"
    + ("    {max(" + ", ".join(["width(p, b)"] * 60) + ")}\n") * 280,
    "places nearest to a zigzag": GROUND
    + f"    z = {ZIGZAG}\n    repeat i from 1 to 200\n        repeat j from 1 to 200\n"
    + "            q = nearest(z, (a right 1mm * i up 1mm * j))\n"
    + PIECE,
    "fans in repeats": GROUND
    + "    t = trace low, side, top, near\n"
    + "".join(f"    l{i} = line (a right {i * 9 + 5}mm) to (d right {i * 9 + 5}mm)\n" for i in range(40))
    + "    repeat i from 1 to 200\n        pp = fan t along "
    + ", ".join(f"l{i}" for i in range(40))
    + " by 2cm\n"
    + PIECE,
    "marks in thousands": GROUND + PIECE + "    mark place near repeated 60 times right 0.1mm\n" * 900,
}


@pytest.mark.parametrize("name", ENDLESS)
def test_work_without_end_ends_in_a_plain_error(name):
    case = fuzz.run(ENDLESS[name])
    assert case.outcome != "made" or name == "pivots of pivots"
    assert case.calls < fuzz.MOST_CALLS
