"""The catalogue: listings, and the numbered versions of the drafts behind them."""
