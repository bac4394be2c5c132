"""Loads that run for hours and that somebody plugs in: another outlet is the cure, no wire."""

from __future__ import annotations

from collections.abc import Iterable

from linework.findings.view import Look, View


def only_plugged_in(view: View, look: Look, branches: Iterable[int]) -> bool:
    """Whether all that runs for hours behind some branches hangs on them by a plug."""
    lasting = {owner for branch in branches for owner in look.studies.demand.lasting(branch)}
    return bool(lasting) and all(view.design.seats_of(owner) for owner in lasting)
