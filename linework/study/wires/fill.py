"""Study: which conductors lie in each raceway and end in each box."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from linework.circuit.conductors import pole_size
from linework.design import Design, Run, pole_map
from linework.kinds.run import NOT_GIVEN
from linework.wiring import is_protective


@dataclass(frozen=True)
class Raceway:
    """The runs in one raceway, and what they say of it: each answer once.

    ``wires``: size and wire type of every single conductor, "" where it is not given.
    ``cables``: runs that are not laid as single wires.
    """

    name: str
    runs: tuple[str, ...]
    types: tuple[str, ...]
    sizes: tuple[str, ...]
    wires: tuple[tuple[str, str], ...]
    cables: tuple[str, ...]


def raceways(design: Design) -> list[Raceway]:
    """Every raceway that is named or has a size, by its name."""
    groups: dict[tuple[str, str], list[Run]] = {}
    for run in sorted(design.runs, key=lambda item: item.id):
        values = design.run_values(run)
        name = values.text("raceway")
        if name:
            groups.setdefault((name, ""), []).append(run)
        elif values.pick("trade_size") != NOT_GIVEN:
            groups.setdefault(("", run.id), []).append(run)
    return [_raceway(design, name, runs) for (name, _), runs in sorted(groups.items())]


def _raceway(design: Design, name: str, runs: list[Run]) -> Raceway:
    every = [design.run_values(run) for run in runs]
    wires: list[tuple[str, str]] = []
    for run, values in zip(runs, every, strict=True):
        kind = _given(values.pick("wire_type"))
        wires += [(pole_size(values, pole), kind) for pole, _ in pole_map(design, run)]
    return Raceway(
        name,
        tuple(run.id for run in runs),
        tuple(sorted({_given(v.pick("raceway_type")) for v in every} - {""})),
        tuple(sorted({_given(v.pick("trade_size")) for v in every} - {""})),
        tuple(wires),
        tuple(
            run.id
            for run, values in zip(runs, every, strict=True)
            if not values.pick("installation").startswith("conduit")
        ),
    )


def _given(word: str) -> str:
    return "" if word == NOT_GIVEN else word


def boxes(design: Design) -> list[tuple[str, ...]]:
    """The parts in each box: those that name the same one together, every other by itself."""
    groups: dict[str, list[str]] = {}
    for part in sorted(design.parts, key=lambda item: item.id):
        if "shared_box" in design.kind(part).declared:
            name = design.values(part).text("shared_box")
            groups.setdefault(f"box {name}" if name else f"part {part.id}", []).append(part.id)
    return [tuple(parts) for parts in groups.values()]


@dataclass(frozen=True)
class Contents:
    """The conductors that end in a box: how many of each size, and the sizes of ground wires."""

    conductors: Counter[str]
    grounds: tuple[str, ...]


def box_contents(design: Design, parts: Iterable[str]) -> Contents:
    """What ends in the box of some parts; cords at the face of an outlet stay outside."""
    conductors: Counter[str] = Counter()
    grounds: list[str] = []
    for run in _runs_into(design, parts):
        values = design.run_values(run)
        for pole, _ in pole_map(design, run):
            size = pole_size(values, pole)
            if is_protective(pole):
                grounds.append(size)
            else:
                conductors[size] += 1
    return Contents(conductors, tuple(grounds))


def _runs_into(design: Design, parts: Iterable[str]) -> Iterator[Run]:
    """The runs that come into a box, each once; one between two of its parts stays in it."""
    inner: Counter[str] = Counter()
    runs: dict[str, Run] = {}
    for part_id in parts:
        part = design.part(part_id)
        faces = {place.name for place in design.kind(part).places(design.values(part))}
        for run in design.runs_at(part_id):
            ends = [e for e in (run.a, run.b) if e.part == part_id and e.terminal not in faces]
            if ends:
                runs[run.id] = run
                inner[run.id] += 1
    yield from (run for run_id, run in runs.items() if inner[run_id] == 1)
