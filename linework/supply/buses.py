"""What hangs together in one mode: sources and loads that share conductors are one bus."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass

from linework.circuit.model import Conversion, LiveSource
from linework.circuit.unions import joined
from linework.study.situation import Situation
from linework.study.ways.banks import strings
from linework.study.ways.windings import drivers
from linework.supply.modes import Standing


@dataclass(frozen=True)
class Bus:
    """Indices of the sources on it that are on, and of the loads that they feed; ``volts``: of its
    stores in series."""

    sources: tuple[int, ...]
    loads: tuple[int, ...]
    volts: float = 0.0


@dataclass(frozen=True)
class Converter:
    """What turns power over between two buses, all conductors of one part together.

    ``gives``: the sources through which it gives, ``takes``: the load through which it draws;
    ``watts``: the most that it gives, None where nothing bounds it. ``limit_w``: what it takes
    together with what it passes on (None: no bound).
    """

    owner: str
    gives: tuple[int, ...]
    takes: int
    watts: float
    efficiency: float
    idle_w: float
    steps: bool
    limit_w: float | None = None


def buses_of(standing: Standing) -> list[Bus]:
    """The buses of a mode."""
    situation = standing.situation
    active = dict(situation.active)
    pairs = [*_legs(active), *_in_series(situation, active), *_coupled(situation, active)]
    on: dict[int, list[int]] = {}
    for index, owners in standing.energised.fed.items():
        on[index] = found = _feeding(situation, index, owners, active)
        pairs += [(found[0], other) for other in found[1:]]
    place = {source: n for n, source in enumerate(active)}
    label = joined(len(place), ((place[a], place[b]) for a, b in pairs))
    sources, loads = defaultdict(list), defaultdict(list)
    for source, n in place.items():
        sources[label[n]].append(source)
    for index, found in on.items():
        if found:
            loads[label[place[found[0]]]].append(index)
    volts = _volts(situation)
    return [
        Bus(tuple(s), tuple(loads[key]), max((volts.get(i, 0.0) for i in s), default=0.0))
        for key, s in sources.items()
    ]


def _legs(active: dict[int, LiveSource]) -> list[tuple[int, int]]:
    """Windings of one part that are of one sort belong together: the two legs of a set."""
    first: dict[tuple[str, str], int] = {}
    return [(first.setdefault((s.owner, s.data.group.value), i), i) for i, s in active.items()]


def _in_series(situation: Situation, active: dict[int, LiveSource]) -> list[tuple[int, int]]:
    """Batteries in series or side by side, with whatever lies across them."""
    found: list[tuple[int, int]] = []
    label, across = situation.conductive, dict[tuple[int, int], int]()
    for string in strings(situation):
        head = string.cells[0]
        found += [(head, cell) for cell in string.cells[1:]]
        found.append((across.setdefault((string.top, string.bottom), head), head))
    for index, source in active.items():
        beside = across.get((label[source.plus], label[source.minus]))
        if beside is not None and source.data.hertz == 0.0:
            found.append((beside, index))
    return found


def _coupled(situation: Situation, active: dict[int, LiveSource]) -> list[tuple[int, int]]:
    """Windings of a transformer with what drives them."""
    found: list[tuple[int, int]] = []
    for index, source in active.items():
        if source.primary:
            found += [(index, system.source) for system, _ in drivers(situation, source)]
    return found


def _feeding(
    situation: Situation, load: int, owners: tuple[str, ...], active: dict[int, LiveSource]
) -> list[int]:
    """The sources of these parts that lie on the conductors of a load; all of a part whose
    conductors end before it, as of what drives a transformer."""
    ends = situation.circuit.loads[load]
    near = {
        system.source: system.owner
        for node in (ends.a, ends.b)
        for system in (*situation.feeds(node), *situation.returns(node))
        if system.owner in owners
    }
    far = set(owners) - set(near.values())
    return sorted({*near, *(i for i, s in active.items() if s.owner in far)})


def _volts(situation: Situation) -> dict[int, float]:
    """For each battery the voltage of the string in which it is."""
    found: dict[int, float] = {}
    for string in strings(situation):
        volts = sum(situation.circuit.sources[i].data.volts for i in string.cells)
        found.update(dict.fromkeys(string.cells, volts))
    return found


def converters_of(situation: Situation) -> list[Converter]:
    """What turns power over in a mode: the conversions of a part that draw at one place."""
    on = {i for i, _ in situation.active}
    drawing = {i for i, _ in situation.loads}
    together: dict[tuple[str, int], list[Conversion]] = defaultdict(list)
    for each in situation.circuit.conversions:
        if each.source in on and each.load in drawing:
            together[each.owner, each.load].append(each)
    return [_converter(situation, found) for found in together.values()]


def _converter(situation: Situation, found: list[Conversion]) -> Converter:
    sources = [situation.circuit.sources[c.source].data for c in found]
    first = found[0]
    limit = first.data.limit_a
    legs = max(len(first.data.beside), 1)
    line_v = situation.circuit.loads[first.load].data.volts / legs
    return Converter(
        first.owner,
        tuple(c.source for c in found),
        first.load,
        sum((s.rated_a or 0.0) * s.volts for s in sources),
        first.data.efficiency,
        sum(c.data.idle_w for c in found),
        first.data.steps,
        None if limit is None else limit * line_v * legs,
    )
