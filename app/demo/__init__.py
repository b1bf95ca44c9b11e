"""The demo shop: an invented studio with its designs and their proofs."""
