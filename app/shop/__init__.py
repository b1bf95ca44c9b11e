"""The shop: what customers meet, and the designer's studio behind it; a folder for each thing a person does."""
