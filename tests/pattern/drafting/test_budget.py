"""What one draft may cost: far more than any garment needs, told with its line where it is more."""

import pytest

from app.pattern.body.populations_standard import standard_bodies
from app.pattern.drafting import compiled, draw_sheets
from app.pattern.drafting.choices import choose
from app.pattern.drafting.env import MOST_WORK
from app.pattern.geometry import Point, TooMuchWork, WorkLimit, counted, crossings, offset, smooth
from app.pattern.language import parse
from app.pattern.language.budget import BUDGET
from app.pattern.language.lines import LIMITS
from app.pattern.pieces.assemble import assemble
from app.pattern.units import Unit
from tests.places import DRAFT_FILES


def worked(path):
    """A shipped draft's environment once it is drawn and cut for a size of its chart with its choices as offered."""
    program = compiled(path.read_text("utf-8"), path.name)
    bodies = standard_bodies(program.draft.group, 0, statures=program.statures)
    body = next(body for body in bodies if body.kind == "size").body
    env = draw_sheets(program, body, choose(program.choices, {}))
    assert env.problems == ()
    assemble(program, env, Unit.CM)
    return env


@pytest.mark.parametrize("path", DRAFT_FILES, ids=lambda path: path.stem)
def test_a_shipped_draft_costs_a_tenth_or_so_of_what_it_may(path):
    text = path.read_text("utf-8")
    assert 0 < worked(path).work.spent < MOST_WORK / 10
    assert len(text) < LIMITS.characters / 10
    assert text.count("\n") < LIMITS.lines / 8


@pytest.mark.parametrize("path", DRAFT_FILES, ids=lambda path: path.stem)
def test_a_shipped_draft_holds_less_than_a_third_of_what_it_may(path):
    draft = parse(path.read_text("utf-8"), path.name).draft
    held = {kind.called: len(kind.find(draft)) / kind.most for kind in BUDGET}
    assert max(held.values()) < 1 / 3, held


@pytest.mark.parametrize("kind", BUDGET, ids=lambda kind: kind.called)
def test_too_many_of_a_kind_are_told_with_their_number_the_most_and_a_remedy(kind):
    (problem,) = parse(holding(kind.called, kind.most + 1), "t.draft").problems
    assert problem.code == "language.too-many"
    assert problem.message == f"The draft has {kind.most + 1:,} {kind.called}; {kind.most:,} are the most."
    assert problem.fix == kind.remedy
    assert problem.where.line > 1
    assert [p.code for p in parse(holding(kind.called, kind.most), "t.draft").problems] == []


PIECE = 'piece p{} "P" cut 1 main\n    outline low, side\n    grain along low\n    allowance 1cm\n'


def holding(called, count):
    """A text that holds so many things of a kind."""
    numbers = range(count)

    def lines(word, form):
        return f'draft "T"\n{word}\n' + "".join(f"    {form.format(n)}\n" for n in numbers)

    def under(form, per_piece):
        pieces = [range(start, min(start + per_piece, count)) for start in range(0, count, per_piece)]
        return 'draft "T"\n' + "".join(
            PIECE.format(at) + "".join(f"    {form.format(n)}\n" for n in some) for at, some in enumerate(pieces)
        )

    return {
        "measurements": lambda: lines("needs", "m{}"),
        "choices": lambda: lines("choices", 'c{} = 1cm from 0cm to 2cm "C"'),
        "fabrics": lambda: lines("fabrics", 'f{} "F"'),
        "notions": lambda: lines("notions", 'n{} "N"'),
        "sheets": lambda: 'draft "T"\n' + "".join(f"sheet s{n}\n    a = at 0, 0\n" for n in numbers),
        "pieces": lambda: 'draft "T"\n' + "".join(PIECE.format(n) for n in numbers),
        "cuts of pieces": lambda: 'draft "T"\n' + PIECE.format("").replace("cut 1 main", cuts(numbers)),
        "edges": lambda: (
            'draft "T"\n' + PIECE.format("").replace("low, side", ",\n        ".join(f"e{n}" for n in numbers))
        ),
        "edges finished": lambda: under("finish low hemmed", 100),
        "notches": lambda: under("notch low at {}mm", 100),
        "marks": lambda: under("mark place low", 100),
        "notes on pieces": lambda: under('note "Here"', 100),
        "seams": lambda: 'draft "T"\n' + "sew p.low to q.low\n" * count,
        "edges in seams": lambda: 'draft "T"\n' + runs(count),
        "notches in seams": lambda: 'draft "T"\n' + notched(count),
        "girths": lambda: 'draft "T"\n' + "".join(f'girth g{n} "G" = 1cm\n' for n in numbers),
        "fit lines": lambda: 'draft "T"\n' + "".join(f"fit f{n} = 1cm body hip_girth ease 0cm..1cm\n" for n in numbers),
        "steps of the making": lambda: 'draft "T"\nsteps\n' + "    ## Sew\n    It.\n" * count,
        "pictures of seams": lambda: 'draft "T"\nsteps\n    ## Sew\n' + "    {seam p.low}\n" * count,
    }[called]()


def cuts(numbers):
    return ",\n        ".join("cut 1 main" for _ in numbers)


def runs(count):
    """Seams with so many edges, ten in each and what is over in the last."""
    full, over = divmod(count, 10)
    seam = "sew " + ", ".join(["p.low"] * 5) + " to " + ", ".join(["q.low"] * 5) + "\n"
    last = "sew " + ", ".join(["p.low"] * (9 + over)) + " to q.low\n"
    return seam * (full - 1) + last


def notched(count):
    full, over = divmod(count, 10)
    return ("sew p.low to q.low" + " notch at 1cm" * 10 + "\n") * full + ("sew p.low to q.low notch at 1cm\n" * over)


# ---- the count


def zigzag(count, high=200.0):
    return smooth([Point(i * 3.0, i * 37 % high) for i in range(count)], None, None)


def test_the_same_work_counts_the_same_each_time():
    spent = []
    for _ in range(2):
        limit = WorkLimit(10**9)
        with counted(limit):
            crossings(zigzag(20), zigzag(20, 150.0))
        spent.append(limit.spent)
    assert spent[0] == spent[1] > 0


def test_work_inside_one_form_is_ended_too():
    with pytest.raises(TooMuchWork), counted(WorkLimit(20_000)):
        offset(zigzag(100), 10.0)


def test_nothing_is_counted_where_nobody_counts():
    limit = WorkLimit(5)
    with counted(limit):
        pass
    crossings(zigzag(20), zigzag(20, 150.0))
    assert limit.spent == 0
