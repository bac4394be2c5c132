"""A fault to metal that ends, but late, or only because the source gives up.

What is checked
    As fault-not-cleared, for the faults that do end: later than practice
    allows with more than the touch limit on metal (warning), or with little
    voltage but only because the source falls off (note).
Why it matters
    The longer metal stands live the likelier somebody touches it. A source
    that gives up may come back: it isolates nothing.
How to cure it
    A breaker whose maker promises a magnetic trip below the fault current, a
    thicker ground wire, or a ground-fault device.
Limits
    North American breakers promise no instantaneous trip; 300 A is a practice
    figure for a 15 or 20 A breaker being fast and is evidence only.
Sources
    Common practice, no source; IEC 60364-4-41 411.3.2; UL 489.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from linework.codes import CodesError, practice_fast_a, stated
from linework.design.names import natural
from linework.findings.grounding.fault_not_cleared import driven, not_cleared
from linework.findings.model import Evidence, Hit, Level, Outcome
from linework.findings.rule import Rule
from linework.findings.view import Look, View
from linework.study.answers.shocks import Shock, shocks, touched
from linework.study.wires.ratings import rules_of
from linework.words import N_

SLOW = N_(
    "A fault to metal at {where} puts {volts} V on it; the device that ends it may be slow:"
    " {amps} A are {multiple} times its rating."
)
SOURCE = N_(
    "On {source} a fault to metal at {where} leaves at most {volts} V on it; no device need open,"
    " the source gives up. It may come back: this is not isolation."
)
LOW = N_(
    "On {source} a fault to metal at {where} leaves at most {volts} V on it, below the touch limit;"
    " a device may take up to {seconds} s to open."
)


def check(view: View) -> Iterator[Outcome]:
    """Warnings by place, notes by source."""
    slow_s = stated("common", "low_fault_told").value
    for look in view.settled_looks:
        gives_up: dict[tuple[str, ...], list[Shock]] = {}
        low: dict[tuple[str, ...], list[Shock]] = {}
        for shock in shocks(look.studies, view.design):
            if not shock.returns or shock.fault.point.hertz == 0.0:
                continue
            if shock.dangerous:
                multiple, rating_a = driven(look, shock)
                if not not_cleared(view, look, shock) and multiple < _quick_from(view):
                    yield _slow(view, look, shock, multiple, rating_a)
            elif shock.weak.by == "source":
                gives_up.setdefault(shock.owners, []).append(shock)
            elif shock.weak.by == "device" and shock.weak.latest_s > slow_s:
                low.setdefault(shock.owners, []).append(shock)
        for group, message in ((gives_up, SOURCE), (low, LOW)):
            for owners, found in group.items():
                yield _note(view, look, owners, found, message)


def _quick_from(view: View) -> float:
    """Multiple of its rating from which a device is quick; none is where the family names none."""
    try:
        return rules_of(view.design).quick_multiple().value
    except CodesError:
        return math.inf


def _slow(view: View, look: Look, shock: Shock, multiple: float, rating_a: float) -> Hit:
    evidence = [
        Evidence(N_("voltage on metal"), shock.metal_v, "voltage"),
        Evidence(N_("least fault current"), shock.fault.weak.current_a, "current"),
        Evidence(N_("latest end"), shock.worst.latest_s, "time"),
    ]
    fast = practice_fast_a(rating_a)
    if fast is not None:
        evidence.append(Evidence(N_("practice figure for fast"), fast.value, "current"))
    return look.hit(
        Level.WARNING,
        (shock.fault.point.part,),
        SLOW,
        {
            "where": view.name(shock.fault.point.part),
            "volts": f"{shock.metal_v:.0f}",
            "amps": f"{shock.fault.weak.current_a:.0f}",
            "multiple": f"{multiple:.1f}",
        },
        tuple(evidence),
    )


def _note(view: View, look: Look, owners: tuple[str, ...], found: list[Shock], message: str) -> Hit:
    places = sorted(map(view.name, touched(look.studies.situation, found)), key=natural)
    volts = max(s.metal_v for s in found)
    latest = max(s.weak.latest_s for s in found)
    return look.hit(
        Level.NOTE,
        owners,
        message,
        {
            "source": ", ".join(view.name(o) for o in owners),
            "where": ", ".join(places),
            "volts": f"{volts:.0f}" if volts >= 10.0 else f"{volts:.2g}",
            "seconds": f"{latest:.3g}",
        },
        (
            Evidence(N_("voltage on metal"), volts, "voltage"),
            Evidence(N_("ends after"), latest, "time"),
            Evidence(
                N_("least fault current"), min(s.fault.weak.current_a for s in found), "current"
            ),
        ),
    )


RULE = Rule(
    "fault-slow",
    N_("A fault to metal ends late"),
    check,
    {"NA": "practice", "INT": "411.3.2"},
    causes=("bond-missing", "ground-open", "sources-meet"),
)
