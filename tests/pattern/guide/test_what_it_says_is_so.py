"""What the guide says of the language is so: figures reckoned anew, what may stand how often, kinds and names."""

import re
from math import atan2, degrees, hypot, sqrt

import pytest

from app.pattern.body import MEASURES, size_body
from app.pattern.drafting.forms import FORMS
from app.pattern.guide import first_skirt, reference, section_order
from app.pattern.guide.first_skirt import FIRST_SKIRT, TWENTY_LINES
from app.pattern.language import parse
from app.pattern.language.format import format_draft
from app.pattern.language.parse import SECTIONS
from app.pattern.make import DraftCard, read_draft
from tests.pattern.drafting.drawn import drawn

ENTRIES = {entry.key: entry for entry in reference()}
SLANT = hypot(24, 16)
LEAN = degrees(atan2(16, 24))

#: The hip (mm) of a body of size 92, of which only the waist is known.
LIKELY_HIP = 966.9 + 0.74 * 60.2 / 63.0 * (size_body("92")["waist_girth"] - 725.5)

#: What each measuring form and sum comes to by school geometry, on the guide's rectangle of 24 by 16 cm.
COMES_TO = {
    "length()": SLANT,
    "distance()": SLANT,
    "across()": 24,
    "drop()": 16,
    "intake()": 13 - 10,
    "angle()": LEAN,
    "arctan()": LEAN,
    "arccos()": LEAN,
    "arcsin()": LEAN,
    "full_turns()": 360 / 4,
    "hypot()": SLANT,
    "round_up()": 3.5,
    "sqrt()": sqrt(24 * 24 + 16 * 16),
    "add": 16 + 4,
    "subtract": 24 - 4,
    "multiply": 16 * 0.5,
    "divide": (24 + 6) / 3,
    "negative": -3,
    "min()": min(16 / 2, 9),
    "max()": max(16 / 10, 3),
    "abs()": abs(16 - 24),
    # Of a waist of 76 cm, by the survey's published means, deviations and correlation (Gordon et al., 1989), in mm.
    "likely()": LIKELY_HIP / 40,
    "width()": 2 * 24,
    "folded()": 4 * 24,
    "unit mm": 0.5,
    "unit cm": 4,
    "unit m": 10,
    "unit in": 3.5 * 2.54,
    "unit deg": 30,
    "unit degree sign": 30,
    "unit share": 20 / 100,
    "plain number": 1.5,
}

#: Which sides pattern work leaves how long (cm), on the same rectangle; a fold takes twice its depth, a box four times.
WORK_COMES_TO = {
    "spread": {"shoulder": 24 + 4, "hem": 24 + 4},
    "fan": {"hem": 24 + 5},
    "spread times": {"shoulder": 24 * 1.5, "hem": 24 * 1.5},
    "fan times": {"hem": 24 * 1.5},
    "pleat": {"shoulder": 24 + 2 * 2, "hem": 24 + 2 * 2},
    "box pleat": {"shoulder": 24 + 4 * 1.5, "hem": 24 + 4 * 1.5},
    "inverted pleat": {"shoulder": 24 + 4 * 1.5, "hem": 24 + 4 * 1.5},
    "tuck": {"shoulder": 24 + 2 * 0.5, "hem": 24 + 2 * 0.5},
    "tuck released": {"shoulder": 24 + 2 * 0.8, "hem": 24 + 2 * 0.8},
    "move out": {"side": 16 + 3, "centre": 16 + 3},
    "move in": {"side": 16 - 2, "centre": 16 - 2},
}


def figure(words):
    """The last figure of some words, in centimetres where it is a length."""
    number, unit = re.search(r"(-?\d+(?:\.\d+)?)\s?(cm|mm|°)?$", words).groups()
    return float(number) / (10 if unit == "mm" else 1)


def changed_sides(words):
    """What is told of each side that pattern work changed."""
    return dict(part.split(": ", 1) for part in words.split("; "))


# ---- figures


@pytest.mark.parametrize("key", COMES_TO)
def test_what_a_measuring_form_comes_to_is_right_by_school_geometry(key):
    shown = ENTRIES[key].comes_to
    assert figure(shown) == pytest.approx(COMES_TO[key], abs=0.051)
    name = re.split(r" is ", shown)[0]
    assert any(name.replace(" ", "_") in line or name in line for line in ENTRIES[key].lines)


def test_every_entry_that_comes_to_a_figure_is_reckoned_here_or_changes_a_shape():
    told = {key for key, entry in ENTRIES.items() if " is " in entry.comes_to}
    assert told == set(COMES_TO)


@pytest.mark.parametrize("key", WORK_COMES_TO)
def test_what_pattern_work_comes_to_is_right_by_school_geometry(key):
    changed = changed_sides(ENTRIES[key].comes_to)
    assert set(changed) == set(WORK_COMES_TO[key])
    for side, cm in WORK_COMES_TO[key].items():
        now = re.search(r"now ([\d.]+) cm", changed[side])[1]
        assert float(now) == pytest.approx(cm, abs=0.051)
        if "once folded" in changed[side]:
            assert "24 cm once folded" in changed[side]


def test_a_dart_that_was_pivoted_is_gone_and_as_deep_in_its_new_place():
    told = ENTRIES["pivot"].comes_to
    assert "side dart, across its mouth: gone, was 2 cm" in told
    assert "shoulder dart, across its mouth: new" in told


def test_both_halves_of_a_cut_shape_make_up_the_whole():
    left, right = (changed_sides(ENTRIES[key].comes_to) for key in ("cut left", "cut right"))
    for side in ("shoulder", "hem"):
        halves = [float(re.search(r"now ([\d.]+) cm", half[side])[1]) for half in (left, right)]
        assert sum(halves) == pytest.approx(24.0, abs=0.11)
    assert "style: new, 16 cm" in ENTRIES["cut left"].comes_to
    assert "style: new, 16 cm" in ENTRIES["cut right"].comes_to


# ---- how often a section may stand


TWICE = {
    "draft": 'draft "Two"\n',
    "for": "for men\n",
    "needs": "needs\n    waist_girth\n",
    "choices": 'choices\n    more = 1cm from 0cm to 2cm "More"\n',
    "fabrics": 'fabrics\n    lining "Lining" width 140cm\n',
    "notions": 'notions\n    thread "Thread" count 1\n',
    "figures": "figures\n    half = 1/2\n",
    "sheet": "sheet more\n    a = at 0, 0\n",
    "steps": "steps\n    ## Press\n    Press it.\n",
}


@pytest.mark.parametrize("guide", section_order(), ids=lambda guide: guide.word)
def test_a_section_may_stand_as_often_as_the_guide_says(guide):
    assert guide.often in ("once", "usually once", "as often as needed")
    if guide.word not in TWICE:
        assert guide.often == "as often as needed"
        return
    lines = TWICE[guide.word]
    start = "" if guide.word == "draft" else 'draft "One"\n'
    once = parse(start + lines, "t.draft").problems
    twice = parse(start + lines + lines.replace("more", "again").replace("lining", "satin"), "t.draft").problems
    assert once == ()
    assert bool(twice) == (guide.often == "once")


def test_the_sections_stand_in_the_guide_in_the_order_of_the_language():
    assert [guide.word for guide in section_order()] == list(SECTIONS)


def test_a_draft_written_in_another_order_is_read_all_the_same():
    """The guide calls it the order in which they are usually written."""
    rows = FIRST_SKIRT.split("\n\n")
    assert isinstance(read_draft(FIRST_SKIRT, "x.draft"), DraftCard)
    moved = "\n\n".join([rows[0], rows[2], rows[1], *rows[3:]])
    assert isinstance(read_draft(moved, "x.draft"), DraftCard)


# ---- forms


@pytest.mark.parametrize("key", [key for key in FORMS if key in ENTRIES])
def test_as_many_parts_are_told_as_a_form_takes(key):
    assert len(ENTRIES[key].parts) == len(FORMS[key].takes)
    for part, takes in zip(ENTRIES[key].parts, FORMS[key].takes, strict=True):
        assert part.endswith("if wanted") == takes.endswith("?")
        assert part.endswith("once or more often") == takes.endswith("*")


@pytest.mark.parametrize("entry", reference(), ids=lambda entry: entry.key)
def test_the_lines_shown_stand_in_the_whole_draft_that_was_run(entry):
    plain = " ".join(entry.text.split())
    for line in entry.lines:
        assert " ".join(line.split()) in plain
    assert format_draft(entry.text, "guide.draft") == entry.text


@pytest.mark.parametrize("entry", reference(), ids=lambda entry: entry.key)
def test_an_entry_says_something_in_a_sentence_and_shows_how_it_is_written(entry):
    assert entry.says.endswith(".")
    assert entry.says[0].isupper()
    assert entry.written.strip() == entry.written != ""


def test_an_example_with_a_word_left_out_is_told_and_not_taken_for_something_else():
    """Every word of a form counts: without one of them its example is no form, or gives another kind of thing."""
    taken = []
    for key, entry in ENTRIES.items():
        if key not in FORMS or not entry.lines or not re.match(r"^\w+ = \w+ \w+ of ", entry.lines[-1]):
            continue
        broken = entry.lines[-1].replace(" of ", " ", 1)
        if not parse(entry.text.replace(entry.lines[-1], broken), "t.draft").problems and broken in entry.text:
            taken.append(key)
    assert taken == []


# ---- the first skirt


def test_the_first_skirt_is_proof_that_twenty_lines_make_a_pattern():
    assert len([row for row in TWENTY_LINES.split("\n") if row.strip()]) <= 24
    assert FIRST_SKIRT.startswith(TWENTY_LINES.split("\n")[0])


def test_each_lesson_adds_lines_of_the_whole_draft():
    whole = " ".join(FIRST_SKIRT.split())
    for lesson in first_skirt():
        for line in lesson.lines:
            assert " ".join(line.split()) in whole or " ".join(line.split()) in " ".join(TWENTY_LINES.split())


def test_the_guide_asks_for_no_measurement_that_is_not_in_the_register():
    texts = [FIRST_SKIRT, TWENTY_LINES, *(entry.text for entry in reference())]
    for text in texts:
        card = read_draft(text, "guide.draft")
        if isinstance(card, DraftCard):
            assert set(card.needs) <= set(MEASURES)


# ---- what it says cannot be


@pytest.mark.parametrize(
    ("line", "code"),
    [
        ("x = 3cm + 4", "drafting.no-unit"),
        ("x = 3 4", "language.syntax"),
        ("x = waist_girth + 30deg", "drafting.sum"),
        ("x = at 3cm", "language.syntax"),
    ],
)
def test_a_line_without_sense_is_told_with_a_remedy(line, code):
    _, problems = drawn(line)
    assert problems
    assert problems[0].fix
    if code.startswith("drafting"):
        assert problems[0].code == code
