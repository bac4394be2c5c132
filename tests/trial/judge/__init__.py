"""A second, small judge: it shares no reasoning with the program and reads only what is drawn.

It expands parts and runs to conductors (``inside``, ``expand``), sets every lever (``standing``),
asks simple questions by reachability and small tables (``flows``, ``faults``, ``fittings``), and
labels a mistake by what two drawings differ in (``label``).
"""
