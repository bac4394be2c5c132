"""Device-independent drawing in tenths of a paper millimetre, and its painters."""
