"""Fit lines: a place where the garment touches the body, the measure under it, and what is read and told of them."""

from __future__ import annotations

import pytest

from app.pattern.body import likely, size_body
from app.pattern.language.format import format_draft
from app.pattern.make import Failed, Made, make_pattern, read_draft

TEXT = """draft "Square"
{whom}
needs
    {needs}
choices
    room = 3cm from 1cm to 9cm "Room"
    sleeved = yes "Sleeved"
fabrics
    main "Cloth" width 140cm
sheet flat
    a = at 0, 0
    b = a right {wide}
    low = line a to b
    side = line b to (b up 60cm)
    top = line (a up 60cm) to (b up 60cm)
    near = line a to (a up 60cm)
piece panel "Panel" cut 1 main
    outline low, side, top, near
    grain (a right 10cm up 5cm) to (a right 10cm up 50cm)
    allowance 1cm
girth round = length(panel.top)
{fit}
"""
ARMHOLE = 'fit armhole "Armhole" = length(panel.top) body armscye_girth ease room - 5mm..room + 5mm'
BODY = size_body("92")
ASKED = ("bust_girth", "upper_arm_girth")


def draft(fit: str = ARMHOLE, wide: str = "40cm", whom: str = "", needs: str = ", ".join(ASKED)) -> str:
    return TEXT.format(fit=fit, wide=wide, whom=whom, needs=needs)


def fits(text: str, body=BODY, **choices):
    made = make_pattern(text, "t.draft", body, choices)
    assert isinstance(made, Made | Failed), "\n".join(map(str, made.problems))
    return made.pattern.fits


def told(text: str) -> list[str]:
    return [problem.code for problem in read_draft(text, "t.draft").problems]


# ---- the line


def test_a_place_is_measured_over_the_body_within_the_ease_that_is_wanted():
    [armhole] = fits(draft(), room="4cm")
    assert (armhole.name, armhole.title, armhole.measure) == ("armhole", "Armhole", "armscye_girth")
    assert (armhole.measured, armhole.least, armhole.most) == pytest.approx((400.0, 35.0, 45.0))
    assert armhole.ease == pytest.approx(400.0 - BODY["armscye_girth"])
    assert armhole.span.line == draft().split("\n").index(ARMHOLE) + 1


def test_a_place_without_a_title_is_called_by_its_name():
    [place] = fits(draft("fit upper_arm = 40cm body upper_arm_girth ease 0cm..20cm"))
    assert place.title == "Upper arm"


def test_a_place_may_hang_on_a_choice():
    text = draft(f"{ARMHOLE} when sleeved")
    assert len(fits(text)) == 1 and fits(text, sleeved=False) == ()


def test_a_body_that_has_the_figure_is_told_by_it_and_another_by_what_is_likely():
    [taken] = fits(draft())
    [told] = fits(draft(), {name: BODY[name] for name in ASKED})
    expected = likely("women", ASKED, "armscye_girth")
    assert (taken.body, taken.spread) == (BODY["armscye_girth"], 0.0)
    assert (told.body, told.spread) == pytest.approx((expected.of(BODY), expected.spread(BODY)))


def test_a_man_is_told_by_men():
    body = {name: BODY[name] for name in ASKED}
    [woman], [man] = fits(draft(), body), fits(draft(whom="for men"), body)
    assert woman.body != man.body


def test_a_fit_line_is_laid_out_like_a_girth():
    laid = format_draft(draft("fit arm=40cm body upper_arm_girth ease 0cm..9cm when sleeved"), "t.draft")
    assert "\nfit arm = 40cm  body upper_arm_girth  ease 0cm..9cm  when sleeved\n" in laid


@pytest.mark.parametrize(
    ("line", "code"),
    [
        ("fit arm = 40cm body upper_arm ease 0cm..9cm", "drafting.unknown-measurement"),
        ("fit arm = 40cm body upper_arm_girth ease 0cm", "language.unreadable"),
        ("fit arm = 40cm ease 0cm..9cm", "language.unreadable"),
        ("fit arm = 40 body upper_arm_girth ease 0cm..9cm", "drafting.no-unit"),
        ("fit arm = panel.top body upper_arm_girth ease 0cm..9cm", "drafting.kind"),
        ("fit arm = 40cm body upper_arm_girth ease 1..2cm", "drafting.no-unit"),
        (f"{ARMHOLE}\n{ARMHOLE}", "drafting.name-twice"),
        (f"{ARMHOLE} when room", "drafting.kind"),
    ],
)
def test_a_line_with_a_slip_is_told_once(line, code):
    assert told(draft(line)) == [code]


def test_a_misspelt_measure_is_offered_the_right_one():
    [problem] = read_draft(draft("fit arm = 40cm body armscye_girt ease 0cm..9cm"), "t.draft").problems
    assert "armscye_girth" in problem.fix


# ---- likely()


def test_a_likely_measure_is_drawn_alike_whether_or_not_the_body_has_it():
    text = draft(wide="likely(armscye_girth) + 3cm")
    expected = likely("women", ASKED, "armscye_girth").of(BODY) + 30.0
    for body in (BODY, {name: BODY[name] for name in ASKED}):
        assert fits(text, body)[0].measured == pytest.approx(expected)


def test_a_measure_that_is_asked_is_likely_itself():
    text = draft(wide="likely(armscye_girth) + 3cm", needs="armscye_girth")
    assert fits(text)[0].ease == pytest.approx(30.0)


@pytest.mark.parametrize(
    ("wide", "code"),
    [
        ("likely(armhole)", "drafting.unknown-measurement"),
        ("likely(3cm)", "drafting.unknown-measurement"),
        ("likely(bust_girth, hip_girth)", "drafting.parts"),
        ("likely(hip_girth) + 2", "drafting.no-unit"),
    ],
)
def test_a_likely_measure_with_a_slip_is_told_once(wide, code):
    assert told(draft(wide=wide)) == [code]


def test_a_childs_measure_is_told_by_its_stature_or_must_be_asked():
    child = "for children from 104cm to 134cm"
    assert told(draft(whom=child)) == ["drafting.untold"]
    assert told(draft(whom=child, wide="likely(hip_girth)", fit="")) == ["drafting.untold"]
    for needs in ("stature, bust_girth", "armscye_girth"):
        assert fits(draft(whom=child, needs=needs), {**BODY, "stature": 1200.0})
