"""Converters joined to a battery of another voltage."""

from __future__ import annotations

from collections.abc import Iterator

from linework.circuit.model import Load
from linework.circuit.series import ways_back
from linework.findings.model import Evidence, Hit, Level
from linework.findings.view import Look, View
from linework.kinds.converters import CHARGE_SHARE
from linework.study.situation import Situation
from linework.study.ways.paths import volts_between
from linework.words import N_

INPUT = N_("The input of {where} is made for {rated} V and lies on {volts} V ({source}).")
CHARGES = N_("{where} charges batteries of {rated} V and lies on {source} of {volts} V.")
_MOST = 1.3
"""Nominal voltages further apart than this belong to different systems: 12 V is not 16 V, nor are
three batteries four (practice, no source)."""


Banks = dict[tuple[int, int], dict[str, float]]
"""By the conductors of plus and minus: the first battery of each string between them, with the
voltage of the string."""


def converters_on_others(view: View, look: Look) -> Iterator[Hit]:
    """One hit for each converter on a battery or supply that it is not made for."""
    situation = look.studies.situation
    banks, label = _banks(situation), situation.clusters
    for load in situation.circuit.loads:
        if load.data.name == "battery side":
            on = banks.get((label[load.a], label[load.b]), {})
            yield from _on_banks(view, look, INPUT, load.owner, load.data.volts, on)
        elif load.data.name == "charger input":
            yield from _on_supplies(view, look, load)
    for _, source in situation.active:
        if source.data.group.charges:
            on = banks.get((label[source.plus], label[source.minus]), {})
            made = source.data.volts / CHARGE_SHARE
            yield from _on_banks(view, look, CHARGES, source.owner, made, on)


def _banks(situation: Situation) -> Banks:
    label, sources = situation.clusters, situation.circuit.sources
    cells = {i for i, s in situation.active if s.data.group.stores}
    found: Banks = {}
    for first in sorted(cells):
        for end, passed in ways_back(situation, first, label).items():
            if cells.issuperset(passed):
                volts = sum(sources[i].data.volts for i in passed)
                strings = found.setdefault((label[sources[first].plus], end), {})
                strings[sources[first].owner] = volts
    return found


def _on_banks(
    view: View, look: Look, message: str, where: str, made_v: float, banks: dict[str, float]
) -> Iterator[Hit]:
    for owner, volts in sorted(banks.items()):
        if _apart(made_v, volts):
            yield _hit(view, look, message, where, (owner,), made_v, volts)


def _apart(made_v: float, volts: float) -> bool:
    return not made_v / _MOST <= volts <= _MOST * made_v


def _on_supplies(view: View, look: Look, load: Load) -> Iterator[Hit]:
    """The alternating-current input of a charger."""
    situation = look.studies.situation
    feeding = [s for s in situation.feeds(load.a) if s.owner != load.owner and s.is_ac]
    if not feeding or not (situation.returns(load.b) or situation.feeds(load.b)):
        return
    volts = volts_between(situation, load.a, load.b)
    # between two hots of one phase lies nothing: it is dead, not on a wrong voltage
    if volts > 0.0 and _apart(load.data.volts, volts):
        owners = tuple(sorted({s.owner for s in feeding}))
        yield _hit(view, look, INPUT, load.owner, owners, load.data.volts, volts)


def _hit(
    view: View,
    look: Look,
    message: str,
    where: str,
    owners: tuple[str, ...],
    made_v: float,
    volts: float,
) -> Hit:
    return look.hit(
        Level.DANGER,
        (where,),
        message,
        {
            "where": view.name(where),
            "rated": f"{made_v:g}",
            "volts": f"{volts:.0f}",
            "source": ", ".join(view.name(owner) for owner in owners),
        },
        (
            Evidence(N_("voltage at it"), volts, "voltage"),
            Evidence(N_("made for"), made_v, "voltage"),
        ),
        touches=frozenset(owners),
    )
