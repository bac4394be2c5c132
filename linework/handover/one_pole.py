"""Shorts at parts that only one conductor passes, as a fuse in a battery lead: no terminal of them
shows the minus, so the reports of the states tell of none there."""

from __future__ import annotations

from linework.circuit import settle
from linework.design import pole_map
from linework.handover.content import Content
from linework.handover.faults import FLOWS
from linework.handover.locking import circuits_of
from linework.study.report import StateReport
from linework.study.shorts.at_devices import between_poles
from linework.study.situation import Situation
from linework.wiring import Pole

End = tuple[str, str]
"""Part id and terminal."""


def one_pole_faults(content: Content) -> dict[End, list[tuple[float, float]]]:
    """For each end of a wire with plus that a battery feeds, and at which no report tells a short,
    the least and most current from there to its minus, in ampere, of each state of rest."""
    return content.once("one_pole_faults", lambda: _found(content))


def _found(content: Content) -> dict[End, list[tuple[float, float]]]:
    shown = {(f.part, f.terminal) for r in content.reports for f in r.faults if f.weak_a > FLOWS}
    runs = [
        r for r in content.design.runs if any(Pole.POS in p for p in pole_map(content.design, r))
    ]
    ends = {(end.part, end.terminal) for run in runs for end in (run.a, run.b)} - shown
    found: dict[End, list[tuple[float, float]]] = {}
    for report in _differing(content, ends):
        choice = {(part, selector): at for part, selector, at in report.free}
        for circuit in circuits_of(content.design, content.design.revision):
            if choice.keys() <= circuit.selectors.keys():
                nodes = {end: circuit.terminals[end].get(Pole.POS, -1) for end in ends}
                situation = Situation(circuit, settle(circuit, choice))
                told = between_poles(situation, {*nodes.values()} - {-1})
                for end, node in nodes.items():
                    if node in told:
                        found.setdefault(end, []).append(told[node])
    return found


def _differing(content: Content, ends: set[End]) -> list[StateReport]:
    """Of the states of rest one for each set of sources that feed these ends."""
    found: dict[tuple[tuple[str, ...], ...], StateReport] = {}
    for report in content.reports:
        fed = tuple(report.live.get(end, ()) for end in sorted(ends))
        if any(fed):
            found.setdefault(fed, report)
    return list(found.values())
