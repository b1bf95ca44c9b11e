"""The fit check: what a garment leaves where it touches the body, over a figure that was taken or is likely."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.pattern.checks import fit, run_checks
from app.pattern.pieces.model import Fabric, FitPlace, Girth
from app.pattern.problem import Severity, Span

LEAST, MOST = 20.0, 40.0


def place(ease: float, measure: str = "armscye_girth", *, body: float = 400.0, spread: float = 0.0, **bounds: float):
    least, most = bounds.get("least", LEAST), bounds.get("most", MOST)
    return FitPlace("here", "Here", body + ease, measure, body, spread, least, most, Span("t.draft", 7, 1, 5))


def worn(garment, *places, stretch: float = 0.0, girths=()):
    ways_in = (*girths, Girth("front", "Front", 1000.0, 0.0, 1000.0, opens_fully=True))
    return replace(garment, fits=places, girths=ways_in, fabrics=(Fabric("main", "Cloth", 1400.0, stretch=stretch),))


@pytest.mark.parametrize(
    ("ease", "codes"),
    [
        (30.0, set()),
        (LEAST - 2.0, set()),
        (LEAST - 3.0, {"checks.fit-off"}),
        (MOST + 2.0, set()),
        (MOST + 3.0, {"checks.fit-off"}),
        (0.0, {"checks.fit-off"}),
        (-0.9, {"checks.fit-off"}),
        (-1.1, {"checks.fit-binds"}),
    ],
)
def test_the_ease_over_the_arm_is_what_the_designer_declared_and_never_below_nothing(garment, bench, ease, codes):
    assert bench.codes(worn(garment, place(ease))) == codes


def test_an_armhole_that_binds_stops_the_pattern_and_one_that_is_only_wide_is_asked_about(garment):
    tight, wide = (run_checks(worn(garment, place(ease)))[0] for ease in (-30.0, 90.0))
    assert (tight.severity, wide.severity) == (Severity.ERROR, Severity.WARNING)


@pytest.mark.parametrize("told", [place(-30.0), place(90.0)])
def test_a_place_names_its_figures_the_remedy_and_its_line(garment, told):
    found = run_checks(worn(garment, told))[0]
    assert "Here measures" in found.message and "armscye girth of 400 mm" in found.message
    assert found.fix.startswith("Draw ")
    assert (found.where.point, found.related[0].where.line) == ("here", 7)
    assert found.measured.is_mm == pytest.approx(told.ease)


# ---- cloth that gives


def test_cloth_that_stretches_may_be_smaller_than_the_body_by_what_it_gives(garment, bench):
    meant = {"least": -90.0, "most": 0.0}
    assert bench.codes(worn(garment, place(-79.0, **meant), stretch=0.25)) == set()
    assert bench.codes(worn(garment, place(-82.0, **meant), stretch=0.25)) == {"checks.fit-binds"}


def test_elastic_that_a_girth_states_gives_too(garment, bench):
    drawn_in = Girth("g", "Waist", 350.0, 0.0, 350.0, "waist_girth", stretches_to=450.0)
    relaxed = place(-50.0, "waist_girth", least=-60.0, most=-40.0)
    assert bench.codes(worn(garment, relaxed, girths=(drawn_in,))) == set()
    assert bench.codes(worn(garment, relaxed)) == {"checks.fit-binds"}


# ---- lengths and widths


@pytest.mark.parametrize(
    ("ease", "least", "codes"),
    [
        (-9.0, 0.0, {"checks.fit-off"}),
        (-11.0, 0.0, {"checks.fit-binds"}),
        (-11.0, -20.0, set()),
        (-29.0, -20.0, {"checks.fit-off"}),
        (-31.0, -20.0, {"checks.fit-binds"}),
    ],
)
def test_a_length_may_be_a_centimetre_short_or_as_short_as_it_is_meant(garment, bench, ease, least, codes):
    assert bench.codes(worn(garment, place(ease, "back_waist_length", least=least))) == codes


def test_a_length_too_short_is_told_in_words_for_a_length(garment):
    found = run_checks(worn(garment, place(-50.0, "total_crotch_length")))[0]
    assert "too short" in found.message and "longer" in found.fix


# ---- a figure that nobody took


def test_a_likely_figure_binds_only_beyond_two_of_its_spreads(garment, bench):
    assert bench.codes(worn(garment, place(-20.0, spread=10.0))) == {"checks.fit-off"}
    assert bench.codes(worn(garment, place(-22.0, spread=10.0))) == {"checks.fit-binds"}


def test_a_likely_figure_is_called_likely(garment):
    found = run_checks(worn(garment, place(90.0, spread=10.5)))[0]
    assert "likely 400 mm give or take 21 mm" in found.message


@given(st.floats(-200.0, 200.0), st.floats(0.0, 40.0), st.floats(0.0, 0.5))
def test_more_spread_or_more_stretch_never_makes_a_place_bind(ease, spread, stretch):
    def binds(spread: float, stretch: float) -> bool:
        told = place(ease, spread=spread)
        return fit.binds_by(told, stretch, ()) > 0.0

    assert binds(0.0, 0.0) or not binds(spread, stretch)


def test_a_pattern_without_fit_lines_is_not_looked_at(garment, bench):
    assert bench.codes(worn(garment)) == set()
