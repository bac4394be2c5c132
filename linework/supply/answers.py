"""The answers: bands over many years with weather, the worst month, and what moves them most."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from linework.circuit import Circuit, expand
from linework.design import Design
from linework.supply.assumed import assumptions
from linework.supply.assumptions import Assumption, drawn, one_by_one, usual
from linework.supply.climate import Climate, climate_of
from linework.supply.exogenous import Scene
from linework.supply.facts import facts_of
from linework.supply.ledger import Ledger, ledger_of
from linework.supply.modes import standings
from linework.supply.plant import plant_of
from linework.supply.simulate import STEPS, Outcome, simulate
from linework.supply.weather import typical_days, year
from linework.wiring import Three

Array = np.ndarray
YEARS = 40
_SETTLED = 14
"""Days after which a typical day repeats itself, or the bank is empty for good."""
_AT_ONCE = 100
"""So many years are worked out side by side; more need more memory and are no faster."""


@dataclass(frozen=True)
class Month:
    """One month in bands of its years: kWh, hours, litres; ``least``: the least state of charge of
    the emptiest bank, of the whole capacity."""

    least: Three
    short_h: Three
    unmet: Three
    set_h: Three
    litres: Three
    wasted: Three
    sun: Three
    waits_h: Three


@dataclass(frozen=True)
class Moved:
    """What one assumption moves: (kWh a year that are missing, hours of the set, least state of
    charge) at its low and its high figure, all else as usual."""

    assumption: Assumption
    low: tuple[float, float, float]
    high: tuple[float, float, float]


@dataclass(frozen=True)
class Answers:
    """Everything that is said of a design. ``typical``: the day that repeats itself, by month, all
    as usual: the state of charge of each bank after each step, (steps, banks, 12)."""

    scene: Scene
    climate: Climate
    months: tuple[Month, ...]
    year: Month
    floor: tuple[float, ...]
    worst: int
    moved: tuple[Moved, ...]
    assumptions: tuple[Assumption, ...]
    typical: Array
    depth: tuple[Three, ...]
    set_load: float
    sealed: tuple[str, ...]
    never_fed: tuple[str, ...]
    outer_only: tuple[str, ...]


def scene_of(design: Design, climate: Climate | None = None) -> Scene:
    """A design read for supply over time. SupplyError where its place is none; ValueError where it
    cannot be expanded."""
    circuit: Circuit = expand(design)
    where = climate or climate_of(design.settings)
    facts = facts_of(design, circuit, where)
    capacity = {part: store.wh for part, store in facts.stores.items()}
    return Scene(plant_of(standings(circuit), capacity), facts, where)


def answer(
    design: Design, years: int = YEARS, seed: int = 1, climate: Climate | None = None
) -> Answers:
    """Work it out; the same seed gives the same answers."""
    scene = scene_of(design, climate)
    unknown = assumptions(scene)
    books = many_years(scene, unknown, years, seed)
    months = tuple(_month(books, m) for m in range(12))
    typical, _ = typical_day(scene, unknown)
    worst = _worst(books)
    return Answers(
        scene, scene.climate, months, _month(books, None), _floors(scene, unknown), worst,
        moved(scene, unknown, seed), unknown, typical, _depths(books), _set_load(scene, books),
        *_apart(scene),
    )  # fmt: skip


def many_years(
    scene: Scene, unknown: Sequence[Assumption], years: int, seed: int, steps: int = STEPS
) -> list[Ledger]:
    """Years drawn with a seed, some at a time."""
    found = []
    for first in range(0, years, _AT_ONCE):
        size = min(_AT_ONCE, years - first)
        rng = np.random.default_rng([seed, first])
        draw = drawn(unknown, size, rng)
        days = year(scene.climate, rng, draw["sun"], draw["warmer"])
        found.append(ledger_of(scene, simulate(scene, days, draw, size, steps), draw, size))
    return found


def typical_day(scene: Scene, unknown: Sequence[Assumption]) -> tuple[Array, Outcome]:
    """The mean day of each month, repeated until it settles, all as usual."""
    draw = usual(unknown, 12)
    day = typical_days(scene.climate)
    *_, last = simulate(scene, [day] * _SETTLED, draw, 12)
    capacity = np.array([_capacity(scene, n) for n in range(last.charge.shape[1])])
    return last.charge / np.maximum(capacity, 1e-9)[None, :, None], last


def moved(scene: Scene, unknown: Sequence[Assumption], seed: int) -> tuple[Moved, ...]:
    """Each assumption by itself at its bounds, in the same weather; what moves most first."""
    draw, keys = one_by_one(unknown)
    size = len(draw["sun"])
    rng = np.random.default_rng([seed, 10**6])
    days = year(scene.climate, rng, draw["sun"], draw["warmer"], alike=True)
    book = ledger_of(scene, simulate(scene, days, draw, size), draw, size)
    least = book.least.min(axis=(0, 1))
    told = list(zip(book.total("unmet"), book.total("set_h"), least, strict=True))
    by_key = {a.key: a for a in unknown}
    found = [
        Moved(by_key[key], _plain(told[1 + 2 * n]), _plain(told[2 + 2 * n]))
        for n, key in enumerate(keys)
    ]
    return tuple(sorted(found, key=_swing, reverse=True))


def _plain(row: tuple[float, ...]) -> tuple[float, float, float]:
    unmet, hours, least = map(float, row)
    return unmet, hours, least


def _swing(each: Moved) -> tuple[float, float, float, str]:
    a, b, c = (abs(high - low) for low, high in zip(each.low, each.high, strict=True))
    return round(a, 6), round(b, 6), round(c, 6), each.assumption.what


def _band(values: Array) -> Three:
    """The figures under which one year in ten, half, and nine in ten lie."""
    low, middle, high = (float(x) for x in np.percentile(values, (10.0, 50.0, 90.0)))
    return Three(low, middle, high)


def _month(books: Sequence[Ledger], month: int | None) -> Month:
    def of(name: str) -> Three:
        if month is None:
            return _band(np.concatenate([book.total(name) for book in books]))
        return _band(np.concatenate([getattr(book, name)[month] for book in books]))

    least = [book.least.min(axis=1) for book in books]
    lows = [x.min(axis=0) if month is None else x[month] for x in least]
    return Month(
        _band(np.concatenate(lows)), of("short_h"), of("unmet"), of("set_h"), of("litres"),
        of("wasted"), of("sun"), of("waits_h"),
    )  # fmt: skip


def _worst(books: Sequence[Ledger]) -> int:
    """The month in which most is missing or waits; else that in which the set runs longest; else
    that in which the banks are emptiest."""

    def mean(name: str) -> Array:
        found: Array = np.mean([getattr(b, name).mean(axis=1) for b in books], axis=0)
        return found

    missing, hours = mean("unmet") + mean("waits"), mean("set_h")
    least = np.mean([b.least.min(axis=1).mean(axis=1) for b in books], axis=0)
    rank = [(round(float(a), 6), round(float(b), 6), -float(c)) for a, b, c in
            zip(missing, hours, least, strict=True)]  # fmt: skip
    return max(range(12), key=lambda m: rank[m])


def _floors(scene: Scene, unknown: Sequence[Assumption]) -> tuple[float, ...]:
    """The state of charge at which each bank counts as empty, warm and as usual."""
    known: Mapping[str, float] = {a.key: a.band.usual for a in unknown}
    stores = scene.facts.stores
    found = []
    for parts in scene.plant.banks:
        cells = max((stores[p] for p in parts), key=lambda s: (s.wh, s.part), default=None)
        found.append(1.0 if cells is None else 1.0 - known[f"usable-{cells.cells}"])
    return tuple(found)


def _capacity(scene: Scene, bank: int) -> float:
    if bank >= len(scene.plant.banks):
        return 0.0
    return sum(scene.facts.stores[p].wh for p in scene.plant.banks[bank])


def _depths(books: Sequence[Ledger]) -> tuple[Three, ...]:
    """Of each bank the mean depth of a day's cycle over a year, as a share of its capacity."""
    depth = np.concatenate([book.depth.mean(axis=0) for book in books], axis=1)
    return tuple(_band(row) for row in depth)


def _set_load(scene: Scene, books: Sequence[Ledger]) -> float:
    """Mean load of the sets while they run, over their rating; 0 where none runs."""
    hours = sum(float(book.set_h.sum()) for book in books)
    kwh = sum(float(book.set.sum()) for book in books)
    rated = sum(s.va for s in scene.facts.sets.values()) / 1000.0
    return kwh / (hours * rated) if hours > 0.0 and rated > 0.0 else 0.0


def _apart(scene: Scene) -> tuple[tuple[str, ...], tuple[str, ...], tuple[str, ...]]:
    """Loads that are not worked out, that nothing ever feeds, that only outer sources feed."""
    plant = scene.plant
    asleep = [w for mode, w in plant.wirings.items() if not mode.run and not mode.shore]
    never, outer = [], []
    for load in scene.facts.loads:
        if load.index in plant.sealed or load.watts <= 0.0:
            continue
        if not any(load.index in wiring.loads for wiring in plant.wirings.values()):
            never.append(load.part)
        elif not any(load.index in wiring.loads for wiring in asleep):
            outer.append(load.part)
    return tuple(sorted({plant.owners[i] for i in plant.sealed})), tuple(never), tuple(outer)
