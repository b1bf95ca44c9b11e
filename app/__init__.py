"""Tapeline: a studio server that sells a designer's patterns made to measure."""
