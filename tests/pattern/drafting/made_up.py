"""Lines of the language made up by chance, each with what it must come to, worked out in Python beside it.

A value is a pair: how it is written, and what it is worth (mm, radians, plain numbers, truth, or a complex number for a
point). Whatever is made up can be drawn: nothing is divided by something small, no root is taken of less than nothing.
"""

from math import atan2, ceil, cos, hypot, pi, sin

from hypothesis import strategies as st

WAIST, BUST, EASE = 760.0, 920.0, 20.0
UNITS = {"mm": 1.0, "cm": 10.0, "in": 25.4, "m": 1000.0}
TURNS = {"up": 1j, "down": -1j, "left": -1.0, "right": 1.0}


def _figure(most):
    """A plain figure with up to two places, as it is written and what it is."""
    return st.integers(0, most * 100).map(lambda n: (f"{n / 100:g}", n / 100))


def _small(draw, least=1, most=9):
    return draw(st.integers(least, most))


@st.composite
def lengths(draw, depth=2):
    """A length in mm."""
    kind = draw(st.sampled_from(["plain", "name", "inch"] if depth == 0 else _LENGTHS))
    if kind == "plain":
        unit = draw(st.sampled_from(sorted(UNITS)))
        text, worth = draw(_figure(2 if unit == "m" else 60))
        return f"{text}{unit}", worth * UNITS[unit]
    if kind == "inch":
        parts = draw(st.sampled_from([2, 4, 8, 16]))
        part, whole = draw(st.integers(1, parts - 1)), draw(st.integers(0, 20))
        return (f"{whole} " if whole else "") + f"{part}/{parts}in", (whole + part / parts) * 25.4
    if kind == "name":
        return draw(st.sampled_from([("waist_girth", WAIST), ("bust_girth", BUST), ("ease", EASE)]))
    return _LENGTH_MADE[kind](draw, depth - 1)


def _sum(draw, depth):
    (a, x), (b, y) = draw(lengths(depth)), draw(lengths(depth))
    sign = draw(st.sampled_from("+-"))
    return f"({a} {sign} {b})", x + y if sign == "+" else x - y


def _times(draw, depth):
    (a, x), (n, y) = draw(lengths(depth)), draw(numbers(depth))
    return draw(st.sampled_from([(f"({a}) * ({n})", x * y), (f"({n}) * ({a})", x * y)]))


def _shared(draw, depth):
    (a, x), n = draw(lengths(depth)), _small(draw)
    return f"({a}) / {n}", x / n


def _percent(draw, depth):
    (a, x), n = draw(lengths(depth)), draw(st.integers(0, 200))
    return f"{n}% * ({a})", x * n / 100


def _negative(draw, depth):
    a, x = draw(lengths(depth))
    return f"(-({a}))", -x


def _limit(draw, depth):
    some = [draw(lengths(depth)) for _ in range(draw(st.integers(2, 3)))]
    word, pick = draw(st.sampled_from([("max", max), ("min", min)]))
    return f"{word}({', '.join(text for text, _ in some)})", pick(worth for _, worth in some)


def _absolute(draw, depth):
    a, x = draw(lengths(depth))
    return f"abs({a})", abs(x)


def _hypot(draw, depth):
    (a, x), (b, y) = draw(lengths(depth)), draw(lengths(depth))
    return f"hypot({a}, {b})", hypot(x, y)


def _root(draw, depth):
    (a, x), (b, y) = draw(lengths(depth)), draw(lengths(depth))
    return f"sqrt(({a}) * ({a}) + ({b}) * ({b}))", hypot(x, y)


def _rounded(draw, depth):
    (a, x), step = draw(lengths(depth)), draw(st.integers(1, 50))
    return f"round_up({a}, {step}mm)", ceil(x / step - 1e-9) * step


def _picked(draw, depth):
    (a, x), (b, y), (test, holds) = draw(lengths(depth)), draw(lengths(depth)), draw(conditions(depth))
    return f"({a} when {test} otherwise {b})", x if holds else y


_LENGTH_MADE = {
    "sum": _sum, "times": _times, "shared": _shared, "percent": _percent, "negative": _negative, "limit": _limit,
    "absolute": _absolute, "hypot": _hypot, "root": _root, "rounded": _rounded, "picked": _picked,
}  # fmt: skip
_LENGTHS = ["plain", "name", "inch", *_LENGTH_MADE]


_NUMBERS = ("plain", "share", "ratio", "sine", "cosine", "sum")


@st.composite
def numbers(draw, depth=2):
    """A plain number."""
    kind = draw(st.sampled_from([*_NUMBERS[: 2 if depth == 0 else None]]))
    if kind == "plain":
        return draw(_figure(4))
    if kind == "share":
        n = draw(st.integers(0, 150))
        return f"{n}%", n / 100
    if kind == "ratio":
        a, x = draw(lengths(depth - 1))
        return f"(({a}) / bust_girth)", x / BUST
    if kind == "sum":
        (a, x), (b, y) = draw(numbers(depth - 1)), draw(numbers(depth - 1))
        return f"({a} + {b})", x + y
    a, x = draw(angles(depth - 1))
    return (f"sin({a})", sin(x)) if kind == "sine" else (f"cos({a})", cos(x))


@st.composite
def angles(draw, depth=2):
    """An angle in radians."""
    kind = draw(st.sampled_from(["plain"] if depth == 0 else ["plain", "sign", "share", "turns", "arctan", "sum"]))
    if kind in ("plain", "sign"):
        n = draw(st.integers(0, 360))
        return f"{n}{'deg' if kind == 'plain' else '°'}", n * pi / 180
    if kind == "share":
        (a, x), n = draw(angles(depth - 1)), _small(draw)
        return f"({a}) / {n}", x / n
    if kind == "sum":
        (a, x), (b, y) = draw(angles(depth - 1)), draw(angles(depth - 1))
        return f"({a} - {b})", x - y
    a, x = draw(numbers(depth - 1))
    return (f"full_turns({a})", 2 * pi * x) if kind == "turns" else (f"arctan({a})", atan2(x, 1.0))


_CONDITIONS = ("lined", "knee", "order", "not", "and", "or")


@st.composite
def conditions(draw, depth=1):
    """A test, and whether it holds. Lengths that are compared differ by more than reckoning loses."""
    kind = draw(st.sampled_from([*_CONDITIONS[: 3 if depth <= 0 else None]]))
    if kind == "lined":
        return draw(st.sampled_from([("lined", False), ("not lined", True)]))
    if kind == "knee":
        known = [("length is knee", True), ("length is calf", False), ("length is not calf", True)]
        return draw(st.sampled_from(known))
    if kind == "order":
        a, b = draw(st.integers(0, 300)), draw(st.integers(0, 300))
        sign = draw(st.sampled_from(["<", ">", "<=", ">="]))
        holds = {"<": a < b, ">": a > b, "<=": a <= b, ">=": a >= b}[sign]
        return f"{a}mm {sign} {b}mm", holds
    if kind == "not":
        text, holds = draw(conditions(0))
        return f"not {text}", not holds
    # "not" binds closest and "and" closer than "or", as at school: the sides of an "and" hold no "or".
    (a, x), (b, y) = draw(conditions(0 if kind == "and" else depth - 1)), draw(conditions(depth - 1))
    if kind == "or" or " or " in b:
        return f"{a} or {b}", x or y
    return f"{a} and {b}", x and y


_MOVES = ("go", "going", "between", "middle", "turned", "level", "plumb")


@st.composite
def points(draw, known=(), depth=2):
    """A point, as a complex number of mm; `known` are points of the sheet to begin from."""
    begin = ["at", *(["known"] if known else [])]
    kind = draw(st.sampled_from([*begin, *(_MOVES if depth else ())]))
    if kind == "at":
        (a, x), (b, y) = draw(lengths(1)), draw(lengths(1))
        return f"(at {a}, {b})", complex(x, y)
    if kind == "known":
        return draw(st.sampled_from(list(known)))
    p, z = draw(points(known, depth - 1))
    if kind == "go":
        word, (a, x) = draw(st.sampled_from(sorted(TURNS))), draw(lengths(1))
        return f"({p} {word} {a})", z + TURNS[word] * x
    if kind == "going":
        (turn, angle), (a, x) = draw(angles(1)), draw(lengths(1))
        return f"({p} going {turn} by {a})", z + x * complex(cos(angle), sin(angle))
    q, w = draw(points(known, depth - 1))
    if kind == "between":
        n, share = draw(numbers(0))
        return f"(between {p} and {q} at {n})", z + share * (w - z)
    if kind == "middle":
        return f"(middle of {p} and {q})", (z + w) / 2
    if kind == "turned":
        turn, angle = draw(angles(1))
        return f"({p} turned {turn} about {q})", w + (z - w) * complex(cos(angle), sin(angle))
    if kind == "level":
        return f"({p} level with {q})", complex(z.real, w.imag)
    return f"({p} plumb with {q})", complex(w.real, z.imag)


@st.composite
def sheets(draw):
    """Up to seven lines of a sheet that build on one another, and what each name must be."""
    lines, points_known, worth = [], [], {}
    for number in range(draw(st.integers(2, 7))):
        kind = draw(st.sampled_from(["length", "angle", "number", "point", "point"]))
        made = {"length": lengths(), "angle": angles(), "number": numbers(), "point": points(tuple(points_known))}
        text, value = draw(made[kind])
        name = f"{kind}_{number}"
        lines.append(f"{name} = {text}")
        worth[name] = value
        if kind == "point":
            points_known.append((name, value))
    return lines, worth


def shown(value):
    """A value of a sheet to compare: a point as a complex number, anything else as it is."""
    return complex(*value) if isinstance(value, tuple) else value
