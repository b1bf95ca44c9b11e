"""The command `build`: the pack of one draft for one body, as files in a folder."""

from __future__ import annotations

import argparse
from collections.abc import Sequence
from pathlib import Path

from tqdm import tqdm

from app.cli.card import card_of
from app.cli.printing import add_print_options, length_of, print_choices
from app.cli.words import add_choices, choices_of, counted, say, tell, text_of, writing
from app.packs.build import build_pack
from app.packs.request import PackRequest
from app.pattern.body import read_body_file
from app.pattern.drafting import compiled
from app.pattern.drafting.advice import advice_of
from app.pattern.lay import CLOTH_WIDTHS, ONE_WAY, OPEN
from app.pattern.make import DraftCard
from app.pattern.pieces.model import Cloth
from app.pattern.problem import Problem, Refused, has_errors
from app.pattern.units import Unit, show_length

__all__ = ["COMMANDS"]


def _build_options(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("draft", type=Path, help="the draft's file")
    parser.add_argument("--body", type=Path, required=True, help='JSON: {"bust_girth": "96.5cm", ...}')
    add_choices(parser)
    add_print_options(parser)
    parser.add_argument(
        "--projector", action=argparse.BooleanOptionalAction, default=True, help="a file for projectors (default: yes)"
    )
    parser.add_argument(
        "--cloth",
        action="append",
        default=[],
        metavar="[FABRIC=]WIDTH",
        help="usable width of a cloth by its name in the draft, or of the first one; default: as the draft says",
    )
    parser.add_argument("--open", action="store_true", help=f"every cloth {OPEN}, whatever the draft says")
    parser.add_argument("--one-way", action="store_true", help=f"{ONE_WAY}, for a nap or print")
    parser.add_argument("--unit", default="cm", choices=["cm", "in"], help="unit of the printed figures")
    parser.add_argument("--out", type=Path, required=True, help="folder for the files")
    parser.set_defaults(run=writing(_build))


def _build(options: argparse.Namespace) -> int:
    read = card_of(options.draft)
    choices = choices_of(options.choice)
    body_text = text_of(options.body)
    if read is None or choices is None or body_text is None:
        return 1
    prints = print_choices(options)
    if prints is None:
        return 1
    text, card = read
    body = read_body_file(body_text, options.body.name, card.group)
    tell(body.problems)
    if has_errors(body.problems):
        return 1
    cloths = _cloths(options, text, card)
    if cloths is None:
        return 1
    request = PackRequest(
        draft_text=text,
        draft_name=options.draft.name,
        measurements=body.body,
        choices=choices,
        unit=options.unit,
        paper=options.paper,
        cloths=cloths,
        order_number="sample",
        customer="",
        studio="",
        title=card.title,
        prints=prints,
    )
    return _write(request, options.out)


def _cloths(options: argparse.Namespace, text: str, card: DraftCard) -> dict[str, Cloth] | None:
    """Every cloth as the draft suggests it, changed by what was asked for; None, told on stderr, when that is wrong."""
    widths = _widths(options.cloth, [name for name, _, _ in card.fabrics])
    program = compiled(text, options.draft.name)
    if widths is None or isinstance(program, Refused):
        return None
    suggested = {name: width for name, _, width in card.fabrics}
    return {
        line.name: Cloth(
            widths.get(line.name, suggested[line.name]), folded=not (line.open or options.open), one_way=options.one_way
        )
        for line in program.draft.fabrics
    }


def _widths(wanted: Sequence[str], fabrics: Sequence[str]) -> dict[str, float] | None:
    """The widths asked for in mm by fabric: `120cm` is that of the first fabric, `lining=110cm` that of one by name."""
    widths: dict[str, float] = {}
    for words in wanted:
        name, _, said = words.rpartition("=")
        name = name.strip() or next(iter(fabrics), "")
        if name not in fabrics:
            say(f"--cloth {words}: this draft has no cloth “{name}”. It has: {', '.join(fabrics) or 'none'}.")
            return None
        width = length_of("--cloth", said)
        if width is None:
            return None
        least, most = CLOTH_WIDTHS
        if not least <= width <= most:
            between = " and ".join(show_length(limit, Unit.CM) for limit in CLOTH_WIDTHS)
            say(f"--cloth {words}: no cloth is {show_length(width, Unit.CM)} wide. Keep it between {between}.")
            return None
        widths[name] = width
    return widths


def _write(request: PackRequest, folder: Path) -> int:
    folder.mkdir(parents=True, exist_ok=True)
    with tqdm(total=100, bar_format="{desc:<34} {bar} {percentage:3.0f}%", disable=None) as bar:

        def progress(stage: str, share: float) -> None:
            bar.set_description_str(stage, refresh=False)
            bar.update(max(0.0, share * 100 - bar.n))

        outcome = build_pack(request, folder, progress)
        if not isinstance(outcome, Refused):
            progress("Done", 1.0)
    if isinstance(outcome, Refused):
        tell(outcome.problems)
        return say("nothing was written.")
    findings = (*outcome.findings, *_advice(request))
    for file in outcome.files:
        print(f"{folder / file.name}  {file.bytes / 1000:.0f} kB")
    for words in (*outcome.summary["left_out"], *outcome.summary["notes"]):
        say(words)
    if findings:
        # Last, so that they stand where she looks.
        say(f"{counted(len(findings), 'warning')} to read before cloth is cut:")
        tell(findings)
    return 0


def _advice(request: PackRequest) -> tuple[Problem, ...]:
    """What the draft leaves unsaid."""
    program = compiled(request.draft_text, request.draft_name)
    return () if isinstance(program, Refused) else advice_of(program)


COMMANDS = {"build": _build_options}
