"""Steps, pieces, notions and buttons: what is cut, sewn or bought and never spoken of is heard."""

from __future__ import annotations

import pytest

from app.pattern.checks.making import notion_nouns
from app.pattern.make import Made, make_pattern
from app.pattern.pieces.model import Notion
from tests.pattern.checks.mutations import BODY, TEXT

SEAM, WORK = "checks.seam-unsaid", "checks.work-unsaid"
UNNAMED, UNUSED, LACKING, BUTTONS = (
    "checks.piece-unnamed",
    "checks.notion-unused",
    "checks.notion-lacking",
    "checks.buttons",
)
STEPS = TEXT[TEXT.index("steps\n") :]
NOTIONS = TEXT[TEXT.index("notions\n") : TEXT.index("figures\n")]
SEWN = "Put the zip in. Sew the ribbon to the neck, turn it in and edgestitch. Draw elastic through the sleeves."


def found(steps="", notions="", front=""):
    text = TEXT.replace(STEPS, f"steps\n    ## 1\n    {steps}\n") if steps else TEXT
    text = text.replace(NOTIONS, f"{NOTIONS.rstrip()}\n    {notions}\n\n") if notions else text
    text = text.replace('mark place placket "Placket"', f'mark place placket "Placket"\n    {front}') if front else text
    made = make_pattern(text, "whole.draft", BODY, {})
    assert isinstance(made, Made), "\n".join(map(str, made.problems))
    return made.findings


def codes(**more):
    return [problem.code for problem in found(**more)]


FULL = (
    "Stitch the darts. Sew shoulders and sides. Close the sleeve seams and set the sleeves in. "
    f"Gather the frill, join its ends, sew it to the back. Hem everything. {SEWN}"
)


def test_steps_in_plain_words_without_a_picture_are_understood():
    assert codes(steps=FULL) == []


@pytest.mark.parametrize(
    ("less", "instead", "code"),
    [
        ("Stitch the darts. ", "", WORK),
        ("shoulders and sides", "shoulders", SEAM),
        ("shoulders and sides", "sides", SEAM),
        ("Gather the frill, join its ends, sew it to the back. ", "", UNNAMED),
        ("Sew the ribbon to the neck, t", "T", UNUSED),
        ("Put the zip in. ", "", UNUSED),
        ("Draw elastic through the sleeves.", "", UNUSED),
        ("Hem everything. ", "", "checks.finish-unsaid"),
    ],
)
def test_what_the_steps_leave_out_is_heard(less, instead, code):
    assert FULL.count(less) == 1
    assert code in codes(steps=FULL.replace(less, instead))


@pytest.mark.parametrize(
    ("words", "heard"),
    [
        ("Press the seams, without a zip foot.", False),
        ("Use a zigzag stitch.", False),
        ("Use an elastic stitch and a zip foot.", False),
        ("Sew on the buttons.", True),
        ("Work a buttonhole.", False),
        ("Sew a hook and eye above the zip.", True),
        ("Close it with press studs.", True),
        ("Set the eyelets.", True),
        ("There is no button to it.", False),
    ],
)
def test_what_the_steps_use_must_be_bought(words, heard):
    assert codes(steps=f"{FULL} {words}") == ([LACKING] if heard else [])


def test_a_step_that_uses_what_nobody_buys_is_pointed_at():
    (problem,) = found(steps=f"{FULL} Sew on the buttons.")
    assert problem.where.point == "buttons"
    assert problem.related[0].message == "the step"


@pytest.mark.parametrize(
    ("notion", "words", "heard"),
    [
        ('snap "Press fastener, 8 mm" count 1', "Sew on the snap.", False),
        ('snap "Press fastener, 8 mm" count 1', "Press the seams.", True),
        ('hook "Trouser hook and bar" count 1', "Sew on the bar.", False),
        ('bias "Bias binding, 12 mm finished" length 2m', "Bind the slit.", False),
        ('pads "Shoulder pads, a pair" count 1', "Tack in the pads.", False),
        ('pads "Shoulder pads, a pair" count 1', "Press it.", True),
        ('needle "Stretch machine needle" count 1', "Press it.", False),
        ('tape "Cotton tape for the neck, 6 mm" length 1m', "Stay the neck.", False),
    ],
)
def test_what_is_bought_is_used_in_a_step_in_one_word_or_another(notion, words, heard):
    assert codes(steps=f"{FULL} {words}", notions=notion) == ([UNUSED] if heard else [])


@pytest.mark.parametrize(
    ("title", "nouns"),
    [
        ("Concealed zip, at least this long", ("zip",)),
        ("Trouser hook and bar", ("hook", "bar")),
        ("Shirt buttons, 11 mm", ("button",)),
        ("Stay tape or clear elastic for the shoulders, 6 mm", ("tape", "elastic")),
        ("Elastic, 2 cm wide", ("elastic",)),
    ],
)
def test_the_nouns_of_what_is_bought(title, nouns):
    assert notion_nouns(Notion("x", title)) == nouns


BUTTON = 'buttons "Buttons, 11 mm" count 2'


@pytest.mark.parametrize(
    ("notion", "marks", "words", "heard"),
    [
        (
            BUTTON,
            "mark buttonhole (at 5cm, -12cm) repeated 2 times down 4cm",
            "Work the holes and sew on the buttons.",
            False,
        ),
        (BUTTON, "", "Sew on the buttons.", True),
        (BUTTON, "", "Sew on the buttons and work a loop for each.", False),
        (
            BUTTON,
            "mark button (at 5cm, -12cm) repeated 5 times down 4cm",
            "Work buttonholes, sew on the buttons.",
            True,
        ),
        ("", "mark button (at 5cm, -12cm)", "Close it at the neck.", True),
    ],
)
def test_buttons_buttonholes_and_what_is_bought_agree(notion, marks, words, heard):
    assert (BUTTONS in codes(steps=f"{FULL} {words}", notions=notion, front=marks)) is heard


def test_a_piece_that_no_step_names_is_heard_and_one_whose_seam_is_shown_is_not():
    tab = (
        "sheet tab\n    a = at 0, 0\n    low = line a to (a right 9cm)\n"
        "    far = line (a right 9cm) to (a right 9cm up 9cm)\n"
        "    top = line (a right 9cm up 9cm) to (a up 9cm)\n    near = line (a up 9cm) to a\n\n"
        'piece tab "Hanging tab" from tab cut 2 main\n    outline low, far, top, near\n'
        "    grain (a right 4cm up 1cm) to (a right 4cm up 8cm)\n    allowance 1cm\n    finish low caught\n"
        '    finish far, top, near closed\n\npiece front "Front"'
    )
    text = TEXT.replace('piece front "Front"', tab)
    made = make_pattern(text, "whole.draft", BODY, {})
    assert [(p.code, p.where.piece) for p in made.findings] == [(UNNAMED, "tab")]
    named = text.replace("## Finish\n    ", "## Finish\n    Stitch the tabs together and catch them in the neck. ")
    assert make_pattern(named, "whole.draft", BODY, {}).findings == ()


def test_steps_that_are_not_english_are_not_judged():
    german = "Abnaeher schliessen, Seiten und Schultern steppen, Saum umschlagen."
    assert not {SEAM, WORK, UNNAMED, UNUSED, LACKING} & set(codes(steps=german))
