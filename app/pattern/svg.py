"""SVG as text, for pictures of every kind: elements with everything in them escaped, and numbers rounded in one way."""

from __future__ import annotations

from xml.sax.saxutils import escape

__all__ = ["closed", "element", "number", "opened", "pair", "said", "svg"]

_NAMESPACE = "http://www.w3.org/2000/svg"

#: What an attribute may be; one that is None is left out.
Value = str | float | None


def number(value: float, places: int = 2) -> str:
    """A number as short as so many decimals allow, without a negative nought."""
    text = f"{value:.{places}f}"
    text = text.rstrip("0").rstrip(".") if places else text
    return "0" if text in ("-0", "") else text


def pair(x: float, y: float, places: int = 2) -> str:
    """A point as `x,y`."""
    return f"{number(x, places)},{number(y, places)}"


def said(words: str) -> str:
    """Words as they stand between tags."""
    return escape(words)


def element(name: str, /, *inner: str, **attributes: Value) -> str:
    """An element with what stands in it, which is SVG already; words go through `said` first.

    Attributes are named as in SVG, with `_` for `-`, and a last `_` where Python has the word for itself: `class_`.
    """
    return f"{opened(name, **attributes)}{''.join(inner)}{closed(name)}" if inner else _tag(name, attributes, "/>")


def svg(*inner: str, **attributes: Value) -> str:
    """A whole picture."""
    return element("svg", *inner, xmlns=_NAMESPACE, **attributes)


def opened(name: str, /, **attributes: Value) -> str:
    """The start of an element, for those that write as they go."""
    return _tag(name, attributes, ">")


def closed(name: str) -> str:
    """Its end."""
    return f"</{name}>"


def _tag(name: str, attributes: dict[str, Value], end: str) -> str:
    given = (f' {_named(key)}="{_quoted(value)}"' for key, value in attributes.items() if value is not None)
    return f"<{name}{''.join(given)}{end}"


def _named(key: str) -> str:
    return key.rstrip("_").replace("_", "-")


def _quoted(value: str | float) -> str:
    return escape(value, {'"': "&quot;"}) if isinstance(value, str) else number(value)
