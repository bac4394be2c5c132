"""What may run together: for each source in each mode the largest sets of loads that it carries.

A set of loads counts as carried where what runs for good stays within the continuous rating of the
source, leg by leg, and where any motor of it may start while the rest runs, within what the source
gives for a start. Loads work at their plates' power; nothing is said of wires and breakers.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from linework.circuit import Circuit, expand
from linework.design import Design
from linework.supply.buses import Bus, buses_of
from linework.supply.modes import Mode, Standing, standings

Array = np.ndarray
MOST_LOADS = 14
"""So many of the largest loads of a source are combined; the rest counts as always on."""


@dataclass(frozen=True)
class Asked:
    """What one load takes of a source: ampere on each leg while it runs, and while it starts.

    ``long``: it runs for three hours or more.
    """

    part: str
    amps: tuple[float, ...]
    start: tuple[float, ...]
    long: bool = False


@dataclass(frozen=True)
class Together:
    """One source in one mode. ``carried``: the largest sets of loads, to which none can be added;
    ``barred``: the smallest sets that are too much; ``alone``: loads that are too much by
    themselves. ``always``: what was taken as always on; ``starts``: whether what it gives for a
    start is known."""

    source: str
    mode: Mode
    rated_a: float
    surge_a: float | None
    loads: tuple[str, ...]
    carried: tuple[tuple[str, ...], ...]
    barred: tuple[tuple[str, ...], ...]
    always: tuple[str, ...] = ()

    @property
    def alone(self) -> tuple[str, ...]:
        """Loads that are too much by themselves."""
        return tuple(each[0] for each in self.barred if len(each) == 1)


def together(design: Design) -> tuple[Together, ...]:
    """Every source with a rating that feeds loads of its own, in every mode; what is the same in
    several modes is told once."""
    circuit = expand(design)
    found: dict[tuple[object, ...], Together] = {}
    for mode, standing in standings(circuit).items():
        for each in _of_mode(circuit, mode, standing):
            found.setdefault((each.source, each.loads, each.carried), each)
    return tuple(found.values())


def _of_mode(circuit: Circuit, mode: Mode, standing: Standing) -> Iterator[Together]:
    for bus in buses_of(standing):
        for owner, sources in _rated(circuit, bus).items():
            loads = [i for i in bus.loads if circuit.loads[i].data.own]
            if not loads:
                continue
            rated = min(circuit.sources[i].data.rated_a or np.inf for i in sources)
            surges = [circuit.sources[i].data.surge_a for i in sources]
            known = [s for s in surges if s is not None]
            surge = min(known) if len(known) == len(surges) else None
            asked = [_asked(standing, sources, i) for i in loads]
            yield judged(owner, mode, [a for a in asked if any(a.amps)], rated, surge)


def _rated(circuit: Circuit, bus: Bus) -> dict[str, list[int]]:
    """The sources of a bus that have a rating which loads can go beyond, by part."""
    found: dict[str, list[int]] = {}
    for index in bus.sources:
        data = circuit.sources[index].data
        if data.rated_a is not None and not data.group.limits_itself:
            found.setdefault(circuit.sources[index].owner, []).append(index)
    return found


def _asked(standing: Standing, sources: Sequence[int], load: int) -> Asked:
    """By the legs whose conductors the load lies on; what lies across two takes of both."""
    situation, circuit = standing.situation, standing.situation.circuit
    data, ends = circuit.loads[load].data, circuit.loads[load]
    label = situation.clusters
    on = [label[circuit.sources[i].plus] in (label[ends.a], label[ends.b]) for i in sources]
    running = data.watts / max(data.volts * data.power_factor, 1e-9)
    if not any(on):  # behind a transformer: by its power, on every leg alike
        volts = sum(circuit.sources[i].data.volts for i in sources)
        running, on = data.watts / max(volts * data.power_factor, 1e-9), [True] * len(on)
    start = max(data.start_a or 0.0, running)
    return Asked(
        ends.owner,
        tuple(running if here else 0.0 for here in on),
        tuple(start if here else 0.0 for here in on),
        data.continuous,
    )


def judged(
    source: str, mode: Mode, asked: Sequence[Asked], rated_a: float, surge_a: float | None = None,
    long_share: float = 1.0,
) -> Together:  # fmt: skip
    """The largest sets that are carried, and the smallest that are not.

    ``long_share``: the part of the rating that loads of three hours and more may take (0.8 of a
    breaker by NFPA 70 210.20(A); all of a source).
    """
    order = sorted(asked, key=lambda a: (-max(a.amps), a.part))
    chosen, rest = order[:MOST_LOADS], order[MOST_LOADS:]
    count = len(chosen)
    sets = np.arange(2**count)
    inside = (sets[:, None] >> np.arange(count)) & 1
    fits = _fits(inside, chosen, rest, rated_a, surge_a, long_share)
    names = [a.part for a in chosen]

    def told(index: int) -> tuple[str, ...]:
        return tuple(sorted(name for n, name in enumerate(names) if inside[index, n]))

    carried = [i for i in sets.tolist() if fits[i] and _largest(i, fits, count)]
    barred = [i for i in sets.tolist() if not fits[i] and _smallest(i, fits, count)]
    return Together(
        source, mode, rated_a, surge_a, tuple(sorted(names)),
        tuple(sorted(map(told, carried), key=lambda s: (-len(s), s))),
        tuple(sorted(map(told, barred), key=lambda s: (len(s), s))),
        tuple(sorted(a.part for a in rest)),
    )  # fmt: skip


def _fits(
    inside: Array, chosen: Sequence[Asked], rest: Sequence[Asked], rated_a: float,
    surge_a: float | None, long_share: float,
) -> Array:  # fmt: skip
    legs = len(chosen[0].amps) if chosen else 1
    fits = np.ones(len(inside), bool)
    for leg in range(legs):
        amps = np.array([a.amps[leg] for a in chosen])
        long = np.array([a.amps[leg] * a.long for a in chosen])
        base = sum(a.amps[leg] for a in rest)
        running = inside @ amps + base if len(chosen) else np.full(len(inside), base)
        fits &= running <= rated_a * (1.0 + 1e-9)
        if long_share < 1.0:
            fits &= inside @ long <= long_share * rated_a * (1.0 + 1e-9)
        if surge_a is not None and chosen:
            more = np.array([a.start[leg] - a.amps[leg] for a in chosen])
            fits &= running + (inside * more).max(axis=1) <= max(surge_a, rated_a) * (1.0 + 1e-9)
    return fits


def _largest(index: int, fits: Array, count: int) -> bool:
    return not any(fits[index | 1 << n] for n in range(count) if not index >> n & 1)


def _smallest(index: int, fits: Array, count: int) -> bool:
    return all(fits[index & ~(1 << n)] for n in range(count) if index >> n & 1)
