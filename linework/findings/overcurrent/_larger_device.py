"""The mend of two rules: a device of the next standard rating."""

from __future__ import annotations

from linework.circuit.model import Device
from linework.codes import CodesError
from linework.findings.mending import rerate
from linework.findings.model import Mend
from linework.findings.view import Look, View
from linework.study.answers.carried import runs_behind
from linework.study.wires.ratings import DeviceKind, kind_of_device, largest_device, rules_of


def larger_device(view: View, look: Look, device: Device, amps: float) -> Mend | None:
    """The next standard rating for a current, where all conductors behind allow it."""
    owner, kind = device.owner, kind_of_device(device.data.curve)
    if "rating" not in view.kind(owner).declared:
        return None
    try:
        rating = rules_of(view.design).standard_up(amps, kind).value
        runs = sorted(runs_behind(look.studies, device))
        if any(_allowed(view, run, rating, kind) < rating for run in runs):
            return None
    except (CodesError, KeyError):
        return None
    return rerate(view, owner, rating)


def _allowed(view: View, run_id: str, rating: float, kind: DeviceKind) -> float:
    """The largest device that a run allows, alone; infinite for what is no run."""
    run = view.run(run_id)
    if run is None:
        return float("inf")
    ampacity = view.ampacities.of_run(run, rating)
    return largest_device(view.design, run, ampacity, device=kind).value
