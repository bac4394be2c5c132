"""What a person types and reads: strict grammar, units, wire sizes, formatting."""
