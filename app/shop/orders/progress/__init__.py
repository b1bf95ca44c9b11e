"""Following an order until its files are there."""
