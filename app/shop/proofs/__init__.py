"""Proofs of draft versions: what the worker has shown on which bodies, and what may be sold on the strength of it."""
