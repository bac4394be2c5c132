"""Rules on what the user has not given and what could not be analysed."""
