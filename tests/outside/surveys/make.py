"""`python -m tests.outside.surveys.make`: makes the survey figures of `app/pattern/body/data` from what was published.

    summary RECORDS.csv women women-1988    summary and correlation, from the individual records of the survey of 1988
    fits                                    fits-2012.csv, from the formulas of `fits.csv`
    compare RECORDS.csv 2012 women          tells where `figures.csv` and `fits.csv` differ from the records of a survey

Our names stand beside the survey's in `NAMES`; where a definition differs, the README of the data says so.
"""

from __future__ import annotations

import csv
import re
import sys
from collections.abc import Iterable, Mapping, Sequence
from pathlib import Path

import numpy as np

HERE = Path(__file__).parent
DATA = HERE.parents[2] / "app" / "pattern" / "body" / "data"

#: Our name: the name in `figures.csv` and `fits.csv`.
NAMES: Mapping[str, str] = {
    "stature": "stature",
    "bust_girth": "bust",
    "upper_chest_girth": "chest_at_scye",
    "under_bust_girth": "underbust",
    "waist_girth": "waist",
    "hip_girth": "hip",
    "neck_base_girth": "neck_base",
    "neck_girth": "neck",
    "shoulder_length": "shoulder_len",
    "back_waist_length": "back_waist_len",
    "front_waist_length": "front_waist_len",
    "bust_point_width": "bust_point_width",
    "neck_shoulder_point_to_bust_point": "neck_to_bustpoint",
    "armscye_girth": "scye_girth",
    "scye_depth": "scye_depth",
    "back_width": "back_width",
    "shoulder_width": "biacromial",
    "upper_arm_girth": "upper_arm_axillary",
    "elbow_girth": "elbow",
    "wrist_girth": "wrist",
    "arm_length": "sleeve_outseam",
    "inside_leg_height": "crotch_height",
    "total_crotch_length": "crotch_len",
    "back_crotch_length": "crotch_len_back",
    "cervical_height": "cervicale_height",
    "waist_height": "waist_height",
    "hip_height": "hip_height",
    "navel_to_hip": "waist_to_hip",
    "knee_height": "knee_height",
    "thigh_girth": "thigh",
    "knee_girth": "knee",
    "calf_girth": "calf",
    "ankle_girth": "ankle",
    "head_girth": "head",
    "hand_girth": "hand",
    "trunk_circumference": "vertical_trunk",
    "shoulder_girth": "shoulder_girth",
}
#: The fits of 2012 that we use: measures which that survey defines as we do, on these predictors.
FITTED: Mapping[str, tuple[str, ...]] = {
    "neck_base_girth": ("bust_girth", "stature"),
    "shoulder_length": ("stature", "bust_girth"),
    "back_width": ("bust_girth", "stature"),
    "wrist_girth": ("bust_girth", "stature"),
    "arm_length": ("stature",),
    "inside_leg_height": ("stature",),
    "thigh_girth": ("hip_girth",),
}
PERCENTILES = (1, 5, 50, 95, 99)


def rows(name: str, survey: str, group: str) -> list[dict[str, str]]:
    """The rows of one survey and group in a file beside this one."""
    with (HERE / name).open(encoding="utf-8") as lines:
        return [row for row in csv.DictReader(lines) if (row["survey"], row["group"]) == (survey, group)]


def figures(survey: str, group: str) -> dict[str, dict[str, str]]:
    """What `figures.csv` gives for a survey and group, by figure."""
    return {row["figure"]: row for row in rows("figures.csv", survey, group)}


def terms_of(written: str) -> tuple[float, dict[str, float]]:
    """Constant and slopes of a formula as `fits.csv` writes it: `11.00 + 0.1402*bust - 0.0789*stature`."""
    constant, *terms = re.findall(r"[-+]? ?[\d.]+(?:\*\w+)?", written)
    slopes = (term.replace(" ", "").partition("*") for term in terms)
    return float(constant.replace(" ", "")), {name: float(slope) for slope, _, name in slopes}


def formula(survey: str, group: str, target: str, predictors: Iterable[str]) -> tuple[float, dict[str, float], float]:
    """Constant, slopes and residual deviation in cm of the published fit of one of our measures on others."""
    wanted = {NAMES[name]: name for name in predictors}
    for row in rows("fits.csv", survey, group):
        constant, slopes = terms_of(row["formula"])
        if row["target"] == NAMES[target] and slopes.keys() == wanted.keys():
            return constant, {wanted[name]: slopes[name] for name in slopes}, float(row["residual_sd"])
    raise KeyError(f"no fit of {target} on {', '.join(wanted)} for the {group} of {survey}")


def fits_2012() -> list[list[str]]:
    """The rows of fits-2012.csv in mm, from the formulas in cm."""
    table = [["group", "target", "intercept_mm", "sd_mm", "predictor_1", "slope_1", "predictor_2", "slope_2"]]
    for group in ("women", "men"):
        for target, predictors in FITTED.items():
            constant, slopes, sd = formula("2012", group, target, predictors)
            terms = [part for name in predictors for part in (name, f"{slopes[name]:.4f}")]
            table.append([group, target, f"{constant * 10:.1f}", f"{sd * 10:.2f}", *terms, *[""] * (4 - len(terms))])
    return table


def moments(records: Sequence[Mapping[str, str]], group: str) -> tuple[list[list[str]], list[list[str]]]:
    """The rows of summary and correlation of a group of 1988; `records` are in mm by the survey's column."""
    known = figures("1988", group)
    columns = [known[name]["column"] for name in NAMES.values()]
    values = np.array([[float(record[column]) for column in columns] for record in records])
    summary = [["name", "n", "mean_mm", "sd_mm", *(f"p{p}_mm" for p in PERCENTILES)]]
    for name, column in zip(NAMES, values.T, strict=True):
        at = [f"{value:.0f}" for value in np.percentile(column, PERCENTILES)]
        summary.append([name, f"{len(column)}", f"{column.mean():.1f}", f"{column.std(ddof=1):.1f}", *at])
    matrix = np.corrcoef(values.T)
    correlation = [["name", *NAMES]]
    correlation += [[name, *(f"{r:.3f}" for r in row)] for name, row in zip(NAMES, matrix, strict=True)]
    return summary, correlation


def differences(records: Sequence[Mapping[str, str]], survey: str, group: str) -> list[str]:
    """What `figures.csv` and `fits.csv` tell otherwise than the records of their survey, in words."""
    known = {name: row for name, row in figures(survey, group).items() if row["column"] != "derived"}
    values = {name: np.array([float(r[row["column"]]) / 10.0 for r in records]) for name, row in known.items()}
    found = []
    for name, row in known.items():
        column = values[name]
        said = [float(row[f"p{p}"]) for p in PERCENTILES] + [float(row["mean"]), float(row["sd"])]
        true = [*np.percentile(column, PERCENTILES), column.mean(), column.std(ddof=1)]
        if not np.allclose(said, true, atol=0.006):
            found.append(f"{name}: {said} in the file, {np.round(true, 2)} from the records")
    for row in rows("fits.csv", survey, group):
        constant, slopes = terms_of(row["formula"])
        if {row["target"], *slopes} <= values.keys():
            given = np.column_stack([np.ones(len(records)), *(values[name] for name in slopes)])
            weights = np.linalg.lstsq(given, values[row["target"]], rcond=None)[0]
            if not np.allclose([constant, *slopes.values()], weights, atol=0.006):
                found.append(f"{row['target']}: {row['formula']} in the file, {np.round(weights, 4)} from the records")
    return found


def text_of(table: Iterable[Iterable[str]]) -> str:
    """A table as the text of a CSV file."""
    return "".join(",".join(row) + "\n" for row in table)


def main(arguments: Sequence[str]) -> int:
    """Write the files that are asked for; 2 for a request that cannot be read."""
    match arguments:
        case ["fits"]:
            (DATA / "fits-2012.csv").write_text(text_of(fits_2012()), "utf-8")
        case ["summary", path, ("women" | "men") as group, stem]:
            with Path(path).open(encoding="latin-1") as lines:
                summary, correlation = moments(list(csv.DictReader(lines)), group)
            Path(f"{stem}-summary.csv").write_text(text_of(summary), "utf-8")
            Path(f"{stem}-correlation.csv").write_text(text_of(correlation), "utf-8")
        case ["compare", path, ("1988" | "2012") as survey, ("women" | "men") as group]:
            with Path(path).open(encoding="latin-1") as lines:
                found = differences(list(csv.DictReader(lines)), survey, group)
            print("\n".join(found) or "The files are as the records say.")
            return 1 if found else 0
        case _:
            print(__doc__, file=sys.stderr)
            return 2
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
