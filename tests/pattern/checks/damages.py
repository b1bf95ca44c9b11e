"""What a clumsy designer does to good drafts, and what is said of it (`python -m tests.pattern.checks.damages`).

Four tables stand together: `damages_slips` (hems, notches, marks, linings, elastic, ways in), `damages_whole` (what is
forgotten, on drafts of the catalogue), `damages_fit` (where they touch the body) and `damages_fresh` (garments written
by somebody who knew only the guide). A damage counts as heard when its kind is among what a reading, the advice or the
checks say, and was not said of the good draft.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path as File
from typing import Any

from app.pattern.body import size_body
from app.pattern.body.children import child
from app.pattern.drafting import Program
from app.pattern.drafting.advice import advice_of
from app.pattern.make import Made, compiled, make_pattern
from tests.pattern.checks.damages_fit import DAMAGES as FIT
from tests.pattern.checks.damages_fresh import DAMAGES as FRESH
from tests.pattern.checks.damages_fresh import UNHEARD
from tests.pattern.checks.damages_slips import SLIPS
from tests.pattern.checks.damages_whole import DAMAGES as WHOLE
from tests.places import DRAFTS

GARMENTS = File(__file__).parent / "garments"
#: Statures in mm of the children that the children's drafts are tried on, by the first word of their names.
CHILDREN = {"childs": 1220.0, "speedwell": 1160.0}


@dataclass(frozen=True)
class Tried:
    """A damage to a draft, in words, the kind that should be heard ("" where nobody hears it) and what was said."""

    draft: str
    words: str
    code: str
    said: str


def text_of(draft: str) -> str:
    """The text of a draft of the catalogue or of the garments that are only damaged."""
    file = DRAFTS / f"{draft}.draft"
    return (file if file.exists() else GARMENTS / f"{draft}.draft").read_text("utf-8")


def said_of(text: str, draft: str, chosen: Mapping[str, Any] | None = None) -> dict[str, str]:
    """What is said of a draft for one body, by its kind; the first of each kind."""
    program = compiled(text, f"{draft}.draft")
    if not isinstance(program, Program):
        return {problem.code: problem.message for problem in reversed(program.problems)}
    stature = CHILDREN.get(draft.partition("_")[0])
    body = child(stature) if stature is not None else size_body("96")
    made = make_pattern(text, f"{draft}.draft", body, chosen or {})
    found = made.findings if isinstance(made, Made) else made.problems
    return {problem.code: problem.message for problem in reversed((*advice_of(program), *found))}


@cache
def sound(draft: str) -> frozenset[str]:
    """The kinds that are said of a draft as it is."""
    return frozenset(said_of(text_of(draft), draft))


def damaged(draft: str, swaps: tuple[tuple[str, str], ...]) -> str:
    """A draft with something written otherwise, everywhere."""
    text = text_of(draft)
    for old, new in swaps:
        assert old in text, f"“{old}” does not stand in {draft}"
        text = text.replace(old, new)
    return text


def without_lost_pictures(text: str) -> str:
    """A draft without the pictures of seams that it has no longer: who forgets a seam shows none."""
    sewn = set(re.findall(r"[a-z]\w*\.[a-z]\w*", " ".join(re.findall(r"^sew (.*(?:\n    .*)*)", text, re.MULTILINE))))
    return re.sub(r" ?\{seam (\w+\.\w+)\}", lambda picture: picture[0] if picture[1] in sewn else "", text)


def tried() -> Iterator[Tried]:
    """Every damage of the four tables."""
    rows = [(slip.garment, slip.words, damaged(slip.garment, slip.swaps), slip.code, {}) for slip in SLIPS]
    for draft, words, old, new, code in (*WHOLE, *FIT):
        rows.append((draft, words, without_lost_pictures(damaged(draft, ((old, new),))), code, {}))
    rows += [(garment, words, damaged(garment, swaps), code, chosen) for garment, words, swaps, code, chosen in FRESH]
    for draft, words, text, code, chosen in rows:
        told = said_of(text, draft, chosen)
        yield Tried(draft, words, code, told.get(code, "") if code not in sound(draft) else "")
    for garment, words, _swaps, why in UNHEARD:
        yield Tried(garment, words, "", why)


def main() -> None:
    """Print the table as Markdown, and how many were heard."""
    found = list(tried())
    print("| draft | damage | heard | what is said |\n|---|---|---|---|")
    for row in found:
        heard = f"yes: `{row.code}`" if row.code and row.said else "NO"
        print(f"| {row.draft} | {row.words} | {heard} | {row.said.replace('|', '/')} |")
    print(f"\n{sum(bool(row.code and row.said) for row in found)} of {len(found)} damages are heard.")


if __name__ == "__main__":
    main()
