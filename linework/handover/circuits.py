"""What hangs on each place of a board, read off the drawing; for schedules."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator
from dataclasses import dataclass
from itertools import pairwise

from linework.design import Design, Part, Run
from linework.design.names import natural
from linework.handover.content import Content
from linework.handover.faults import FLOWS
from linework.handover.one_pole import one_pole_faults
from linework.study.report import StateReport
from linework.wiring import Place, Pole, SourceGroup, is_ungrounded


@dataclass(frozen=True)
class Branch:
    """One place of a board and the circuit behind it.

    ``places``: its own and the one below that a device of two poles takes too. ``fed``: the loads,
    outlets, boards and other sources at which the circuit ends, ``ends``: with the terminal there
    ("" for a seat). ``run``: the first one behind the
    device. ``legs``: the conductors of the bus on which it lies. ``va``: of the drawn loads at
    most; ``amps``: in use at most, by leg; of all states. ``long``: the share of it that flows for
    three hours and more, where it is most. ``feeds_in``: it brings power to the board, as from an
    inlet or a set, and is no load of it.
    """

    places: tuple[str, ...]
    device: Part | None = None
    run: Run | None = None
    fed: tuple[Part, ...] = ()
    legs: tuple[Pole, ...] = ()
    va: float = 0.0
    amps: float = 0.0
    long: float = 0.0
    feeds_in: bool = False
    ends: tuple[tuple[str, str], ...] = ()


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
    ends = sorted(_ends(design, device), key=lambda end: natural(end[0].designation))
    fed, feeds_in = tuple(part for part, _ in ends), any(_gives(design, *end) for end in ends)
    legs = (Pole.L1, Pole.L2) if two else _legs(place)
    amps, long = run_amps(content, run), _long_share(content, run)
    va = 0.0 if feeds_in else _branch_va(content, device, run, fed, legs)
    at = tuple((part.id, terminal) for part, terminal in ends)
    return Branch(places, device, run, fed, legs, va, amps, long, feeds_in, at)


def _branch_va(
    content: Content, device: Part, run: Run | None, fed: tuple[Part, ...], legs: tuple[Pole, ...]
) -> float:
    """What its loads take; of a circuit that goes on in a source or a changeover, which takes and
    hands on what no load here tells, what flows in it at the voltage of its board."""
    design = content.design
    kinds = [design.kind(part) for part in fed]
    hosts = _hosts(design, device)
    if run is None or not any(kind.source or kind.inputs for kind in kinds) or not hosts:
        return _va(content, fed, {host.id for host in hosts})
    values = design.values(hosts[0])
    if "voltage" not in values.declared or not values.has("voltage"):
        return 0.0
    flows = (sum(_on(r.run_a, run.id, leg) for leg in legs) for r in content.reports)
    return values.num("voltage") * max(flows, default=0.0)


def _hosts(design: Design, device: Part) -> list[Part]:
    return [design.part(seat.host) for seat in design.seats_of(device.id)]


def _long_share(content: Content, run: Run | None) -> float:
    """The greatest share of a run's current that flows for hours, over all states of rest."""
    if run is None:
        return 0.0
    shares = (
        report.run_long_a.get(key, 0.0) / amps
        for report in content.reports
        for key, amps in report.run_a.items()
        if key[0] == run.id and amps > _NOTHING_A
    )
    return min(max(shares, default=0.0), 1.0)


_NOTHING_A = 1e-3
"""What is less is told as nothing."""


def _legs(place: Place) -> tuple[Pole, ...]:
    """On which legs of the bus a device of one pole lies: of two on one."""
    found = {to: Pole(pole) for to, (_, pole) in place.offers if is_ungrounded(to)}
    return (found[Pole.L],) if Pole.L in found else tuple(found.values())


def run_amps(
    content: Content, run: Run | None, reports: Iterable[StateReport] | None = None
) -> float:
    """The most in use on any conductor of a run, over all states of rest or those given, in
    ampere."""
    if run is None:
        return 0.0
    over = content.reports if reports is None else reports
    found = (a for r in over for (owner, _), a in r.run_a.items() if owner == run.id)
    return max(found, default=0.0)


def run_drop(content: Content, run: Run) -> float:
    """The most that a run loses in use, out and back, over all states of rest, in volt."""
    return max((r.run_drop_v.get(run.id, 0.0) for r in content.reports), default=0.0)


def run_faults(content: Content, run: Run) -> tuple[float, float] | None:
    """The least and most current of any short at the ends of a run, in ampere, over all states of
    rest; where only one conductor passes there, to the minus of the battery that feeds it. None
    where none flows."""
    ends = {(run.a.part, run.a.terminal), (run.b.part, run.b.terminal)}
    at = [
        (fault.weak_a, fault.strong_a)
        for r in content.reports
        for fault in r.faults
        if (fault.part, fault.terminal) in ends and fault.weak_a > FLOWS
    ]
    at = at or [amps for end in ends for amps in one_pole_faults(content).get(end, ())]
    return (min(low for low, _ in at), max(high for _, high in at)) if at else None


def run_devices(content: Content, run: Run) -> list[str]:
    """The names of the parts whose devices protect a run, from every source and over all states of
    rest; last "none" where one of them leaves it bare."""
    owners = {owner for r in content.reports for owner in r.run_devices.get(run.id, ())}
    names = sorted((content.name(owner) for owner in owners if owner), key=natural)
    return [*names, content.say("none")] if "" in owners else names


def leg_amps(content: Content, board: list[Branch], more: float = 0.0) -> dict[str, float]:
    """The most that the circuits of a board take together from each leg in one state; of what
    flows for three hours and longer so many times ``more`` besides."""
    runs = _taking(board)
    found: dict[str, float] = {}
    for report in content.reports:
        for leg in {leg for _, legs in runs for leg in legs}:
            here = [run for run, legs in runs if leg in legs]
            taken = sum(_on(report.run_a, run, leg) for run in here)
            if more:
                taken += more * sum(_on(report.run_long_a, run, leg) for run in here)
            found[leg] = max(found.get(leg, 0.0), taken)
    return dict(sorted(found.items()))


def _taking(board: list[Branch]) -> list[tuple[str, tuple[Pole, ...]]]:
    """The runs of the circuits that are loads of a board, with their legs."""
    return [(b.run.id, b.legs) for b in board if b.run is not None and not b.feeds_in]


def unbalance(content: Content, board: list[Branch]) -> float | None:
    """By how many ampere two legs differ at most in one state; None where there are not two."""
    two = sorted({leg for branch in board for leg in branch.legs})
    if len(two) != 2:
        return None
    runs = _taking(board)
    return max(
        (
            abs(
                sum(_on(r.run_a, run, two[0]) for run, legs in runs if two[0] in legs)
                - sum(_on(r.run_a, run, two[1]) for run, legs in runs if two[1] in legs)
            )
            for r in content.reports
        ),
        default=0.0,
    )


def most_faults(content: Content) -> dict[str, float]:
    """The most that any short drives through a device, in ampere, over all states of rest: what it
    has to break, and not what others bring to a short at its terminals."""
    found: dict[str, float] = {}
    for report in content.reports:
        for part, amps in report.device_fault_a.items():
            found[part] = max(found.get(part, 0.0), amps)
    return found


def _on(run_a: dict[tuple[str, str], float], run: str, leg: Pole) -> float:
    """On the conductor of a leg; where none is called so, on the most loaded that is no return."""
    hot = {
        Pole(pole): amps
        for (owner, pole), amps in run_a.items()
        if owner == run and is_ungrounded(Pole(pole))
    }
    return hot.get(leg, max(hot.values(), default=0.0))


def _va(content: Content, fed: Iterable[Part], before: Collection[str]) -> float:
    """What the drawn loads take together at most, those of boards further on with them; not back
    through those ``before``."""
    return sum(_part_va(content, part, before) for part in fed)


def _part_va(content: Content, part: Part, before: Collection[str]) -> float:
    design = content.design
    if not design.kind(part).board:
        return sum(_load_va(content, load) for load in _at(design, part))
    if part.id in before:
        return 0.0
    devices = [design.part(seat.part) for seat in design.seated_in(part.id)]
    further = (_ends(design, device) for device in devices)
    fed = [end for ends in further for end, at in ends if not _gives(design, end, at)]
    return _va(content, fed, {*before, part.id})


def _at(design: Design, part: Part) -> list[Part]:
    """The part, and the loads whose plugs sit in it."""
    plugged = [design.part(seat.part) for seat in design.seated_in(part.id)]
    return [part, *(p for p in plugged if design.kind(p).consumes)]


def _load_va(content: Content, part: Part) -> float:
    loads = (x for r in content.reports for x in r.loads if x.part == part.id)
    return max((x.volts * x.amps for x in loads), default=0.0)


# along the wires


def _ends(design: Design, device: Part) -> Iterator[tuple[Part, str]]:
    """The parts at which a circuit ends: loads, outlets, boards, other sources, inlets, transfers;
    each with the terminal there, "" where they sit in each other."""
    hosts = {seat.host for seat in design.seats_of(device.id)}
    seen, waiting = {device.id, *hosts}, [device]
    while waiting:
        here = waiting.pop()
        for part, terminal in _beside(design, here):
            if part.id in seen:
                continue
            seen.add(part.id)
            if _ends_here(design, part):
                yield part, terminal
            elif not design.kind(part).body:
                waiting.append(part)


def _ends_here(design: Design, part: Part) -> bool:
    kind = design.kind(part)
    source = kind.source is not SourceGroup.NONE
    return (
        kind.consumes
        or kind.receptacle
        or kind.board
        or kind.lets_in
        or source
        or bool(kind.inputs)
    )


def _gives(design: Design, part: Part, terminal: str) -> bool:
    """Whether what a circuit reaches there brings power: the output of a source or an inlet."""
    kind = design.kind(part)
    outputs = {t.name for t in kind.terminals(design.values(part)) if t.role == "out"}
    return terminal in outputs and (kind.lets_in or kind.source is not SourceGroup.NONE)


def _beside(design: Design, part: Part) -> Iterator[tuple[Part, str]]:
    """What its own wires and seats lead to, and at which terminal; not along jumpers that carry no
    load."""
    for run in _runs_behind(design, part):
        end = run.b if run.a.part == part.id else run.a
        yield design.part(end.part), end.terminal
    for seat in design.seated_in(part.id):
        yield design.part(seat.part), ""


def _runs_behind(design: Design, part: Part) -> list[Run]:
    runs = [r for r in design.runs_at(part.id) if design.run_values(r).pick("installation") != _TIE]
    return sorted(runs, key=lambda run: natural(run.designation or run.id))


_TIE = "jumper"


def free_spans(board: list[Branch]) -> Iterator[Branch | tuple[str, ...]]:
    """The branches in their order, places that are free one after the other together; what takes
    two places parts those that are free above and below its second."""
    taken = {place for b in board if b.device is not None for place in b.places[1:]}
    free: list[str] = []
    for branch, after in pairwise([*board, None]):
        assert branch is not None
        if branch.device is not None:
            yield branch
            continue
        free += branch.places
        if after is None or after.device is not None or _between(free[-1], after, taken):
            yield tuple(free)
            free = []


def _between(last: str, after: Branch, taken: Collection[str]) -> bool:
    """Whether a place that is taken lies between two free ones; numbered places alone tell."""
    if not (last.isdecimal() and after.places[0].isdecimal()):
        return False
    return any(str(n) in taken for n in range(int(last) + 1, int(after.places[0])))
