"""The usual cautions for the work that this garment asks for, each with where it comes from."""

from __future__ import annotations

import re
from dataclasses import dataclass

from app.pattern.pieces.children import CORD, CORD_RULES, SMALL_PART, for_child
from app.pattern.pieces.model import Pattern

__all__ = ["Caution", "cautions_for"]


@dataclass(frozen=True, slots=True)
class Caution:
    """A caution in words for the maker; `source` says where it is from."""

    topic: str
    words: str
    source: str


_SAFETY_GUIDE = "Texas 4-H, Duds to Dazzle, safety guide"
_ALWAYS = (
    Caution(
        "Iron",
        "Rest the iron on its heel, keep its cord out of reach and your face out of the steam, "
        "and unplug it when you leave it. Try its heat on a scrap of the cloth first.",
        _SAFETY_GUIDE,
    ),
    Caution(
        "Blades",
        "Cut away from yourself. Hand scissors over handle first. A rotary cutter has its guard on whenever it is "
        "put down; keep fingers off the ruler's edge, cut on a mat, and wrap old blades before you bin them.",
        _SAFETY_GUIDE,
    ),
    Caution(
        "Pins and needles",
        "Keep pins in a cushion, never in the mouth. Take them out before the needle reaches them: "
        "a needle that strikes a pin can break and fly.",
        _SAFETY_GUIDE + "; school sewing-room rules",
    ),
    Caution(
        "Machine",
        "Switch the machine off before you thread it, change the needle or clean it. Keep fingers clear of the foot.",
        _SAFETY_GUIDE + "; school sewing-room rules",
    ),
)
_FLAME = Caution(
    "Flame and heat",
    "Pinking, a zigzag, an overlock or fray-stopping liquid finish an edge without fire: choose one of them first. "
    "Synthetics melt, drip and can catch fire, their drops burn skin and their fumes are harmful; cotton, viscose and "
    "silk simply burn. If you seal an edge all the same, try a scrap, over a sink, away from curtains, with air and "
    "with water at hand.",
    "hobby sewing pages and a rope maker's; no official source found",
)
_CORDS = Caution(
    "Cords and ties on children",
    "Do not put cords, drawstrings or ties at the hood, head or neck of a garment for a child up to 7 years, or a "
    "height of 134 cm, nor drawstrings with free ends there up to 14 years. "
    "At the waist and hem keep ends short and sewn fast.",
    CORD_RULES,
)
_SMALL_PARTS = Caution(
    "Small parts",
    "Buttons, beads and poppers can choke a small child. Sew each one on so that it cannot be pulled off, "
    "and look at them again after washing.",
    "common practice; 16 CFR 1501 on small parts exempts buttons",
)
_NIGHTWEAR = Caution(
    "Nightwear",
    "Children's nightwear must meet flammability rules in many countries, and this pattern has not been tested "
    "against any of them. Do not make loose nightwear for a child without asking what holds where you live.",
    "16 CFR 1615 and 1616",
)
_LOCAL = Caution(
    "Where you live",
    "These are the usual cautions, not all there are. Follow the makers' instructions and the rules that hold where "
    "you live and work; where those ask for a licensed or qualified person, ask one.",
    "common practice",
)
_DRAWSTRING = re.compile(r"\bdraw-?strings?\b", re.I)
_NIGHT = re.compile(r"\b(night(wear|gown|dress|shirt)|pyjamas?|pajamas?|sleepwear)\b", re.I)
_FIRE = re.compile(r"\b(flame|candle|lighter|singe|melt)|\bseal(ed|ing)? (the )?(cut )?(edge|end)s?\b", re.I)


def cautions_for(pattern: Pattern) -> tuple[Caution, ...]:
    """The cautions that this garment asks for, ending with the deferral to local rules.

    A child's garment is told as the check of child safety tells it: by whom the draft is for, or else by the stature.
    """
    # What the maker is told to do
    steps = [f"{step.title}\n{step.markdown}" for step in pattern.steps]
    things, work = (
        "\n".join([pattern.title, *(p.title for p in pattern.pieces), *(n.title for n in pattern.notions)]),
        "\n".join([*steps, *(piece.note for piece in pattern.pieces)]),
    )
    asked = (
        (_FLAME, _FIRE.search(work)),
        # An iron has a cord too: in the steps only a drawstring is sure to be the garment's.
        (_CORDS, CORD.search(things) or _DRAWSTRING.search(work)),
        (_SMALL_PARTS, for_child(pattern) and (SMALL_PART.search(things) or SMALL_PART.search(work))),
        (_NIGHTWEAR, _NIGHT.search(things) or _NIGHT.search(work)),
    )
    return (*_ALWAYS, *(caution for caution, cause in asked if cause), _LOCAL)
