"""Complete rigs, the single mistakes that people make in them, and how the program meets both.

``python -m tests.trial`` prints the table. ``rigs`` draws sound systems and says why they are
sound; ``mistakes`` makes one mistake at each place where it can be made; ``judge`` labels each by
tables and sums of its own, without the program's reasoning; ``trial`` compares.
"""
