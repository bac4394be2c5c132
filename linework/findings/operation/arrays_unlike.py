"""Solar strings of different voltage side by side on one controller.

What is checked
    By day: the open-circuit voltages at 25 degC of all arrays, or rows of arrays
    wired in series, that lie on the same two conductors.
Why it matters
    The lowest holds the voltage of all down to its own, and most of what the
    higher could give is lost. With nothing to charge the higher drives its current
    backwards into it, and that one gets hot.
How to cure it
    As many modules of the same make in each string, or a controller for each.
Limits
    Up to a tenth apart counts as alike. Strings that look different ways, and
    shade, are not known to the program.
Sources
    IEC 62548, from memory; common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from linework.findings.model import Evidence, Hit, Level, Outcome
from linework.findings.operation._arrays import in_series
from linework.findings.rule import Rule
from linework.findings.view import Look, View
from linework.kinds.solar_array import STANDARD_C, at_c
from linework.study.slack import within
from linework.study.ways.banks import String, rows
from linework.words import N_

MESSAGE = N_(
    "{low} of {volts} V lies beside {high} of {rated} V: it holds both down to its own voltage, and"
    " while nothing is charged the higher drives its current backwards into it."
)
ALIKE = 1.1
"""Open voltages less than this apart are those of like strings (practice, no source)."""


def check(view: View) -> Iterator[Outcome]:
    """One hit for each two conductors, of the highest and the lowest there."""
    for look in view.settled_looks:
        beside: dict[tuple[int, int], list[tuple[float, tuple[str, ...]]]] = {}
        for row in rows(look.studies.situation):
            owners = _owners(look, row)
            volts = sum(at_c(view.values(owner), STANDARD_C) for owner in owners)
            beside.setdefault((row.top, row.bottom), []).append((volts, owners))
        for found in beside.values():
            low, high = min(found), max(found)
            if not within(high[0], ALIKE * low[0]):
                yield _hit(view, look, low, high)


def _owners(look: Look, row: String) -> tuple[str, ...]:
    return tuple(look.studies.circuit.sources[i].owner for i in row.cells)


def _hit(
    view: View, look: Look, low: tuple[float, tuple[str, ...]], high: tuple[float, tuple[str, ...]]
) -> Hit:
    return look.hit(
        Level.WARNING,
        (*low[1], *high[1]),
        MESSAGE,
        {
            "low": in_series(view, low[1]),
            "high": in_series(view, high[1]),
            "volts": f"{low[0]:.3g}",
            "rated": f"{high[0]:.3g}",
        },
        (Evidence(N_("voltage between them"), high[0] - low[0], "voltage"),),
    )


RULE = Rule(
    "arrays-unlike",
    N_("Unlike solar strings side by side"),
    check,
    {"NA": "practice", "INT": "practice"},
)
