"""Where the project's own files lie, for tests that read them, and two small drafts that many tests use."""

from pathlib import Path

ROOT = Path(__file__).parents[1]
#: The drafts of the demo shop, each beside its proof.
DRAFTS = ROOT / "app" / "demo" / "drafts"
DRAFT_FILES = sorted(DRAFTS.glob("*.draft"))
#: An apron in the working of the draft room, and a slip that fails on some bodies.
APRON = (ROOT / "tests" / "shop" / "studio" / "drafts" / "apron.draft").read_text("utf-8")
SLIP = (ROOT / "tests" / "shop" / "proofs" / "slip.draft").read_text("utf-8")
