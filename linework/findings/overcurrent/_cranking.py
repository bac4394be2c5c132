"""What devices at a lead battery afloat must break, by its cranking amperes."""

from __future__ import annotations

from linework.circuit.model import Device
from linework.circuit.series import string_v
from linework.codes import CodesError, Sourced
from linework.findings.view import Look, View
from linework.study.slack import exceeds
from linework.study.ways.banks import strings
from linework.study.ways.protection import guards
from linework.study.wires.ratings import rules_of

_UP_TO_V = 24.0
"""Nominal voltage up to which the table holds."""


def least_a(view: View, look: Look, device: Device) -> Sourced[float] | None:
    """The rating that the table asks for; None where it does not hold: ashore, at other sources, at
    batteries whose short-circuit current is given or whose cranking amperes are not."""
    situation = look.studies.situation
    nodes = {
        node
        for i in device.branches
        if i in situation.closed
        for node in (situation.circuit.branches[i].a, situation.circuit.branches[i].b)
    }
    systems = [s for node in nodes for s in situation.feeds(node)]
    stores = {s.source for s in systems if look.studies.circuit.sources[s.source].data.group.stores}
    if not view.place_of(device.owner).afloat or not stores or any(s.is_ac for s in systems):
        return None
    if any(exceeds(string_v(situation, i, situation.conductive), _UP_TO_V) for i in stores):
        return None
    cranking = _cranking_a(view, look, stores)
    if cranking is None:
        return None
    first = any(
        guards(situation, s)[node].device is None
        for s in systems
        for node in nodes
        if s.source in stores and node in guards(situation, s)
    )
    try:
        return rules_of(view.design).battery_interrupting(cranking, main=first)
    except CodesError:
        return None  # the batteries themselves decide


def _cranking_a(view: View, look: Look, stores: set[int]) -> float | None:
    """Of all strings together, each as its weakest battery; None where it is not given, or where
    the batteries say more."""
    sources, total = look.studies.circuit.sources, 0.0
    for string in strings(look.studies.situation):
        if stores.isdisjoint(string.cells):
            continue
        values = [view.values(sources[i].owner) for i in string.cells]
        if any(each.given("fault_current") or not each.has("cranking_amperes") for each in values):
            return None
        total += min(each.num("cranking_amperes") for each in values)
    return total
