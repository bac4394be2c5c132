"""NFPA 70 and the American standards beside it, one topic a module."""
