"""A draft version that stands proved, for tests of what comes after a proof."""

from app.pattern.proof import Range, Region, region_values
from app.shop.proofs.service import accept_share, ask_for_proof, keep_shipped
from app.shop.proofs.values import ShippedProof

EVERYBODY = (0.0, 9999.0)

#: A draft with no more in it than a pattern needs.
SMALL_DRAFT = """draft "Linnet apron"
needs
    hip_girth
fabrics
    main "Cloth" width 140cm
sheet panel
    a = at 0, 0
    b = a right hip_girth / 4
    c = b down 60cm
    d = a down 60cm
    top = line a to b
    side = line b to c
    low = line c to d
    near = line d to a
piece panel "Panel" cut 1 main
    outline top, side, low, near
    grain a to d
    allowance 1cm
    finish top, side, low, near turned in
steps
    ## Hem it
    Turn every edge of the panel under.
"""


def small_draft(note):
    """Another text of the same small draft."""
    return f"{SMALL_DRAFT}# {note}\n"


def summary_of(share=1.0, **ranges):
    """The summary of a proof that held on `share` of a hundred bodies, and on all within the ranges (mm)."""
    region = Region(tuple(Range(axis, least, most) for axis, (least, most) in ranges.items()))
    return {
        "fingerprint": "f",
        "group": "women",
        "bodies": 100,
        "held": round(100 * share),
        "within": round(100 * share),
        "share": share,
        "patterns": 100,
        "patterns_held": round(100 * share),
        "missing": 0,
        "line": "Proved on 100 bodies from bust 0 to 1000 cm.",
        "settings": [{"setting": "as offered", "bodies": 100, "held": round(100 * share)}],
        "failures": [],
        "warnings": [],
        "worst": [],
        "region": region_values(region),
    }


def stand_proved(session, version, share=1.0, accepted=1.0, **ranges):
    """Let a draft version stand proved within the ranges (mm), else on everybody with a bust girth."""
    proof = ask_for_proof(session, version.listing_id, version.id)
    summary = summary_of(share, **(ranges or {"bust_girth": EVERYBODY}))
    proof.plan, proof.summary = "", {}
    keep_shipped(session, proof, ShippedProof(version.sha256, {}, summary, ()))
    if accepted < 1.0:
        accept_share(session, proof, accepted, "Ana Quill")
    return proof
