"""What the grounding drawing shows, gathered from the conductors of every case.

A box is a part with bars: a board, a source, whatever holds a link. All else lies on the ways
between their bars: plugs, inlets, levers, breakers.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field

from linework.circuit.model import Branch, Circuit, Condition
from linework.circuit.unions import IntUnions
from linework.design import Design, Part, Run
from linework.design.names import natural
from linework.study.walks import walk, way_to
from linework.wiring import Pole

LANES: dict[str, str] = {"N": "N", "PE": "G", "-": "−"}
"""The poles that have a bar, and what is written at it."""


@dataclass(frozen=True)
class Bar:
    """The conductors of a part on one lane that are always joined; ``name`` as written at it."""

    part: str
    pole: str
    nodes: frozenset[int]
    name: str


@dataclass(frozen=True)
class Strap:
    """A link inside a part, from one of its bars to another; ``when`` empty: for good.

    ``certain`` False: only in some cases of what is not known.
    """

    part: str
    one: Bar
    other: Bar
    when: Condition
    certain: bool


@dataclass(frozen=True)
class Way:
    """A conductor way from a bar to another, or to what it ends at ("earth", a body by name).

    ``over``: ids of the runs and of the parts with contacts or soil that it goes over; ``opens``:
    of these the parts that part it in some position. ``bond``: it joins unlike conductors.
    """

    start: Bar
    end: Bar | str
    over: tuple[str, ...]
    opens: tuple[str, ...] = ()
    bond: bool = False


@dataclass(frozen=True)
class Tie:
    """What leads from one body to another, or to earth, past all boxes; ``over`` as of a way."""

    one: str
    other: str
    over: tuple[str, ...]


@dataclass(frozen=True)
class Grounds:
    """All of it. ``boxes``: parts in the order in which they are drawn."""

    boxes: tuple[str, ...] = ()
    bars: tuple[Bar, ...] = ()
    straps: tuple[Strap, ...] = ()
    ways: tuple[Way, ...] = ()
    ties: tuple[Tie, ...] = ()

    def of(self, part: str) -> list[Bar]:
        """The bars of a box."""
        return [bar for bar in self.bars if bar.part == part]


@dataclass
class _Gathering:
    """One circuit while its bars are looked for; straps of the others count as uncertain."""

    design: Design
    circuit: Circuit
    bars: list[Bar] = field(default_factory=list)
    bar_at: dict[int, Bar] = field(default_factory=dict)


def grounds(design: Design, circuits: Sequence[Circuit]) -> Grounds:
    """The bars, straps and ways of a design; ``circuits``: one for each case."""
    of = _Gathering(design, circuits[0])
    linked = {
        part
        for c in circuits
        for b in c.branches
        if b.sort == "bond"
        for part in _holding(design, b)
    }
    for part in sorted(design.parts, key=lambda p: natural(p.designation)):
        _open(of, part, linked)
    straps = tuple(_straps(of, circuits))
    ways = tuple(_ways(of))
    used = {bar for way in ways if not _within(way) for bar in (way.start, way.end)}
    used |= {bar for strap in straps for bar in (strap.one, strap.other)}
    bars = tuple(
        bar
        for bar in of.bars
        if bar in used or (bar.pole != Pole.NEG and design.kind(design.part(bar.part)).board)
    )
    shown = tuple(w for w in ways if not _within(w) or {w.start, w.end} <= {*bars})
    return Grounds(_ordered(design, bars, ways), bars, straps, shown, tuple(_ties(of)))


def _holding(design: Design, bond: Branch) -> tuple[str, ...]:
    """The part that a link is in, or those that a bond run joins."""
    element = design.get(bond.owner)
    if isinstance(element, Run):
        return element.a.part, element.b.part
    return (bond.owner,)


def _within(way: Way) -> bool:
    """Whether it is a contact between two bars of one part."""
    return isinstance(way.end, Bar) and way.end.part == way.start.part


# bars


def _open(of: _Gathering, part: Part, linked: set[str]) -> None:
    """The bars of a part, where it has any to show."""
    kind = of.design.kind(part)
    shown = kind.board or kind.source or kind.transfers or part.id in linked
    if not shown or kind.body or kind.electrode:
        return
    for pole in LANES:
        if pole == Pole.NEG and not _bonded(of, part):
            continue
        joined = _joined(of, part.id, pole)
        for nodes, terminal in joined:
            name = LANES[pole] if len(joined) == 1 else f"{LANES[pole]} {terminal}"
            bar = Bar(part.id, pole, nodes, name)
            of.bars.append(bar)
            for node in nodes:
                of.bar_at.setdefault(node, bar)


def _bonded(of: _Gathering, part: Part) -> bool:
    """Whether a bond ends at the minus of a part."""
    mine = {
        nodes[Pole.NEG]
        for (owner, _), nodes in of.circuit.terminals.items()
        if owner == part.id and Pole.NEG in nodes
    }
    return any(b.sort == "bond" and mine & {b.a, b.b} for b in of.circuit.branches)


def _joined(of: _Gathering, part: str, pole: str) -> list[tuple[frozenset[int], str]]:
    """The conductors of a part on a lane, those together that nothing parts; with a terminal."""
    circuit = of.circuit
    named: dict[int, str] = {}
    for (owner, terminal), nodes in circuit.terminals.items():
        if owner == part and pole in nodes and nodes[pole] not in of.bar_at:
            named.setdefault(nodes[pole], terminal)
    sets = IntUnions(len(circuit.spots)).join_all(
        (branch.a, branch.b)
        for branch in (circuit.branches[i] for i in circuit.branches_of.get(part, ()))
        if not branch.when and branch.sort in ("link", "contact", "cord") and branch.pole == pole
    )
    found: dict[int, list[int]] = {}
    for node in named:
        found.setdefault(sets.find(node), []).append(node)
    return [(frozenset(nodes), named[nodes[0]].replace("_", " ")) for nodes in found.values()]


# straps


def _straps(of: _Gathering, circuits: Sequence[Circuit]) -> Iterator[Strap]:
    """The links inside parts, of all cases."""
    told: dict[tuple[str, str], tuple[Branch, int]] = {}
    for circuit in circuits:
        for branch in circuit.branches:
            if branch.sort == "bond" and not isinstance(of.design.get(branch.owner), Run):
                known = told.get((branch.owner, branch.name), (branch, 0))
                told[branch.owner, branch.name] = (known[0], known[1] + 1)
    for branch, count in told.values():
        one, other = of.bar_at.get(branch.a), of.bar_at.get(branch.b)
        if one is None or other is None:  # a case of other conductors
            one, other = _lane(of, branch.owner, "N"), _lane(of, branch.owner, "PE")
        if one is not None and other is not None and one != other:
            yield Strap(branch.owner, one, other, branch.when, count == len(circuits))


def _lane(of: _Gathering, part: str, pole: str) -> Bar | None:
    return next((bar for bar in of.bars if (bar.part, bar.pole) == (part, pole)), None)


# ways


def _ways(of: _Gathering) -> Iterator[Way]:
    """From each bar along its lane to other bars, bodies and earth, each way once."""
    ends = _ends(of.circuit)
    at: dict[int, list[tuple[int, int]]] = {}
    for i, b in enumerate(of.circuit.branches):
        at.setdefault(b.a, []).append((i, b.b))
        at.setdefault(b.b, []).append((i, b.a))
    told: set[frozenset[object]] = set()
    for bar in of.bars:
        for way in _from(of, bar, at, ends):
            mark = frozenset({*way.over, way.start, way.end} if way.over else {bar, way.end})
            if mark not in told:
                told.add(mark)
                yield way


def _ends(circuit: Circuit) -> dict[int, str]:
    """The nodes at which a way ends for everybody: earth, each body by its name."""
    found = {} if circuit.earth is None else {circuit.earth: "earth"}
    for spot, node in circuit.node_of.items():
        if spot.part == "@" and spot.pole.startswith("body:"):
            found[node] = spot.pole.removeprefix("body:")
    return found


def _from(
    of: _Gathering, bar: Bar, at: dict[int, list[tuple[int, int]]], ends: dict[int, str]
) -> Iterator[Way]:
    branches = of.circuit.branches

    def onward(node: int) -> Iterable[tuple[int, int]]:
        if node in ends or (node in of.bar_at and of.bar_at[node] != bar):
            return
        for i, other in at.get(node, ()):
            branch = branches[i]
            inside = branch.sort == "bond" and not isinstance(of.design.get(branch.owner), Run)
            same = bar.pole in (branch.pole, *_poles(of.circuit, other))
            if not inside and (same or other in ends or branch.sort == "bond"):
                yield i, other

    walked = walk(sorted(bar.nodes), lambda node: ((i, n) for i, n in onward(node)))
    for node in walked:
        end = ends.get(node) or of.bar_at.get(node)
        if end is None or end == bar:
            continue
        steps = way_to(node, walked) or []
        passed = [branches[i] for i in steps]
        yield Way(
            bar,
            end,
            tuple(dict.fromkeys(b.owner for b in passed if _told(of.design, b))),
            tuple(dict.fromkeys(_opener(of.design, b) for b in passed if b.when)),
            any(b.sort == "bond" for b in passed),
        )


def _poles(circuit: Circuit, node: int) -> set[str]:
    return {spot.pole for spot in circuit.spots[node]}


def _told(design: Design, branch: Branch) -> bool:
    """Runs, electrodes and what else leads into the soil, and what keeps two sides apart."""
    element = design.get(branch.owner)
    if isinstance(element, Part) and branch.pole == Pole.PE and branch.sort != "soil":
        return bool(design.kind(element).keeps_apart(design.values(element)))
    return isinstance(element, Run) or branch.sort == "soil"


def _opener(design: Design, branch: Branch) -> str:
    return branch.when[0][0][0]


def _ties(of: _Gathering) -> Iterator[Tie]:
    """The ways between what bars end at, by ground wires alone."""
    ends, branches = _ends(of.circuit), of.circuit.branches
    at: dict[int, list[tuple[int, int]]] = {}
    for i, b in enumerate(branches):
        if b.sort != "bond":
            at.setdefault(b.a, []).append((i, b.b))
            at.setdefault(b.b, []).append((i, b.a))
    told: set[frozenset[str]] = set()
    for start, name in ends.items():

        def onward(node: int, start: int = start) -> list[tuple[int, int]]:
            passes = node == start or not (node in ends or node in of.bar_at)
            return (
                [(i, n) for i, n in at.get(node, ()) if n in ends or "PE" in _poles(of.circuit, n)]
                if passes
                else []
            )

        walked = walk([start], onward)
        for node in walked:
            if node != start and node in ends and frozenset((name, ends[node])) not in told:
                told.add(frozenset((name, ends[node])))
                passed = (branches[i] for i in way_to(node, walked) or [])
                over = dict.fromkeys(b.owner for b in passed if _told(of.design, b))
                yield Tie(name, ends[node], tuple(over))


# their order


def _ordered(design: Design, bars: Sequence[Bar], ways: Sequence[Way]) -> tuple[str, ...]:
    """The boxes from the supplies on, neighbours beside each other."""
    boxes = list(dict.fromkeys(bar.part for bar in bars))

    def rank(part: str) -> tuple[int, object]:
        source = design.kind(design.part(part)).source
        order = 0 if source.off_site else 1 if source.driven else 3 if source.stores else 2
        return (4 if source.solar else order), natural(design.part(part).designation)

    beside: dict[str, list[str]] = {box: [] for box in boxes}
    for way in ways:
        if isinstance(way.end, Bar) and way.start.part in beside and way.end.part in beside:
            beside[way.start.part].append(way.end.part)
            beside[way.end.part].append(way.start.part)
    found: dict[str, None] = {}

    def take(part: str) -> None:
        if part not in found:
            found[part] = None
            for other in sorted(set(beside[part]), key=rank):
                take(other)

    for box in sorted(boxes, key=rank):
        take(box)
    return tuple(found)
