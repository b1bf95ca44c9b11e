"""What to write where a thing of one kind stands and one of another belongs: a table of remedies."""

from __future__ import annotations

import re

from app.pattern.drafting.kinds import Kind

__all__ = ["offer"]

#: What to write, by what stands there and what belongs there; {it} is what stands there, as it is written.
_MEASURED = {
    ("path", "length"): "Its length is length({it}).",
    ("path", "point"): "A point of it is (start of {it}), (end of {it}) or (along {it} by 5cm).",
    ("path", "angle"): "Its angle is angle(start of {it}, end of {it}).",
    ("path", "shape"): "A shape is traced from all its sides: trace hem, side, centre.",
    ("path", "dart"): "Draw a dart first: dart dart_a to tip to dart_b pressed left.",
    ("point", "length"): "How far it is from another is distance({it}, other_point).",
    ("point", "number"): "How far it is from another is distance({it}, other_point).",
    ("point", "path"): "Draw to it first: line other_point to {it}.",
    ("point", "angle"): "The way to it is toward {it}, or angle(other_point, {it}).",
    ("point", "direction"): "Write: toward {it}.",
    ("number", "angle"): "Write ({it}) * 1deg.",
    ("length", "number"): "Write a plain number such as 2 or 1/3, or divide {it} by another length.",
    ("angle", "number"): "Write sin({it}), cos({it}) or tan({it}), or a plain number such as 2.",
    ("dart", "length"): "What it takes in is intake({it}).",
    ("text", "number"): "Take its quotes away.",
}
_SUCH_AS = {
    "length": "Write a measure such as 5cm.",
    "number": "Write a plain number such as 2.",
    "angle": "Write an angle such as 90deg.",
    "area": "Write a length times a length.",
    "point": "Write the name of a point.",
    "path": "Write the name of a line or curve.",
    "direction": "Write a direction such as down, toward waist or 90deg.",
    "dart": "Write the name of a dart.",
    "shape": "Trace a shape first: trace hem, side, centre.",
    "yesno": "Write yes, no or a test such as length > 60cm.",
    "text": 'Write a text in quotes, such as "Hem".',
    "option": "Write one of a choice's options.",
}
_NUMERAL = re.compile(r"[\d./\s]+")


def offer(written: str, kind: Kind, wanted: str) -> str:
    """The remedy for `written`, which is of one kind where one of the kinds `wanted` ("point|path") belongs."""
    kinds = wanted.split("|")
    if kind.name == "shape" and ("path" in kinds or "length" in kinds):
        side = next((name.removesuffix(":path") for name in kind.options if name.endswith(":path")), "hem")
        sides = f"{written}.{side}"
        return f"Take a side of it, such as {sides if 'path' in kinds else f'length({sides})'}."
    if kind.name == "number" and wanted == "angle" and _NUMERAL.fullmatch(written):
        return f"Write {written}deg."
    if "point" in kinds and "path" in kinds:
        return "Write the name of a point, a line or a curve."
    # A length is the likelier where a number would do as well.
    kinds.sort(key=lambda name: name != "length")
    found = (_MEASURED[kind.name, name] for name in kinds if (kind.name, name) in _MEASURED)
    fix = next(found, _SUCH_AS.get(kinds[0], "Put one here."))
    return fix.format(it=written)
