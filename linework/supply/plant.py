"""The plant: banks, what hangs on each in each mode, and what charges it."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field

from linework.circuit.model import LiveSource
from linework.supply.buses import Bus, Converter, buses_of, converters_of
from linework.supply.modes import Mode, Standing

Share = tuple[tuple[int, float], ...]
"""Banks by number, with what part falls on each: one bank but where several are joined."""


@dataclass(frozen=True)
class Onto:
    """What a load or converter hangs on: a converter by number, banks, or an outer source."""

    converter: int | None = None
    banks: Share = ()
    firm: int | None = None


@dataclass(frozen=True)
class Charge:
    """What charges banks: ``converter`` (None: directly), out of an outer source (``firm``), of a
    bank while an engine turns there (``link``), of arrays (``suns``, part ids) or of an alternator
    (``watts``)."""

    banks: Share
    watts: float
    efficiency: float = 1.0
    firm: int | None = None
    link: int | None = None
    suns: tuple[str, ...] = ()
    alternator: bool = False
    joins: bool = False
    limit_w: float | None = None
    share: float = 1.0
    """The part of the arrays that is its own, where several charge from them."""


@dataclass(frozen=True)
class Wiring:
    """One mode: what each load hangs on (missing: nothing feeds it), converters from the leaves on,
    what charges, and the outer sources by part id."""

    loads: Mapping[int, Onto]
    converters: tuple[tuple[Converter, Onto], ...]
    charges: tuple[Charge, ...]
    firm: tuple[tuple[str, ...], ...]


@dataclass(frozen=True)
class Plant:
    """All modes. ``banks``: the stores of each (part ids; none: a board that the sun feeds
    directly), ``volts`` of each. ``sealed``: loads on cells that are sealed into a part."""

    banks: tuple[tuple[str, ...], ...]
    volts: tuple[float, ...]
    wirings: Mapping[Mode, Wiring]
    sealed: frozenset[int] = frozenset()
    owners: Mapping[int, str] = field(default_factory=dict)


def plant_of(standings: Mapping[Mode, Standing], capacity: Mapping[str, float]) -> Plant:
    """The plant of a design; ``capacity``: Wh of each battery by part id, by which joined banks
    share."""
    reads = {mode: _Read(standing) for mode, standing in standings.items()}
    banks: dict[frozenset[str], float] = {}
    for read in reads.values():
        for bus in read.buses:
            key = read.bank(bus)
            if key and not any(known <= key for known in banks):
                banks[key] = read.volts(bus)
    order = sorted(banks, key=lambda key: -sum(capacity.get(part, 0.0) for part in key))
    size = {key: sum(capacity.get(part, 0.0) for part in key) or 1.0 for key in order}
    wirings = {mode: read.wiring(order, size) for mode, read in reads.items()}
    sealed = frozenset(i for read in reads.values() for i in read.sealed())
    names = {i: x.owner for read in reads.values() for i, x in enumerate(read.circuit.loads)}
    stores = tuple(tuple(sorted(p for p in key if p in capacity)) for key in order)
    return Plant(stores, tuple(banks[key] for key in order), wirings, sealed, names)


class _Read:
    """One mode, read bus by bus."""

    def __init__(self, standing: Standing) -> None:
        self.standing, self.circuit = standing, standing.situation.circuit
        self.active = dict(standing.situation.active)
        self.buses = buses_of(standing)
        self.converters = converters_of(standing.situation)
        self._bus_of_load = {i: bus for bus in self.buses for i in bus.loads}
        self._bus_of_source = {i: bus for bus in self.buses for i in bus.sources}

    def _sources(self, bus: Bus) -> Iterator[LiveSource]:
        return (self.active[i] for i in bus.sources)

    def owners(self, bus: Bus) -> frozenset[str]:
        return frozenset(s.owner for s in self._sources(bus))

    def stores(self, bus: Bus) -> frozenset[str]:
        return frozenset(s.owner for s in self._sources(bus) if s.data.group.stores)

    def bank(self, bus: Bus) -> frozenset[str]:
        """The stores of a bus, else what feeds it directly: by these a bank is known again."""
        itself = self.owners(bus) if self.carries_itself(bus) else frozenset()
        return self.stores(bus) or itself

    def volts(self, bus: Bus) -> float:
        return bus.volts or max((s.data.volts for s in self._sources(bus)), default=0.0)

    def sealed(self) -> Iterator[int]:
        """Loads that hang on cells sealed into a part, through whatever converters."""
        for index in self._bus_of_load:
            bus: Bus | None = self._bus_of_load[index]
            for _ in range(len(self.converters) + 1):
                if bus is None:
                    break
                if any(s.data.group.sealed for s in self._sources(bus)):
                    yield index
                    break
                feeding = self._feeder(bus)
                bus = None if feeding is None else self._input(feeding)

    def firm(self, bus: Bus) -> tuple[str, ...]:
        """Parts on a bus that come from elsewhere or that an engine turns."""
        return tuple(
            sorted({s.owner for s in self._sources(bus)
                    if s.data.group.off_site or s.data.group.driven})
        )  # fmt: skip

    def _input(self, converter: Converter) -> Bus | None:
        return self._bus_of_load.get(converter.takes)

    def _onto_bus(self, bus: Bus) -> list[Converter]:
        return [c for c in self.converters if self._bus_of_source[c.gives[0]] is bus]

    def _sunny(self, bus: Bus | None) -> bool:
        """Whether nothing but light feeds a bus."""
        return bus is not None and all(s.data.group.solar for s in self._sources(bus))

    def _feeder(self, bus: Bus) -> Converter | None:
        """The one converter that carries a bus by itself."""
        if self.stores(bus) or self.firm(bus) or self.carries_itself(bus):
            return None
        onto = [c for c in self._onto_bus(bus) if self._input(c) is not None]
        return max(onto, key=lambda c: c.watts, default=None)

    def carries_itself(self, bus: Bus) -> bool:
        """Whether a bus without a store or outer source has the sun or an engine on it that feeds
        it directly."""
        if self.stores(bus) or self.firm(bus):
            return False
        if any(self._input_takes_all(c) for c in self.converters if self._input(c) is bus):
            return False
        direct = any(s.data.group.solar or s.data.group.needs_store for s in self._sources(bus))
        return direct or any(self._sunny(self._input(c)) for c in self._onto_bus(bus))

    def _input_takes_all(self, converter: Converter) -> bool:
        """Whether it only turns over what arrays give, so that their bus is none of its own."""
        return self._sunny(self._input(converter))

    def wiring(self, order: list[frozenset[str]], size: Mapping[frozenset[str], float]) -> Wiring:
        chain = self._chain()
        number = {c.takes: n for n, c in enumerate(chain)}
        firms = sorted({self.firm(bus) for bus in self.buses if self.firm(bus)})

        def onto(bus: Bus) -> Onto | None:
            firm = self.firm(bus)
            if firm:
                return Onto(firm=firms.index(firm))
            share = self._share(bus, order, size)
            if share:
                return Onto(banks=share)
            feeding = self._feeder(bus)
            return None if feeding is None else Onto(converter=number[feeding.takes])

        own = {
            i: found
            for i, bus in self._bus_of_load.items()
            if self.circuit.loads[i].data.own and (found := onto(bus)) is not None
        }
        kept = tuple((c, self._end(onto, c)) for c in chain)
        charges = (*self._charging(order, size, firms), *self._direct(order, size))
        return Wiring(own, kept, tuple(charges), tuple(firms))

    def _end(self, onto: Callable[[Bus], Onto | None], converter: Converter) -> Onto:
        """What a converter draws from; nothing where nothing feeds it."""
        taken = self._input(converter)
        return (None if taken is None else onto(taken)) or Onto()

    def _share(
        self, bus: Bus, order: list[frozenset[str]], size: Mapping[frozenset[str], float]
    ) -> Share:
        key = self.bank(bus)
        mine = [n for n, bank in enumerate(order) if bank <= key]
        total = sum(size[order[n]] for n in mine)
        return tuple((n, size[order[n]] / total) for n in mine)

    def _chain(self) -> list[Converter]:
        """The converters that carry a bus, those that feed no other one first."""
        left = [c for bus in self.buses if (c := self._feeder(bus)) is not None]
        found: list[Converter] = []
        while left:
            leaves = [c for c in left if not self._feeds(c, left)]
            taken = leaves or left  # a ring of converters is told by a rule; here it ends
            found += taken
            left = [c for c in left if c not in taken]
        return found

    def _feeds(self, converter: Converter, others: list[Converter]) -> bool:
        out = self._bus_of_source[converter.gives[0]]
        return any(self._input(other) is out for other in others if other is not converter)

    def _charging(
        self,
        order: list[frozenset[str]],
        size: Mapping[frozenset[str], float],
        firms: list[tuple[str, ...]],
    ) -> Iterator[Charge]:
        """Converters onto a bus that they do not carry alone."""
        for converter in self.converters:
            out, taken = self._bus_of_source[converter.gives[0]], self._input(converter)
            share = self._share(out, order, size)
            if taken is None or not share:
                continue
            common = (share, converter.watts, converter.efficiency)
            if self._sunny(taken):
                beside = [c.watts for c in self.converters if self._input(c) is taken]
                yield Charge(
                    *common, suns=tuple(sorted(self.owners(taken))), joins=not converter.steps,
                    share=converter.watts / sum(beside),
                )  # fmt: skip
            elif self.firm(taken):
                firm = firms.index(self.firm(taken))
                yield Charge(*common, firm=firm, limit_w=converter.limit_w)
            else:
                giving = self._share(taken, order, size)
                if giving and giving[0][0] != share[0][0]:
                    yield Charge(*common, link=giving[0][0])

    def _direct(
        self, order: list[frozenset[str]], size: Mapping[frozenset[str], float]
    ) -> Iterator[Charge]:
        """Arrays and alternators that lie on a bank without anything between."""
        for bus in self.buses:
            share = self._share(bus, order, size)
            for owner in sorted(self.owners(bus)) if share else ():
                mine = [s for s in self._sources(bus) if s.owner == owner]
                if any(s.data.group.solar for s in mine):
                    yield Charge(share, float("inf"), suns=(owner,), joins=True)
                elif any(s.data.group.needs_store for s in mine):
                    watts = sum((s.data.rated_a or 0.0) * s.data.volts for s in mine)
                    yield Charge(share, watts, alternator=True)
