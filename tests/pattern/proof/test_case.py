"""The case for made to measure: shares counted as its method says."""

from __future__ import annotations

from pathlib import Path

import pytest

from app.pattern.body import SIZES, draw_bodies, size_body
from app.pattern.proof import case

SQUARE = (Path(__file__).parent / "square.draft").read_text("utf-8")
BODIES = draw_bodies(200, 11)


def body(bust, waist, hip):
    return {"bust_girth": bust, "waist_girth": waist, "hip_girth": hip}


def test_a_body_of_a_size_is_fitted_by_that_size():
    bodies = [size_body(name) for name in SIZES]
    assert case.share_that_fits(bodies, case.nearest_by_bust) == 1.0
    assert case.share_that_fits(bodies, case.best_size) == 1.0


@pytest.mark.parametrize(("change", "fits"), [(19.9, True), (20.0, True), (20.1, False), (-20.1, False)])
def test_two_centimetres_at_the_worst_girth_are_the_limit(change, fits):
    size = size_body("92")
    for name in case.AT:
        assert (case.worst_miss({**size, name: size[name] + change}, size) <= case.FITS) == fits


def test_the_nearest_size_goes_by_the_bust_alone():
    assert case.nearest_by_bust(body(921.0, 2000.0, 100.0))["bust_girth"] == 920.0


def test_the_best_size_is_never_worse_than_the_nearest():
    for one in BODIES:
        assert case.worst_miss(one, case.best_size(one)) <= case.worst_miss(one, case.nearest_by_bust(one))


def test_as_many_sizes_as_bodies_fit_them_all_and_one_fits_its_neighbours():
    bodies = [body(900.0, 700.0, 950.0), body(910.0, 705.0, 950.0), body(1200.0, 1100.0, 1250.0)]
    assert case.chosen_sizes_fit(bodies, 1) == pytest.approx(2 / 3)
    assert case.chosen_sizes_fit(bodies, 2) == 1.0


def test_a_draft_fits_where_it_holds():
    made = case.case_for({"square": SQUARE}, BODIES[:20])
    assert made.drafts == {"square": 1.0}
    assert case.draft_misses(SQUARE, "square.draft", size_body("92")) == pytest.approx(0.0, abs=1.0)


def test_a_body_without_a_pattern_is_not_fitted():
    broken = SQUARE.replace("sew panel.side to panel.near", "sew panel.side to panel.low")
    assert case.draft_misses(broken, "square.draft", size_body("92")) is None
    assert case.case_for({"square": broken}, BODIES[:3]).drafts == {"square": 0.0}


def test_the_table_is_printed_with_every_way_to_choose(tmp_path, capsys, monkeypatch):
    monkeypatch.setattr(case, "BODIES", 30)
    (tmp_path / "square.draft").write_text(SQUARE, "utf-8")
    case.main([str(tmp_path / "square.draft")])
    printed = capsys.readouterr().out
    for words in ("Of 30 women", "chosen by bust", "best of all 12", "12 chosen for these very women", "square, made"):
        assert words in printed
