"""Load calculations by the method of a standard, line by line; see the modules."""
