"""Reference designations (IEC 81346): class letters and a number."""

from __future__ import annotations

import re

from linework.design.elements import Part, Run
from linework.design.model import Design

RUN_LETTERS = "W"
"""The class letter of cables and conductors (IEC 81346-2)."""

_WORD = re.compile(r"(\D*)(\d*)")
"""Letters and the figures behind them."""


def next_designation(design: Design, letters: str) -> str:
    """The first free designation of a class: G1, G2, ..."""
    return _first_free(design, Part, letters)


def next_run_designation(design: Design) -> str:
    """The first free designation of a cable: W1, W2, ..."""
    return _first_free(design, Run, RUN_LETTERS)


def _first_free(design: Design, sort: type[Part] | type[Run], letters: str) -> str:
    number = 1
    while design.named(sort, f"{letters}{number}"):
        number += 1
    return f"{letters}{number}"


def run_name(design: Design, run_id: str) -> str:
    """How a run is called: its designation, else its two ends ("G1-QT1"). KeyError if none."""
    run = design.get(run_id)
    if not isinstance(run, Run):
        raise KeyError(run_id)
    if run.designation:
        return run.designation
    return "-".join(design.part(end.part).designation for end in (run.a, run.b))


def natural(name: str) -> tuple[tuple[str, int], ...]:
    """The key by which names are listed, figures by their value: QF1, QF2, QF10."""
    return tuple((word, int(figures or -1)) for word, figures in _WORD.findall(name))
