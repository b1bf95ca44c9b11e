"""The catalogue's drafts damaged where they touch the body: an armhole, a sleeve, a crotch that no longer fits.

Each row is a draft, what a clumsy designer did in words, the text that she changed, what she wrote instead, and the
code that must be heard of it.
"""

from __future__ import annotations

_ARMHOLE = "until length(back_arm) + length(front_arm) = armscye_girth + arm_room"

DAMAGES: tuple[tuple[str, str, str, str, str], ...] = (
    (
        "set_in_blouse",
        "an armhole drawn to the bust alone",
        _ARMHOLE,
        _ARMHOLE.replace("armscye_girth", "bust_girth / 4 + 22cm"),
        "checks.fit-off",
    ),
    (
        "set_in_blouse",
        "an armhole drawn 8 cm too small",
        _ARMHOLE,
        f"{_ARMHOLE} - 8cm",
        "checks.fit-binds",
    ),
    (
        "set_in_blouse",
        "the room of the armhole left out",
        f"{_ARMHOLE}\n",
        _ARMHOLE.replace(" + arm_room", "") + "\n",
        "checks.fit-off",
    ),
    (
        "yoke_shirt",
        "a back drawn to the whole back width instead of half of it and more",
        "back_width / 2 + 1.4cm",
        "back_width / 2 - 5cm",
        "checks.fit-binds",
    ),
    (
        "wrap_dress",
        "a front that reaches 5 cm short of the arm's crease",
        "front_width / 2 + 0.4cm",
        "front_width / 2 - 5cm",
        "checks.fit-binds",
    ),
    (
        "set_in_blouse",
        "armscye and upper arm taken for each other",
        _ARMHOLE,
        _ARMHOLE.replace("armscye_girth", "upper_arm_girth"),
        "checks.fit-binds",
    ),
    (
        "fitted_bodice",
        "a fit line over the wrong measure",
        "length(front.armhole)  body armscye_girth",
        "length(front.armhole)  body upper_arm_girth",
        "checks.fit-off",
    ),
    (
        "hooded_waistcoat",
        "an armhole measured on one side only",
        '"Armhole"    = length(back.armhole) + length(front.armhole)',
        '"Armhole"    = length(front.armhole)',
        "checks.fit-binds",
    ),
    (
        "straight_trousers",
        "a thigh measured on the back leg twice",
        '"Thigh"       = width(front, front.thigh_level) + width(back, back.thigh_level)  body',
        '"Thigh"       = width(back, back.thigh_level) + width(back, back.thigh_level)  body',
        "checks.fit-off",
    ),
    (
        "straight_trousers",
        "a rise of the hip's depth",
        "depth         = body_rise + rise_ease",
        "depth         = body_rise - 2cm + rise_ease",
        "checks.fit-off",
    ),
    (
        "knit_top",
        "an upper arm taken for the wrist",
        "wrist_width = max(wrist_girth",
        "wrist_width = max(upper_arm_girth",
        "checks.fit-off",
    ),
)
