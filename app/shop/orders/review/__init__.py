"""Looking at one's own pattern and cloth before it is ordered."""
