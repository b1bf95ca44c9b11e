"""Fittings (what a customer entered) and the orders built from them."""
