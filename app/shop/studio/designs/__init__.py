"""Adding a design, its words, and what it settles of its draft."""
