"""The look of the pages against a published standard.

Outside: Web Content Accessibility Guidelines 2.2 (W3C Recommendation, 5 October 2023). Contrast is computed by its
definitions of relative luminance and contrast ratio; the least ratios are those of criteria 1.4.3 (text, 4.5:1) and
1.4.11 (edges of fields and focus, 3:1).
"""

import re
from pathlib import Path

import pytest

TOKENS = (Path(__file__).parents[2] / "static" / "css" / "tokens.css").read_text()


def colours():
    return dict(re.findall(r"--([\w-]+):\s*(#[0-9a-f]{6});", TOKENS))


def luminance(colour):
    """Relative luminance of an sRGB colour, as WCAG 2.2 defines it."""
    channels = [int(colour[start : start + 2], 16) / 255 for start in (1, 3, 5)]
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one, other):
    """Contrast ratio, as WCAG 2.2 defines it."""
    lighter, darker = sorted((luminance(one), luminance(other)), reverse=True)
    return (lighter + 0.05) / (darker + 0.05)


def test_contrast_agrees_with_the_ratios_of_the_guidelines_own_extremes():
    assert contrast("#000000", "#ffffff") == pytest.approx(21.0)
    assert contrast("#777777", "#ffffff") == pytest.approx(4.48, abs=0.005)


@pytest.mark.parametrize(("front", "ground", "least"), re.findall(r"pair: ([\w-]+) ([\w-]+) ([\d.]+)", TOKENS))
def test_every_pair_of_colours_that_is_used_has_its_contrast(front, ground, least):
    assert contrast(colours()[front], colours()[ground]) >= float(least)


@pytest.mark.parametrize("least", re.findall(r"pair: [\w-]+ [\w-]+ ([\d.]+)", TOKENS))
def test_no_pair_is_held_to_less_than_the_standard(least):
    assert float(least) >= 3.0
