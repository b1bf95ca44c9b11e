"""From a tree and a body to named points and paths."""

from app.pattern.drafting.choices import Choice, choose
from app.pattern.drafting.env import Env, StepFailed
from app.pattern.drafting.kinds import DartShape, Given
from app.pattern.drafting.program import Program, compile_draft
from app.pattern.drafting.read import compiled
from app.pattern.drafting.run import draw_sheets, ready

__all__ = [
    "Choice",
    "DartShape",
    "Env",
    "Given",
    "Program",
    "StepFailed",
    "choose",
    "compile_draft",
    "compiled",
    "draw_sheets",
    "ready",
]
