"""A conductor that carries more than its ampacity.

What is checked
    In every state, with all drawn loads on: the current in each live conductor
    of each run, in the neutral of circuits with one live conductor, and in what
    returns through a chassis or hull, against its ampacity as laid. In North
    America also the short loads and 125 % of those of three hours or more on
    each hot conductor of fixed wiring, against its ampacity before corrections
    for heat and grouping; and on alternating current 125 % of a motor that it
    alone feeds, or what its nameplate asks, and a quarter of the largest motor
    besides all loads on a feeder, as laid, whatever device is before it.
Why it matters
    It runs hotter than its insulation stands, for as long as the loads are on.
How to cure it
    A thicker conductor, or fewer loads on it.
Limits
    All drawn loads are taken to run together; what runs for minutes counts with
    85 % of its current, and beyond that the rest is worth knowing. A motor of
    known horsepower counts with the current of the table. A quarter of the
    largest motor is not asked aboard, nor anything more of cords and on direct
    current. What runs for hours by a plug is told at its device alone. Neutrals
    shared by several live conductors, and ground wires, are judged elsewhere.
Sources
    NFPA 70 (2023) 210.19(A), 215.2, 310.15, 430.6(A)(1), 430.22, 430.24, 430.22(E)
    (the 85 % of intermittent duty from memory), 440.4(B), 440.32 (from memory);
    IEC 60364-4-43 433.1.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from linework.codes import CodesError, Worked
from linework.design import Run, pole_map
from linework.findings.mending import resize
from linework.findings.model import Evidence, Hit, Level, Mend, NotChecked, Outcome
from linework.findings.overcurrent._motor_wires import MotorNeed, motor_need
from linework.findings.overcurrent._plugged import only_plugged_in
from linework.findings.rule import Rule
from linework.findings.view import Look, View
from linework.study.answers.carried import HARDLY
from linework.study.answers.trust import loaded_or_none
from linework.study.slack import exceeds, shows_more, within
from linework.study.ways.protection import smallest
from linework.study.wires.ratings import (
    direct_v,
    rules_of,
    size_carrying,
)
from linework.wiring import Pole, is_protective, is_ungrounded
from linework.words import N_, begun_small

MESSAGE = N_(
    "{run} carries {amps} A with all drawn loads on; its conductors carry {ampacity} A as laid"
    " ({decided})."
)
BRIEFLY = N_(
    "{run} carries {amps} A with all drawn loads on, more than the {ampacity} A that its conductors"
    " carry as laid ({decided}); as it runs for minutes only, it may."
)
LONG = N_(
    "{run} carries {amps} A, {long} A of it for three hours or more: its conductors must be good"
    " for {needed} A and are for {ampacity} A ({decided})."
)
NO_TABLE = N_("{fault}")

BRIEF = 0.85
"""Least ampacity over the current of a motor that runs for minutes (430.22(E), from memory)."""


@dataclass(frozen=True)
class _Worst:
    """The conductor of a run that is driven hardest; ``briefly``: so short that it may be.

    ``amps`` it carries; ``long_a`` of it flows for hours, where that is what makes it too thin, and
    ``needed_a`` is what it must be good for then. ``motor``: what it must be good for by the motors
    that it feeds, where that is what makes it too thin.
    """

    run: Run
    pole: Pole
    amps: float
    ampacity: Worked[float]
    briefly: bool = False
    long_a: float = 0.0
    needed_a: float = 0.0
    motor: MotorNeed | None = None

    @property
    def least_a(self) -> float:
        """The ampacity that it must have."""
        motor = 0.0 if self.motor is None else self.motor.needed_a
        return motor or self.needed_a or self.amps


def check(view: View) -> Iterator[Outcome]:
    """One hit for each run."""
    for look in view.settled_looks:
        devices = _devices(look)
        for run_id, wires in _conductors(view, look).items():
            run = view.run(run_id)
            if run is None or not view.run_values(run_id).has("size"):
                continue
            try:
                worst = _worst(view, look, run, wires, devices.get(run_id))
            except CodesError as fault:
                yield NotChecked(NO_TABLE, {"fault": fault}, (run_id,))
                continue
            if worst is not None:
                yield _hit(view, look, worst)


def _conductors(view: View, look: Look) -> dict[str, dict[Pole, int]]:
    """Run -> its conductors that are judged, with their branches."""
    found: dict[str, dict[Pole, int]] = {}
    for index in look.studies.situation.closed if loaded_or_none(look.studies) is not None else ():
        wire = look.studies.circuit.branches[index]
        live = wire.sort == "run" and not is_protective(Pole(wire.pole))
        if live or wire.sort == "bond":
            found.setdefault(wire.owner, {})[Pole(wire.pole)] = index
    return {run: _judged(view, run, wires) for run, wires in sorted(found.items())}


def _judged(view: View, run_id: str, wires: dict[Pole, int]) -> dict[Pole, int]:
    run = view.run(run_id)
    poles = [p for p, _ in pole_map(view.design, run)] if run is not None else []
    shared = sum(is_ungrounded(p) for p in poles) > 1
    return {p: i for p, i in wires.items() if p is not Pole.N or not shared}


def _devices(look: Look) -> dict[str, float]:
    """The largest device that feeds each run, in ampere: it decides what terminals may take."""
    found: dict[str, float] = {}
    for feed in look.studies.feeds:
        device = smallest(look.studies.situation, feed)
        if device is not None:
            found[feed.run] = max(found.get(feed.run, 0.0), device.data.rating_a)
    return found


def _worst(
    view: View, look: Look, run: Run, wires: dict[Pole, int], device_a: float | None
) -> _Worst | None:
    found: list[_Worst] = []
    for pole, index in wires.items():
        ampacity = view.ampacities.of_pole(run, pole, device_a)
        if look.studies.loaded.amps(index) > HARDLY * ampacity.value:
            current, long_a = look.studies.demand.amps(index)
            if shows_more(current, ampacity.value):
                lasting = current * (1.0 - (1.0 - BRIEF) * look.studies.demand.brief(index))
                briefly = within(lasting, ampacity.value)
                found.append(_Worst(run, pole, current, ampacity, briefly))
                continue
            if long_a > 0.0 and not only_plugged_in(view, look, [index]):
                found += _long(view, run, pole, current, long_a, device_a)
            need = motor_need(view, look, run, pole, index, (current, long_a))
            if need is not None and exceeds(need.needed_a, ampacity.value):
                found.append(_Worst(run, pole, current, ampacity, motor=need))
    return max(found, key=lambda w: (not w.briefly, w.least_a / w.ampacity.value), default=None)


def _long(
    view: View, run: Run, pole: Pole, amps: float, long_a: float, device_a: float | None
) -> list[_Worst]:
    """Whether a hot conductor of fixed wiring is too thin for what flows for hours."""
    cord = view.run_values(run.id).pick("installation") == "cord"
    direct = direct_v(view.design, run) is not None
    if cord or direct or not is_ungrounded(pole):
        return []
    needed = rules_of(view.design).design_current(amps - long_a, long_a).value
    plain = view.ampacities.plain(run, pole, device_a)
    worst = _Worst(run, pole, amps, plain, long_a=long_a, needed_a=needed)
    return [worst] if exceeds(needed, plain.value) else []


def _hit(view: View, look: Look, worst: _Worst) -> Hit:
    if worst.motor is not None:
        return _motor_hit(view, look, worst, worst.motor)
    if worst.long_a > 0.0:
        return _long_hit(view, look, worst)
    run, ampacity = worst.run, worst.ampacity
    return look.hit(
        Level.NOTE if worst.briefly else Level.WARNING,
        (run.id,),
        BRIEFLY if worst.briefly else MESSAGE,
        {
            "run": view.name(run.id),
            "amps": f"{worst.amps:.1f}",
            "ampacity": f"{ampacity.value:.3g}",
            "decided": begun_small(ampacity.decided_by.what),
        },
        (
            Evidence(N_("current"), worst.amps, "current"),
            Evidence(N_("ampacity as installed"), ampacity.value, "current"),
        ),
        mend=_mend(view, worst),
    )


def _long_hit(view: View, look: Look, worst: _Worst) -> Hit:
    words = {
        "run": view.name(worst.run.id),
        "amps": f"{worst.amps:.1f}",
        "long": f"{worst.long_a:.1f}",
        "needed": f"{worst.needed_a:.1f}",
        "ampacity": f"{worst.ampacity.value:.3g}",
        "decided": begun_small(worst.ampacity.decided_by.what),
    }
    evidence = (
        Evidence(N_("ampacity needed"), worst.needed_a, "current"),
        Evidence(N_("current"), worst.amps, "current"),
        Evidence(N_("of it for three hours or more"), worst.long_a, "current"),
        Evidence(N_("ampacity before corrections"), worst.ampacity.value, "current"),
    )
    subjects, mend = (worst.run.id,), _mend(view, worst)
    clause = "210.19(A)(1), 215.2(A)(1)"
    return look.hit(Level.WARNING, subjects, LONG, words, evidence, mend=mend, clause=clause)


def _motor_hit(view: View, look: Look, worst: _Worst, need: MotorNeed) -> Hit:
    words = {
        "run": view.name(worst.run.id),
        "motor": view.name(need.motor),
        "own": f"{need.own_a:.3g}",
        "amps": f"{worst.amps:.1f}",
        "needed": f"{need.needed_a:.3g}",
        "ampacity": f"{worst.ampacity.value:.3g}",
        "decided": begun_small(worst.ampacity.decided_by.what),
    }
    evidence = (
        Evidence(N_("ampacity needed"), need.needed_a, "current"),
        Evidence(N_("current"), worst.amps, "current"),
        Evidence(N_("ampacity as installed"), worst.ampacity.value, "current"),
    )
    return look.hit(
        Level.WARNING,
        (worst.run.id,),
        need.message,
        words,
        evidence,
        touches=frozenset({need.motor}),
        mend=_mend(view, worst),
        clause=view.clause({"NA": need.clause}),
    )


def _mend(view: View, worst: _Worst) -> Mend | None:
    run = worst.run
    size = size_carrying(view.design, run, worst.least_a)
    if size is None:
        return None
    key = "size"
    if worst.pole is Pole.N and view.run_values(run.id).has("neutral_size"):
        key = "neutral_size"

    return resize(view, run.id, size, key)


RULE = Rule(
    "run-overloaded",
    N_("Conductor overloaded"),
    check,
    {"NA": "210.19(A), 215.2, 310.15", "INT": "433.1, 523"},
    causes=(
        "batteries-unlike",
        "battery-turned",
        "inverter-input-small",
        "device-above-ampacity",
        "device-below-load",
        "long-load-above-supply",
        "source-overloaded",
        "voltage-wrong",
    ),
    hangs_on=("metal-live", "conductors-shorted"),
)
