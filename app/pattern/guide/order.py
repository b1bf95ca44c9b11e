"""The sections of a draft in the order in which they are usually written, with what each is for."""

from __future__ import annotations

from dataclasses import dataclass

from app.pattern.language.parse import SECTIONS

__all__ = ["SECTION_WORDS", "SectionGuide", "section_order"]


@dataclass(frozen=True, slots=True)
class SectionGuide:
    """A section: its first word, what it is for, how often it may stand, and an example of its first lines."""

    word: str
    says: str
    often: str
    example: str


_ONCE, _USUALLY, _MANY = "once", "usually once", "as often as needed"
#: Each section's purpose, how often it stands in a draft, and how it begins.
SECTION_WORDS: dict[str, tuple[str, str, str]] = {
    "draft": ("The garment's name.", _ONCE, 'draft "Garden skirt"'),
    "for": ("Whom it is for, and the statures it is offered for.", _ONCE, "for women from 150cm to 185cm"),
    "needs": ("The body measurements it is drawn from.", _USUALLY, "needs\n    waist_girth, hip_girth"),
    "choices": ("What the customer chooses.", _USUALLY, 'choices\n    length = 60cm from 40cm to 90cm  "Length"'),
    "fabrics": ("The cloths it is cut from.", _USUALLY, 'fabrics\n    main  "Skirt cloth"  width 140cm'),
    "notions": ("What else is bought.", _USUALLY, 'notions\n    zip  "Zip, 20 cm"  count 1'),
    "figures": ("Numbers that several sheets share.", _USUALLY, "figures\n    quarter = (hip_girth + 4cm) / 4"),
    "sheet": (
        "A sheet of drafting paper; several pieces may be traced off one.",
        _MANY,
        "sheet panel\n    waist = at 0, 0\n    hip   = waist down 20cm",
    ),
    "piece": (
        "A pattern piece: its outline, grain, allowances, notches and marks.",
        _MANY,
        'piece panel "Skirt" from panel cut 2 on fold main\n    outline   fold centre, hem, side, waist_line',
    ),
    "sew": ("Which edges are sewn to which.", _MANY, "sew panel.side to panel.side  notch at 20cm"),
    "girth": (
        "A finished girth that must come to the body and its ease.",
        _MANY,
        'girth hip "Hip" = 4 * width(panel, hip)  body hip_girth  ease 4cm',
    ),
    "fit": (
        "How much room it leaves at a place of the body.",
        _MANY,
        'fit armhole "Armhole" = length(back.armhole) + length(front.armhole)  body armscye_girth  ease 3cm..5cm',
    ),
    "steps": (
        "The instructions, in Markdown.",
        _USUALLY,
        "steps\n    ## Join the sides\n    Stitch {length(panel.side)}.",
    ),
}


def section_order() -> tuple[SectionGuide, ...]:
    """The sections in the order of the language's own list."""
    return tuple(_section(word) for word in SECTIONS)


def _section(word: str) -> SectionGuide:
    says, often, example = SECTION_WORDS[word]
    return SectionGuide(word, says, often, example)
