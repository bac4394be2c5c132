"""Loads that run for hours and that somebody plugs in: another outlet is the cure, no wire."""

from __future__ import annotations

from collections.abc import Iterable

from linework.findings.view import Look, View


def only_plugged_in(view: View, look: Look, branches: Iterable[int]) -> bool:
    """Whether all that runs for hours behind some branches hangs on them by a plug."""
    circuit = look.studies.circuit
    behind = {i for branch in branches for i in look.studies.demand.behind(branch)}
    if behind & {conversion.load for conversion in circuit.conversions}:
        return False
    owners = {circuit.loads[i].owner for i in behind if circuit.loads[i].data.continuous}
    return bool(owners) and all(
        view.part(owner) is not None and view.design.seats_of(owner) for owner in owners
    )
