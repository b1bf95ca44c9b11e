"""What the instructions speak of: families of the trade's words, heard in the steps whatever their wording.

Nobody can prove that instructions are good. That they never speak of a thing at all can be heard: no word for
turning up an edge, in any form that common practice gives it. Families are wide, so that a step is seldom missed; a
draft whose steps are not English is not judged.
"""

from __future__ import annotations

import re
from functools import lru_cache

from app.pattern.pieces.model import Pattern

__all__ = ["FASTENING", "heard_in", "says", "steps_text"]

#: What closes an opening.
FASTENING = re.compile(
    r"\b(zip|zipper|fasten|button|toggle|popper|snap|stud|hook|velcro|frog|buckle|clasp|eyelet|lac(e|ing)\b|loop)", re.I
)
_TURN = r"\b(?:turn|fold|press|roll)\w*"
_FEW = r"(?:\W+[\w.,/½¼¾]+){0,8}?\W+"
_CASED = r"\bcasings?\b|\bchannels?\b"
#: For each finish, the words of which a step that does it has one.
_FAMILIES = {
    "hem": rf"\bhem(?:s|med|ming)?\b|{_TURN}{_FEW}up\b|\b(?:lower|bottom) edges?\b",
    "hemmed": rf"\bhem(?:s|med|ming)?\b|{_TURN}{_FEW}(?:up|down|in|under|back|over|twice)\b|{_CASED}",
    "turned in": rf"\b(?:fell|slip-?stitch|whip|catch|hem|bag)\w*|\b(?:edge|top)-?\s?stitch\w*|"
    rf"{_TURN}{_FEW}(?:up|in|under|down|back|over)\b",
    "faced": r"\bfac(?:e|es|ed|ings?)\b",
    "lined": r"\blinings?\b|\b(?:self-)?lined\b|\bline (?:the|it|its|each|both|them|every|neck|arm\w*)\b",
    "bound": r"\bbind(?:s|ings?)?\b|\bbound\b|\bbias\b",
    "closed": r"\b(?:ends?|together|clos(?:e|es|ed|ing)|fold\w*|lengthwise|layers?|join\w*|round|bag\w*)\b",
    "zipped": FASTENING.pattern,
    "applied": r"\b(?:stitch|topstitch|sew|set|tack|appl|fell)\w*",
    "caught": r"\b(?:catch\w*|caught|between|into|in the|tack\w*|insert\w*|sandwich\w*|inside|through all|"
    r"together|same seam|all layers)\b",
    "neatened": r"\b(?:neaten|overcast|overlock|serg|zig-?zag|pink|bind|bound|fell)\w*",
}
_HEARD = {name: re.compile(family, re.I) for name, family in _FAMILIES.items()}
#: A hem as the place from which, or to which, something runs; sides that face one another: no word on finishing.
_ONLY_A_PLACE = re.compile(
    r"\b(?:from|to|at|above|below|near|toward|towards|past|until|of) (?:the |its |their |each )?hems?\b"
    r"|\b(?:right |wrong )?sides facing\b|\bface (?:up|down|to face)\b|\bround the face\b",
    re.I,
)
_ENGLISH = re.compile(r"\b(?:the|and|with|to|of|it|them|up)\b", re.I)


def says(pattern: Pattern, how: str) -> bool:
    """True when some step speaks of that way to finish an edge: a word of `Edge.finish`, or "hem" for a hem by name.

    True too where nothing is to be judged: a draft without steps, of which something else is said, or whose steps are
    not English.
    """
    text = steps_text(pattern)
    if not text or not _ENGLISH.search(text) or how not in _HEARD:
        return True
    return _HEARD[how].search(text) is not None


def heard_in(title: str, words: str) -> tuple[str, ...]:
    """What the checks hear in one step: two wordings in which they hear the same are the same to them."""
    text = _without_places(f"{title}.\n{words}")
    return tuple(name for name, family in _HEARD.items() if family.search(text))


@lru_cache(maxsize=64)
def _without_places(text: str) -> str:
    return _ONLY_A_PLACE.sub(" ", text)


def steps_text(pattern: Pattern) -> str:
    """The headings and words of all steps, without the places that only tell from where to where; "" without steps."""
    return _without_places("\n".join(f"{step.title}.\n{step.markdown}" for step in pattern.steps))
