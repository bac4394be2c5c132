"""What hangs on each place of a board, read off the drawing; for schedules."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import pairwise

from linework.design import Design, Part, Run
from linework.design.names import natural
from linework.handover.content import Content
from linework.handover.faults import FLOWS
from linework.wiring import Place, Pole, SourceGroup, is_ungrounded


@dataclass(frozen=True)
class Branch:
    """One place of a board and the circuit behind it.

    ``places``: its own and the one below that a device of two poles takes too. ``fed``: the loads,
    outlets, boards and other sources at which the circuit ends. ``run``: the first one behind the
    device. ``legs``: the conductors of the bus on which it lies. ``va``: of the drawn loads at
    most; ``amps``: in use at most, by leg; of all states.
    """

    places: tuple[str, ...]
    device: Part | None = None
    run: Run | None = None
    fed: tuple[Part, ...] = ()
    legs: tuple[Pole, ...] = ()
    va: float = 0.0
    amps: float = 0.0


def branches(content: Content, board: str) -> list[Branch]:
    """Every place of a board in its order, those that are free with none of the rest."""
    design = content.design
    part = design.part(board)
    places = design.kind(part).places(design.values(part))
    by_name = {place.name: place for place in places}
    taken = {seat.place: design.part(seat.part) for seat in design.seated_in(board)}
    also = {by_name[name].next or "" for name, d in taken.items() if _two(design, d)}
    found = []
    for place in places:
        if place.name in taken:
            found.append(_branch(content, taken[place.name], place))
        elif place.name not in also:
            found.append(Branch((place.name,)))
    return found


def _two(design: Design, device: Part) -> bool:
    """Whether a device takes the place below its own too."""
    hots = {
        pole
        for terminal in design.kind(device).terminals(design.values(device))
        for pole in terminal.poles
        if is_ungrounded(pole)
    }
    return len(hots) > 1


def _branch(content: Content, device: Part, place: Place) -> Branch:
    design = content.design
    two = _two(design, device)
    places = (place.name, place.next) if two and place.next else (place.name,)
    run = next(iter(_runs_behind(design, device)), None)
    fed = tuple(sorted(_ends(design, device), key=lambda part: natural(part.designation)))
    legs = (Pole.L1, Pole.L2) if two else _legs(place)
    return Branch(places, device, run, fed, legs, _va(content, fed), run_amps(content, run))


def _legs(place: Place) -> tuple[Pole, ...]:
    """On which legs of the bus a device of one pole lies: of two on one."""
    found = {to: Pole(pole) for to, (_, pole) in place.offers if is_ungrounded(to)}
    return (found[Pole.L],) if Pole.L in found else tuple(found.values())


def run_amps(content: Content, run: Run | None) -> float:
    """The most in use on any conductor of a run, over all states of rest, in ampere."""
    if run is None:
        return 0.0
    found = (a for r in content.reports for (owner, _), a in r.run_a.items() if owner == run.id)
    return max(found, default=0.0)


def run_drop(content: Content, run: Run) -> float:
    """The most that a run loses in use, out and back, over all states of rest, in volt."""
    return max((r.run_drop_v.get(run.id, 0.0) for r in content.reports), default=0.0)


def run_faults(content: Content, run: Run) -> tuple[float, float] | None:
    """The least and most current of any short at the ends of a run, in ampere, over all states of
    rest; None where none flows."""
    ends = {(run.a.part, run.a.terminal), (run.b.part, run.b.terminal)}
    at = [
        fault
        for r in content.reports
        for fault in r.faults
        if (fault.part, fault.terminal) in ends and fault.weak_a > FLOWS
    ]
    return (min(f.weak_a for f in at), max(f.strong_a for f in at)) if at else None


def run_devices(content: Content, run: Run) -> list[str]:
    """The names of the parts whose devices protect a run, over all states of rest; last "none"
    where one of them leaves it bare."""
    owners = {r.run_device[run.id] for r in content.reports if run.id in r.run_device}
    names = sorted((content.name(owner) for owner in owners if owner), key=natural)
    return [*names, content.say("none")] if "" in owners else names


def leg_amps(content: Content, board: list[Branch]) -> dict[str, float]:
    """The most that the circuits of a board take together from each leg in one state."""
    runs = [(b.run.id, b.legs) for b in board if b.run is not None]
    found: dict[str, float] = {}
    for report in content.reports:
        for leg in {leg for _, legs in runs for leg in legs}:
            taken = sum(_on(report.run_a, run) for run, legs in runs if leg in legs)
            found[leg] = max(found.get(leg, 0.0), taken)
    return dict(sorted(found.items()))


def most_faults(content: Content) -> dict[str, float]:
    """The most of any short at a device or through it, in ampere, over all states of rest: where
    its return passes elsewhere, no short is at it."""
    found: dict[str, float] = {}
    for r in content.reports:
        at_it = [(f.part, f.strong_a) for f in r.faults]
        for part, amps in (*at_it, *r.device_fault_a.items()):
            found[part] = max(found.get(part, 0.0), amps)
    return found


def _on(run_a: dict[tuple[str, str], float], run: str) -> float:
    """On the most loaded conductor that is no return."""
    hot = (a for (owner, pole), a in run_a.items() if owner == run and is_ungrounded(Pole(pole)))
    return max(hot, default=0.0)


def _va(content: Content, fed: Iterable[Part]) -> float:
    """What the drawn loads take together at most."""
    return sum(_load_va(content, load) for part in fed for load in _at(content.design, part))


def _at(design: Design, part: Part) -> list[Part]:
    """The part, and the loads whose plugs sit in it."""
    plugged = [design.part(seat.part) for seat in design.seated_in(part.id)]
    return [part, *(p for p in plugged if design.kind(p).consumes)]


def _load_va(content: Content, part: Part) -> float:
    loads = (x for r in content.reports for x in r.loads if x.part == part.id)
    return max((x.volts * x.amps for x in loads), default=0.0)


# along the wires


def _ends(design: Design, device: Part) -> Iterator[Part]:
    """The parts at which a circuit ends: loads, outlets, boards, other sources, transfers."""
    hosts = {seat.host for seat in design.seats_of(device.id)}
    seen, waiting = {device.id, *hosts}, [device]
    while waiting:
        here = waiting.pop()
        for part in _beside(design, here):
            if part.id in seen:
                continue
            seen.add(part.id)
            if _ends_here(design, part):
                yield part
            elif not design.kind(part).body:
                waiting.append(part)


def _ends_here(design: Design, part: Part) -> bool:
    kind = design.kind(part)
    source = kind.source is not SourceGroup.NONE
    return kind.consumes or kind.receptacle or kind.board or source or bool(kind.inputs)


def _beside(design: Design, part: Part) -> Iterator[Part]:
    """What its own wires and seats lead to; not along jumpers that carry no load."""
    for run in _runs_behind(design, part):
        yield design.part(run.b.part if run.a.part == part.id else run.a.part)
    for seat in design.seated_in(part.id):
        yield design.part(seat.part)


def _runs_behind(design: Design, part: Part) -> list[Run]:
    runs = [r for r in design.runs_at(part.id) if design.run_values(r).pick("installation") != _TIE]
    return sorted(runs, key=lambda run: natural(run.designation or run.id))


_TIE = "jumper"


def free_spans(board: list[Branch]) -> Iterator[Branch | tuple[str, ...]]:
    """The branches in their order, places that are free one after the other together."""
    free: list[str] = []
    for branch, after in pairwise([*board, None]):
        assert branch is not None
        if branch.device is not None:
            yield branch
            continue
        free += branch.places
        if after is None or after.device is not None:
            yield tuple(free)
            free = []
