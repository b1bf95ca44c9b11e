"""The survey figures of the body room held against what was published of the surveys (see `surveys/README.md`).

Our data file of 1988 was computed from the records by one program, `figures.csv` by another, and a few figures stand
in print: MIL-STD-1472F (1999), which quotes 5th and 95th percentiles, and the report itself (both from memory).
"""

from __future__ import annotations

import csv
import statistics
from functools import cache

import numpy as np
import pytest

from tests.outside.surveys.make import (
    DATA,
    NAMES,
    PERCENTILES,
    differences,
    figures,
    fits_2012,
    main,
    moments,
    terms_of,
    text_of,
)

GROUPS = ("women", "men")


@cache
def shipped(group):
    """The rows of our summary by name, mm."""
    with (DATA / f"{group}-1988-summary.csv").open(encoding="utf-8") as lines:
        return {row["name"]: row for row in csv.DictReader(lines)}


@pytest.mark.parametrize("group", GROUPS)
@pytest.mark.parametrize("name", NAMES)
def test_our_summary_says_what_another_program_found_in_the_same_records(group, name):
    """To the last printed digit: 0.1 mm for mean and deviation, half a mm for percentiles."""
    ours, theirs = shipped(group)[name], figures("1988", group)[NAMES[name]]
    assert ours["n"] == theirs["n"]
    for figure in ("mean", "sd"):
        assert float(ours[f"{figure}_mm"]) == pytest.approx(float(theirs[figure]) * 10.0, abs=0.051)
    for p in PERCENTILES:
        assert float(ours[f"p{p}_mm"]) == pytest.approx(float(theirs[f"p{p}"]) * 10.0, abs=0.501)


def test_our_summary_has_every_measure_and_no_other():
    assert all(list(shipped(group)) == list(NAMES) for group in GROUPS)


@pytest.mark.parametrize(("group", "p5", "p95"), [("women", 1528, 1737), ("men", 1647, 1866)])
def test_statures_are_those_in_print(group, p5, p95):
    """MIL-STD-1472F, stature of ground troops, from memory; its percentiles are smoothed, hence 3 mm."""
    ours = shipped(group)["stature"]
    assert float(ours["p5_mm"]) == pytest.approx(p5, abs=3.0)
    assert float(ours["p95_mm"]) == pytest.approx(p95, abs=3.0)


@pytest.mark.parametrize(("group", "mean", "sd"), [("women", 1629.4, 63.6), ("men", 1755.8, 66.8)])
def test_mean_statures_are_those_of_the_report(group, mean, sd):
    """NATICK/TR-89/044, from memory: women 162.94 cm, sd 6.36; men 175.58 cm, sd 6.68."""
    assert (float(shipped(group)["stature"]["mean_mm"]), float(shipped(group)["stature"]["sd_mm"])) == (mean, sd)


@pytest.mark.parametrize("group", GROUPS)
def test_the_correlations_can_be_those_of_people(group):
    """A correlation matrix is symmetric, has ones on its diagonal and no negative eigenvalue (linear algebra)."""
    with (DATA / f"{group}-1988-correlation.csv").open(encoding="utf-8") as lines:
        header, *rows = list(csv.reader(lines))
    matrix = np.array([[float(cell) for cell in row[1:]] for row in rows])
    assert header[1:] == [row[0] for row in rows] == list(NAMES)
    assert np.array_equal(matrix, matrix.T)
    assert np.array_equal(np.diag(matrix), np.ones(len(NAMES)))
    assert np.linalg.eigvalsh(matrix).min() > -0.003, "three printed decimals may take it a hair below none"


def test_our_fits_of_2012_are_what_the_script_makes_of_the_published_formulas():
    assert (DATA / "fits-2012.csv").read_text("utf-8") == text_of(fits_2012())


# ---- the script itself, on records of our own making


def invented(survey, group, count=400):
    """Records in mm under the survey's columns: every figure drawn apart from the others."""
    source = np.random.default_rng(5)
    known = figures(survey, group).values()
    columns = {row["column"]: (10 * float(row["mean"]), 10 * float(row["sd"])) for row in known if row["n"] != ""}
    columns.pop("derived")
    return [{name: f"{source.normal(*at):.0f}" for name, at in columns.items()} for _ in range(count)]


def test_the_script_reckons_a_summary_as_the_standard_library_does():
    records = invented("1988", "women")
    summary, correlation = moments(records, "women")
    header, *rows = summary
    assert header == list(shipped("women")["stature"])
    column = figures("1988", "women")["thigh"]["column"]
    thighs = [float(record[column]) for record in records]
    row = next(row for row in rows if row[0] == "thigh_girth")
    assert row[1:4] == ["400", f"{statistics.mean(thighs):.1f}", f"{statistics.stdev(thighs):.1f}"]
    statures = [float(record["STATURE"]) for record in records]
    at = correlation[0].index("stature"), list(NAMES).index("thigh_girth") + 1
    assert correlation[at[1]][at[0]] == f"{statistics.correlation(thighs, statures):.3f}"


def test_records_that_are_not_the_surveys_are_told_figure_by_figure(tmp_path, capsys):
    records = invented("2012", "women", 60)
    assert any(told.startswith("stature: ") for told in differences(records, "2012", "women"))
    path = tmp_path / "records.csv"
    path.write_text(text_of([list(records[0]), *(list(record.values()) for record in records)]))
    assert main(["compare", str(path), "2012", "women"]) == 1
    assert "thigh: -8.94 + 0.6909*hip in the file" in capsys.readouterr().out


def test_a_formula_is_read_with_its_signs():
    assert terms_of("-3.74 + 0.7037*hip - 0.0400*stature") == (-3.74, {"hip": 0.7037, "stature": -0.04})


def test_a_request_that_cannot_be_read_shows_how_to_ask(capsys):
    assert main(["summary"]) == 2
    assert "compare RECORDS.csv" in capsys.readouterr().err
