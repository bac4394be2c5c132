"""A device that may open in the moment a transformer is switched on.

What is checked
    For each transformer that is live: 8 to 12 times its rated current for a tenth
    of a second against the time-current band of the devices before its primary,
    and against what the sets and converters before it give for a start.
Why it matters
    The breaker opens now and then, with nothing wrong, and somebody puts a larger
    one in its place.
How to cure it
    A device that the transformer's maker names, one with a slower or higher
    magnetic release, or a circuit that limits the current at first.
Limits
    The factors are from memory: makers state theirs. It hangs on the moment of
    switching, so that what may open holds most of the time. A device that holds for
    certain is told among what is sound.
Sources
    UL 489, UL 248; practice (from memory).
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from linework.circuit.model import Device
from linework.codes import CodesError, stated
from linework.findings.model import Clear, Evidence, Hit, Level, NotChecked, Outcome
from linework.findings.rule import Rule
from linework.findings.view import Look, View
from linework.study.shorts.clearing import band_of
from linework.study.slack import exceeds, within
from linework.study.ways.paths import parts_passed
from linework.study.ways.windings import Core, cores, drivers
from linework.words import N_

MAY = N_(
    "{where} takes {least} to {most} A when it is switched on ({low} to {high} times its current,"
    " assumed): {device} of {rating} A may open then, with nothing wrong."
)
WILL = N_(
    "{where} takes {least} to {most} A when it is switched on ({low} to {high} times its current,"
    " assumed): {device} of {rating} A opens before that is over."
)
SMALL = N_(
    "{where} takes {least} to {most} A when it is switched on ({low} to {high} times its current,"
    " assumed); {device} gives {rating} A for a start: it may drop out or switch off."
)
HOLDS = N_(
    "{device} of {rating} A holds what {where} takes when it is switched on, taken as up to"
    " {most} A for a tenth of a second ({high} times its current, assumed)."
)
NO_BAND = N_("{fault}")


@dataclass(frozen=True)
class _Inrush:
    """The current in ampere with which a transformer begins, the least and the most usual."""

    owner: str
    least_a: float
    most_a: float


def check(view: View) -> Iterator[Outcome]:
    """One hit for each transformer and device or source; a gap where no band is known."""
    low, high = stated("common", "inrush_least").value, stated("common", "inrush_most").value
    sound: dict[tuple[str, str], Clear] = {}
    weak: set[tuple[str, str]] = set()
    for look in view.settled_looks:
        for core in cores(look.studies.situation):
            inrush = _Inrush(core.owner, low * core.primary_a, high * core.primary_a)
            for device in _before(look, core):
                outcome = _judged(view, look, inrush, device)
                if isinstance(outcome, Clear):
                    sound[core.owner, device.owner] = outcome
                else:
                    weak.add((core.owner, device.owner))
                    yield outcome
            yield from _sources(view, look, core, inrush)
    yield from (clear for key, clear in sorted(sound.items()) if key not in weak)


def _before(look: Look, core: Core) -> list[Device]:
    """The devices through which a primary is fed."""
    situation = look.studies.situation
    source = situation.circuit.sources[next(iter(core.windings))]
    passed = {
        part
        for system, node in drivers(situation, source)
        for part in parts_passed(situation, system.source, node)
    }
    devices = {d.owner: d for d in situation.circuit.devices if d.owner in passed}
    return [devices[owner] for owner in sorted(devices)]


def _judged(view: View, look: Look, inrush: _Inrush, device: Device) -> Outcome:
    time_s = stated("common", "inrush_time").value
    try:
        band = band_of(device)
    except CodesError as fault:
        return NotChecked(NO_BAND, {"fault": fault}, (device.owner,))
    rating = device.data.rating_a
    if within(time_s, band.may_open_s(inrush.most_a)):
        words = _words(view, inrush, device.owner, rating)
        return Clear((inrush.owner, device.owner), HOLDS, words, quiet=True)
    opens = exceeds(time_s, band.opens_by_s(inrush.least_a))
    level, message = (Level.WARNING, WILL) if opens else (Level.NOTE, MAY)
    return _hit(view, look, inrush, device.owner, rating, level, message)


def _sources(view: View, look: Look, core: Core, inrush: _Inrush) -> Iterator[Hit]:
    """Sets and converters that give less for a start."""
    situation = look.studies.situation
    source = situation.circuit.sources[next(iter(core.windings))]
    for system, _ in drivers(situation, source):
        gives = situation.circuit.sources[system.source].data.surge_a
        if gives is not None and exceeds(inrush.most_a, gives):
            yield _hit(view, look, inrush, system.owner, gives, Level.NOTE, SMALL)


def _words(view: View, inrush: _Inrush, owner: str, amps: float) -> dict[str, str]:
    low, high = stated("common", "inrush_least").value, stated("common", "inrush_most").value
    return {
        "where": view.name(inrush.owner),
        "device": view.name(owner),
        "rating": f"{amps:.3g}",
        "least": f"{inrush.least_a:.3g}",
        "most": f"{inrush.most_a:.3g}",
        "low": f"{low:g}",
        "high": f"{high:g}",
    }


def _hit(
    view: View, look: Look, inrush: _Inrush, owner: str, amps: float, level: Level, message: str
) -> Hit:
    return look.hit(
        level,
        (inrush.owner, owner),
        message,
        _words(view, inrush, owner, amps),
        (
            Evidence(N_("current when it is switched on"), inrush.most_a, "current"),
            Evidence(N_("device or source"), amps, "current"),
        ),
    )


RULE = Rule(
    "transformer-inrush",
    N_("Device may open when a transformer is switched on"),
    check,
    {"NA": "practice", "INT": "practice"},
)
