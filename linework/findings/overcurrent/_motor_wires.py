"""What the wires of motors must carry: more than the motors take."""

from __future__ import annotations

from dataclasses import dataclass

from linework.circuit.model import Load
from linework.design import Run
from linework.findings.view import Look, View
from linework.kinds.motor import running_a, sized_a
from linework.study.wires.ratings import direct_v, rules_of
from linework.wiring import Pole, is_ungrounded
from linework.words import N_

ALONE = N_(
    "{run} feeds {motor}, which takes {own} A: its conductors must be good for {needed} A and are"
    " for {ampacity} A as laid ({decided})."
)
PLATE = N_(
    "{run} feeds {motor}, whose nameplate asks for conductors of {needed} A: they are good for"
    " {ampacity} A as laid ({decided})."
)
FEEDER = N_(
    "{run} carries {amps} A with all drawn loads on, {motor} with {own} A among them: its"
    " conductors must be good for {needed} A and are for {ampacity} A as laid ({decided})."
)


@dataclass(frozen=True)
class MotorNeed:
    """The largest motor on a conductor, the current by which that is sized, and what the conductor
    must be good for, in ampere; the words and the clause for it."""

    motor: str
    own_a: float
    needed_a: float
    message: str
    clause: str


def motor_need(
    view: View, look: Look, run: Run, pole: Pole, index: int, demand: tuple[float, float]
) -> MotorNeed | None:
    """What a hot conductor of fixed wiring needs for the motors that it alone feeds; None without
    any. ``demand``: the current in ampere for which it must be made, and the part of it that flows
    for hours. CodesError where the family has no such rule.

    A quarter of the largest motor on top is asked of feeders, not aboard, where boards are sized by
    their circuits.
    """
    cord = view.run_values(run.id).pick("installation") == "cord"
    if cord or not is_ungrounded(pole) or direct_v(view.design, run) is not None:
        return None
    loads = [look.studies.circuit.loads[i] for i in look.studies.demand.behind(index)]
    motors = [load for load in loads if _lasting_motor(view, load)]
    if not motors:
        return None
    largest = max(motors, key=lambda load: sized_a(view.values(load.owner)))
    if len({load.owner for load in loads}) == 1:
        return _alone(view, largest)
    return None if view.place_of(largest.owner).aboard else _feeder(view, motors, largest, demand)


def _lasting_motor(view: View, load: Load) -> bool:
    """Starters and windlasses work too briefly to warm a wire."""
    known = view.part(load.owner) is not None
    return known and view.kind(load.owner).turns and load.data.lasts == "hours"


def _alone(view: View, load: Load) -> MotorNeed:
    values, sealed = view.values(load.owner), view.values(load.owner).pick("duty") == "hermetic"
    own, plate = sized_a(values), values.opt("least_ampacity")
    if plate is not None:
        return MotorNeed(load.owner, own, plate, PLATE, "440.4(B), 440.32")
    needed = rules_of(view.design).motor_factor("wires").value * own
    return MotorNeed(load.owner, own, needed, ALONE, "440.32" if sealed else "430.22, 430.6(A)(1)")


def _feeder(
    view: View, motors: list[Load], largest: Load, demand: tuple[float, float]
) -> MotorNeed:
    """All loads, 125 % of those that run for hours, and a quarter of the largest motor where that
    is not among these; motors count with the current by which they are sized."""
    rules, (amps, long_a) = rules_of(view.design), demand
    own = sized_a(view.values(largest.owner))
    needed = rules.design_current(amps - long_a, long_a).value
    if not largest.data.continuous:
        needed += (rules.motor_factor("wires").value - 1.0) * own
    needed += sum(
        max(sized_a(v) - running_a(v), 0.0) for v in (view.values(m.owner) for m in motors)
    )
    return MotorNeed(largest.owner, own, needed, FEEDER, "430.24, 215.2(A)(1)")
