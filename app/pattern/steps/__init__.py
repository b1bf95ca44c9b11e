"""The maker's words: cutting list, notions, sizes, seams to ease, curves to clip, cautions, the order of making."""

from app.pattern.steps.allowances import AllowanceRow, allowance_list
from app.pattern.steps.cautions import Caution, cautions_for
from app.pattern.steps.clipping import ClipAdvice, clip_advice
from app.pattern.steps.cutting import CuttingRow, count_in_words, cutting_list
from app.pattern.steps.making import MakingStep, making_order, seams_without_step
from app.pattern.steps.notions import NotionRow, notions_list
from app.pattern.steps.seams import SeamNote, seam_in_words, seam_notes
from app.pattern.steps.sizes import FinishedSize, SizeWords, finished_sizes, sizes_in_words

__all__ = [
    "AllowanceRow",
    "Caution",
    "ClipAdvice",
    "CuttingRow",
    "FinishedSize",
    "MakingStep",
    "NotionRow",
    "SeamNote",
    "SizeWords",
    "allowance_list",
    "cautions_for",
    "clip_advice",
    "count_in_words",
    "cutting_list",
    "finished_sizes",
    "making_order",
    "notions_list",
    "seam_in_words",
    "seam_notes",
    "seams_without_step",
    "sizes_in_words",
]
