"""The register: complete, consistent, and worded for people."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from app.pattern.body import LANDMARKS, MEASURES, MeasureKind
from app.pattern.body.measures import by_name

ALL = pytest.mark.parametrize("measure", MEASURES.values(), ids=lambda measure: measure.name)


def test_the_register_holds_what_drafts_ask_for():
    asked = """bust_girth under_bust_girth waist_girth hip_girth neck_base_girth shoulder_length back_waist_length
    front_waist_length neck_shoulder_point_to_bust_point bust_point_width back_width front_width scye_depth
    armscye_girth upper_arm_girth elbow_girth wrist_girth hand_girth arm_length stature waist_height waist_to_hip
    total_crotch_length inside_leg_height thigh_girth knee_girth calf_girth ankle_girth head_girth body_rise"""
    assert set(asked.split()) <= set(MEASURES)


@ALL
def test_a_name_can_be_written_in_a_draft(measure):
    assert re.fullmatch(r"[a-z]+(_[a-z]+)*", measure.name)


@ALL
def test_the_typical_range_lies_well_inside_the_hard_range(measure):
    assert measure.hard[0] < measure.typical[0] < measure.typical[1] < measure.hard[1]


@ALL
def test_the_words_are_whole_sentences(measure):
    assert 1 <= len(measure.how) <= 4
    for sentence in (measure.definition, *measure.how):
        assert sentence[0].isupper() and sentence.endswith(".")
    assert measure.how_text == " ".join(measure.how)
    assert measure.source


@ALL
def test_landmarks_are_explained(measure):
    assert set(measure.landmarks) <= set(LANDMARKS)


@ALL
def test_every_measure_has_its_figure(measure):
    assert (Path(__file__).parents[3] / "static" / "figures" / measure.figure).is_file()


def test_every_landmark_is_used():
    assert {landmark for measure in MEASURES.values() for landmark in measure.landmarks} == set(LANDMARKS)


def test_heights_reach_the_floor():
    heights = [m for m in MEASURES.values() if m.kind is MeasureKind.HEIGHT]
    assert len(heights) == 6
    assert all("floor" in measure.landmarks for measure in heights)


def test_an_inch_number_taken_for_centimetres_falls_out_of_every_hard_range():
    """The hard ranges are there to catch slips of unit on an ordinary body."""
    escaped = [m.name for m in MEASURES.values() if sum(m.typical) / 2 / 2.54 >= m.hard[0]]
    assert escaped == []


def test_a_name_cannot_be_registered_twice():
    bust = MEASURES["bust_girth"]
    with pytest.raises(ValueError, match="bust_girth is registered twice"):
        by_name([bust, bust])


def test_the_register_cannot_be_changed():
    with pytest.raises(TypeError):
        MEASURES["new"] = MEASURES["stature"]  # type: ignore[index]
