"""What is sound in overcurrent protection, and why: devices that fit their conductors."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from linework.circuit.model import Device
from linework.codes import CodesError
from linework.design import Run
from linework.findings.model import Clear
from linework.findings.view import View
from linework.study.slack import exceeds
from linework.study.ways.protection import smallest
from linework.study.wires.ratings import kind_of_device
from linework.words import N_

FITS = N_(
    "{device} of {rating} A is no larger than its conductors allow: {run} carries {ampacity} A as"
    " laid, and {allowed} A may protect it."
)

_Key = tuple[str, str]
"""Owner and name of a device."""


@dataclass(frozen=True)
class _Tightest:
    """The conductor that allows a device least, in ampere."""

    device: Device
    run: Run
    ampacity: float
    allowed: float


def fitting_devices(view: View) -> Iterator[Clear]:
    """Each device that protects some run and is allowed by all that it protects, in every state."""
    found: dict[_Key, _Tightest] = {}
    lost: set[_Key] = set()
    for look in view.settled_looks if view.complete and not view.partial else ():
        for feed in look.studies.feeds:
            device = smallest(look.studies.situation, feed)
            if device is None:
                continue
            key = device.owner, device.data.name
            tight = _tightest(view, device, feed.run)
            if tight is None or exceeds(device.data.rating_a, tight.allowed):
                lost.add(key)
            elif key not in found or tight.allowed < found[key].allowed:
                found[key] = tight
    for key in sorted(found.keys() - lost):
        yield _clear(view, found[key])


def _tightest(view: View, device: Device, run_id: str) -> _Tightest | None:
    """None where no table tells."""
    run, rating = view.run(run_id), device.data.rating_a
    kind = kind_of_device(device.data.curve)
    if run is None or not view.run_values(run_id).has("size"):
        return None
    try:
        ampacity = view.ampacities.with_twins(run, rating)
        allowed = view.ampacities.largest_device(run, rating, kind)
    except CodesError:
        return None
    return _Tightest(device, run, ampacity.value, allowed.value)


def _clear(view: View, tight: _Tightest) -> Clear:
    return Clear(
        (tight.device.owner,),
        FITS,
        {
            "device": view.name(tight.device.owner),
            "rating": f"{tight.device.data.rating_a:g}",
            "run": view.name(tight.run.id),
            "ampacity": f"{tight.ampacity:.3g}",
            "allowed": f"{tight.allowed:.4g}",
        },
        quiet=True,
    )
