"""What a clumsy designer forgets, so that the garment is not whole: damages to good drafts of every kind.

Each row: the draft (a file of the catalogue, of the guide, or `whole`), what was changed, in words; the text that
stood there, what stands there now, and the code that must be heard.
"""

from __future__ import annotations

UNFINISHED, ODD, UNSAID = "checks.edge-unfinished", "checks.finish-unlike", "checks.finish-unsaid"
COUNTS, LEFT, HALVES, ASKEW = (
    "checks.counts-unlike",
    "checks.pair-unmirrored",
    "checks.fold-halves",
    "checks.grain-fold",
)
UNUSED, UNNAMED = "checks.notion-unused", "checks.piece-unnamed"

DAMAGES: tuple[tuple[str, str, str, str, str], ...] = (
    (
        "gore_skirt",
        "the side seam is not sewn",
        "sew side.side_seam to side.side_seam  notch at zip_length\n",
        "",
        UNFINISHED,
    ),
    ("gore_skirt", "nobody fells the band", "    finish    top turned in\n", "", UNFINISHED),
    (
        "gore_skirt",
        "a hem without turning back",
        'waist 1cm, hem hem_depth turned back\n    mark lengthen adjust "Lengthen or shorten here"\n\npiece side',
        'waist 1cm, hem hem_depth\n    mark lengthen adjust "Lengthen or shorten here"\n\npiece side',
        UNFINISHED,
    ),
    (
        "gore_skirt",
        "no step hems",
        "    ## Hem\n    Let the skirt hang for a day: flared seams drop on the bias. Level it, then "
        "turn up {hem_depth}. The hem goes {4 * (length(centre.hem) + length(side.hem))} round. Ease in the "
        "fullness of the raw edge and stitch by hand or machine.",
        "    Press it.",
        UNSAID,
    ),
    ("set_in_blouse", "the underarm seam of the sleeve", "sew sleeve.seam_back to sleeve.seam_front\n", "", UNFINISHED),
    (
        "set_in_blouse",
        "the collar is not sewn to the neck",
        "sew stand.attach to back.neck, front.neck backwards, band.top_near  notch at length(back.neck)\n",
        "",
        UNFINISHED,
    ),
    ("set_in_blouse", "no front band", "sew band.attach to front.front_edge backwards  notch at 1/2\n", "", UNFINISHED),
    (
        "straight_trousers",
        "the inside leg",
        "sew front.inseam to back.inseam  ease -0.2cm..1.2cm  notch at length(front.inseam_top)\n",
        "",
        UNFINISHED,
    ),
    (
        "straight_trousers",
        "a facing forgotten behind",
        "sew back.waist_in, back.waist_out to back_facing.waist\n",
        "",
        UNFINISHED,
    ),
    ("wrap_dress", "no step neatens the facing", " Neaten the outer edge.", "", UNSAID),
    (
        "hooded_waistcoat",
        "armholes cut to the line and bound with nothing",
        '    binding  "Bias binding, 12 mm finished"  length 2 * (length(back.armhole) + '
        "length(front.armhole)) + 10cm\n",
        "",
        ODD,
    ),
    ("hooded_waistcoat", "the facing's own shoulder", "sew facing.shoulder to back_facing.shoulder\n", "", UNFINISHED),
    (
        "fitted_bodice",
        "no lining is cut",
        "cut 2 mirrored main, cut 2 mirrored lining when line is darted",
        "cut 2 mirrored main when line is darted",
        ODD,
    ),
    ("knit_top", "the shoulder", "sew front.shoulder to back.shoulder\n", "", UNFINISHED),
    (
        "knit_top",
        "no step hems",
        "    ## Hems\n    Turn up {2.5cm} at hem and sleeves and stitch with a twin needle from the "
        "right side, without stretching.",
        "    Press.",
        UNSAID,
    ),
    (
        "wrap_dress",
        "the skirt's front edge has no facing",
        "sew skirt_facing.front_edge to skirt_front.front_edge  notch at 1/2\n",
        "",
        UNFINISHED,
    ),
    (
        "yoke_shirt",
        "the collar's ends stay open",
        "    finish    leaf, outer closed\n",
        "    finish    outer closed\n",
        UNFINISHED,
    ),
    ("pleated_skirt", "the hem is said nowhere", "    finish    hem hemmed\n", "", UNFINISHED),
    (
        "shirred_tunic",
        "the lining's shoulder",
        "sew front_lining.shoulder to back_lining.shoulder  when lined\n",
        "",
        UNFINISHED,
    ),
    (
        "childs_pinafore",
        "the bib lining's edge",
        "    finish    lower neatened\n\npiece back_bib",
        "\npiece back_bib",
        UNFINISHED,
    ),
    ("set_in_blouse", "one cuff for two sleeves", "cuff cut 2 main, cut 2", "cuff cut 1 main, cut 1", COUNTS),
    ("set_in_blouse", "two left sleeves", "from sleeve cut 2 mirrored main", "from sleeve cut 2 main", LEFT),
    ("set_in_blouse", "a back twice on the fold", "from back cut 1 on fold", "from back cut 2 on fold", COUNTS),
    ("set_in_blouse", "a collar in one layer", "stand cut 2 on fold main", "stand cut 1 on fold main", COUNTS),
    (
        "set_in_blouse",
        "a front band folded off its middle",
        "fold_line = line (low right band_width) to (head right band_width)",
        "fold_line = line (low right band_width + 6mm) to (head right band_width + 6mm)",
        HALVES,
    ),
    (
        "set_in_blouse",
        "a back cut across the grain",
        "(nape right 6cm down scye_depth) to (hem_cb right 6cm up 4cm)",
        "(nape right 3cm down scye_depth) to (nape right 15cm down scye_depth)",
        ASKEW,
    ),
    ("gore_skirt", "two gores too few", "from side cut 4 mirrored main", "from side cut 2 mirrored main", COUNTS),
    ("gore_skirt", "four gores all alike", "from side cut 4 mirrored main", "from side cut 4 main", LEFT),
    ("gore_skirt", "a hook that is never sewn on", " Sew on the hook and bar.", "", UNUSED),
    (
        "gore_skirt",
        "a band folded off its middle",
        "fold_along = line (corner up band_depth) to (far up band_depth)",
        "fold_along = line (corner up band_depth + 1cm) to (far up band_depth + 1cm)",
        HALVES,
    ),
    ("hooded_waistcoat", "one pocket bag", "pocket cut 2 mirrored lining", "pocket cut 1 lining", COUNTS),
    ("hooded_waistcoat", "a hood of two alike", "hood_sheet cut 2 mirrored main", "hood_sheet cut 2 main", LEFT),
    ("knit_top", "one sleeve", "from sleeve cut 2 mirrored main", "from sleeve cut 1 main", COUNTS),
    ("straight_trousers", "one back leg", "from back cut 2 mirrored main", "from back cut 1 main", COUNTS),
    ("straight_trousers", "two left fronts", "from front cut 2 mirrored main", "from front cut 2 main", LEFT),
    ("yoke_shirt", "collars in four layers", "from collar cut 2 on fold", "from collar cut 4 on fold", COUNTS),
    (
        "childs_pinafore",
        "one pocket for two places",
        "from pocket cut 2 main",
        "from pocket cut 1 main",
        "checks.counts-places",
    ),
    ("shirred_tunic", "one tie for two sides", "ties cut 2 mirrored main", "ties cut 1 main", "checks.counts-steps"),
)
