"""The size chart and the completion of bodies behind it."""

from __future__ import annotations

from itertools import pairwise

import pytest

from app.pattern.body import MEASURES, SIZES, complete_body, size_body
from app.pattern.body.chart import STATURE
from app.pattern.body.complete import BASIS, DERIVED, PREDICTORS
from app.pattern.body.populations import is_plausible
from app.pattern.body.survey import GROUPS, POOLED_FITS, fit, fits_2012, moments

ALL_SIZES = pytest.mark.parametrize("size", SIZES)


@ALL_SIZES
def test_a_size_has_every_measure_and_is_a_plausible_body(size):
    body = size_body(size)
    assert set(body) == set(MEASURES)
    assert is_plausible(body)


@ALL_SIZES
def test_a_size_is_named_by_its_bust_in_centimetres(size):
    assert size_body(size)["bust_girth"] == SIZES[size] == int(size) * 10.0


@ALL_SIZES
def test_waist_and_hip_of_a_size_agree_with_both_pooled_fits(size):
    body = size_body(size)
    for name in ("waist_girth", "hip_girth"):
        assert POOLED_FITS[name].predict(body) == pytest.approx(body[name], abs=4.0)
        assert body[name] % 5.0 == 0.0


@pytest.mark.parametrize("name", ["waist_girth", "hip_girth", "under_bust_girth", "upper_arm_girth", "armscye_girth"])
def test_girths_grow_from_size_to_size(name):
    assert all(small < large for small, large in pairwise(size_body(size)[name] for size in SIZES))


def test_a_taller_body_of_the_same_size_is_longer_and_no_wider():
    short, tall = size_body("92", 1580.0), size_body("92", 1760.0)
    assert tall["stature"] == 1760.0
    assert tall["back_waist_length"] - short["back_waist_length"] > 25
    assert tall["inside_leg_height"] - short["inside_leg_height"] > 90
    assert all(tall[name] == short[name] for name in ("bust_girth", "waist_girth", "hip_girth", "thigh_girth"))


def test_a_size_is_the_same_each_time():
    assert size_body("92") == size_body("92", STATURE)


def test_an_unknown_size_is_a_fault_of_the_caller():
    with pytest.raises(KeyError):
        size_body("93")


def test_completion_keeps_what_is_given_and_fills_the_rest():
    basis = {"stature": 1700.0, "bust_girth": 930.0, "waist_girth": 750.0, "hip_girth": 1010.0}
    full = complete_body({**basis, "shoulder_length": 111.1, "waist_to_hip": 200.0})
    assert set(full) == set(MEASURES)
    assert full["shoulder_length"] == 111.1
    assert full["waist_to_hip"] == 200.0
    assert all(full[name] == value for name, value in basis.items())


def test_completion_needs_its_basis():
    with pytest.raises(ValueError, match="hip_girth not given"):
        complete_body({"stature": 1700.0, "bust_girth": 930.0, "waist_girth": 750.0})


def test_basis_survey_and_derivation_together_make_the_register():
    assert {*BASIS, *PREDICTORS, *DERIVED} == set(MEASURES)
    assert not {*BASIS, *PREDICTORS} & set(DERIVED)


@pytest.mark.parametrize("group", GROUPS)
def test_the_mean_body_is_completed_to_the_means(group):
    """Least squares passes through the means, so completing the mean basis gives the survey's mean body."""
    known = moments(group)
    full = complete_body({name: float(known.mean[known.at(name)]) for name in BASIS}, group)
    for name in set(PREDICTORS) - set(fits_2012(group)):
        assert full[name] == pytest.approx(known.mean[known.at(name)], abs=0.06)


def test_where_the_newer_survey_speaks_it_is_the_one_that_completes():
    body = size_body("92")
    for name, newer in fits_2012("women").items():
        assert body[name] == pytest.approx(newer.predict(body), abs=0.6)
        assert "2012" in newer.source


def test_a_fit_explains_some_of_the_spread_and_never_all():
    for name, predictors in PREDICTORS.items():
        known = moments("women")
        assert 0.0 < fit("women", name, predictors).sd < known.sd[known.at(name)]
