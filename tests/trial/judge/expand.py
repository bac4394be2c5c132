"""From a design to its net: what is inside parts, seats, runs."""

from __future__ import annotations

from linework.design import Design, Run, Seat
from tests.trial.judge.inside import KINDS
from tests.trial.judge.net import GROUNDS, Edge, Net, Node
from tests.trial.judge.poles import POLES, poles
from tests.trial.judge.reading import Told, gauge
from tests.trial.judge.tables import ohm

_OWN_SEAT = {
    "breaker": "line",
    "fuse": "line",
    "outlet": "feed",
    "plug": "pins",
    "cord_set": "pins",
    "adapter": "pins",
    "bond_plug": "pins",
    "plug_load": "in",
    "inlet": "outside",
}
_OUTPUT = {
    "supply": "out",
    "generator": "out",
    "power_station": "out",
    "parallel_kit": "out",
    "inverter": "ac_out",
    "panel": "bus",
}
_DIRECT = ("battery", "solar_array", "battery_disconnect", "alternator", "charge_relay")
_UNLIKE = frozenset({frozenset({"PE", "body"}), frozenset({"PE", "earth"})})


class Unreadable(ValueError):
    """The judge does not know a kind, a size or an answer of this design."""


def net_of(design: Design) -> Net:
    """The net of a design. Unreadable where the judge's own reading ends."""
    net = Net()
    try:
        for part in design.parts:
            if part.kind not in KINDS:
                raise Unreadable(f"the judge does not know {part.kind}")
            KINDS[part.kind](net, part, Told(part, part.kind))
        for seat in design.seats:
            _sit(net, design, seat)
        for run in design.runs:
            lay(net, design, run)
        for part in design.parts:
            if part.kind == "inlet" and not _covered(design, part.id):
                net.pins += [
                    (part.id, Node(part.id, "outside", p), None)
                    for p in poles(Told(part, part.kind))
                    if p != "PE"
                ]
    except (ValueError, KeyError) as fault:
        raise Unreadable(str(fault)) from fault
    _lock(net, design)
    return net


def _covered(design: Design, inlet: str) -> bool:
    return bool(design.runs_at(inlet, "outside") or design.seats_of(inlet))


def _lock(net: Net, design: Design) -> None:
    """Breakers stand closed unless an interlock makes them a choice."""
    for lock in design.interlocks:
        for part, selector, _ in lock.excludes:
            if selector in ("breaker", "main"):
                net.selectors[part, selector] = ("closed", "open")


# runs


def terminal_poles(design: Design, part_id: str, terminal: str) -> tuple[str, ...]:
    """The poles of a terminal, by the judge's own list."""
    part = design.part(part_id)
    told = Told(part, part.kind)
    if terminal in ("frame", "case") or part.kind in ("electrode", "galvanic_isolator"):
        return ("PE",)
    if part.kind in _DIRECT or terminal in ("dc", "pv", "dc_in"):
        return POLES["dc"]
    if part.kind == "transformer" and terminal == "secondary":
        return POLES[told.word("secondary", "ac")]
    if part.kind == "battery_selector":
        return ("+",)
    if part.kind == "body":
        return ("body",)
    if part.kind == "panel" and terminal == "ground":
        return ("-",) if told.word("circuit") == "dc" else ("PE",)
    if part.kind == "busbar":
        return ({"plus": "+", "minus": "-", "ground": "PE"}[told.word("bar")],)
    if terminal == "in2" and told.word("second_circuit") == "one_hot":
        return POLES["ac"]
    return poles(told)


def pairs(design: Design, run: Run) -> list[tuple[str, str]]:
    """Which pole of a run goes to which."""
    if run.poles is not None:
        return [(str(a), str(b)) for a, b in run.poles]
    one = terminal_poles(design, run.a.part, run.a.terminal)
    other = terminal_poles(design, run.b.part, run.b.terminal)
    same = [(p, p) for p in one if p in other]
    return same or [(p, q) for p in one for q in other if frozenset({p, q}) in _UNLIKE]


def size_of(told: Told, pole: str) -> str:
    """The gauge of one conductor of a run."""
    own = {"PE": "ground_size", "N": "neutral_size"}.get(pole, "")
    return gauge(told.word(own) if own and told.has(own) else told.word("size"))


def cut(told: Told, pole: str) -> bool:
    """Whether a conductor is drawn as broken."""
    broken = {"L": {"L", "L1", "L2", "+"}, "N": {"N", "-"}, "PE": {"PE"}}
    return pole in broken.get(told.word("broken", "none"), set())


def lay(net: Net, design: Design, run: Run) -> None:
    """The conductors of a run."""
    told = Told(run)
    for p, q in pairs(design, run):
        if cut(told, p):
            continue
        one, other = Node(run.a.part, run.a.terminal, p), Node(run.b.part, run.b.terminal, q)
        unlike = (p in GROUNDS) != (q in GROUNDS)
        each = ohm(size_of(told, p), told.figure("length"), told.word("material", "copper"))
        net.edges.append(Edge(one, other, "bond" if unlike else "wire", run.id, each))


# seats


def _sit(net: Net, design: Design, seat: Seat) -> None:
    part, host = design.part(seat.part), design.part(seat.host)
    told, about = Told(part, part.kind), Told(host, host.kind)
    own = _OWN_SEAT[part.kind]
    moved = part.kind in ("plug", "cord_set")
    if moved:
        label = host.id if _once(design, seat) else f"{host.id} {seat.place}"
        net.selectors[part.id, "plug"] += (label,)
    for pole in poles(told):
        theirs = _offer(host.kind, about, seat, pole)
        if theirs is None:
            continue
        mine = Node(part.id, own, pole)
        if moved:
            net.contact(part.id, theirs, mine, when=(part.id, "plug", frozenset({label})))
        else:
            net.join(part.id, theirs, mine)


def _once(design: Design, seat: Seat) -> bool:
    return sum(s.host == seat.host for s in design.seats_of(seat.part)) == 1


def _offer(kind: str, about: Told, seat: Seat, pole: str) -> Node | None:
    """The point of a host that a place offers to a pole."""
    if kind in ("outlet", "adapter", "cord_set"):
        return Node(seat.host, "face", pole)
    if kind == "split_outlet":
        return Node(seat.host, seat.place, pole)
    if kind == "breaker":
        return Node(seat.host, "load", pole)
    if kind == "battery":
        return Node(seat.host, "dc", pole)
    offered = poles(about)
    if pole == "L" and "L1" in offered:
        number = int(seat.place) - 1
        row = number // 2 if kind == "panel" else number
        pole = ("L1", "L2")[row % 2]
    return Node(seat.host, _OUTPUT[kind], pole) if pole in offered else None
