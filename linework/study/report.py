"""One state of one case told in ids and numbers, for screen, paper and command line."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from linework.circuit.model import Circuit, SelectorKey
from linework.circuit.states import State, free_selectors
from linework.design import Design, Part
from linework.design.names import natural
from linework.study.loads.demand import NOTHING, Share
from linework.study.situation import Situation
from linework.study.tester import Reading
from linework.wiring import Pole, SourceGroup, is_ungrounded


@dataclass(frozen=True)
class BondReport:
    """One live neutral: its sources (part ids), the owners of its bonds, whether they ring."""

    sources: tuple[str, ...]
    is_ac: bool
    places: tuple[str, ...]
    ring: bool


@dataclass(frozen=True)
class LoadReport:
    """One load: volts at it, amperes, and its rated voltage; zero where it is dead."""

    part: str
    volts: float
    amps: float
    rated_v: float
    sources: tuple[str, ...]


@dataclass(frozen=True)
class SourceReport:
    """One source that is on: what it gives and what it is rated for (None: not limited).

    ``needed``: what it must give where wires lose nothing, and what of that lasts; ``volts``: its
    own.
    """

    part: str
    name: str
    watts: float
    amps: float
    rated_a: float | None
    hertz: float
    needed: Share = NOTHING
    volts: float = 0.0
    group: SourceGroup = SourceGroup.NONE


@dataclass(frozen=True)
class StartReport:
    """One motor that starts on one source while the other drawn loads run.

    ``start_a``: of the motor; ``asked_a``: of the source then, and ``surge_a`` what that gives for
    a start (None: not limited). ``motor_v`` and ``lights_v``: what is left at the motor and at the
    lamp that is left least (None: none on it), with ``lights_rated_v`` what that is made for.
    """

    motor: str
    source: str
    name: str
    start_a: float
    asked_a: float
    surge_a: float | None
    motor_v: float
    rated_v: float
    lights_v: float | None
    lights_rated_v: float


@dataclass(frozen=True)
class FaultReport:
    """One short and how it ends; ``by`` is a part id, "source" or "". NaN: not defined.

    ``metal_v``: volt on metal at the weakest source and hot wires, as all but ``strong_a`` and
    ``strong_metal_v`` is.
    """

    part: str
    terminal: str
    pole: str
    to: str
    kind: str
    weak_a: float
    strong_a: float
    metal_v: float | None
    later_v: float | None
    by: str
    latest_s: float
    earliest_s: float
    strong_metal_v: float | None = None


@dataclass(frozen=True)
class StateReport:
    """Everything that is shown of one state of one case, all its live circuits together.

    ``key`` names it in files, ``spoken`` to people.

    ``circuits`` names its live circuits by their content: states with the same ones are
    electrically the same. ``live``: (part id, terminal) -> ids of the parts whose sources feed it.
    ``run_a``: (run id, pole) -> ampere in use. ``run_drop_v``: volt lost in a run, out and
    back. ``run_device``: run id -> the part whose device of the lowest rating protects it
    ("" none). ``ground_a``: the largest current
    on a ground wire or bond in use, by run or part id. ``device_fault_a``: the most that any
    short drives through the overcurrent device of a part.
    """

    key: str
    spoken: str
    title: str
    case: str
    free: tuple[tuple[str, str, str], ...]
    positions: dict[tuple[str, str], str]
    passing: str
    circuits: tuple[str, ...]
    live: dict[tuple[str, str], tuple[str, ...]]
    live_runs: dict[str, tuple[str, ...]]
    bonds: tuple[BondReport, ...]
    loads: tuple[LoadReport, ...]
    sources: tuple[SourceReport, ...]
    run_a: dict[tuple[str, str], float]
    run_drop_v: dict[str, float]
    run_device: dict[str, str]
    ground_a: dict[str, float]
    residual_ma: dict[str, float]
    device_fault_a: dict[str, float]
    faults: tuple[FaultReport, ...]
    readings: tuple[Reading, ...]
    volts: dict[str, dict[tuple[str, str, str], complex]] = field(default_factory=dict)
    """By frequency: (part, terminal, pole) -> potential, only where it is defined."""
    solved: bool = True
    cause: str = ""
    run_long_a: dict[tuple[str, str], float] = field(default_factory=dict)
    """As ``run_a``, what of it loads take for three hours and more."""
    run_devices: dict[str, tuple[str, ...]] = field(default_factory=dict)
    """As ``run_device``, from each source; "" last where one makes the run live bare."""
    starts: tuple[StartReport, ...] = ()
    banks: tuple[tuple[tuple[str, ...], ...], ...] = ()
    """The batteries in circuit (part ids): each bank its strings in parallel, each string its
    batteries in series."""

    def reading(self, outlet: str) -> Reading | None:
        """What is shown of an outlet; of several faces one that is not right, where one is."""
        mine = [reading for reading in self.readings if reading.owner == outlet]
        return max(mine, key=lambda r: r.picture not in ("correct", "dead"), default=None)


def state_key(design: Design, circuit: Circuit, state: State) -> str:
    """The free choices sorted by designation: "G1=stopped QT1=shore XP1=pedestal"."""
    caught = () if state.passing is None else ((state.passing, state.positions[state.passing]),)
    return arrangement_words(design, circuit, (*state.free, *caught))


def arrangement_words(
    design: Design, circuit: Circuit, positions: Iterable[tuple[SelectorKey, str]]
) -> str:
    """Some positions sorted by designation; that of a follower is one in which it moves."""
    told, moving = named_positions(design, circuit, positions)
    return " ".join((*(f"{name}={position}" for _, name, position in told), *moving))


def named_positions(
    design: Design, circuit: Circuit, positions: Iterable[tuple[SelectorKey, str]]
) -> tuple[list[tuple[str, str, str]], list[str]]:
    """Part id, name and position as a person calls them, sorted by name; and which followers are
    between two of theirs."""
    told, moving = [], []
    for key, position in positions:
        if circuit.selectors[key].moves == "follows":
            doing = "changes over" if position == "changing over" else f"is {position}"
            moving.append(f"while {design.part(key[0]).designation} {doing}")
        else:
            word = position_word(design, key[0], position)
            told.append((key[0], _name(design, circuit, key), word))
    return sorted(told, key=lambda each: f"{each[1]}={each[2]}"), moving


def choice_of(design: Design, circuit: Circuit, state: str) -> dict[SelectorKey, str]:
    """The positions that a state's key tells of the free selectors; those not told are missing."""
    found = {}
    for selector in free_selectors(circuit):
        words = {
            arrangement_words(design, circuit, [(selector.key, position)]): position
            for position in selector.positions
        }
        told = [word for word in words if f" {word} " in f" {state} "]
        if told:
            # of "shore" and "shore 2" the one that is told to its end
            found[selector.key] = words[max(told, key=len)]
    return found


def _name(design: Design, circuit: Circuit, key: tuple[str, str]) -> str:
    """Designation of the part; with the selector where the part has several free ones."""
    part, selector = key
    name = design.part(part).designation
    several = sum(
        1 for (owner, _), s in circuit.selectors.items() if owner == part and s.moves != "follows"
    )
    return f"{name}.{selector}" if several > 1 else name


def position_word(design: Design, part_id: str, position: str) -> str:
    """A position as a person calls it; a transfer switch has names for its inputs."""
    part = design.part(part_id)
    names = {each.position: each.name for each in design.kind(part).inputs}
    named = position in names and design.values(part).text(names[position])
    return named or position


def state_title(design: Design, situation: Situation) -> str:
    """What feeds the main board ("on GS1"), else what is live at all.

    Where the main board is dead, whatever else is live is said with it: people lock out by this.
    """
    fed = _boards(design, situation)
    main = next((board for board, alternating, _ in fed if alternating), None)
    if main is None:
        return sources_title(design, situation.owners)
    live = {board.id: owners for board, _, owners in fed if owners}
    if main.id in live:
        return sources_title(design, live[main.id])
    others = [
        f"{board.designation} {sources_title(design, live[board.id])}"
        for board, _, _ in fed
        if board.id in live
    ]
    lone = set(situation.owners) - set().union(*live.values())
    if lone:
        others.append(f"{' and '.join(sorted(source_word(design, o) for o in lone))} live")
    return ", ".join((f"{main.designation} dead", *others))


def _boards(design: Design, situation: Situation) -> list[tuple[Part, bool, set[str]]]:
    """The boards, the fullest first: whether there is a neutral, and whose sources feed them."""
    boards = [p for p in design.parts if design.kind(p).board]
    boards.sort(key=lambda p: (-len(design.seated_in(p.id)), p.designation))
    found = []
    for board in boards:
        at_bus = [situation.circuit.terminals[board.id, "feed"], *_seats(design, situation, board)]
        live = (n for at in at_bus for pole, n in at.items() if is_ungrounded(Pole(pole)))
        owners = {s.owner for n in live for s in situation.feeds(n)}
        found.append((board, "N" in at_bus[0], owners))
    return found


def _seats(design: Design, situation: Situation, board: Part) -> list[Mapping[str, int]]:
    """The nodes of its bars, at what sits there: a breaker may feed them past an open main. What is
    no such part, as one of an unknown kind, has none."""
    seated = (design.part(seat.part) for seat in design.seated_in(board.id))
    ends = ((part.id, design.kind(part).seat) for part in seated)
    terminals = situation.circuit.terminals
    return [terminals[end] for end in ends if end in terminals]


def sources_title(design: Design, owners: Iterable[str]) -> str:
    """What is live: "on GS1 and G1"."""
    words = sorted((source_word(design, owner) for owner in owners), key=natural)
    return "on " + " and ".join(words) if words else "all off"


def source_word(design: Design, part_id: str) -> str:
    """A source as a person calls it: its title, else its designation."""
    part = design.part(part_id)
    return part.title or part.designation
