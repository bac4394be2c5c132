"""A ground-fault device that a real fault does not open.

What is checked
    In every state and case: for each fault to metal on the load side of a
    device, whether the current that does not come back through it reaches the
    one that must open it.
Why it matters
    Its own test button passes, and people trust it.
How to cure it
    Bring the bond to the source side of the device, or mend the ground wire.
Limits
    On a source that floats a first fault opens no device; that is a note, the
    missing link says the rest. A person who touches a live wire and the return
    at once is protected by no such device.
Sources
    NFPA 70 (2023) 445.20; IEC 60364-5-53 531.3; UL 943.
"""

from __future__ import annotations

from collections.abc import Iterator

from linework.circuit.model import Sensor
from linework.design.names import natural
from linework.findings.amounts import milliampere
from linework.findings.model import Evidence, Hit, Level, Outcome
from linework.findings.rule import Rule
from linework.findings.view import Look, View
from linework.study.answers.sensors import guarded_faults, live
from linework.study.answers.shocks import untouchable
from linework.study.shorts.faults import Fault
from linework.words import N_

BLIND = N_(
    "A fault to metal behind {where} does not open it: {amount} mA of the fault current stay"
    " outside its sum, it needs {threshold} mA."
)
FLOATING = N_(
    "{where} does not open on a first fault: on {source} the {neutral} floats, so no current"
    " leaves its two wires."
)


def check(view: View) -> Iterator[Outcome]:
    """One hit for each device that some fault on its load side leaves closed."""
    for look in view.settled_looks:
        for index, sensor in enumerate(look.studies.circuit.sensors):
            if live(look.studies.situation, sensor):
                yield from _sensor(view, look, index, sensor)


def _owners(look: Look, fault: Fault) -> set[str]:
    return {s.owner for s in look.studies.situation.feeds(fault.point.node)}


def _floats(look: Look, fault: Fault) -> bool:
    """Whether no source of a fault has its neutral bonded."""
    owners = _owners(look, fault)
    return not any(n.bonds for n in look.studies.neutrals if owners & set(n.owners))


def _sensor(view: View, look: Look, index: int, sensor: Sensor) -> Iterator[Hit]:
    need_a = sensor.data.trip_ma.high / 1000.0
    blind = [
        (fault.weak.residual_a.get(index, 0.0), fault)
        for _, fault in guarded_faults(look.studies, sensor)
        if fault.weak.residual_a.get(index, 0.0) < need_a
        and not untouchable(view.design, look.studies.situation, fault)
    ]
    if not blind:
        return
    # Of equally small currents that of a source with a bond counts, the graver case.
    worst_a, fault = min(blind, key=lambda x: (round(x[0], 6), _floats(look, x[1])))
    owners, floats = _owners(look, fault), _floats(look, fault)
    if floats and not look.studies.energised.fed:
        return  # nothing is plugged in
    values = {
        "where": view.name(sensor.owner),
        "amount": milliampere(worst_a),
        "threshold": f"{1000 * need_a:g}",
        "source": ", ".join(sorted(map(view.name, owners), key=natural)),
    }
    yield look.hit(
        Level.NOTE if floats else Level.DANGER,
        (sensor.owner,),
        FLOATING if floats else BLIND,
        values,
        (
            Evidence(N_("residual current of the fault"), worst_a, "current"),
            Evidence(N_("must trip from"), need_a, "current"),
            Evidence(N_("fault current"), fault.weak.current_a, "current"),
        ),
        touches=frozenset(other.point.part for _, other in blind),
    )


RULE = Rule(
    "ground-fault-device-cannot-act",
    N_("Ground-fault device cannot act"),
    check,
    {"NA": "445.20", "INT": "531.3"},
    causes=("bond-missing", "ground-open", "bond-doubled", "bond-at-wrong-place"),
    hangs_on=("neutral-missing", "neutral-used-as-ground", "polarity-reversed"),
)
