"""The demo shop: an invented studio with its designs, loaded as often as you like with the same result."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from hashlib import sha256
from math import floor
from pathlib import Path
from typing import Any

import sqlalchemy as sa
from sqlalchemy.orm import Session, joinedload

from app.demo.meant import MEANT
from app.shop.catalogue.models import DraftVersion, Level, Listing
from app.shop.catalogue.service import ListingWords, add_draft_version, put_on_sale, save_listing
from app.shop.people.models import Designer
from app.shop.people.service import ensure_designer, ensure_studio, password_link_token
from app.shop.proofs.service import accept_share, ask_for_proof, keep_shipped, share_of
from app.shop.proofs.values import read_shipped
from app.shop.proofs.warnings import accept_warning, open_warnings

__all__ = ["DEMO", "DRAFTS", "LEAST_SHARE", "DemoListing", "load_demo", "password_links"]

_DESIGNER = "Ottilie Brack"
#: The demo designer sells no draft that holds on less than this share of the bodies it is tried on.
LEAST_SHARE = 0.96
DRAFTS = Path(__file__).parent / "drafts"

_ABOUT = """\
I draft for the people who come to me between two sizes. Every pattern from this studio is drafted for one
body, walked seam by seam before it leaves the house, and sent out with instructions in your own figures.
"""


@dataclass(frozen=True, slots=True)
class DemoListing:
    """A demo design: its words, the file of its draft, and the choices of the draft that it settles."""

    words: ListingWords
    draft: str
    settled: Mapping[str, Any] = field(default_factory=dict)

    def text(self) -> str:
        """The text of its draft as it stands in the file."""
        return (DRAFTS / self.draft).read_text(encoding="utf-8")

    def proof_file(self) -> Path:
        """Where its proof is kept: beside the draft, under the design's own name, since a draft may serve several."""
        return DRAFTS / f"{self.words.slug}.proof.json"


DEMO = (
    DemoListing(
        ListingWords(
            slug="fernhill-skirt",
            title="Fernhill skirt",
            tagline="A six-gore skirt that hangs from a smooth waistband",
            description_md=(
                "Fitted to the hip, then flared from every seam, so that it moves when you walk. The waistband is "
                "interfaced and closes over a concealed zip with a hook and bar.\n\n"
                "Choose the length, the flare and the depth of the band. **Cloth:** anything with some body, from "
                "a firm cotton to a wool flannel. Wash and press the cloth before you cut."
            ),
            level=Level.FIRST_GARMENT,
            price_cents=1200,
            currency="EUR",
            picture="gore-skirt.svg",
            position=1,
        ),
        "gore_skirt.draft",
    ),
    DemoListing(
        ListingWords(
            slug="larkspur-tunic",
            title="Larkspur tunic",
            tagline="A sleeveless tunic drawn in by a shirred panel at the back waist",
            description_md=(
                "Cut straight and easy in front, with bust darts; at the back a panel of shirring takes in the waist "
                "without a zip, and two ties close over it. Lined, or finished with bias binding.\n\n"
                "Shirring is worked from **your own swatch**: sew a few rows, measure how far they draw in, and give "
                "us the figure. **Cloth:** lawn, batiste, double gauze or a fine linen."
            ),
            level=Level.CONFIDENT,
            price_cents=1400,
            currency="EUR",
            picture="shirred-tunic.svg",
            position=2,
        ),
        "shirred_tunic.draft",
    ),
    DemoListing(
        ListingWords(
            slug="saltmarsh-blouse",
            title="Saltmarsh blouse",
            tagline="A buttoned blouse with a set-in sleeve, a cuff and a stand collar",
            description_md=(
                "The sleeve cap is drafted to your armhole with just the ease that you choose, and walked against it "
                "before the pattern is printed. Button bands, deep cuffs and a low stand collar.\n\n"
                "**Cloth:** shirting, poplin, chambray, or a silk with a dry hand. Make a toile of bodice and sleeve "
                "first: it is the one place where an evening spent saves good cloth."
            ),
            level=Level.PRACTISED,
            price_cents=1800,
            currency="EUR",
            picture="set-in-blouse.svg",
            position=3,
        ),
        "set_in_blouse.draft",
    ),
    DemoListing(
        ListingWords(
            slug="pimpernel-bodice",
            title="Pimpernel bodice",
            tagline="A fitted, lined bodice to the waist, shaped by bust and waist darts",
            description_md=(
                "The plain close block: a dart from the side to the bust, a dart up from the waist, and one more in "
                "each half of the back. Darts are soon moved on a toile, so that it is the one to begin with; "
                "the Tormentil bodice is the same with seams over the bust. Lined to the edge, closed by a separating "
                "zip at the centre back.\n\n"
                "**Cloth:** cotton sateen, linen, wool crêpe, a firm silk. Make a toile first: a fitted bodice shows "
                "every centimetre."
            ),
            level=Level.CONFIDENT,
            price_cents=1400,
            currency="EUR",
            picture="fitted-bodice.svg",
            position=4,
        ),
        "fitted_bodice.draft",
        {"line": "darted"},
    ),
    DemoListing(
        ListingWords(
            slug="tormentil-bodice",
            title="Tormentil bodice",
            tagline="A fitted, lined bodice to the waist, with princess seams from the shoulder",
            description_md=(
                "The Pimpernel bodice with its darts turned to the shoulder and taken into one long seam over the "
                "bust, and another over the shoulder blade: the same fit from the same measurements, in a smoother "
                "line. The side front is eased to the middle between two notches, which asks for a patient hand. "
                "Lined to the edge, closed by a separating zip at the centre back.\n\n"
                "**Cloth:** cotton sateen, linen, wool crêpe, a firm silk. Make a toile first: "
                "a fitted bodice shows every centimetre."
            ),
            level=Level.PRACTISED,
            price_cents=1600,
            currency="EUR",
            picture="princess-bodice.svg",
            position=5,
        ),
        "fitted_bodice.draft",
        {"line": "princess"},
    ),
    DemoListing(
        ListingWords(
            slug="sweetgale-trousers",
            title="Sweetgale trousers",
            tagline="Straight trousers at the natural waist, their crotch seam as long as your own",
            description_md=(
                "The seat is where trousers fail. Here the whole crotch seam is drafted to the tape you led between "
                "the legs, with the ease you choose, and the back's fork and rise follow from it. Darts front and "
                "back, a faced waist without a band, a zip at the side.\n\n"
                "**Cloth:** wool gabardine, firm linen, cotton drill. Sew the seat in cheap cloth first, and sit down "
                "in it."
            ),
            level=Level.CONFIDENT,
            price_cents=1700,
            currency="EUR",
            picture="straight-trousers.svg",
            position=6,
        ),
        "straight_trousers.draft",
    ),
    DemoListing(
        ListingWords(
            slug="ribwort-top",
            title="Ribwort top",
            tagline="A close knit top, drawn in by just what your own cloth gives",
            description_md=(
                "Stretch ten centimetres of your jersey along a ruler and tell us how far it goes: the top is drafted "
                "that much smaller than you are. Close or skimming, long sleeves, elbow or short; the neckband is a "
                "share of the neckline and always passes over your head.\n\n"
                "**Cloth:** cotton or viscose jersey with some elastane, fine merino, rib."
            ),
            level=Level.FIRST_GARMENT,
            price_cents=1100,
            currency="EUR",
            picture="knit-top.svg",
            position=7,
        ),
        "knit_top.draft",
    ),
    DemoListing(
        ListingWords(
            slug="quillwort-shirt",
            title="Quillwort shirt",
            tagline="A proper shirt: yoke, collar on a stand, cuffs and a sleeve placket",
            description_md=(
                "The yoke is cut from the back and comes forward over the shoulder in one piece, with the shoulder "
                "blades' dart hidden in its seam. Stand and collar are drafted to your neckline, the sleeve to your "
                "armhole; the hem rises at the sides as far as you like.\n\n"
                "**Cloth:** shirting, poplin, chambray, brushed cotton. There is a good deal of topstitching."
            ),
            level=Level.PRACTISED,
            price_cents=2000,
            currency="EUR",
            picture="yoke-shirt.svg",
            position=8,
        ),
        "yoke_shirt.draft",
    ),
    DemoListing(
        ListingWords(
            slug="marlpit-skirt",
            title="Marlpit skirt",
            tagline="Knife, box or inverted pleats that hang straight from a shaped yoke",
            description_md=(
                "The yoke takes in the waist without a dart and ends near the full hip, so the pleats below it hang on "
                "the grain and stay shut until you walk. Every fold is printed: where the edge lies, where it turns, "
                "and where it comes to rest.\n\n"
                "Choose how they are folded, how many and how deep. **Cloth:** wool flannel, gabardine or a wool and "
                "polyester mix that keeps a crease. Try one pleat on a scrap, pressed, before you cut."
            ),
            level=Level.CONFIDENT,
            price_cents=1500,
            currency="EUR",
            picture="pleated-skirt.svg",
            position=9,
        ),
        "pleated_skirt.draft",
    ),
    DemoListing(
        ListingWords(
            slug="sorrel-dress",
            title="Sorrel dress",
            tagline="A wrap dress with short sleeves, a swinging skirt and ties at the waist",
            description_md=(
                "Fronts that cross as far as you like, each shaped by one dart and faced all the way from hem to hem; "
                "the edges are stayed, so that they lie close. The skirt is a share of a circle that you choose.\n\n"
                "**Cloth:** viscose, crêpe, a fine wool or a soft cotton lawn. Knowing how to set in a sleeve helps."
            ),
            level=Level.PRACTISED,
            price_cents=1900,
            currency="EUR",
            picture="wrap-dress.svg",
            position=10,
        ),
        "wrap_dress.draft",
    ),
    DemoListing(
        ListingWords(
            slug="sallow-pinafore",
            title="Sallow pinafore",
            tagline="A child's pinafore with buttoned straps that grow along",
            description_md=(
                "For children from 104 to 140 cm: a bib, two patch pockets, a hem deep enough to let down, and straps "
                "with a second buttonhole for next year. No cords, no ties, nothing round the neck.\n\n"
                "**Cloth:** needlecord, denim, a heavy linen. A day garment: it has not been tested as nightwear. "
                "The figures of children that it was tried on are our own estimate, so measure your child."
            ),
            level=Level.FIRST_GARMENT,
            price_cents=900,
            currency="EUR",
            picture="childs-pinafore.svg",
            position=11,
        ),
        "childs_pinafore.draft",
    ),
    DemoListing(
        ListingWords(
            slug="hornbeam-waistcoat",
            title="Hornbeam waistcoat",
            tagline="A hooded waistcoat with a zip and welt pockets for your own hands",
            description_md=(
                "Unlined, with bust darts, a two-piece hood walked round your neckline before it is printed, and welt "
                "pockets as long as your hand is wide. Facings cover zip and neck seam inside.\n\n"
                "**Cloth:** boiled wool, a heavy twill, quilted cotton. Sew one welt pocket on scraps first; the "
                "second one is easy."
            ),
            level=Level.PRACTISED,
            price_cents=1800,
            currency="EUR",
            picture="hooded-waistcoat.svg",
            position=12,
        ),
        "hooded_waistcoat.draft",
    ),
)


def load_demo(session: Session, designs: Iterable[DemoListing] = DEMO) -> None:
    """Add the studio, its designer (without a password) and its designs, where they are missing.

    A design that is there already keeps its words, price and place in the shop; a
    draft text that the shop has never had becomes its new version. Each design comes
    with its proof and goes on sale by it, unless the designer took the design off sale;
    one whose proof does not fit its text is on trial until it is proved.
    """
    ensure_studio(session, "Cotter Row Studio", "hello@cotter-row.example", _ABOUT)
    ensure_designer(session, "ottilie@cotter-row.example", _DESIGNER)
    for design in designs:
        query = sa.select(Listing).where(Listing.slug == design.words.slug)
        listing = session.scalar(query.options(joinedload(Listing.current_version)))
        for_sale = listing is None or listing.published
        listing = listing or save_listing(session, design.words, design.settled)
        _load_draft(session, listing, design, for_sale=for_sale)


def password_links(session: Session, public_url: str) -> list[str]:
    """A line for each designer who has no password yet, with a fresh one-time link to set it."""
    waiting = session.scalars(sa.select(Designer).where(Designer.password_hash.is_(None)).order_by(Designer.id))
    return [
        f"Set the password of {designer.email} within a day: "
        f"{public_url.rstrip('/')}/password/{password_link_token(session, designer)}"
        for designer in waiting
    ]


def _load_draft(session: Session, listing: Listing, design: DemoListing, *, for_sale: bool) -> None:
    text = design.text()
    digest = sha256(text.encode()).hexdigest()
    versions = sa.select(DraftVersion).where(DraftVersion.listing_id == listing.id)
    known = session.scalar(versions.where(DraftVersion.sha256 == digest).limit(1))
    version = known or add_draft_version(session, listing, text)
    shipped = read_shipped(design.proof_file())
    # A listing keeps what it settled when it was made: a proof with other choices settled says nothing of it.
    if shipped is not None and shipped.is_of(text, listing.settled):
        proof = ask_for_proof(session, listing.id, version.id)
        keep_shipped(session, proof, shipped)
        # The demo designer takes a share that is not whole as it is, down to her least, with her name to it.
        share = floor(100.0 * (share_of(proof) or 0.0)) / 100.0
        if LEAST_SHARE <= share < 1.0 and proof.accepted_at is None:
            accept_share(session, proof, share, _DESIGNER)
        notes = MEANT.get(design.words.slug, {})
        for warning in open_warnings(proof):
            name = str(warning["check"]), str(warning["about"])
            if name in notes:
                accept_warning(session, proof, name, notes[name], _DESIGNER)
    if known is None and for_sale:
        # One that is not proved enough stays on trial; the designer sees why on its page.
        put_on_sale(session, listing, version)
