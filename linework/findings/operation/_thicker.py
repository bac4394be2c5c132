"""The mend of a voltage drop: thicker wires where most is lost."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from math import inf

from linework.codes.sizes import size_not_below, size_of
from linework.findings.mending import resize, together
from linework.findings.model import Mend
from linework.findings.view import View
from linework.study.loads.drop import Drop
from linework.words import say


@dataclass(frozen=True)
class Most:
    """Parts of the source's voltage that may be lost: in all, behind the last overcurrent device
    and before it; infinite where nothing is asked."""

    total: float
    branch: float = inf
    feeder: float = inf


def thicker(view: View, drop: Drop, most: Most) -> Mend | None:
    """Each run that must lose less in the thinnest size with which it does; None where that is not
    known or is no wire that is made."""
    sizes = {run: _size(view, drop, run, volts) for run, volts in _excess(drop, most).items()}
    fitting = {run: size for run, size in sizes.items() if size is not None}
    if not sizes or len(fitting) < len(sizes):
        return None
    ways = (resize(view, run, size) for run, size in fitting.items())
    mends = [mend for mend in ways if mend is not None]
    if len(mends) < 2:
        return mends[0] if len(fitting) == 1 and mends else None
    (one, first), (other, second) = sorted((view.name(run), size) for run, size in fitting.items())
    title = say(
        "Make {one} {first} and {other} {second}", one=one, first=first, other=other, second=second
    )
    return together(title, title, mends)


def _excess(drop: Drop, most: Most) -> dict[str, float]:
    """By run how many volts less it must lose: of each part the run that loses most there, then
    that of the whole way."""
    found: dict[str, float] = {}
    for runs, share, limit in _parts(drop, most):
        run = drop.worst_of(runs)
        volts = (share - limit) * drop.source_v - sum(found.get(each, 0.0) for each in runs)
        if run and volts > 0.0:
            found[run] = found.get(run, 0.0) + volts
    return found


def _parts(drop: Drop, most: Most) -> Iterator[tuple[tuple[str, ...], float, float]]:
    yield drop.branch_runs, drop.branch_share, most.branch
    yield drop.feeder_runs, drop.feeder_share, most.feeder
    yield tuple(drop.runs), drop.total_share, most.total


def _size(view: View, drop: Drop, run: str, volts: float) -> str | None:
    """The thinnest size in which a run or cord set loses so many volts less."""
    if view.run(run) is None and view.part(run) is None:
        return None
    values = view.run_values(run) if view.run(run) is not None else view.values(run)
    lost = drop.runs[run]
    if not values.has("size") or lost <= volts or drop.load_v <= 0.0:
        return None  # no wire helps a load that lies on a dead short
    own = size_of(values.text("size"))
    # A load that is a resistance takes more current from the higher voltage.
    less = (1.0 - volts / lost) * drop.load_v / (drop.load_v + volts)
    try:
        return size_not_below(own.cmil / Fraction(less))
    except ValueError:  # thicker than any in the table
        return None
