"""Looking at the proof of a draft, and accepting its share."""
