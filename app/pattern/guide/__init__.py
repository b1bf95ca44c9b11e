"""The guide to the draft language: every form and line with an example that is really drawn, a first skirt, parts."""

from app.pattern.guide.first_skirt import Lesson, first_skirt
from app.pattern.guide.order import SectionGuide, section_order
from app.pattern.guide.parts import Part, parts
from app.pattern.guide.reference import Entry, Group, grammar_lines, reference

__all__ = [
    "Entry",
    "Group",
    "Lesson",
    "Part",
    "SectionGuide",
    "first_skirt",
    "grammar_lines",
    "parts",
    "reference",
    "section_order",
]
