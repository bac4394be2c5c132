"""Rules on grounding and bonding."""
