"""What a reader meant to find at a place, in words a designer knows."""

from __future__ import annotations

from lark.exceptions import UnexpectedCharacters, UnexpectedInput, UnexpectedToken

from app.pattern.language.near import nearest
from app.pattern.language.samples import sample_for
from app.pattern.language.slips import Slip, Stops, Stuck, slip_at

__all__ = ["explain_syntax_error", "stop_of"]

_WORDS = {
    "NAME": "a name",
    "QUANTITY": "a measure such as 3cm",
    "STRING": "a text in quotes",
    "DIRECTION": "down, up, left or right",
    "COMPARE": "<, >, <= or >=",
    "COUNT": "a count",
    "IN_OUT": "in or out",
    "FOLD": "fold",
    "WHOM": "women, men or children",
    "FROM_END": "from end",
    "EDGE_FINISH": "how the edges are finished (hemmed, turned in, faced, lined, bound, closed, zipped, applied, "
    "caught, neatened, raw, selvedge)",
    "MARK_KIND": "a kind of mark (stitch, fold, lengthen, gather, place, button, buttonhole, drill)",
    "LPAR": "(",
    "RPAR": ")",
    "COMMA": "a comma",
    "EQUAL": "=",
    "PLUS": "+",
    "MINUS": "-",
    "STAR": "*",
    "SLASH": "/",
    "DOT": "a dot",
    "$END": "the end of the line",
    "__ANON_0": "..",
}
#: Terminals that stand for several words.
_SPELT = {
    "DIRECTION": ("down", "up", "left", "right"),
    "IN_OUT": ("in", "out"),
    "WHOM": ("women", "men", "children"),
    "EDGE_FINISH": (
        "hemmed",
        "faced",
        "lined",
        "bound",
        "closed",
        "zipped",
        "applied",
        "caught",
        "neatened",
        "raw",
        "selvedge",
    ),
    "MARK_KIND": ("stitch", "fold", "lengthen", "gather", "place", "button", "buttonhole", "drill"),
}
_ARITHMETIC = {"PLUS", "MINUS", "STAR", "SLASH"}


def stop_of(wrong: UnexpectedInput, text: str) -> tuple[int, str]:
    """Where the reading of a text stopped, from 0, and the signs it stopped at; "" at its end."""
    if isinstance(wrong, UnexpectedToken):
        return (len(text), "") if wrong.token.type == "$END" else (wrong.token.start_pos or 0, str(wrong.token))
    at = wrong.pos_in_stream if isinstance(wrong, UnexpectedCharacters) else len(text)
    return at or 0, text[at or 0 : (at or 0) + 1]


def explain_syntax_error(wrong: UnexpectedInput, text: str, start: str, stops: Stops) -> Slip:
    """What is said of a line that cannot be read by the rule `start`: a slip that is known, else what was expected."""
    at, found = stop_of(wrong, text)
    slip = slip_at(Stuck(text, at, found, start, stops))
    return slip or Slip(*_expected(wrong, found, start, text[:at]), at, at + max(1, len(found)))


def _expected(wrong: UnexpectedInput, found: str, start: str, before: str) -> tuple[str, str]:
    """Message and remedy for a line that cannot be read at `found` ("" for its end), but could be up to there."""
    # What the parser takes here; what the lexer looks for besides belongs to other rules.
    reader = getattr(wrong, "interactive_parser", None)
    names = set(reader.accepts()) if reader is not None else set()
    here = f"“{found[:40]}” cannot stand here" if found else "The line ends too early"
    said = [_WORDS.get(name, name.lower().replace("_", " ")) for name in sorted(names - _ARITHMETIC)]
    said += ["more arithmetic"] if names & _ARITHMETIC else []
    expected = ", ".join(said[:-1]) + " or " + said[-1] if len(said) > 1 else "".join(said)
    message = f"{here}; expected {expected}." if expected and len(names) <= 17 else f"{here}."
    words = [word for name in names for word in _SPELT.get(name, (name.lower(),)) if word.isalpha()]
    near = nearest(found.lower(), words) if found.isalpha() else None
    fix = f"Did you mean “{near}”?" if near else f"Write it like: {sample_for(start, before)}"
    return message, fix
