"""Garments for children: how one is told, and the words that tell a cord, its place and a small part.

Cords at the neck have caught in slides and doors and strangled children. EN 14682:2014 (as told by the Finnish
authority Tukes, which speaks to parents who sew at home as well): up to 7 years, or 134 cm, no cords or drawstrings
at hood, head or neck and no ties behind the neck; from 7 to 14 years no drawstrings with free ends there. In the USA
ASTM F1816 (with 16 CFR 1120) forbids hood and neck drawstrings from 2T to 12, and free ends over 75 mm at the waist
(the numbers of the US rules from memory). The check of child safety and the printed cautions both go by this page.
"""

from __future__ import annotations

import re

from app.pattern.pieces.model import Pattern

__all__ = ["CORD", "CORD_RULES", "NECK", "SMALL_PART", "YOUNG", "for_child", "for_young_child"]

#: Stature in mm up to which EN 14682 speaks of young children (7 years or 134 cm).
YOUNG = 1340.0
#: What a cord or a tie is called, where it must not sit, and what a small child can swallow.
CORD = re.compile(r"\b(cords?|draw-?strings?|ties?|ribbons?|strings?|sash(es)?)\b", re.I)
NECK = re.compile(r"\b(necks?|neckline|hoods?|collars?|heads?|halters?|nape)\b", re.I)
SMALL_PART = re.compile(r"\b(buttons?|beads?|poppers?|snaps?|toggles?)\b", re.I)
#: The usual rules on cords, as they are named to people.
CORD_RULES = "EN 14682; in the USA ASTM F1816 and 16 CFR 1120"


def for_child(pattern: Pattern) -> bool:
    """True for a garment that is offered for children, or drawn for somebody no taller than a young child."""
    return pattern.group == "children" or _is_small(pattern)


def for_young_child(pattern: Pattern) -> bool:
    """True for a child's garment that is offered to young children too, whoever it is drawn for this time.

    A garment for grown people is not, however small she is whom it is drawn for.
    """
    if pattern.group != "children":
        return False
    return pattern.statures is None or pattern.statures[0] <= YOUNG or _is_small(pattern)


def _is_small(pattern: Pattern) -> bool:
    return pattern.stature is not None and pattern.stature <= YOUNG
