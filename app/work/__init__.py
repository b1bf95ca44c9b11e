"""The work beside the pages: building the packs of orders, and proving drafts."""
