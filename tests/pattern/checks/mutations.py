"""A good draft damaged in the way each check is for, as a table (`python -m tests.pattern.checks.mutations`).

`BY_TEXT` changes a line of `whole.draft`. Some faults a draft cannot even write down: the drafting or the cutting
refuses them first, and the table says by which problem. `BY_HAND` damages the cut pattern itself, in the ways that
only a fault of our own could bring about; checks look for those as well.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from pathlib import Path as File

from app.pattern.body import size_body
from app.pattern.checks import CHECKS, run_checks
from app.pattern.geometry import Path, Point
from app.pattern.make import Made, make_pattern
from app.pattern.pieces.model import Allowance, Cut, Pattern, Piece

TEXT = (File(__file__).parent / "whole.draft").read_text("utf-8")
BODY = size_body("92")


@dataclass(frozen=True)
class Damage:
    """One damage: the check it is for, in words, what is written instead of what, and the code that must be heard.

    `also` are lines that must be written otherwise so that no other check hears the damage too.
    """

    check: str
    words: str
    old: str
    new: str
    code: str
    also: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True)
class HandDamage:
    """A damage of the cut pattern."""

    check: str
    words: str
    harm: Callable[[Pattern], Pattern]
    code: str


BY_TEXT = (
    Damage(
        "outline",
        "a kink of 8° half-way along the back hem",
        "back_hem     = line hem_cb to hem_side",
        "back_hem     = line hem_cb to (at 12cm, -42.8cm) to hem_side",
        "checks.kink",
    ),
    Damage(
        "outline",
        "a fold edge that leaves its line by 0.3 mm",
        "fold_line = line corner to (corner down 15cm)",
        "fold_line = line corner to (corner right 0.3mm down 7cm) to (corner down 15cm)",
        "checks.fold-bent",
    ),
    Damage(
        "outline",
        "an edge that ends 1 cm short of the next",
        "back_hem     = line hem_cb to hem_side",
        "back_hem     = line (hem_cb right 1cm) to hem_side",
        "pieces.outline-gap",
    ),
    Damage(
        "outline",
        "a hem that crosses the top of its frill",
        "hem    = line (corner down 15cm) to (long down 15cm)",
        "hem    = line (corner down 15cm) to (long left 9cm down 15cm)"
        " to (long left 6cm up 3cm) to (long left 2cm down 15cm) to (long down 15cm)",
        "checks.outline-crosses",
    ),
    Damage(
        "darts",
        "legs that differ by 3 mm",
        "dart_tip     = dart_upper down 1.2cm left 11cm",
        "dart_tip     = dart_upper down 2.4cm left 11cm",
        "checks.dart-legs",
    ),
    Damage(
        "darts",
        "a tip right at the bust point",
        "bust_point   = dart_tip left 2.5cm",
        "bust_point   = dart_tip left 0.5cm",
        "checks.dart-clearance",
    ),
    Damage(
        "allowance",
        "a neck allowance that reaches over the fold",
        "side_lower 1.5cm, hem 3cm turned back",
        "side_lower 1.5cm, hem 3cm turned back, neck 9cm",
        "checks.over-fold",
    ),
    Damage(
        "allowance",
        "a mark that runs out of the piece",
        "placket      = line (neck_cf right 3cm down 5cm)",
        "placket      = line (neck_cf right 3cm up 15cm)",
        "checks.mark-outside",
    ),
    Damage(
        "cut_list",
        "half a back, not cut on the fold",
        'piece back "Back" from body cut 1 on fold main',
        'piece back "Back" from body cut 2 main',
        "checks.cut-fold",
    ),
    Damage("cut_list", "three sleeves in pairs", "cut 2 mirrored main", "cut 3 mirrored main", "drafting.odd-pair"),
    Damage(
        "cut_list",
        "a cloth that is not listed",
        "cut 2 mirrored main",
        "cut 2 mirrored lace",
        "drafting.unknown-fabric",
    ),
    Damage(
        "grain",
        "a grain line of half a centimetre",
        "grain (at 5cm, -8cm) to (at 5cm, -36cm)",
        "grain (at 5cm, -8cm) to (at 5cm, -8.5cm)",
        "checks.grain-short",
    ),
    Damage(
        "grain",
        "a grain line beside the piece",
        "grain (at 5cm, -8cm) to (at 5cm, -36cm)",
        "grain (at 5cm, 3cm) to (at 5cm, -36cm)",
        "checks.grain-outside",
    ),
    Damage(
        "pairs",
        "two left sleeves",
        "crown = mid up cap_height",
        "crown = mid up cap_height right 2cm",
        "checks.pair-unmirrored",
        (("cut 2 mirrored main", "cut 2 main"),),
    ),
    Damage("counts", "four sleeves for two", "cut 2 mirrored main", "cut 4 mirrored main", "checks.counts-unlike"),
    Damage(
        "folds",
        "a back cut 8° askew to its fold",
        "grain (at 5cm, -8cm) to (at 5cm, -36cm)",
        "grain (at 5cm, -8cm) to (at 9cm, -36cm)",
        "checks.grain-fold",
    ),
    Damage(
        "making", "a ribbon that is bought for nothing", "; sew the ribbon to it in a bow", "", "checks.notion-unused"
    ),
    Damage("steps", "darts that nobody closes", "Stitch the darts and press them down. ", "", "checks.work-unsaid"),
    Damage(
        "seam_walk",
        "a back side 2 mm longer than the front",
        "hem_side     = scye_side down 20cm",
        "hem_side     = scye_side down 20.2cm",
        "checks.seam-walk",
    ),
    Damage(
        "seam_walk",
        "a dart's intake left in the finished side",
        "front_side   = dart_lower down 14cm",
        "front_side   = dart_lower down 11.6cm",
        "checks.seam-walk",
    ),
    Damage(
        "seam_walk", "a cap with 4 mm of ease where 10 to 20 are meant", "+ 1.5cm\n", "+ 0.4cm\n", "checks.seam-walk"
    ),
    Damage(
        "seam_walk",
        "a frill with too little to gather",
        "1.6 * length(body.back_hem)",
        "1.3 * length(body.back_hem)",
        "checks.seam-ratio",
    ),
    Damage(
        "notch_walk", "a notch beyond the end of its seam", "notch at 15cm", "notch at 35cm", "pieces.notch-off-seam"
    ),
    Damage(
        "walk_order",
        "an armhole walked from the underarm where its neighbour is left at the shoulder",
        "sew sleeve.cap to back.armhole backwards, front.armhole",
        "sew sleeve.cap to back.armhole, front.armhole",
        "checks.walk-order",
    ),
    Damage(
        "walk_order",
        "a shoulder sewn to the other's far end",
        "sew front.shoulder to back.shoulder",
        "sew front.shoulder to back.shoulder backwards",
        "checks.walk-order-likely",
    ),
    Damage(
        "truing",
        "a shoulder whose neckline has a peak",
        "front_neck   = curve neck_cf to neck_point leaving right arriving square to shoulder",
        "front_neck   = curve neck_cf to neck_point leaving right arriving 45deg",
        "checks.truing",
    ),
    Damage(
        "truing",
        "a front neckline with a slight point at the fold",
        "front_neck   = curve neck_cf to neck_point leaving right",
        "front_neck   = curve neck_cf to neck_point leaving 12deg",
        "checks.fold-truing",
    ),
    Damage(
        "fullness",
        "a frill five times as long as its seam",
        "1.6 * length(body.back_hem)",
        "5 * length(body.back_hem)",
        "checks.fullness",
        (("gather 1.4..1.8", "gather 4.5..5.5"), ("width 140cm", "width 3m")),
    ),
    Damage(
        "finished_size",
        "a bust 4 mm narrower than it is said to be",
        "quarter = (bust_girth + ease) / 4",
        "quarter = (bust_girth + ease) / 4 - 1mm",
        "checks.finished-size",
    ),
    Damage(
        "finished_size",
        "an arm smaller than the arm in it",
        "half       = (upper_arm_girth + 6cm) / 2",
        "half       = (upper_arm_girth - 1cm) / 2",
        "checks.ease-minimum",
        (("ease 6cm", "ease -1cm"),),
    ),
    Damage(
        "wearing_ease",
        "an upper arm with 2 cm of room in woven cloth",
        "half       = (upper_arm_girth + 6cm) / 2",
        "half       = (upper_arm_girth + 2cm) / 2",
        "checks.wearing-ease",
        (("ease 6cm", "ease 2cm"),),
    ),
    Damage("getting_in", "a neck with half the zip it needs", "opens slit", "opens slit / 10", "checks.getting-in"),
    Damage("getting_in", "a neck that nothing opens", "opens slit passes", "passes", "checks.getting-in"),
    Damage("finish", "a hem of 3 mm to turn", "hem 2cm turned back", "hem 0.3cm turned back", "checks.hem-narrow"),
    Damage(
        "finish",
        "a shoulder of 3 mm",
        "allowance 1cm, side 1.5cm",
        "allowance 1cm, side 1.5cm, shoulder 0.3cm",
        "checks.seam-narrow",
    ),
    Damage(
        "finish",
        "a back shoulder with more to spare than the front's",
        "allowance 1cm, side 1.5cm",
        "allowance 1cm, side 1.5cm, shoulder 2cm",
        "checks.allowance-unlike",
    ),
    Damage(
        "finish",
        "a zip in a seam of 1 cm",
        "side_lower 1.5cm, hem 3cm",
        "side_lower 1cm, hem 3cm",
        "checks.zip-narrow",
        (("allowance 1cm, side 1.5cm", "allowance 1cm"), ("side_upper 1.5cm", "side_upper 1cm")),
    ),
    Damage(
        "edge_finish",
        "a sleeve seam that no line sews",
        "sew sleeve.seam_back to sleeve.seam_front\n",
        "",
        "checks.edge-unfinished",
    ),
    Damage("edge_finish", "a hem that no step turns up", "Turn up the hems; d", "D", "checks.finish-unsaid"),
    Damage(
        "edge_finish",
        "an edge lined in a piece of one cloth",
        "finish short closed",
        "finish short lined",
        "checks.finish-unlike",
    ),
    Damage(
        "hem_fullness",
        "a deep hem on a sharp curve",
        "hem    = line (corner down 15cm) to (long down 15cm)",
        "hem    = curve (corner down 15cm) to (long down 15cm) leaving 315deg arriving 45deg",
        "checks.hem-fullness",
    ),
    Damage(
        "shirring", "elastic without both widths", "stretches to length(sleeve.hem)", "", "checks.shirring-unstated"
    ),
    Damage(
        "shirring",
        "a full width under the relaxed one",
        "stretches to length(sleeve.hem)",
        "stretches to 20cm",
        "checks.stretched-width",
    ),
    Damage(
        "shirring",
        "elastic drawn in to a quarter",
        "relaxed = upper_arm_girth * 0.85",
        "relaxed = upper_arm_girth * 0.3",
        "checks.stretched-ratio",
    ),
    Damage(
        "fit",
        "an armhole drawn 4 cm deeper than is wanted over the arm's root",
        "ease 10cm..13cm",
        "ease 6cm..9cm",
        "checks.fit-off",
    ),
    Damage(
        "fit",
        "an armhole measured once where it goes round twice",
        "= 2 * length(body.armhole) body",
        "= length(body.armhole) body",
        "checks.fit-binds",
    ),
    Damage("shirring", "elastic without a length", "length 2 * relaxed", "count 1", "checks.elastic-length"),
    Damage("fits_cloth", "a cloth narrower than the frill", "width 140cm", "width 75cm", "checks.cloth-width"),
    Damage(
        "child_safety",
        "the same tunic for small children",
        "for women",
        "for children from 104cm to 134cm",
        "checks.child-neck-cord",
    ),
    Damage(
        "child_safety",
        "a loose ribbon on a bigger child's tunic",
        "for women",
        "for children from 140cm to 164cm",
        "checks.child-cord",
    ),
)


def _with_piece(pattern: Pattern, name: str, change: Callable[[Piece], Piece]) -> Pattern:
    return replace(pattern, pieces=tuple(change(p) if p.name == name else p for p in pattern.pieces))


def _notch_moved(piece: Piece) -> Piece:
    first, *rest = piece.notches
    return replace(piece, notches=(replace(first, along=first.along + 3.0), *rest))


def _wider_neck(piece: Piece) -> Piece:
    wider = (replace(e, allowance=Allowance(15.0)) if e.name == "neck" else e for e in piece.edges)
    return replace(piece, edges=tuple(wider))


def _chamfered(path: Path) -> Path:
    """A box without its lower right corner."""
    left, bottom, right, top = path.bounds
    corners = (
        (left, bottom),
        (right - 45.0, bottom),
        (right, bottom + 45.0),
        (right, top),
        (left, top),
        (left, bottom),
    )
    return Path.through(*(Point(*corner) for corner in corners))


def _open(path: Path) -> Path:
    return Path(path.segments[:-1])


BY_HAND = (
    HandDamage(
        "allowance",
        "an allowance written 5 mm wider than it was cut",
        lambda p: _with_piece(p, "back", _wider_neck),
        "checks.allowance-width",
    ),
    HandDamage(
        "outline",
        "an outline left open",
        lambda p: _with_piece(p, "back", lambda x: replace(x, stitching=_open(x.stitching))),
        "checks.outline-open",
    ),
    HandDamage(
        "outline",
        "an outline the wrong way round",
        lambda p: _with_piece(p, "back", lambda x: replace(x, stitching=x.stitching.reversed())),
        "checks.outline-clockwise",
    ),
    HandDamage(
        "allowance",
        "a corner of the cutting line cut off too deep",
        lambda p: _with_piece(p, "frill", lambda x: replace(x, cutting=_chamfered(x.cutting))),
        "checks.stitching-outside",
    ),
    HandDamage(
        "allowance",
        "a cutting line left open",
        lambda p: _with_piece(p, "back", lambda x: replace(x, cutting=_open(x.cutting))),
        "checks.cutting-open",
    ),
    HandDamage(
        "notch_walk",
        "a notch 3 mm off its partner",
        lambda p: _with_piece(p, "back", _notch_moved),
        "checks.notch-walk",
    ),
    HandDamage(
        "notch_walk",
        "a notch without its partner",
        lambda p: _with_piece(p, "back", lambda x: replace(x, notches=x.notches[1:])),
        "checks.notch-missing",
    ),
    HandDamage(
        "notch_walk",
        "a single notch against a double one",
        lambda p: _with_piece(
            p, "back", lambda x: replace(x, notches=(replace(x.notches[0], double=True), *x.notches[1:]))
        ),
        "checks.notch-unlike",
    ),
    HandDamage(
        "cut_list",
        "a piece with nothing to cut it from",
        lambda p: _with_piece(p, "sleeve", lambda x: replace(x, cuts=())),
        "checks.no-cuts",
    ),
    HandDamage(
        "cut_list",
        "a cloth that is not there",
        lambda p: _with_piece(p, "sleeve", lambda x: replace(x, cuts=(Cut("lace", 2, pair=True),))),
        "checks.cut-fabric",
    ),
)


def codes_of_text(text: str) -> tuple[str, ...]:
    """The codes of everything that is said of a draft's text for the trial body."""
    made = make_pattern(text, "whole.draft", BODY, {})
    problems = made.findings if isinstance(made, Made) else made.problems
    return tuple(sorted({problem.code for problem in problems}))


def damaged(damage: Damage) -> str:
    """The text with one damage; fails when the place is not there, or there twice."""
    text = TEXT
    for old, new in ((damage.old, damage.new), *damage.also):
        assert text.count(old) == 1, f"“{old}” stands {text.count(old)} times in the draft"
        text = text.replace(old, new)
    return text


def good_pattern() -> Pattern:
    """The undamaged pattern."""
    made = make_pattern(TEXT, "whole.draft", BODY, {})
    assert isinstance(made, Made), "\n".join(map(str, made.problems))
    return made.pattern


def codes_by_hand(damage: HandDamage) -> tuple[str, ...]:
    """The codes that the checks find after a damage by hand."""
    return tuple(sorted({problem.code for problem in run_checks(damage.harm(good_pattern()))}))


def rows() -> Iterator[tuple[str, str, str, bool, tuple[str, ...]]]:
    """(check, damage, code wanted, exactly that heard?, everything heard) for every damage."""
    for damage in BY_TEXT:
        heard = codes_of_text(damaged(damage))
        yield damage.check, damage.words, damage.code, heard == (damage.code,), heard
    for hand in BY_HAND:
        heard = codes_by_hand(hand)
        yield hand.check, f"{hand.words} (by hand)", hand.code, heard == (hand.code,), heard


def checks_by_name() -> tuple[str, ...]:
    """The names of every check, in the order of `CHECKS`."""
    return tuple(check.name for check in CHECKS)


def main() -> None:
    """Print the table as Markdown, check by check."""
    order = {name: place for place, name in enumerate(checks_by_name())}
    found = sorted(rows(), key=lambda row: order[row[0]])
    print("| check | damage to a good draft | heard | alone |\n|---|---|---|---|")
    for check, words, code, alone, heard in found:
        print(f"| `{check}` | {words} | {'yes' if code in heard else 'NO'}: `{code}` | {_alone(alone, code, heard)} |")
    print(f"\n{sum(alone for *_, alone, _ in found)} of {len(found)} damages are heard, each by its own check alone.")


def _alone(alone: bool, code: str, heard: tuple[str, ...]) -> str:
    return "yes" if alone else "with " + ", ".join(f"`{other}`" for other in heard if other != code)


if __name__ == "__main__":
    main()
