"""The commonest slips of the pen are told as what they are, and what is offered in their place can be read."""

from __future__ import annotations

import pytest

from app.pattern.drafting import compiled
from app.pattern.language import parse
from app.pattern.language.grammar import line_grammar
from app.pattern.language.slips import FORM_WORDS

SPACE = "No space stands before a unit."
COMMA = "A decimal comma stands here; a comma divides one part from the next."
INCHES = "Inches are written with “in”."
FRACTION = "Only inches are written with a fraction beside a number."
SMALL = "Names and words are written in small letters."
WORDS = "A name is one word; _ stands between its parts."
BRACKETS = "A form inside another stands in brackets."
DOTS = "Only one dot can stand in a name."
UNITS = "The units are cm, mm, in, m, deg and %; a name begins with a letter."
QUOTES = "These quotes are not read in a draft."


def no_sign(sign: str) -> str:
    return f"“{sign}” is no sign that a draft is written with."


def long_unit(short: str) -> str:
    return f"A unit is written in its short form: {short}."


def slip_of(text: str) -> tuple[str, str]:
    """The message and the remedy for the one line of a draft that cannot be read."""
    (problem,) = (p for p in parse(text, "t").problems if p.code == "language.unreadable")
    return problem.message, problem.fix


@pytest.mark.parametrize(
    ("line", "message", "fix"),
    [
        ("x = a down 4 cm", SPACE, "Write 4cm."),
        ("x = a down 65 cm left 3cm", SPACE, "Write 65cm."),
        ("x = a down 4 1/2 in", SPACE, "Write 4 1/2in."),
        ("x = 2 centimeters", long_unit("cm"), "Write 2cm."),
        ("x = 2inches", long_unit("in"), "Write 2in."),
        ("x = 4CM", long_unit("cm"), "Write 4cm."),
        ("x = curve a to b leaving 30 degrees arriving up", long_unit("deg"), "Write 30deg."),
        ("solve x from 3cm to 4 cm until length(a) = 3cm", SPACE, "Write 4cm."),
        (
            "x = a down 3cmm",
            "“cmm” is no unit.",
            "The units are cm, mm, in, m, deg and %; a name begins with a letter.",
        ),
        ("x = a down 1,5cm", COMMA, "Write 1.5cm."),
        ("x = a down 1,5 cm", COMMA, "Write 1.5cm."),
        ("r = 1,7", COMMA, "Write 1.7."),
        ("x = at 0,5 cm", SPACE, "Write 5cm."),
        ('x = a down 3/4"', INCHES, "Write 3/4in."),
        ('x = a down 4 1/2"', INCHES, "Write 4 1/2in."),
        ("x = a down 4 1/2″", INCHES, "Write 4 1/2in."),
        ("x = a down 4 1/2”", INCHES, "Write 4 1/2in."),
        ("x = a down 4 1/2", FRACTION, "Write 4.5, or 4 1/2in if they are inches."),
        ("x = a down 4 1/2cm", FRACTION, "Write 4.5cm."),
        ("x = a down 4½in", no_sign("½"), "Write 1/2 instead."),
        ("x = 4cm – 3cm", no_sign("–"), "Write - instead."),
        ("x = 4cm − 3cm", no_sign("−"), "Write - instead."),
        ("x = 4cm × 3", no_sign("×"), "Write * instead."),
        ("x = 4cm ÷ 3", no_sign("÷"), "Write / instead."),
        ("x = [4cm + a] / 3", no_sign("["), "Write ( instead."),
        ("x = 4cm x 3", "“x” is no sign: it would be a name.", "Write * for times."),
        ("x = 4cmx3", "“x” is no sign: it would be a name.", "Write * for times."),
        ("x = a\u00a0down 3cm", "A space of another kind stands here.", "Type a plain space."),
        ("Waist_centre = at 0, 0", SMALL, "Write waist_centre."),
        ("x = waistCentre up 3cm", SMALL, "Write waist_centre."),
        ("höhe = 3cm", "A name has the letters a to z only.", "Write hohe."),
        ("линия = 3cm", "A name has the letters a to z, figures and _ only.", "Choose a name of such letters."),
        ("dart-take = 3cm", WORDS, "Write dart_take."),
        ("yoke long = 3cm", WORDS, "Write yoke_long."),
        (
            "x = length(front.yoke.inner)",
            DOTS,
            "Name it in its own sheet first: yoke_inner = yoke.inner. Then write front.yoke_inner here.",
        ),
        (
            "x = along yoke.inner by 6cm from end of yoke.centre",
            BRACKETS,
            "Write: x = along yoke.inner by 6cm from (end of yoke.centre)",
        ),
        ("x = along line a to b by 6cm", BRACKETS, "Write: x = along (line a to b) by 6cm"),
        (
            "x = pleat block along line a to b, line c to d deep 3cm",
            BRACKETS,
            "Write: x = pleat block along (line a to b), (line c to d) deep 3cm",
        ),
        (
            "x = true inner of face block along neck deep 6cm",
            BRACKETS,
            "Write: x = true inner of (face block along neck deep 6cm)",
        ),
        (
            "x = between start of a and end of b at 1/2",
            BRACKETS,
            "Write: x = between (start of a) and (end of b) at 1/2",
        ),
        ("x = reach side from a up 3cm by 5cm", BRACKETS, "Write: x = reach side from (a up 3cm) by 5cm"),
        (
            "x = along line a to b by",
            BRACKETS,
            "Put it in brackets, as in: place = along (line nape to waist) by 6cm",
        ),
    ],
)
def test_a_slip_in_a_step_is_told_as_what_it_is(line, message, fix):
    assert slip_of(f'draft "T"\nsheet s\n    {line}\n') == (message, fix)


@pytest.mark.parametrize(
    ("text", "message", "fix"),
    [
        ("draft “Garden skirt”\n", QUOTES, 'Put a text between two straight ones: "Hem".'),
        ("draft „Garden skirt“\n", QUOTES, 'Put a text between two straight ones: "Hem".'),
        ('choices\n    seam = 3/4" from 1/2" to 1" "Seam"\n', INCHES, "Write 3/4in."),
        ('choices\n    long = 65cm from 45 cm to 90cm "Length"\n', SPACE, "Write 45cm."),
        ('choices\n    dart-take = 3cm from 1cm to 4cm "Take"\n', WORDS, "Write dart_take."),
        ('fabrics\n    main cloth "Main" width 140cm\n', WORDS, "Write main_cloth."),
        ("sheet front yoke\n", WORDS, "Write front_yoke."),
        ("girth full hip = 3cm\n", WORDS, "Write full_hip."),
        ('piece front "F" cut 2 main\n    allowance 1,5cm\n', COMMA, "Write 1.5cm."),
        (
            'piece front "F" cut 2 main\n    outline of cut block left of style\n',
            BRACKETS,
            "Write: outline of (cut block left of style)",
        ),
        ("sew a.b to c.d ease 1,5cm..2cm\n", COMMA, "Write 1.5cm."),
        ("steps\n    ## Sew\n    Stitch {length(a.b) − 1cm}.\n", no_sign("−"), "Write - instead."),
    ],
)
def test_a_slip_in_any_line_is_told_as_what_it_is(text, message, fix):
    assert slip_of(text) == (message, fix)


@pytest.mark.parametrize(
    "line",
    [
        'buttons "Buttons, 15 mm" cuont 5',
        'buttons "Buttons, 3/4"" count 5 x',
        'tape "Tape – 1,5 cm" lenght 3cm',
    ],
)
def test_what_stands_in_a_text_is_no_slip(line):
    message, _ = slip_of(f'draft "T"\nnotions\n    {line}\n')
    assert "cannot stand here" in message


def test_a_slip_is_marked_from_its_first_sign_to_its_last():
    (problem,) = parse('draft "T"\nsheet s\n    a = at 0,\n        65 cm\n', "t").problems
    assert (problem.where.line, problem.where.column, problem.where.end_column) == (4, 9, 14)


def test_a_name_of_two_words_is_offered_nowhere_glued_together():
    text = 'draft "T"\nchoices\n    dart-take = 3cm from 1cm to 4cm "Take"\nsheet s\n    yoke long = 3cm\n'
    problems = compiled(
        text + "    a = at 0, dart-take\n    b = a down yoke_long\n    c = a down yoke_lon\n", "t"
    ).problems
    assert [problem.where.line for problem in problems] == [3, 5, 8]
    assert problems[2].fix == "Did you mean “yoke_long”?"
    assert not any("darttake" in str(problem) for problem in problems)


def test_the_words_that_begin_a_form_are_those_of_the_grammar():
    rules = [rule for rule in line_grammar().rules if str(rule.alias or "").startswith("f_")]
    begun = {rule.expansion[0].name.lower() for rule in rules if rule.expansion[0].is_term}
    assert {word for word in begun if word.isalpha()} - {"minus"} | {"trace"} == FORM_WORDS
