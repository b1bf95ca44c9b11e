"""A side that pattern work cut in two keeps its name where one part alone is left, and answers to both names."""

from __future__ import annotations

import pytest

from app.pattern.body import size_body
from app.pattern.make import Made, make_pattern
from app.pattern.names import part_named
from app.pattern.units import Unit
from tests.pattern.drafting.test_shapes import work

TURNED = "turned = pivot bust_dart of block to (middle of d and c) as second\n"
DRAFT = """\
draft "Parts"
needs
    hip_girth
fabrics
    main "Cloth" width 140cm
sheet flat
    a = at 0, 0
    b = at 20cm, 0cm
    c = at 20cm, 30cm
    d = at 0cm, 30cm
    low = line a to b
    far_1 = line b to (at 20cm, 14cm)
    far_2 = line (at 20cm, 16cm) to c
    top = line c to d
    near = line d to a
    wedge = dart (at 20cm, 14cm) to (at 10cm, 15cm) to (at 20cm, 16cm) pressed down
    block = trace low, far_1, wedge, far_2, top, near
    turned = pivot wedge of block to (middle of c and d) as second
    left_over = cut turned left of (line (at 10cm, 15cm) to (at 0, 15cm)) as seam
piece panel "Panel" from flat cut 2 main
    outline of left_over
    grain (at 2cm, 2cm) to (at 2cm, 12cm)
    allowance 1cm, NAME 2cm
    notch NAME at 2cm
    finish near neatened
sew panel.NAME to panel.NAME
steps
    ## Sew
    Stitch {length(panel.NAME)}.
"""


@pytest.mark.parametrize(
    ("wanted", "names", "meant"),
    [
        ("side", ("side", "hem"), "side"),
        ("side", ("side_2", "hem"), "side_2"),
        ("side_2", ("side", "hem"), "side"),
        ("side_1", ("side_2", "hem"), None),
        ("side", ("side_1", "side_2"), None),
        ("side_3", ("side", "side_1"), None),
        ("side_front", ("side", "hem"), None),
    ],
)
def test_a_lone_part_is_found_by_the_sides_name_and_a_whole_side_by_a_parts(wanted, names, meant):
    assert part_named(wanted, names) == meant


def test_a_side_at_whose_end_a_dart_opens_keeps_its_name():
    names = [item.name for item in work("result = pivot bust_dart of block to d as second").items]
    assert "top" in names or "centre" in names
    assert not any(name.startswith(("top_", "centre_")) for name in names)


def test_a_part_left_alone_by_a_cut_is_the_whole_side_again():
    both = [item.name for item in work(TURNED + "result = turned").items]
    assert {"top_1", "top_2"} <= set(both)
    left = work(f"{TURNED}result = cut turned right of (line (middle of d and c) to (at 10cm, 0cm)) as style")
    names = [item.name for item in left.items]
    assert "top" in names
    assert left.side("top_1") is left.side("top") or left.side("top_2") is left.side("top")


@pytest.mark.parametrize("name", ["top", "top_1"])
def test_a_piece_may_call_it_by_either_name(name):
    made = make_pattern(DRAFT.replace("NAME", name), "parts.draft", size_body("92"), {}, Unit.CM)
    problems = made.findings if isinstance(made, Made) else made.problems
    assert isinstance(made, Made), problems
    piece = made.pattern.piece("panel")
    edge = next(edge for edge in piece.edges if edge.name.startswith("top"))
    assert edge.allowance.width == 20.0
    assert piece.notches[0].edge == edge.name
    assert made.pattern.seams[0].a[0].edge == edge.name
