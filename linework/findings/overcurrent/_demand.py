"""What devices carry with all drawn loads on, for the rules that judge it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from linework.circuit.model import Device
from linework.codes import CodesError
from linework.design import Run
from linework.findings.mending import rerate
from linework.findings.model import Mend
from linework.findings.view import Look, View
from linework.study.protection import smallest
from linework.study.ratings import kind_of_device, largest_device, rules_of
from linework.study.trust import loaded_or_none

HARDLY = 0.4
"""Below this share of its rating no load is too much: half of 80 %, whatever the wires lose."""


@dataclass(frozen=True)
class Carried:
    """A device with the current of its worst contact in ampere, and the part of it that flows
    long."""

    device: Device
    amps: float
    long_a: float

    @property
    def rating_a(self) -> float:
        """Its rating in ampere."""
        return self.device.data.rating_a


def carried(look: Look) -> Iterator[Carried]:
    """Every device in circuit of a state whose loads could be solved, unless it is hardly used."""
    loaded = loaded_or_none(look.studies)
    if loaded is None:
        return
    for device in look.studies.circuit.devices:
        contacts = [i for i in device.branches if i in look.studies.situation.closed]
        worst = max(contacts, key=loaded.amps, default=None)
        if worst is not None and loaded.amps(worst) > HARDLY * device.data.rating_a:
            yield Carried(device, *look.studies.demand.amps(worst))


def runs_behind(view: View, look: Look, device: Device) -> frozenset[str]:
    """The runs that a device protects in a state."""
    situation = look.studies.situation
    return frozenset(feed.run for feed in look.studies.feeds if smallest(situation, feed) is device)


def larger_device(view: View, look: Look, device: Device, amps: float) -> Mend | None:
    """The next standard rating for a current, where all conductors behind allow it."""
    owner, kind = device.owner, kind_of_device(device.data.curve)
    if "rating" not in view.kind(owner).declared:
        return None
    try:
        rating = rules_of(view.design).standard_up(amps, kind).value
        if any(_allowed(view, run, rating, kind) < rating for run in _runs(view, look, device)):
            return None
    except (CodesError, KeyError):
        return None

    return rerate(view, owner, rating)


def _runs(view: View, look: Look, device: Device) -> list[Run]:
    found = (view.run(run_id) for run_id in sorted(runs_behind(view, look, device)))
    return [run for run in found if run is not None]


def _allowed(view: View, run: Run, rating: float, kind: str) -> float:
    ampacity = view.ampacities.of_run(run, rating)
    return largest_device(
        view.design, run, ampacity, device="breaker" if kind == "breaker" else "fuse"
    ).value
