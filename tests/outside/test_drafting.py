"""Published drafting examples, drawn in the language step by step and measured.

Sources beside each check; the books are in the public domain in the U.S. Where only a
formula is published, the numbers fed into it are ours, and it says so.
"""

from __future__ import annotations

import pytest

from tests.pattern.drafting.drawn import draw

INCH = 25.4


def inches(mm: float) -> float:
    return mm / INCH


@pytest.mark.parametrize(
    ("fraction", "published_cm"),
    [("1", 10.8), ("1/2", 21.6), ("1/4", 43.3)],
)
def test_circle_skirt_radii(fraction, published_cm):
    """Waist 68 cm: a full, half and quarter circle as printed on flairbeat.com (r = w / 2 pi f), to a tenth of a cm."""
    values = draw(
        f"""
o = at 0, 0
solve radius from 5cm to 60cm until length(waist) = 68cm
    waist = arc around o radius radius from 0deg to full_turns({fraction})
"""
    )
    assert values["radius"] / 10 == pytest.approx(published_cm, abs=0.051)


def test_the_waist_of_a_half_circle_skirt_measures_the_waist():
    """Geometry: the arc of a half circle of radius 21.645 cm is 68 cm (the same worked example)."""
    values = draw("o = at 0, 0\nwaist = arc (at 21.645cm, 0) to (at 0 - 21.645cm, 0) around o\nw = length(waist)")
    assert values["w"] == pytest.approx(680.0, abs=0.02)


def test_the_first_foundation_lines_of_a_womans_waist():
    """I. Rosenfeld, The Practical Designer (1911/1918), "Woman's First Foundation Lines", size 36, in inches.

    AB 7 (back depth), AC 15 1/2 (waist length), AD = BE = CF 12 (a third of the size),
    G midway on BE at 6, GH 1 1/2, AJ 3 (a sixth of half the size), JK 1.
    """
    values = draw(
        """
size = 36in
a = at 0, 0
b = a down 7in
c = a down 15 1/2in
d = a right size / 3
e = b right size / 3
f = c right size / 3
g = middle of b and e
h = g right 1 1/2in
i = a right across(b, h)
j = a right size / 2 / 6
k = j up 1in
bh = distance(b, h)
ai = distance(a, i)
ae = distance(a, e)
aj = distance(a, j)
jk = distance(j, k)
bg = distance(b, g)
"""
    )
    expected = {"bh": 7.5, "ai": 7.5, "aj": 3.0, "jk": 1.0, "bg": 6.0, "ae": (12**2 + 7**2) ** 0.5}
    for name, value in expected.items():
        assert inches(values[name]) == pytest.approx(value, abs=1e-9)


def test_the_width_proportions_of_a_size_36():
    """I. Rosenfeld, The Practical Designer (1918) p. 14: bust 39 and waist 25 for size 36, as rounded there.

    A triangle on a base of a third of the size and as high: its girth is the bust
    (38.83, book 39); legs to points 3 in either side of the middle are the waist (24.74, book 25).
    """
    values = draw(
        """
a = at 0, 0
b = a right 36in / 3
c = middle of a and b
d = c down 36in / 3
e = middle of a and c
f = middle of c and b
bust = distance(a, b) + distance(b, d) + distance(d, a)
waist = distance(e, d) + distance(f, d)
"""
    )
    assert inches(values["bust"]) == pytest.approx(38.833, abs=0.001)
    assert round(inches(values["bust"])) == 39
    assert inches(values["waist"]) == pytest.approx(24.739, abs=0.001)
    assert round(inches(values["waist"])) == 25


def test_a_foundation_skirt():
    """L. I. Baldt, Clothing for Women (1916), "To Draft Skirt", Fig. 51; formulas the book's, measures ours.

    AB = hip/2 - (half hem)/8; AC = half hem/10; CD = AB/2; DE = side - front; EF = hip depth - 1/2;
    the hip line comes to half the hip.
    """
    values = draw(
        """
hip = 40in
half_hem = 108in / 2
a = at 0, 0
b = a right hip / 2 - half_hem / 8
c = a down half_hem / 10
d = c right distance(a, b) / 2
e = d up 41in - 40in
f = e down 6in - 1/2in
ab = distance(a, b)
ac = distance(a, c)
cd = distance(c, d)
de = distance(d, e)
ef = distance(e, f)
"""
    )
    for name, value in {"ab": 13.25, "ac": 5.4, "cd": 6.625, "de": 1.0, "ef": 5.5}.items():
        assert inches(values[name]) == pytest.approx(value, abs=1e-9)


def test_a_one_piece_foundation_sleeve():
    """School Sewing Based on Home Problems (1916; authors from memory: Burton), One-Piece Foundation Sleeve.

    Cap 4 in; LM = armhole/2 + 1/2; MN = armhole/5; MO = 2 armhole/5. The armhole of 16 in is our example.
    """
    values = draw(
        """
armhole = 16in
l = at 0, 0
m = l right armhole / 2 + 1/2in
n = m left armhole / 5
o = m left armhole * 2 / 5
crown = (middle of l and m) up 4in
lm = distance(l, m)
mn = distance(m, n)
mo = distance(m, o)
"""
    )
    for name, value in {"lm": 8.5, "mn": 3.2, "mo": 6.4}.items():
        assert inches(values[name]) == pytest.approx(value, abs=1e-9)


def panel(width: str) -> str:
    """A plain panel of a width with a slash up its middle."""
    return (
        f"a = at 0, 0\nb = a right {width}\nc = b up 50cm\nd = a up 50cm\n"
        "hem = line a to b\nright = line b to c\ntop = line c to d\nleft = line d to a\n"
        "panel = trace hem, right, top, left\n"
        "slash = line (middle of a and b) to (middle of c and d)\n"
    )


@pytest.mark.parametrize(("finished", "ratio", "flat"), [(20, 2.5, 50), (10, 1.5, 15), (10, 3, 30)])
def test_the_flat_length_of_gathers(finished, ratio, flat):
    """Flat = finished x ratio: 20 in x 2.5 = 50 in; 10 in x 1.5 and x 3 (hobby pages; common practice)."""
    lines = panel(f"{finished}in") + f"full = spread panel along slash making top {ratio} times as long"
    assert inches(draw(lines)["full"].side("top").path.length) == pytest.approx(flat)


@pytest.mark.parametrize(
    ("width", "folds", "cm"),
    [
        ("60cm", "box pleat panel along slash deep 12cm", 108),  # one box pleat 12 cm deep on 60 cm
        ("66cm", "inverted pleat panel along slash deep 6.5cm", 92),  # one inverted pleat 6.5 cm deep on 66 cm
    ],
)
def test_the_width_of_box_and_inverted_pleats(width, folds, cm):
    """NIMI (Govt of India), CITS Dress Making TP vol. 2, Exercise 48, pp. 189-190: widths of pleated sections.

    Its knife pleats are held in test_drafts_dresses_and_pleats.py.
    """
    top = draw(panel(width) + f"folded = {folds}")["folded"].side("top")
    assert top.path.length / 10 == pytest.approx(cm)
    assert (top.path.length - top.taken_in) / 10 == pytest.approx(float(width.removesuffix("cm")))
