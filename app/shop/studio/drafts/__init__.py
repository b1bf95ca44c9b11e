"""Writing a draft, trying it, keeping its versions, and playing it back."""
