"""Playing a drawing back: what stood on the sheet at each line."""

from __future__ import annotations

import pytest

from app.pattern.body import size_body
from app.pattern.drafting import choose, compile_draft, draw_sheets
from app.pattern.drafting.playback import drawing_lines, frame_at, frames_of
from app.pattern.geometry import Point
from app.pattern.language import parse
from tests.places import DRAFT_FILES

TEXT = """draft "T"
sheet one
    a = at 0, 0
    b = a right 10cm
    low = line a to b
    solve h from 1cm to 9cm until length(rise) = 5cm
        top = b up h
        rise = line b to top
    wide = 2 * length(low)
    repeat i from 1 to 3
        rung = a up i * 1cm
    d = dart a to top to b pressed left
sheet two
    c = at 1cm, 1cm
"""


def played(text: str, body=None):
    parsed = parse(text, "t.draft")
    assert not parsed.problems
    program = compile_draft(parsed.draft, parsed.source)
    assert not program.problems
    return draw_sheets(program, body or {}, choose(program.choices, {})), program


@pytest.fixture(scope="module")
def drawn():
    env, program = played(TEXT)
    assert not env.problems
    return env, program


def names(things):
    return [thing.name for thing in things]


def test_a_frame_holds_what_was_drawn_up_to_its_line_the_newest_first(drawn):
    frame = frame_at(*drawn, 5)
    assert names(frame.things) == ["low", "a", "b"]
    assert [thing.newest for thing in frame.things] == [True, False, False]
    assert (frame.sheet, frame.line, frame.words) == ("one", 5, "low = line a to b")
    assert names(frame.points) == ["a", "b"]
    assert names(frame.paths) == ["low"]


def test_a_solve_shows_only_what_it_settled_on(drawn):
    frame = frame_at(*drawn, 8)
    (top,) = [p for p in frame.points if p.name == "top"]
    assert top.what.distance(Point(100.0, 50.0)) < 1e-3
    assert names(frame.things).count("top") == 1


def test_a_line_that_measures_gives_its_measure_and_draws_nothing_new(drawn):
    frame = frame_at(*drawn, 9)
    assert frame.measures == (("wide", pytest.approx(200.0)),)
    assert not any(thing.newest for thing in frame.things)


def test_a_repeated_line_shows_all_its_rounds_while_it_is_the_newest(drawn):
    rungs = [p.what.y for p in frame_at(*drawn, 11).points if p.name == "rung"]
    assert rungs == [10.0, 20.0, 30.0]
    assert len([p for p in frame_at(*drawn, 12).points if p.name == "rung"]) == 1


def test_darts_are_kept_apart(drawn):
    frame = frame_at(*drawn, 12)
    assert names(frame.darts) == ["d"]
    assert frame.darts[0].newest


def test_a_line_between_steps_shows_the_sheet_as_the_step_before_left_it(drawn):
    assert frame_at(*drawn, 10).line == 9
    assert frame_at(*drawn, 13).sheet == "two"
    assert frame_at(*drawn, 14).words == "c = at 1cm, 1cm"
    assert names(frame_at(*drawn, 9_999).things) == ["c"]


def test_a_line_before_the_first_sheet_gives_it_empty(drawn):
    frame = frame_at(*drawn, 1)
    assert (frame.sheet, frame.things) == ("one", ())


def test_frames_of_a_sheet_follow_its_lines(drawn):
    env, program = drawn
    frames = frames_of(env, program, "one")
    assert [frame.line for frame in frames] == list(drawing_lines(env, "one"))
    assert len(frames[-1].things) > len(frames[0].things)


def test_a_drawing_that_stopped_is_played_as_far_as_it_came():
    env, program = played('draft "T"\nsheet s\n    a = at 0, 0\n    b = a toward a by 1cm\n    c = a down 1cm\n')
    assert env.problems
    assert names(frame_at(env, program, 5).things) == ["a"]


@pytest.mark.parametrize("path", DRAFT_FILES, ids=lambda p: p.stem)
def test_every_line_of_the_catalogue_has_its_frame(path):
    text = path.read_text("utf-8")
    body = {**size_body("92")}
    parsed = parse(text, path.name)
    program = compile_draft(parsed.draft, parsed.source)
    for need in program.draft.needs:
        body.setdefault(need.name, 300.0)
    env = draw_sheets(program, body, choose(program.choices, {}))
    for sheet in program.draft.sheets:
        for frame in frames_of(env, program, sheet.name):
            assert frame.words in text
            assert frame.measures or any(thing.newest for thing in frame.things) or "=" in frame.words


WORKED = """draft "T"
sheet one
    a     = at 0, 0
    b     = a right 40cm
    c     = b up 30cm
    d     = a up 30cm
    low   = line a to b
    right = line b to c
    top   = line c to d
    left  = line d to a
    whole = trace low, right, top, left
    repeat k from 1 to 2
        slash = line (a right k * 12cm) to (d right k * 12cm)
        whole = spread whole along slash by 2cm
    lower = move low of (move right of whole in by 4cm) out by 5cm
    same  = whole
"""


def changes_at(line):
    env, program = played(WORKED)
    found = frame_at(env, program, line).changes
    return [
        (c.name, None if c.before is None else round(c.before), None if c.after is None else round(c.after))
        for c in found
    ]


def test_a_frame_tells_what_the_work_of_its_line_changed_each_time_it_was_done():
    assert sorted(changes_at(14)) == [("low", 400, 420), ("low", 420, 440), ("top", 400, 420), ("top", 420, 440)]


def test_work_within_work_is_told_and_lines_that_do_none_tell_nothing():
    assert sorted(changes_at(15)) == [("left", 300, 350), ("low", 440, 400), ("right", 300, 350), ("top", 440, 400)]
    assert changes_at(11) == []
    assert changes_at(16) == []
