"""Questions that need several studies of a state at once."""
