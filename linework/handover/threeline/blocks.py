"""Gathers the blocks and ribbons of a design from the expanded circuits of its cases."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import replace

from linework.circuit.gathering import Gathered
from linework.circuit.model import Branch, Circuit, LiveSource, Spot
from linework.design import Design, End, Run, Seat, pole_map
from linework.design.names import natural
from linework.handover.threeline.model import (
    Block,
    Conductors,
    Contact,
    Device,
    Inner,
    Means,
    Net,
    Pin,
    Port,
    Ribbon,
    Stub,
    rank,
)
from linework.sheet.arranging import GIVES, flows


def conductors(design: Design, circuits: Sequence[Circuit]) -> Conductors:
    """All that is drawn; ``circuits``: one for each case, of which the first is drawn."""
    return _Gathering(design, circuits).made()


class _Gathering:
    def __init__(self, design: Design, circuits: Sequence[Circuit]) -> None:
        self.circuits, self.circuit = circuits, circuits[0]
        self.gathered = Gathered(design, self.circuit.settled)
        self.design = self.gathered.design
        self.root = {part.id: self._root(part.id) for part in self.design.parts}
        self.sinks = self._sinks()
        self.extra: dict[Spot, Net] = {}
        self.found = Conductors({}, [], [], len(circuits))

    def made(self) -> Conductors:
        design = self.design
        for part in sorted(design.parts, key=lambda p: natural(p.designation)):
            if self.root[part.id] == part.id and part.id not in self.sinks:
                self.found.blocks[part.id] = Block(part.id, part.id)
        self._elements()
        ways = flows(design, design.runs)
        for run in sorted(design.runs, key=lambda r: (natural(r.designation), r.id)):
            self._run(run, ways[run.id][0] == GIVES)
        for seat in sorted(design.seats, key=self._seat_order):
            self._seat(seat)
        for metal in self.circuit.metals:
            if self.root[metal.owner] in self.found.blocks:
                self._block(metal.owner).metals.add(metal.node)
        for block in self.found.blocks.values():
            self._free(block)
            block.ports.sort(key=self._port_order)
            self._name_nets(block)
        return self.found

    # which parts are one block

    def _root(self, part_id: str) -> str:
        """The part in which it sits for good, directly or not."""
        for seat in self.design.seats_of(part_id):
            if not self._apart(seat):
                return self._root(seat.host)
        return part_id

    def _apart(self, seat: Seat) -> bool:
        """Whether a part that sits in another is drawn by itself: what a hand puts in."""
        part, host = self.design.part(seat.part), self.design.part(seat.host)
        kind, host_kind = self.design.kind(part), self.design.kind(host)
        return kind.plugs or host_kind.receptacle or host_kind.loose

    def _sinks(self) -> frozenset[str]:
        """Bodies and electrodes to which nothing goes but single conductors from elsewhere."""
        design = self.design
        grounding = {p.id for p in design.parts if design.kind(p).body or design.kind(p).electrode}
        for run in design.runs:
            ends = [end.part for end in (run.a, run.b) if end.part in grounding]
            whole = len(pole_map(design, run)) == len(self.circuit.branches_of.get(run.id, ())) == 1
            if len(ends) == 2 or (ends and not whole):
                grounding -= set(ends)
        return frozenset(p for p in grounding if design.runs_at(p))

    def _block(self, part: str) -> Block:
        return self.found.blocks[self.root[part]]

    # nets

    def _net(self, circuit: Circuit, node: int, owner: str) -> Net:
        """The number of a node of any case in the circuit that is drawn."""
        if circuit is self.circuit:
            return node
        spots = circuit.spots[node]
        known = [self.circuit.node_of[s] for s in spots if s in self.circuit.node_of]
        if known:
            return known[0]
        mine = next((s for s in spots if s.part == owner), spots[0])
        return self.extra.setdefault(mine, len(self.circuit.spots) + len(self.extra))

    # what is inside parts

    def _elements(self) -> None:
        """What is inside the parts in any case, each thing once."""
        for contact in self._contacts():
            self._block(contact.owner).contacts.append(contact)
        inners: dict[tuple[str, str], Inner] = {}
        for circuit in self.circuits:
            for inner in self._inners(circuit):
                inners.setdefault((inner.owner, inner.name), inner)
        for inner in inners.values():
            if self.root[inner.owner] in self.found.blocks:
                self._block(inner.owner).inners.append(inner)

    def _contacts(self) -> Iterator[Contact]:
        """Contacts and links; what one case has and another not makes its part doubtful."""
        known: dict[tuple[str, str], Contact] = {}
        counts: Counter[tuple[str, str]] = Counter()
        for circuit in self.circuits:
            for i, branch in enumerate(circuit.branches):
                if self._within(branch):
                    made = self._contact(circuit, branch, i)
                    known.setdefault((made.owner, made.name), made)
                    counts[made.owner, made.name] += 1
        for key, contact in known.items():
            whole = counts[key] == len(self.circuits)
            if not whole:
                self.found.doubtful.add(contact.owner)
            if contact.a != contact.b:  # else joined in the case that is drawn
                yield replace(contact, certain=whole)

    def _within(self, branch: Branch) -> bool:
        """Whether it is inside a part that is drawn, and joins two conductors of it."""
        here = self.root.get(branch.owner) in self.found.blocks
        return here and branch.sort not in ("soil", "seat") and branch.a != branch.b

    def _soil(self, circuit: Circuit, branch: Branch) -> Inner:
        """What leads into the soil."""
        near = branch.b if branch.a == circuit.earth else branch.a
        net = self._net(circuit, near, branch.owner)
        return Inner(branch.owner, branch.name, Device.SOIL, (net,))

    def _contact(self, circuit: Circuit, branch: Branch, i: int) -> Contact:
        a, b = (self._net(circuit, n, branch.owner) for n in (branch.a, branch.b))
        closed = all(circuit.selectors[key].rest in at for key, at in branch.when)
        means = self._means(circuit, branch, i)
        return Contact(branch.owner, branch.name, a, b, means, closed, bool(branch.when))

    def _means(self, circuit: Circuit, branch: Branch, i: int) -> Means:
        if branch.sort == "bond":
            return Means.BOND
        if i in circuit.device_of:
            curve = circuit.devices[circuit.device_of[i]].data.curve
            return Means.BREAKER if curve == "breaker" else Means.FUSE
        if branch.when:
            return Means.SWITCH
        part = self.design.part(branch.owner)
        kind = self.design.kind(part)
        apart = kind.keeps_apart(self.design.values(part))
        ends = (circuit.spots[branch.a], circuit.spots[branch.b])
        if apart and all(any(s.part == part.id and s.terminal in apart for s in e) for e in ends):
            return Means.BLOCKING
        parts = kind.plugs or kind.lets_in or kind.loose or kind.pulled
        return Means.PLUG if branch.sort == "contact" and parts else Means.WIRE

    def _inners(self, circuit: Circuit) -> Iterator[Inner]:
        for branch in circuit.branches:
            if branch.sort == "soil" and branch.owner in self.root:
                yield self._soil(circuit, branch)
        for source in circuit.sources:
            nets = self._nets(circuit, source.owner, (source.plus, source.minus))
            name, direct = f"source {source.data.name}", source.data.hertz == 0
            if not source.primary:
                yield Inner(source.owner, name, _device(source), nets, direct)
                continue
            # a winding drives another and is driven by it: it is drawn once
            for pair in (self._nets(circuit, source.owner, source.primary), nets):
                yield Inner(source.owner, f"winding {sorted(pair)}", Device.WINDING, pair)
        for load in circuit.loads:
            nets = self._nets(circuit, load.owner, (load.a, load.b))
            yield Inner(load.owner, f"draw {load.data.name}", Device.DRAW, nets)

    def _nets(self, circuit: Circuit, owner: str, nodes: Sequence[int]) -> tuple[Net, ...]:
        return tuple(self._net(circuit, node, owner) for node in nodes)

    # ribbons

    def _pin(self, end: End, pole: str) -> Pin:
        net = self.circuit.terminals.get((end.part, end.terminal), {}).get(pole)
        if net is None:
            lost = Spot(end.part, end.terminal, pole)
            net = self.extra.setdefault(lost, len(self.circuit.spots) + len(self.extra))
        return Pin(end.part, end.terminal, str(pole), net)

    def _run(self, run: Run, forward: bool) -> None:
        pairs = sorted(pole_map(self.design, run), key=lambda pair: rank(pair[0]))
        here = [self.circuit.branches[i].pole for i in self.circuit.branches_of.get(run.id, ())]
        if not pairs:
            self.found.missing.append(run.id)
            return
        cut = frozenset(i for i, (p, _) in enumerate(pairs) if str(p) not in here)
        one = tuple(self._pin(run.a, p) for p, _ in pairs)
        other = tuple(self._pin(run.b, q) for _, q in pairs)
        for near, far in ((one, other), (other, one)):
            if far[0].part in self.sinks:
                self._block(near[0].part).stubs.append(Stub(run.id, near[0], far[0]))
                return
        self._join(run.id, one, other, cut, flows=forward)

    def _join(
        self,
        owner: str,
        one: tuple[Pin, ...],
        other: tuple[Pin, ...],
        cut: frozenset[int] = frozenset(),
        plug: bool = False,
        flows: bool = True,
    ) -> None:
        ports = [self._port(pins, owner, end) for end, pins in enumerate((one, other))]
        for port in ports:
            self.found.blocks[port.block].ports.append(port)
        self.found.ribbons.append(Ribbon(owner, ports[0], ports[1], cut, plug, flows))

    def _port(self, pins: tuple[Pin, ...], owner: str = "", end: int = 0) -> Port:
        root = self.root[pins[0].part]
        return Port(root, pins[0].part, pins[0].terminal, pins, root, owner, end)

    def _port_order(self, port: Port) -> tuple[object, ...]:
        """Its own terminals first, then those of what sits in it, by place."""
        places = [seat.place for seat in self.design.seats_of(port.part)]
        within = port.part != port.root
        return within, natural(places[0]) if within and places else natural("")

    def _seat_order(self, seat: Seat) -> tuple[object, ...]:
        named = (self.design.part(p).designation for p in (seat.host, seat.part))
        return (*map(natural, named), natural(seat.place), seat.id)

    def _seat(self, seat: Seat) -> None:
        """What a hand puts in: from the contacts of the outlet to the pins."""
        if not self._apart(seat):
            return
        pairs = sorted(self.gathered.offers(seat), key=lambda pair: rank(pair[0].pole))
        if pairs:
            mine, theirs = (
                tuple(Pin(s.part, s.terminal, str(s.pole), self.circuit.node_of[s]) for s in side)
                for side in zip(*pairs, strict=True)
            )
            self._join(seat.id, theirs, mine, plug=True)

    # terminals at which no run ends

    def _free(self, block: Block) -> None:
        """Faces of outlets into which nothing is put, and terminals at which a way inside ends."""
        touches = Counter(n for c in block.contacts for n in (c.a, c.b))
        touches.update(n for inner in block.inners for n in inner.nets)
        mine = [p for p in self.design.parts if self.root[p.id] == block.key]
        for part in sorted(mine, key=lambda p: natural(p.designation)):
            terminals = self.design.kind(part).terminals(self.design.values(part))
            faces = self._faces(part.id)
            for terminal in sorted(terminals, key=lambda t: t.name not in faces):
                pins = [self._pin(End(part.id, terminal.name), p) for p in terminal.poles]
                shown = {pin.net for port in block.ports for pin in port.pins}
                shown |= {stub.near.net for stub in block.stubs}
                dead_end = any(touches[pin.net] == 1 and pin.net not in shown for pin in pins)
                used = any((p.part, p.terminal) == (part.id, terminal.name) for p in block.ports)
                alone = not block.ports and not block.inners
                if not used and (terminal.name in faces or dead_end or alone):
                    pins.sort(key=lambda pin: rank(pin.pole))
                    block.ports.append(self._port(tuple(pins)))

    def _faces(self, part_id: str) -> set[str]:
        """The terminals of a part that are the contacts of an outlet."""
        mine = (face.data.points for face in self.circuit.faces if face.owner == part_id)
        return {point[0] for points in mine for _, point in points}

    def _name_nets(self, block: Block) -> None:
        """The letter of each net: that of its terminals, else of any of its spots."""
        for port in block.ports:
            for pin in port.pins:
                block.poles.setdefault(pin.net, pin.pole)
        for stub in block.stubs:
            block.poles.setdefault(stub.near.net, stub.near.pole)
        nets = {n for c in block.contacts for n in (c.a, c.b)}
        nets |= {n for inner in block.inners for n in inner.nets}
        for net in nets:
            if net < len(self.circuit.spots):
                block.poles.setdefault(net, str(self.circuit.spots[net][0].pole))
            else:
                lost = next(spot for spot, number in self.extra.items() if number == net)
                block.poles.setdefault(net, str(lost.pole))


def _device(source: LiveSource) -> Device:
    return Device.CELLS if source.data.group.stores else Device.SOURCE
