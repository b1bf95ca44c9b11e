"""The words of the instruction sheet: cloth, lays, allowances, clips and cautions, each as a maker would say it."""

from dataclasses import replace
from math import pi

import pytest

from app.packs.instructions import InstructionSheet, SheetFor, instruction_html, instruction_sheet
from app.pattern.geometry import Point, arc_centre
from app.pattern.lay import LayPlan
from app.pattern.make import Choice, Made
from app.pattern.pieces.model import Allowance, Edge, EdgeRun, Notion, Seam, StepText
from app.pattern.units import Unit

TO = SheetFor("Fernhill skirt", "Imke Falk", "Hollow Lane Studio", "TL-0042", Unit.CM, "a4")


def sheet_of(made: Made, lays: dict[str, LayPlan] | None = None, to: SheetFor = TO) -> InstructionSheet:
    return instruction_sheet(made, lays or {}, to)


def with_curved_seam(made: Made, turn: float) -> Made:
    """The skirt with one seam alone: its waistband's edge bent into an arc of 8 cm radius, sewn to itself."""
    start = 0.0 if turn > 0 else pi
    edge = Edge("curve", arc_centre(Point(0.0, 0.0), 80.0, start, start + turn), Allowance(10.0))
    band = replace(made.pattern.piece("band"), edges=(edge,), notches=())
    run = EdgeRun("band", "curve")
    step = StepText("Sew the curve", "Sew it.", seams=(0,))
    pattern = replace(made.pattern, pieces=(band,), seams=(Seam((run,), (run,)),), steps=(step,))
    return replace(made, pattern=pattern)


def relaid(lays: dict[str, LayPlan], **changes: bool) -> dict[str, LayPlan]:
    return {"main": replace(lays["main"], cloth=replace(lays["main"].cloth, **changes))}


def test_a_lay_says_how_much_cloth_it_takes_and_how_the_cloth_lies(skirt, lays):
    (lay,) = sheet_of(skirt, relaid(lays, folded=True)).lays
    assert "of cloth 140 cm wide, folded along its length, and use " in lay.caption
    (lay,) = sheet_of(skirt, relaid(lays, folded=False)).lays
    assert "140 cm wide, laid open, and use " in lay.caption


def test_a_one_way_cloth_is_said_to_be_one(skirt, lays):
    sheet = sheet_of(skirt, relaid(lays, one_way=True))
    assert "folded along its length, all pieces one way, and use " in sheet.lays[0].caption
    assert "all pieces one way" in sheet.cloths[0].how


def test_shrinkage_is_named_only_where_there_is_any(skirt, lays):
    sheet = sheet_of(skirt, lays)
    assert "shrinking" in sheet.cloths[0].how
    assert "shrinking" not in sheet.cloths[1].how


def test_a_cloth_without_a_lay_is_not_on_the_shopping_list(skirt, lays):
    assert [cloth.title for cloth in sheet_of(skirt, {"main": lays["main"]}).cloths] == ["Skirt cloth"]


def test_allowances_are_said_once_and_then_where_they_differ(skirt):
    sheet = sheet_of(skirt)
    assert sheet.usual_allowance in {"1 cm", "1.5 cm"}
    hem = next(row for row in sheet.allowances if row.value == "3 cm")
    assert "Side gore (hem)" in hem.title
    assert "except these:" in instruction_html(sheet)


def test_an_edge_without_allowance_is_said_to_have_none(skirt):
    side = skirt.pattern.piece("side")
    bare = replace(
        side, edges=tuple(replace(e, allowance=Allowance(0.0)) if e.name == "hem" else e for e in side.edges)
    )
    pieces = tuple(bare if piece.name == "side" else piece for piece in skirt.pattern.pieces)
    sheet = sheet_of(replace(skirt, pattern=replace(skirt.pattern, pieces=pieces)))
    assert ("None", "Side gore (hem)") in [(row.value, row.title) for row in sheet.allowances]


def test_an_inward_curve_is_clipped_in_the_customers_unit(skirt):
    (aside,) = sheet_of(with_curved_seam(skirt, -pi / 2)).steps[0].asides
    assert aside == (
        "Waistband (curve): where the edge bends inward, clip into the allowance every 1 cm, so that it spreads. "
        "Stop 3 mm short of the stitching."
    )
    inches = replace(TO, unit=Unit.INCH)
    (aside,) = sheet_of(with_curved_seam(skirt, -pi / 2), to=inches).steps[0].asides
    assert "every 3/8 in" in aside
    assert "Stop 1/8 in short" in aside


def test_an_outward_curve_is_notched(skirt):
    (aside,) = sheet_of(with_curved_seam(skirt, pi / 2)).steps[0].asides
    assert "bends outward, notch the allowance" in aside
    assert "lies flat" in aside


def test_a_sleeves_armhole_is_clipped_only_where_it_is_tightest(blouse):
    asides = [aside for step in sheet_of(blouse).steps for aside in step.asides]
    (armhole,) = [aside for aside in asides if "armhole" in aside]
    assert "bends inward most tightly" in armhole


def test_a_number_is_shown_without_a_unit(skirt):
    card = replace(skirt.card, choices=(Choice("rows", "Rows of shirring", "number", 7.0),))
    sheet = sheet_of(replace(skirt, card=card, choices={"rows": 7.0}))
    assert [(figure.title, figure.value) for figure in sheet.choices] == [("Rows of shirring", "7")]


def test_a_measurement_that_the_draft_does_not_need_is_left_out(skirt):
    sheet = sheet_of(replace(skirt, body={**skirt.body, "bust_girth": 960.0}))
    assert "Bust girth" not in [figure.title for figure in sheet.measurements]


def test_a_cover_with_many_figures_gets_a_smaller_picture(skirt):
    assert not sheet_of(skirt).crowded
    choices = tuple(Choice(f"c{n}", f"Choice {n}", "yesno", True) for n in range(12))
    full = replace(skirt, card=replace(skirt.card, choices=choices), choices={c.name: True for c in choices})
    assert sheet_of(full).crowded
    assert "cover crowded" in instruction_html(sheet_of(full))


def test_more_than_six_pieces_stand_four_in_a_row(skirt):
    html = instruction_html(sheet_of(skirt))
    assert 'class="cards"' in html
    pieces = tuple(replace(skirt.pattern.piece("side"), name=f"p{n}") for n in range(7))
    bare = replace(skirt.pattern, pieces=pieces, seams=(), steps=())
    assert 'class="cards many"' in instruction_html(sheet_of(replace(skirt, pattern=bare)))


def test_a_picture_much_wider_than_high_gets_the_room_of_two(skirt):
    band = EdgeRun("band", "attach")
    alone = replace(skirt.pattern, seams=(Seam((band,), (band,)),), steps=(StepText("Band", "Sew.", seams=(0,)),))
    (wide,) = sheet_of(replace(skirt, pattern=alone)).steps[0].pictures
    assert wide.wide
    (high,) = sheet_of(skirt).steps[1].pictures
    assert not high.wide


@pytest.mark.parametrize(
    ("notion", "topic"),
    [(Notion("cord", "Cotton drawstring", length=900.0), "Cords and ties on children"), (None, "Iron")],
)
def test_cautions_reach_the_page(skirt, notion, topic):
    pattern = replace(skirt.pattern, notions=(notion,) if notion else ())
    html = instruction_html(sheet_of(replace(skirt, pattern=pattern)))
    assert f"<strong>{topic}.</strong>" in html
    assert "licensed or qualified person" in html


def test_lists_in_a_step_are_set_as_lists(skirt):
    step = StepText("Finish", "Do:\n\n- press\n- hang\n")
    html = instruction_html(sheet_of(replace(skirt, pattern=replace(skirt.pattern, steps=(step,)))))
    assert "<li>press</li>" in html


def test_an_order_number_is_said_to_be_worth_keeping(skirt):
    assert "its order number, TL-0042, finds" in instruction_html(sheet_of(skirt))
    assert "finds your measurements" not in instruction_html(sheet_of(skirt, to=replace(TO, order_number="")))


def test_the_figures_of_a_caution_are_told_in_the_readers_unit_too(skirt):
    """A height that a standard gives in centimetres is told with its inches to who reads inches."""
    tied = replace(skirt, pattern=replace(skirt.pattern, title="Skirt with ties"))
    for unit, told in ((Unit.CM, "a height of 134 cm, nor"), (Unit.INCH, "a height of 134 cm (52 3/4 in), nor")):
        cords = next(c for c in sheet_of(tied, to=replace(TO, unit=unit)).cautions if c.topic.startswith("Cords"))
        assert told in cords.words


def test_the_sheet_ends_without_a_second_word_on_the_hem_that_a_step_has_sewn(skirt):
    finish = instruction_html(sheet_of(skirt)).partition("Finishing and care")[2]
    assert "hem" not in finish


def test_each_tool_that_can_hurt_has_its_caution_once_on_the_sheet(skirt):
    html = instruction_html(sheet_of(skirt, to=replace(TO, projector=True)))
    for words in (
        "Rest the iron on its heel, keep its cord",
        "rotary cutter",
        "Never look into the lens",
        "never in the",
    ):
        assert html.count(words) == 1


def test_a_pack_without_a_projector_file_has_no_words_on_one(skirt):
    assert "projector" not in instruction_html(sheet_of(skirt)).lower()
