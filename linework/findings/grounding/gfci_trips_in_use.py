"""A ground-fault device that trips without a fault.

What is checked
    In every state: the residual current through each device with the drawn
    loads on, and whether neutral meets ground on its load side.
Why it matters
    It trips as soon as it is plugged in or a load comes on, and people then
    take it out.
How to cure it
    Take out the link on its load side, or switch the neutral over too.
Limits
    A class A device also finds a load-side link without any load (UL 943); an
    IEC device only when a load drives current through it.
Sources
    UL 943; IEC 61008-1.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from linework.circuit.model import Sensor
from linework.findings.amounts import milliampere
from linework.findings.model import Evidence, Hit, Level, Outcome
from linework.findings.rule import Rule
from linework.findings.view import Look, View
from linework.study.answers.sensors import live, load_side_link
from linework.study.answers.trust import loaded_or_none
from linework.words import N_

MESSAGE = N_(
    "{where} trips in normal use: {amount} mA do not come back through it, and it opens from"
    " {threshold} mA on."
)
LINK = N_("{where} trips even without a load: it finds the {neutral_ground_link} on its load side.")

_LASTS_S = 1.0
"""A passage as long as that gives a device time to trip (IEC 61008: 0.3 s at its rated current)."""


def check(view: View) -> Iterator[Outcome]:
    """One hit for each device that its own circuit trips."""
    for look in view.looks:
        if look.passing and _passes_s(look) < _LASTS_S:
            continue
        situation = look.studies.situation
        for index, sensor in enumerate(look.studies.circuit.sensors):
            if not live(situation, sensor):
                continue
            loaded = loaded_or_none(look.studies)
            residual_a = loaded.residual_a if loaded is not None else {}
            residual_ma = 1000.0 * residual_a.get(index, 0.0)
            if residual_ma > sensor.data.trip_ma.low:
                yield _hit(view, look, sensor, residual_ma, MESSAGE)
            elif sensor.data.senses_link and load_side_link(situation, sensor):
                yield _hit(view, look, sensor, residual_ma, LINK)


def _passes_s(look: Look) -> float:
    """How long the passage lasts that a circuit is looked at in, in second."""
    state, key = look.studies.state, look.studies.state.passing
    if key is None:
        return math.inf
    ways = look.studies.circuit.selectors[key].passing
    return max((p.longest_s for p, _ in ways if p.position == state.positions[key]), default=0.0)


def _hit(view: View, look: Look, sensor: Sensor, residual_ma: float, message: str) -> Hit:
    branches, situation = look.studies.circuit.branches, look.studies.situation
    owners = {s.owner for i in sensor.senses for s in situation.feeds(branches[i].a)}
    return look.hit(
        Level.WARNING,
        (sensor.owner,),
        message,
        {
            "where": view.name(sensor.owner),
            "amount": milliampere(residual_ma / 1000.0),
            "threshold": f"{sensor.data.trip_ma.high:g}",
        },
        (
            Evidence(N_("residual current in use"), residual_ma / 1000.0, "current"),
            Evidence(N_("must trip from"), sensor.data.trip_ma.high / 1000.0, "current"),
        ),
        touches=frozenset(owners),
    )


RULE = Rule(
    "gfci-trips-in-use",
    N_("Ground-fault device trips in use"),
    check,
    {"NA": "UL 943", "INT": "IEC 61008"},
    causes=("bond-doubled", "bond-at-wrong-place", "neutral-used-as-ground"),
    hangs_on=("neutral-missing", "metal-live"),
)
