"""The command `bodies`: a population as a file, for `prove` and for whatever else a designer tries her drafts on."""

from __future__ import annotations

import argparse
import csv
from collections import Counter
from collections.abc import Sequence
from pathlib import Path

from app.cli.card import card_of
from app.cli.printing import length_of
from app.cli.words import say, writing
from app.pattern.body import CUSTOMERS_AT_LARGE, MEASURES
from app.pattern.body.files import MOST_BODIES
from app.pattern.body.populations_standard import (
    DRAWN,
    DRAWN_FOR_ONE_END,
    GROUPS_OF_BODIES,
    KINDS,
    SEED,
    ProofBody,
    standard_bodies,
)
from app.pattern.units import Unit, show_length

__all__ = ["COMMANDS"]

#: What `--kind` may ask for, and the kind of a body that it stands for.
_WANTED = {"drawn": "drawn", "sizes": "size", "corners": "corner", "ends": "end"}
_SPREADS = (1.0, 3.0)


def _bodies_options(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("--group", metavar="GROUP", help=", ".join(GROUPS_OF_BODIES))
    parser.add_argument("--for", type=Path, dest="draft", metavar="DRAFT", help="group and statures as this draft says")
    parser.add_argument("--amount", type=int, default=DRAWN, help=f"how many are drawn; default: {DRAWN}")
    parser.add_argument("--seed", type=int, default=SEED, help="another seed draws others; the same one the same")
    parser.add_argument("--statures", metavar="LEAST..MOST", help="only bodies so tall: 104cm..140cm")
    parser.add_argument("--kind", default="standard", choices=["standard", *_WANTED], help="default: all kinds")
    parser.add_argument(
        "--spread",
        type=float,
        help=f"1 as a survey found adults; default: {CUSTOMERS_AT_LARGE}, customers at large. Children: 1",
    )
    parser.add_argument("--out", type=Path, required=True, help="CSV to write, mm")
    parser.set_defaults(run=writing(_bodies))


def _bodies(options: argparse.Namespace) -> int:
    whom = _whom(options)
    if whom is None or not _is_sensible(options):
        return 1
    group, statures = whom
    wanted = _drawn_for(options)
    every = standard_bodies(group, wanted, options.seed, statures, options.spread)
    bodies = [body for body in every if options.kind == "standard" or body.kind == _WANTED[options.kind]]
    if not bodies:
        between = f" from {_shown(statures)}" if statures is not None else ""
        kind = f" of the kind {options.kind}" if options.kind != "standard" else ""
        return say(f"there are no {group}{kind}{between}. Choose another --kind or other --statures.")
    if len(bodies) > MOST_BODIES:
        fewer = options.amount - (len(bodies) - MOST_BODIES)
        return say(f"--amount {options.amount}: a file holds at most {MOST_BODIES} bodies. Ask for {fewer} or fewer.")
    _write(bodies, options.out)
    print(f"{options.out}: {len(bodies)} bodies of {group}: {_counted(bodies)}.")
    return 0


def _drawn_for(options: argparse.Namespace) -> int:
    """How many bodies to draw so that as many come out as are asked for: there is one end for several drawn."""
    amount: int = options.amount
    return {"sizes": 0, "corners": 0, "ends": amount * DRAWN_FOR_ONE_END}.get(options.kind, amount)


def _whom(options: argparse.Namespace) -> tuple[str, tuple[float, float] | None] | None:
    """The group and statures (mm) asked for or told by the draft; None, told on stderr, when they are wrong."""
    group, statures = options.group, None
    if options.draft is not None:
        read = card_of(options.draft)
        if read is None:
            return None
        card = read[1]
        if group not in (None, card.group):
            say(f"--group {group}: {options.draft} is for {card.group}. Leave one of the two out.")
            return None
        group, statures = card.group, card.statures
    if group not in GROUPS_OF_BODIES:
        named = "say whose bodies" if group is None else f"--group {group}: there is no such group"
        say(f"{named}: --group {', '.join(GROUPS_OF_BODIES)}, or --for DRAFT.")
        return None
    if options.statures is not None:
        statures = _statures(options.statures)
        if statures is None:
            return None
    limits = GROUPS_OF_BODIES[group]
    if statures is not None and not limits[0] <= statures[0] <= statures[1] <= limits[1]:
        say(f"statures {_shown(statures)}: we know {group} from {_shown(limits)}. Keep them between.")
        return None
    return group, statures


def _statures(words: str) -> tuple[float, float] | None:
    """Two statures in mm from `104cm..140cm`; None, told on stderr, when they are none."""
    parts = words.split("..")
    if len(parts) != 2:
        say(f"--statures {words}: write the least and the most with two points between them: 104cm..140cm.")
        return None
    least, most = (length_of("--statures", part.strip()) for part in parts)
    if least is None or most is None:
        return None
    if least > most:
        turned = f"{parts[1].strip()}..{parts[0].strip()}"
        say(f"--statures {words}: the least comes first. Did you mean {turned}?")
        return None
    return least, most


def _is_sensible(options: argparse.Namespace) -> bool:
    """True when the rest of the options can be followed; what cannot is told on stderr."""
    if not 1 <= options.amount <= MOST_BODIES:
        say(f"--amount {options.amount}: draw at least 1 body and at most {MOST_BODIES}.")
    elif options.seed < 0:
        say(f"--seed {options.seed}: a seed is a whole number from 0 up.")
    elif options.spread is not None and not _SPREADS[0] <= options.spread <= _SPREADS[1]:
        say(f"--spread {options.spread:g}: choose from {_SPREADS[0]:g}, as surveyed, to {_SPREADS[1]:g}.")
    elif options.out.is_dir() or not options.out.parent.is_dir():
        say(f"--out {options.out}: name a file in a folder that is there.")
    else:
        return True
    return False


def _write(bodies: Sequence[ProofBody], path: Path) -> None:
    with path.open("w", encoding="utf-8", newline="") as file:
        table = csv.writer(file, lineterminator="\n")
        table.writerow(["id", *MEASURES])
        table.writerows([body.id, *(f"{body.body[name]:g}" for name in MEASURES)] for body in bodies)


def _counted(bodies: Sequence[ProofBody]) -> str:
    counts = Counter(body.kind for body in bodies)
    return ", ".join(f"{counts[kind]} {KINDS[kind][counts[kind] != 1]}" for kind in KINDS if counts[kind])


def _shown(statures: tuple[float, float]) -> str:
    least, most = statures
    return f"{show_length(least, Unit.CM)} to {show_length(most, Unit.CM)}"


COMMANDS = {"bodies": _bodies_options}
