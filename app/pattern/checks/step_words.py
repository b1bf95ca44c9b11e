"""What the instructions speak of: families of the trade's words, heard in the steps whatever their wording.

Nobody can prove that instructions are good. That they never speak of a thing at all can be heard: no word for
turning up an edge, in any form that common practice gives it. Families are wide, so that a step is seldom missed; a
draft whose steps are not English is not judged.
"""

from __future__ import annotations

import re
from functools import lru_cache

from app.pattern.pieces.model import Pattern

__all__ = ["FASTENING", "heard_in", "is_judged", "says", "steps_text", "words_of"]

#: What closes an opening.
FASTENING = re.compile(
    r"\b(zip|zipper|fasten|button|toggle|popper|snap|stud|hook|velcro|frog|buckle|clasp|eyelet|lac(e|ing)\b|loop)", re.I
)
_TURN = r"\b(?:turn|fold|press|roll)\w*"
_FEW = r"(?:[^\w.;:]+[\w,/½¼¾]+(?:\.\d+)?){0,8}?[^\w.;:]+"
_CASED = r"\bcasings?\b|\bchannels?\b"
#: How many words before a name tell what is done to it.
_ROUND = 8
#: For each finish, the words of which a step that does it has one.
_FAMILIES = {
    "hem": rf"\bhem(?:s|med|ming)?\b|\b(?:turn|fold|roll)\w*{_FEW}up\b|"
    rf"{_TURN}(?: \w+){{0,2}} (?:lower|bottom|raw) edges?\b",
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
    r"|\b(?:right|wrong) sides? (?:together|out|in|up|down|of|facing|against)\b|\bwrong sides?\b|\bsides facing\b"
    r"|\bface (?:up|down|to face)\b|\bround the face\b",
    re.I,
)
_ENGLISH = re.compile(r"\b(?:the|and|with|to|of|it|them|up)\b", re.I)


def says(pattern: Pattern, how: str) -> bool:
    """True when some step speaks of that way to finish an edge: a word of `Edge.finish`, or "hem" for a hem by name.

    True too where nothing is to be judged: a draft without steps, of which something else is said, or whose steps are
    not English.
    """
    if how not in _HEARD or not is_judged(pattern):
        return True
    return _HEARD[how].search(steps_text(pattern)) is not None


def is_judged(pattern: Pattern) -> bool:
    """True for a draft with steps, in English as far as can be heard."""
    return _ENGLISH.search(steps_text(pattern)) is not None


def heard_in(title: str, words: str, called: frozenset[str]) -> tuple[str, ...]:
    """What the checks hear in one step: two wordings in which they hear the same are the same to them.

    Besides the families of words they hear the names of what is cut, sewn and bought (`called`), and what stands round
    them: that it is stitched, or that there are two of it.
    """
    text = _without_places(f"{title}.\n{words}")
    said = re.findall(r"[^\W\d_]+|[.;:]", text.lower())
    near = (" ".join(said[max(0, i - _ROUND) : i + 4]) for i, word in enumerate(said) if _stem(word) in called)
    return (*(name for name, family in _HEARD.items() if family.search(text)), *near)


def words_of(*names: str) -> frozenset[str]:
    """The words of names and titles, as `heard_in` compares them."""
    return frozenset(
        _stem(word) for name in names for word in re.findall(r"[^\W\d_]{3,}", name.lower().replace("_", " "))
    )


def _stem(word: str) -> str:
    return word[:4] if len(word) > 4 else word


@lru_cache(maxsize=64)
def _without_places(text: str) -> str:
    return _ONLY_A_PLACE.sub(" ", text)


def steps_text(pattern: Pattern) -> str:
    """The headings and words of all steps, without the places that only tell from where to where; "" without steps."""
    return _without_places("\n".join(f"{step.title}.\n{step.markdown}" for step in pattern.steps))
