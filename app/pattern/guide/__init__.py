"""The guide to the draft language: every form and line with an example that is really drawn, and a first skirt."""

from app.pattern.guide.first_skirt import Lesson, first_skirt
from app.pattern.guide.order import SectionGuide, section_order
from app.pattern.guide.reference import Entry, Group, grammar_lines, reference

__all__ = ["Entry", "Group", "Lesson", "SectionGuide", "first_skirt", "grammar_lines", "reference", "section_order"]
