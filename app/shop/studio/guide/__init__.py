"""The guide to the draft language, in the studio and as files."""
