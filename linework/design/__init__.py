"""The document: parts, runs, seats, interlocks, notes; edits, history, integrity."""
