"""Numbers: one file for each question asked of a circuit in one operating state."""
