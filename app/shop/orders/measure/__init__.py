"""Entering measurements, choices, cloth and paper."""
