"""Printing true to scale: papers, the plan of the sheets, and the files for home printers and for copy shops."""

from app.pattern.sheets.info import Join, PrintInfo, PrintStyle, info_problems
from app.pattern.sheets.paper import PAPERS, Paper, paper_of, paper_problems
from app.pattern.sheets.plan import PlacedPiece, Sheet, SheetPlan, plan_sheets, sheet_name, sheets_in_a_row
from app.pattern.sheets.roll import ROLLS, RollPlan, plan_roll, write_one_sheet_pdf, write_roll_pdf
from app.pattern.sheets.tiled import write_tiled_pdf

__all__ = [
    "PAPERS",
    "ROLLS",
    "Join",
    "Paper",
    "PlacedPiece",
    "PrintInfo",
    "PrintStyle",
    "RollPlan",
    "Sheet",
    "SheetPlan",
    "info_problems",
    "paper_of",
    "paper_problems",
    "plan_roll",
    "plan_sheets",
    "sheet_name",
    "sheets_in_a_row",
    "write_one_sheet_pdf",
    "write_roll_pdf",
    "write_tiled_pdf",
]
