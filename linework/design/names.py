"""Reference designations (IEC 81346): class letters and a number."""

from __future__ import annotations

from linework.design.model import Design


def next_designation(design: Design, letters: str) -> str:
    """The first free designation of a class: G1, G2, ..."""
    taken = {part.designation for part in design.parts}
    number = 1
    while f"{letters}{number}" in taken:
        number += 1
    return f"{letters}{number}"


def run_name(design: Design, run_id: str) -> str:
    """How a run is called: its designation, else its two ends ("G1 to QT1")."""
    run = next(run for run in design.runs if run.id == run_id)
    if run.designation:
        return run.designation
    ends = (design.part(run.a.part).designation, design.part(run.b.part).designation)
    return "-".join(ends)


def next_run_designation(design: Design) -> str:
    """The first free designation of a cable: W1, W2, ..."""
    taken = {run.designation for run in design.runs}
    number = 1
    while f"W{number}" in taken:
        number += 1
    return f"W{number}"
