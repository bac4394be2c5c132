"""Every conductor: states, cases, expansion to branches, islands, the sparse network."""
