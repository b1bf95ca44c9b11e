"""Warnings of the demo designs' proofs that the demo designer accepts as they are, by design and name, with her notes.

A warning's name is its check and what it is about. None is on a body near the middle; each was looked at on its bodies.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

__all__ = ["MEANT"]

_Notes = Mapping[tuple[str, str], str]

_HEM_TURNS = "At the far ends of the sizes and choices only: the corner at the side is smoothed when the hem is turned."
_CLOTH = "On the largest bodies at the fullest setting only. The review page offers wider cloth, or laying it open."
_CORD = "One grown woman under 135 cm: the ties lie at her waist and are knotted."

MEANT: Mapping[str, _Notes] = MappingProxyType(
    {
        "fernhill-skirt": {
            (
                "checks.hem-fullness",
                "side, edge hem",
            ): "Hardly over what lies flat: the raw edge is eased in by a thread.",
        },
        "larkspur-tunic": {
            ("checks.truing", "front, edge hem"): _HEM_TURNS,
            ("checks.truing", "front_lining, edge hem"): _HEM_TURNS,
            ("checks.cloth-width", "panel"): _CLOTH,
            ("checks.child-cord", "tie"): _CORD,
        },
        "saltmarsh-blouse": {
            ("checks.truing", "front, edge hem"): _HEM_TURNS,
            (
                "checks.fit-off",
                "back_width",
            ): "One small woman with a broad back; her toile tells, and her order comes to me.",
            (
                "checks.notch-lost",
                "front, edge side_upper",
            ): "On one very short back the bust dart stands for the notch.",
        },
        "pimpernel-bodice": {
            (
                "checks.dart-truing",
                "front, edge waist_in, waist_dart",
            ): "Two deep waist darts: the waist is cut with them folded shut, and runs on.",
        },
        "sweetgale-trousers": {
            (
                "checks.truing",
                "front, edge hem",
            ): "Narrow cropped legs taper to the hem, and its allowance is cut to the taper.",
            (
                "checks.fit-off",
                "thigh",
            ): "Full thighs beyond the survey's, or the widest hem: tried on as far as the knee first.",
            (
                "checks.truing",
                "front, edge waist_out",
            ): "A small waist over a full hip: the waist is drawn smooth at the side.",
            ("checks.truing", "front_facing, edge waist"): "As the waist that it faces, and drawn smooth with it.",
        },
        "ribwort-top": {
            (
                "checks.truing",
                "front, edge armhole",
            ): "The jersey of the largest sizes gives there, and the sleeve covers it.",
            ("checks.fit-off", "back_width"): "Broad backs over a small bust: the jersey stretches across.",
            ("checks.hem-fullness", "back, edge hem"): "Hardly over what lies flat, and jersey eases itself in.",
            ("checks.hem-fullness", "front, edge hem"): "Hardly over what lies flat, and jersey eases itself in.",
            ("checks.truing", "front, edge hem"): "One body, and jersey: the hem is stretched smooth at the side.",
        },
        "sorrel-dress": {
            (
                "checks.fit-off",
                "depth",
            ): "The armhole keeps its room round the arm; how deep it hangs follows from that.",
            ("checks.fit-off", "front_width"): "The wrap is pinned across at the toile, where the width is set.",
            ("checks.fit-off", "back_width"): "Broad backs over a small bust: looked at on the toile.",
            ("checks.cloth-width", "skirt_front"): _CLOTH,
            ("checks.child-cord", "tie_long"): _CORD,
            ("checks.child-cord", "tie_short"): _CORD,
        },
    }
)
