"""Cable, raceway, fittings and conductor ends of a design, counted from its runs."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import groupby

from linework.circuit.conductors import pole_size
from linework.design import Design, Run, pole_map
from linework.design.names import natural, run_name
from linework.kinds import RUN_RATINGS, Values
from linework.quantity import wire_size
from linework.wiring import Pole, is_dc, is_protective
from linework.words import N_, say

ALLOWANCE = 0.10
"""Added to cut lengths for stripping, bends and slips (common practice, no source)."""

_ENDS = 2

_SINGLES = frozenset({"conduit_pvc", "conduit_steel", "free_air", "jumper"})
"""Ways of laying for which single wires are bought, not a cable with all of them in it."""
_NOT_GIVEN = "unknown"
_ROLES = {
    Pole.PE: N_("{ground_wire}"),
    Pole.N: N_("{neutral}"),
    Pole.POS: N_("plus"),
    Pole.NEG: N_("minus"),
}
"""Single wires are bought by colour: what must not have that of the others."""


@dataclass(frozen=True)
class Cut:
    """One piece to be cut: the run it is for, and its length in metre, None if not given."""

    run: str
    metres: float | None


@dataclass(frozen=True)
class Cable:
    """One type of cable or wire with all its pieces.

    ``kind``: how it is laid or built; ``make_up``: conductors and their sizes ("2 x 10 AWG + PE 10
    AWG"); ``detail``: metal, insulation, stranding. ``size``: of its hots; by it lines are sorted.
    """

    kind: str
    make_up: str
    detail: str
    size: str
    cuts: tuple[Cut, ...]

    @property
    def metres(self) -> float:
        """The sum of the pieces whose length is given."""
        return sum(cut.metres or 0.0 for cut in self.cuts)

    @property
    def to_buy(self) -> float:
        """With the allowance, in metre."""
        return self.metres * (1.0 + ALLOWANCE)

    @property
    def whole(self) -> bool:
        """Whether every piece has a length."""
        return all(cut.metres is not None for cut in self.cuts)

    @property
    def runs(self) -> tuple[str, ...]:
        """The runs that are made of it, each once, in natural order."""
        return tuple(sorted({cut.run for cut in self.cuts}, key=natural))


@dataclass(frozen=True)
class Fitting:
    """So many of a thing, or so many metre of a raceway; ``where`` names runs or raceways."""

    what: str
    quantity: float
    in_metres: bool
    where: tuple[str, ...]


@dataclass(frozen=True)
class Ends:
    """Conductor ends of one size and metal that are to be terminated."""

    size: str
    material: str
    quantity: int
    runs: tuple[str, ...]


@dataclass(frozen=True)
class Bill:
    """All that follows from the runs. ``undrawn``: what they do not tell, in sentences."""

    cables: tuple[Cable, ...]
    fittings: tuple[Fitting, ...]
    ends: tuple[Ends, ...]
    undrawn: tuple[str, ...]


def cable_bill(design: Design) -> Bill:
    """What the runs take; lengths as drawn, one way along the cable."""
    wires = [_Wire(design, run) for run in design.runs]
    wires.sort(key=lambda wire: natural(wire.name))
    return Bill(
        tuple(_cables(wires)),
        (*_bushings(wires), *_raceways(wires), *_connectors(design), *_locks(design)),
        tuple(_conductor_ends(wires)),
        tuple(_undrawn(design, wires)),
    )


def conductors_of(design: Design, run: Run) -> str:
    """The make-up of one run, as a line of the bill has it."""
    return _Wire(design, run).make_up


class _Wire:
    """A run as the bill asks of it."""

    def __init__(self, design: Design, run: Run) -> None:
        self.run, self.family = run, design.settings.family
        self.values: Values = design.run_values(run)
        self.name = run_name(design, run.id)
        self.poles = pole_map(design, run)
        self.sizes = [
            (pole_size(self.values, p), is_protective(p) or is_protective(q)) for p, q in self.poles
        ]
        self.metres = self.values.num("length") if self.values.has("length") else None
        self.laid = self.values.pick("installation")

    def chosen(self, key: str) -> str:
        """An answer in words, in brackets where it is assumed; "" where it is not given."""
        word = self.values.pick(key)
        if word in ("", _NOT_GIVEN):
            return ""
        label = next(c.label for c in RUN_RATINGS[key].choices if c.value == word)
        told = say(label, family=self.family)
        return f"[{told}]" if self.values.assumes(key) else told

    @property
    def detail(self) -> str:
        """Metal, insulation, stranding, and the type of single wires."""
        keys = ("material", "insulation", "stranding", "wire_type")
        return ", ".join(filter(None, map(self.chosen, keys)))

    @property
    def make_up(self) -> str:
        """Conductors by size, those for the ground last."""
        told = []
        for size, ground in sorted(set(self.sizes), key=lambda one: (one[1], _order(one[0]))):
            count = self.sizes.count((size, ground))
            shown = _shown(size)
            mark = say("{ground_wire} ", family=self.family) if ground and not self.alone else ""
            told.append(f"{mark}{shown}" if count == 1 else f"{mark}{count} × {shown}")
        return " + ".join(told)

    @property
    def singles(self) -> list[tuple[str, str]]:
        """Size of each conductor, with what it is where its colour tells so."""
        named = {} if self.laid == "jumper" else _ROLES
        roles = [named.get(p, "") for p, _ in self.poles]
        told = [say(role, family=self.family) for role in roles]
        return [(size, role) for (size, _), role in zip(self.sizes, told, strict=True)]

    @property
    def direct(self) -> bool:
        """Whether it is a run of several conductors for direct current that may come singly."""
        loose = self.laid not in (*_SINGLES, "cord")
        return loose and len(self.poles) > 1 and any(is_dc(p) for p, _ in self.poles)

    @property
    def alone(self) -> bool:
        """Whether it is a single wire."""
        return len(self.sizes) == 1


def _shown(size: str) -> str:
    return size.replace("mm2", "mm²") or say("[size not given]")


def _order(size: str) -> float:
    """By cross-section; what has none stands last."""
    return wire_size(size).area_mm2 if size else float("inf")


def _cables(wires: list[_Wire]) -> Iterator[Cable]:
    pieces: dict[tuple[str, str, str, str], list[Cut]] = defaultdict(list)
    for wire in wires:
        kind = wire.chosen("installation")
        cut = Cut(wire.name, wire.metres)
        if wire.laid in _SINGLES:
            for size, role in wire.singles:
                make_up = f"{role} {_shown(size)}".strip()
                pieces[kind, make_up, wire.detail, size].append(cut)
        elif wire.sizes:
            size = min(wire.sizes, key=lambda one: (one[1], _order(one[0])))[0]
            pieces[kind, wire.make_up, wire.detail, size].append(cut)
    for key in sorted(pieces, key=lambda key: (key[0], _order(key[3]), key[1], key[2])):
        yield Cable(*key, tuple(pieces[key]))


def _bushings(wires: list[_Wire]) -> Iterator[Fitting]:
    through = [wire for wire in wires if wire.values.pick("passes") == "bushed"]
    through.sort(key=lambda wire: wire.make_up)
    for make_up, group in groupby(through, key=lambda wire: wire.make_up):
        names = tuple(wire.name for wire in group)
        what = say("bushing in sheet metal for {cable}", cable=make_up)
        yield Fitting(what, len(names), False, names)


def _raceways(wires: list[_Wire]) -> Iterator[Fitting]:
    """By type and size; runs in one raceway share it, and it is as long as the longest of them."""
    inside: dict[str, list[_Wire]] = defaultdict(list)
    for wire in wires:
        if _in_raceway(wire):
            inside[wire.values.text("raceway") or wire.name].append(wire)
    alike: dict[str, list[tuple[str, float]]] = defaultdict(list)
    for name, group in inside.items():
        longest = max((wire.metres or 0.0) for wire in group)
        alike[_raceway_type(group)].append((name, longest))
    for what, found in sorted(alike.items()):
        names = tuple(sorted((name for name, _ in found), key=natural))
        yield Fitting(what, sum(metres for _, metres in found), True, names)


def _in_raceway(wire: _Wire) -> bool:
    named = wire.chosen("raceway_type") or wire.chosen("trade_size") or wire.values.text("raceway")
    return bool(named) or wire.laid in ("conduit_pvc", "conduit_steel")


def _raceway_type(group: list[_Wire]) -> str:
    """From the first of its runs that tells."""
    told = next(filter(None, (wire.chosen("raceway_type") for wire in group)), "")
    size = next(filter(None, (wire.chosen("trade_size") for wire in group)), "")
    metal = {"conduit_pvc": say("plastic conduit"), "conduit_steel": say("steel conduit")}
    laid = next((metal[wire.laid] for wire in group if wire.laid in metal), say("raceway"))
    what = told or say("{conduit}, type not given", conduit=laid)
    return (
        say("{conduit}, trade size {size}", conduit=what, size=size)
        if size
        else say("{conduit}, size not given", conduit=what)
    )


def _connectors(design: Design) -> Iterator[Fitting]:
    """What a cord needs to go onto pins at which it is drawn."""
    found: dict[str, list[str]] = defaultdict(list)
    for run in design.runs:
        for end in (run.a, run.b):
            part = design.part(end.part)
            kind = design.kind(part)
            if kind.lets_in and not kind.plugs and end.terminal == kind.seat:
                found[design.values(part).text("configuration")].append(run_name(design, run.id))
    for configuration, names in sorted(found.items()):
        what = say("cord connector {configuration}", configuration=configuration)
        yield Fitting(what, len(names), False, tuple(sorted(names, key=natural)))


def _locks(design: Design) -> Iterator[Fitting]:
    for lock in design.interlocks:
        parts = {design.part(part).designation for part, _, _ in lock.excludes}
        what = say("interlock {title}", title=lock.title).strip()
        yield Fitting(what, 1, False, tuple(sorted(parts, key=natural)))


def _conductor_ends(wires: list[_Wire]) -> Iterator[Ends]:
    found: dict[tuple[float, str, str], list[str]] = defaultdict(list)
    for wire in wires:
        for size, _ in wire.sizes:
            found[_order(size), size, wire.chosen("material")].append(wire.name)
    for (_, size, material), names in sorted(found.items()):
        runs = tuple(sorted(set(names), key=natural))
        yield Ends(_shown(size), material, _ENDS * len(names), runs)


def _undrawn(design: Design, wires: list[_Wire]) -> Iterator[str]:
    yield from _missing(wires)
    bare = [wire.name for wire in wires if wire.values.pick("passes") == "bare_metal"]
    if bare:
        yield say(
            "Bushings for {names}: they pass through sheet metal and none is drawn.",
            names=", ".join(bare),
        )
    entries = sum(
        design.kind(design.part(end.part)).fixed
        for wire in wires
        for end in (wire.run.a, wire.run.b)
    )
    if entries:
        yield say(
            "Glands, clamps or connectors where cables enter boxes: {count} ends lie at parts that"
            " stand for good.",
            count=entries,
        )
    if any(map(_in_raceway, wires)):
        yield say("Bends, couplings, connectors and bushings of the raceways.")
    direct = [wire.name for wire in wires if wire.direct]
    if direct:
        yield say(
            "Whether {names} are one cable each, as counted, or single wires: of these each takes"
            " the length of the cut.",
            names=", ".join(direct),
        )
    if wires:
        yield say(
            "Whether a conductor's end takes a lug, a ferrule or nothing: the terminal decides; for"
            " lugs the size of the stud besides."
        )


def _missing(wires: Iterable[_Wire]) -> Iterator[str]:
    """Runs that are counted in part or not at all."""
    lengths, sizes, none = [], [], []
    for wire in wires:
        if wire.metres is None:
            lengths.append(wire.name)
        if not wire.sizes:
            none.append(wire.name)
        elif any(not size for size, _ in wire.sizes):
            sizes.append(wire.name)
    if lengths:
        yield say("The length of {names}: not in the sums above.", names=", ".join(lengths))
    if sizes:
        yield say("The conductor size of {names}.", names=", ".join(sizes))
    if none:
        yield say("What {names} are made of: they join no conductor.", names=", ".join(none))
