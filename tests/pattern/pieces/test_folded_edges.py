"""A pleated edge in a seam: notches meet their partners once the pleats are folded, and its corners are the fold's."""

from __future__ import annotations

import pytest

from app.pattern.body import size_body
from app.pattern.make import Made, make_pattern

#: A pleated panel whose top rises to the right, sewn to a yoke of its folded width.
PLEATED = """draft "Slope"

for women

needs
    waist_girth

fabrics
    main  "Cloth"  width 140cm open

sheet panel
    a     = at 0, 0
    b     = a right 40cm
    c     = b up 44cm
    d     = a up 40cm
    hem   = line a to b
    right = line b to c
    top   = line c to d
    left  = line d to a
    flat  = trace hem, right, top, left
    s_1   = line (a right 10cm) to (along top by length(top) * 3 / 4)
    s_2   = line (a right 30cm) to (along top by length(top) / 4)
    full  = box pleat flat along s_1, s_2 deep 3cm

sheet yoke
    a     = at 0, 0
    b     = a right length(panel.top)
    low   = line a to b
    right = line b to (b up 10cm)
    top   = line (b up 10cm) to (a up 10cm)
    left  = line (a up 10cm) to a

piece panel "Panel" from panel cut 1 main
    outline   of full
    grain     (a right 2cm up 5cm) to (a right 2cm up 30cm)
    allowance 1cm, hem 3cm turned back
    finish    left, right hemmed

piece yoke "Yoke" from yoke cut 1 main
    outline   low, right, top, left
    grain     (a right 2cm up 2cm) to (a right 2cm up 8cm)
    allowance 1cm
    finish    top, left, right hemmed

sew panel.top to yoke.low backwards  notch at 1/4  notch at 1/2
"""


@pytest.fixture(scope="module")
def made():
    found = make_pattern(PLEATED, "slope.draft", size_body("92"), {})
    assert isinstance(found, Made), found.problems
    return found


def test_the_pleated_edge_is_as_long_as_the_yoke_it_is_sewn_to(made):
    edge = made.pattern.piece("panel").edge("top")
    assert edge.path.length - edge.taken_in == pytest.approx(made.pattern.piece("yoke").edge("low").path.length)


def test_matched_notches_lie_beside_the_folds_where_the_folded_edge_has_them(made):
    """By hand: the middle of the folded edge is the middle of the paper, 8 of 12 depths of fold on either side."""
    piece = made.pattern.piece("panel")
    edge = piece.edge("top")
    at = sorted(notch.along for notch in piece.notches if notch.edge == "top")
    assert at[1] == pytest.approx(edge.path.length / 2.0)
    # A quarter lies under the second pleat's panel: its notch is on the paper right after the fold, never within it.
    assert not any(start + 1e-6 < at[0] < end - 1e-6 for start, end in edge.folds)


def test_corners_that_a_fold_needs_are_no_kinks(made):
    assert [problem.code for problem in made.findings] == []
