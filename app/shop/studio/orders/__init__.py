"""One order as the designer sees it."""
