"""Printing true to scale: papers, the plan of the sheets, and the files for home printers and for copy shops."""

from app.pattern.sheets.grading import GradeRow, grading_csv, grading_rows, write_grading_pdf
from app.pattern.sheets.info import Join, PrintInfo, PrintStyle, info_problems
from app.pattern.sheets.nest import Nest, nest_of
from app.pattern.sheets.paper import LEAST_PRINTABLE, PAPERS, Paper, paper_of, paper_problems
from app.pattern.sheets.plan import (
    PlacedPiece,
    Sheet,
    SheetPlan,
    plan_artwork,
    plan_sheets,
    sheet_name,
)
from app.pattern.sheets.projector import ProjectorPlan, plan_projector, write_projector_pdf
from app.pattern.sheets.roll import (
    ROLLS,
    RollPlan,
    least_roll,
    plan_artwork_roll,
    plan_roll,
    write_roll_artwork,
    write_roll_pdf,
)
from app.pattern.sheets.tiled import write_tiled_artwork, write_tiled_pdf

__all__ = [
    "LEAST_PRINTABLE",
    "PAPERS",
    "ROLLS",
    "GradeRow",
    "Join",
    "Nest",
    "Paper",
    "PlacedPiece",
    "PrintInfo",
    "PrintStyle",
    "ProjectorPlan",
    "RollPlan",
    "Sheet",
    "SheetPlan",
    "grading_csv",
    "grading_rows",
    "info_problems",
    "least_roll",
    "nest_of",
    "paper_of",
    "paper_problems",
    "plan_artwork",
    "plan_artwork_roll",
    "plan_projector",
    "plan_roll",
    "plan_sheets",
    "sheet_name",
    "write_grading_pdf",
    "write_projector_pdf",
    "write_roll_artwork",
    "write_roll_pdf",
    "write_tiled_artwork",
    "write_tiled_pdf",
]
