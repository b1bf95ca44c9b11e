"""The three lines of a pleat on the piece: each is a fold line that says what the maker does there."""

from app.pattern.body import size_body
from app.pattern.make import Made, make_pattern
from app.pattern.pieces.measure import edge_length
from app.pattern.pieces.model import MarkKind

TEXT = """draft "Strip"
needs
    waist_girth
fabrics
    main "Cloth" width 140cm
sheet flat
    a = at 0, 0
    b = a right 40cm
    low = line a to b
    side = line b to (b up 60cm)
    top = line (b up 60cm) to (a up 60cm)
    near = line (a up 60cm) to a
    strip = trace low, side, top, near
    repeat k from 1 to 2
        strip = pleat strip along (line (b left k * 10cm) to (b left k * 10cm up 60cm)) deep 3cm
piece panel "Panel" cut 2 main
    outline of strip
    grain (a right 5cm up 5cm) to (a right 5cm up 40cm)
    allowance 1cm
"""


def panel():
    made = make_pattern(TEXT, "t.draft", size_body("92"), {})
    assert isinstance(made, Made), "\n".join(map(str, made.problems))
    return made.pattern.piece("panel")


def test_every_pleat_has_its_edge_its_turn_and_its_place():
    marks = [mark for mark in panel().marks if mark.kind is MarkKind.FOLD]
    assert sorted(mark.label for mark in marks) == ["Edge lies here"] * 2 + ["Pleat edge"] * 2 + ["Turns under"] * 2


def test_the_lines_of_a_pleat_lie_its_depth_apart_on_the_grain():
    marks = {mark.label: mark.path.start.x for mark in panel().marks[:3]}
    assert marks["Turns under"] - marks["Pleat edge"] == 30.0
    assert marks["Edge lies here"] - marks["Turns under"] == 30.0


def test_a_pleated_edge_is_sewn_as_long_as_it_lies_folded():
    piece = panel()
    assert piece.edge("low").path.length == 520.0
    assert edge_length(piece, "low") == 400.0
