"""From single lines to every conductor: a design becomes a circuit."""

from __future__ import annotations

from collections.abc import Mapping

from linework.circuit.conductors import run_leak, wire_ohm
from linework.circuit.gathering import Gathered, plug_positions
from linework.circuit.model import (
    Branch,
    Circuit,
    Condition,
    Conversion,
    Device,
    FaceAt,
    Leakage,
    LiveSource,
    Load,
    MetalAt,
    PinsAt,
    SelectorAt,
    SelectorKey,
    Sensor,
    Spot,
)
from linework.design import Design, Run, Seat, pole_map
from linework.design.model import Settled
from linework.kinds.common import PLUG_CONTACT
from linework.quantity import read
from linework.wiring import (
    Contact,
    Convert,
    Draw,
    Face,
    GroundFault,
    Inside,
    Leak,
    Link,
    Metal,
    Overcurrent,
    Pins,
    Point,
    Pole,
    Selector,
    Source,
    When,
    is_protective,
)

LEAST_OHM = 1e-5
"""Stands for no resistance at all (a run of no length, a rod of zero ohm), as for a closed contact
without data: small against every source, and large enough to be solved without loss."""


def expand(design: Design, settled: Settled | None = None) -> Circuit:
    """The circuit of a design with its unknowns settled (those not named take their first)."""
    of = Gathered(design, settled or {})
    build = _Numbered(of, of.unions.numbered())
    for part_id, inside in of.insides.items():
        build.part(part_id, inside)
    for run in sorted(of.design.runs, key=lambda item: item.id):
        build.run(run)
    for seat, label in of.plugs:
        build.plug(seat, label)
    return build.done()


class _Numbered:
    """Turns named elements into indexed ones."""

    def __init__(self, of: Gathered, number: Mapping[Spot, int]) -> None:
        self.of = of
        self.number = number
        self.hertz = read(of.design.settings.frequency, "frequency")
        self.branches: list[Branch] = []
        self.index: dict[tuple[str, str], int] = {}
        self.sources: list[LiveSource] = []
        self.loads: list[Load] = []
        self.leakages: list[Leakage] = []
        self.devices: list[Device] = []
        self.sensors: list[Sensor] = []
        self.metals: list[MetalAt] = []
        self.pins: list[PinsAt] = []
        self.faces: list[FaceAt] = []
        self.conversions: list[Conversion] = []
        self.selectors: dict[SelectorKey, SelectorAt] = {}

    def node(self, owner: str, point: Point) -> int:
        return self.number[self.of.spot(owner, point)]

    def when(self, owner: str, when: When) -> Condition:
        return tuple(((owner, name), positions) for name, positions in when)

    def branch(self, branch: Branch) -> None:
        self.index[branch.owner, branch.name] = len(self.branches)
        self.branches.append(branch)

    def part(self, owner: str, inside: Inside) -> None:
        for selector in inside.selectors:
            self.selector(owner, selector)
        for element in inside.elements:
            if isinstance(element, Link | Contact):
                self.branch(self._branch(owner, element))
        for element in inside.elements:
            self._rest(owner, element)

    def _branch(self, owner: str, element: Link | Contact) -> Branch:
        ohm = element.ohm or PLUG_CONTACT
        sort = "contact"
        if isinstance(element, Link):
            soil = "earth" in (element.a[1], element.b[1])
            plain = "cord" if element.cord else "link"
            sort = "bond" if element.bond else "soil" if soil else plain
        return Branch(
            owner,
            element.name,
            self.node(owner, element.a),
            self.node(owner, element.b),
            max(ohm.low, LEAST_OHM),
            max(ohm.high, LEAST_OHM),
            0.0,
            sort,  # type: ignore[arg-type]
            str(element.a[1]),
            self.when(owner, element.when),
        )

    def _rest(self, owner: str, element: object) -> None:
        if isinstance(element, Source):
            ends = self.node(owner, element.plus), self.node(owner, element.minus)
            primary = tuple(self.node(owner, point) for point in element.primary or ())
            when = self.when(owner, element.when)
            self.sources.append(LiveSource(owner, element, *ends, when, primary))
        elif isinstance(element, Draw):
            ends = self.node(owner, element.a), self.node(owner, element.b)
            self.loads.append(Load(owner, element, *ends, self.when(owner, element.when)))
        elif isinstance(element, Leak):
            ends = self.node(owner, element.a), self.node(owner, element.b)
            when = self.when(owner, element.when)
            self.leakages.append(Leakage(owner, *ends, element.farad, element.siemens, when))
        elif isinstance(element, Overcurrent):
            watched = tuple(self.index[owner, name] for name in element.contacts)
            self.devices.append(Device(owner, element, watched))
        elif isinstance(element, GroundFault):
            self._sensor(owner, element)
        elif isinstance(element, Metal):
            self.metals.append(MetalAt(owner, element, self.node(owner, element.at)))
        elif isinstance(element, Pins):
            self._pins(owner, element)
        elif isinstance(element, Face):
            nodes = {str(pole): self.node(owner, point) for pole, point in element.points}
            self.faces.append(FaceAt(owner, element, nodes))
        elif isinstance(element, Convert):
            self._conversion(owner, element)

    def _sensor(self, owner: str, element: GroundFault) -> None:
        senses = tuple(self.index[owner, name] for name in element.senses)
        opens = tuple(self.index[owner, name] for name in element.opens)
        guards = tuple(self.node(owner, point) for point in element.load_side)
        self.sensors.append(Sensor(owner, element, senses, opens, guards))

    def _pins(self, owner: str, element: Pins) -> None:
        if element.free_terminal and self._taken(owner, element.free_terminal):
            return
        nodes = tuple(self.node(owner, point) for point in element.points)
        self.pins.append(PinsAt(owner, element, nodes, self.when(owner, element.when)))

    def _taken(self, owner: str, terminal: str) -> bool:
        """Whether a run ends at a terminal, or the part sits by it in a place of another."""
        design = self.of.design
        by_seat = design.kind(design.part(owner)).seat == terminal
        return bool(design.runs_at(owner, terminal) or (by_seat and design.seats_of(owner)))

    def _conversion(self, owner: str, element: Convert) -> None:
        source = next(
            i
            for i, s in enumerate(self.sources)
            if (s.owner, s.data.name) == (owner, element.gives)
        )
        load = next(
            i for i, x in enumerate(self.loads) if (x.owner, x.data.name) == (owner, element.takes)
        )
        self.conversions.append(Conversion(owner, element, source, load))

    def selector(self, owner: str, selector: Selector) -> None:
        positions = selector.positions
        if selector.name == "plug":
            positions = ("unplugged", *plug_positions(self.of.design, owner))
        rule = tuple(
            (line, tuple(self._pair(owner, point) for point in line.live)) for line in selector.rule
        )
        passing = tuple(
            (passage, tuple(self._pair(owner, point) for point in passage.live))
            for passage in selector.passing
        )
        key = (owner, selector.name)
        self.selectors[key] = SelectorAt(
            key, positions, selector.rest, selector.moves, rule, passing
        )

    def _pair(self, owner: str, point: Point) -> tuple[int, int]:
        """A point that must be live, with the pole against which it is."""
        terminal, pole = point
        partner = {Pole.POS: Pole.NEG, Pole.L1: Pole.L2}.get(Pole(pole), Pole.N)
        return self.node(owner, point), self.node(owner, (terminal, partner))

    def run(self, run: Run) -> None:
        values = self.of.design.run_values(run)
        pairs = pole_map(self.of.design, run)
        spots = [
            (Spot(run.a.part, run.a.terminal, p), Spot(run.b.part, run.b.terminal, q))
            for p, q in pairs
        ]
        broken = values.pick("broken")
        for (p, q), (one, other) in zip(pairs, spots, strict=True):
            if one not in self.number or other not in self.number or _is_cut(p, broken):
                continue
            wire = wire_ohm(values, p, self.hertz)
            bond = _unlike(p, q)
            self.branch(
                Branch(
                    run.id,
                    str(p),
                    self.number[one],
                    self.number[other],
                    max(wire.cold, LEAST_OHM),
                    max(wire.hot, LEAST_OHM),
                    wire.x,
                    "bond" if bond else "run",
                    str(p),
                    known=wire.known,
                )
            )
        self._run_leaks(run, pairs, spots, run_leak(values), broken)

    def _run_leaks(
        self,
        run: Run,
        pairs: tuple[tuple[Pole, Pole], ...],
        spots: list[tuple[Spot, Spot]],
        leak: tuple[float, float],
        broken: str,
    ) -> None:
        """Leakage of the cable from each live conductor to its ground wire, at the far end."""
        ground = next(
            (far for (p, _), (_, far) in zip(pairs, spots, strict=True) if p is Pole.PE), None
        )
        if ground is None or ground not in self.number:
            return
        farad, siemens = leak
        for (p, _), (_, far) in zip(pairs, spots, strict=True):
            if not is_protective(p) and far in self.number and not _is_cut(p, broken):
                ends = self.number[far], self.number[ground]
                if ends[0] != ends[1]:
                    self.leakages.append(Leakage(run.id, *ends, farad, siemens, ()))

    def plug(self, seat: Seat, label: str) -> None:
        """The joint between the pins of a plug and the contacts it may be put into."""
        when = (((seat.part, "plug"), frozenset({label})),)
        for mine, theirs in self.of.offers(seat):
            self.branch(
                Branch(
                    seat.id,
                    mine.pole,
                    self.number[theirs],
                    self.number[mine],
                    PLUG_CONTACT.low,
                    PLUG_CONTACT.high,
                    0.0,
                    "seat",
                    mine.pole,
                    when,
                )
            )

    def done(self) -> Circuit:
        spots: list[list[Spot]] = [[] for _ in range(len(set(self.number.values())))]
        terminals: dict[tuple[str, str], dict[str, int]] = {}
        for spot, node in self.number.items():
            spots[node].append(spot)
            if spot.terminal and spot.part != "@":
                terminals.setdefault((spot.part, spot.terminal), {})[spot.pole] = node
        return Circuit(
            dict(self.number),
            tuple(tuple(group) for group in spots),
            tuple(self.branches),
            tuple(self.sources),
            tuple(self.loads),
            tuple(self.leakages),
            tuple(self.devices),
            tuple(self.sensors),
            tuple(self.metals),
            tuple(self.pins),
            tuple(self.faces),
            tuple(self.conversions),
            self.selectors,
            terminals,
            tuple(
                frozenset(((part, name), position) for part, name, position in lock.excludes)
                for lock in self.of.design.interlocks
            ),
            self.of.settled,
            self.hertz,
        )


def _is_cut(pole: Pole, broken: str) -> bool:
    if broken == "L":
        return pole in (Pole.L, Pole.L1, Pole.L2, Pole.L3, Pole.POS)
    if broken == "N":
        return pole in (Pole.N, Pole.NEG)
    return broken != "none" and str(pole) == broken


def _unlike(p: Pole, q: Pole) -> bool:
    """A jumper from a conductor that carries load current to metal is a bond."""
    return is_protective(p) != is_protective(q)
