"""What a day asks of each bank and brings it, in every mode: all that does not hang on charge.

Powers in watt, arrays (steps, banks, samples) or (steps, samples).
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, fields

import numpy as np

from linework.supply.assumptions import Draw
from linework.supply.buses import Converter
from linework.supply.climate import Climate
from linework.supply.facts import ArrayFacts, Facts
from linework.supply.figures import figure
from linework.supply.habits import wanted, within
from linework.supply.modes import Mode
from linework.supply.plant import Charge, Onto, Plant, Wiring
from linework.supply.sun import cell_warmth, on_plane
from linework.supply.weather import Days, outside

Array = np.ndarray
_LINEAR, _SQUARE = 0.2, 0.8
"""How the loss of an inverter beyond its no-load power grows with its load: fitted here to listed
inverters (table inverter_part_load), within two points of efficiency."""
DRIVES_FROM, PLUGS_FROM = 9.0, 18.0


@dataclass
class Asked:
    """One mode, or a mix of several, for one day.

    ``need``: of each bank, ``loads`` the part of it that loads take. ``sun``, ``engine``, ``firm``:
    what could charge each bank, with what it takes before converters (``..._in``). ``outer``: what
    loads take straight from an outer source; ``beyond``: what they want more than ratings give;
    ``dead``: what those want that nothing feeds.
    """

    need: Array
    loads: Array
    sun: Array
    sun_in: Array
    engine: Array
    engine_in: Array
    firm: Array
    firm_in: Array
    outer: Array
    beyond: Array
    dead: Array

    def scaled(self, by: Array) -> Asked:
        """Each power times the share of the step in which the mode holds."""
        banks = by[:, None, :]
        return Asked(
            *(value * (banks if value.ndim == 3 else by)
              for value in (getattr(self, f.name) for f in fields(self)))
        )  # fmt: skip

    def __add__(self, other: Asked) -> Asked:
        return Asked(*(getattr(self, f.name) + getattr(other, f.name) for f in fields(self)))


@dataclass(frozen=True)
class Scene:
    """A plant with everything known of it."""

    plant: Plant
    facts: Facts
    climate: Climate


@dataclass(frozen=True)
class DaysAsked:
    """Some days without the set and with it, step after step.

    ``allowed``: where a set may run; ``calls``: where it is started whatever the charge;
    ``warmth``: of the air; ``shore``: the part of each step in which shore is there.
    """

    still: Asked
    running: Asked | None
    allowed: Array
    calls: Array
    warmth: Array
    shore: Array


def asked_of(scene: Scene, days: Days, draw: Draw, steps: int, size: int) -> DaysAsked:
    """Everything of some days, for ``size`` samples."""
    deep = outside(days, steps) * np.ones((1, size))
    air = deep.reshape(-1, size)
    loads = _loads(scene, days, draw, deep)
    light = dict(_arrays(scene, days, draw, deep))
    times = len(air) // steps
    weights = {
        mode: np.tile(weight, (times, 1))
        for mode, weight in mode_weights(scene, draw, steps, size).items()
        if weight.any()
    }
    held = {m for w in weights for m in (w, Mode(w.shore, w.engine, run=True))}
    made = {
        mode: _Made(scene, wiring, draw, loads, light, air).asked()
        for mode, wiring in scene.plant.wirings.items()
        if mode in held
    }
    still = _mixed(made, weights, run=False)
    shore = sum((w for m, w in weights.items() if m.shore), np.zeros(air.shape))
    runs = any(mode.run for mode in made)
    running = _mixed(made, weights, run=True) if runs else None
    allowed, calls = _rule(scene, still, running, shore, air, steps)
    return DaysAsked(still, running, allowed, calls, air, shore)


def mode_weights(scene: Scene, draw: Draw, steps: int, size: int) -> dict[Mode, Array]:
    """The part of each step in which each mode without a set holds."""
    modes = [mode for mode in scene.plant.wirings if not mode.run]
    shore = _presence(draw, "plugged", PLUGS_FROM, steps, size)
    engine = _presence(draw, "driven", DRIVES_FROM, steps, size)
    for name, share in (("shore", shore), ("engine", engine)):
        known = {getattr(mode, name) for mode in modes}
        if known != {True, False}:
            share[:] = float(True in known)
    return {
        m: (shore if m.shore else 1.0 - shore) * (engine if m.engine else 1.0 - engine)
        for m in modes
    }


def _presence(draw: Draw, key: str, start: float, steps: int, size: int) -> Array:
    hours = draw.get(key)
    if hours is None:
        return np.zeros((steps, size))
    span = float(np.max(hours))
    if span <= 0.0:
        return np.zeros((steps, size))
    return np.asarray(within(start, min(span, 24.0), steps)[:, None] * (hours / span)) * np.ones(
        (1, size)
    )


def _mixed(made: Mapping[Mode, Asked], weights: Mapping[Mode, Array], run: bool) -> Asked:
    """The modes of a day together; with the set running, where there is such a mode."""
    parts = []
    for mode, weight in weights.items():
        other = Mode(mode.shore, mode.engine, run=True)
        chosen = other if run and other in made else mode
        parts.append(made[chosen].scaled(weight))
    total = parts[0]
    for part in parts[1:]:
        total = total + part
    return total


def _rule(
    scene: Scene, still: Asked, running: Asked | None, shore: Array, air: Array, steps: int
) -> tuple[Array, Array]:
    """When a set may run, and when it is started for what nothing else carries."""
    sets = list(scene.facts.sets.values())
    if running is None or not sets:
        return np.zeros(air.shape, bool), np.zeros(air.shape, bool)
    first = max(sets, key=lambda each: each.va)
    start, end = first.quiet
    quiet = np.tile(within(start, (end - start) % 24.0, steps), len(air) // steps)[:, None]
    allowed = (quiet < 0.5) & (shore < 0.5)
    only = (still.dead > running.dead + 1.0) | (still.beyond > running.beyond + 1.0)
    if first.starts_for is not None:
        only = still.need.sum(axis=1) > first.starts_for
    return allowed & np.ones(air.shape, bool), only


def _loads(scene: Scene, days: Days, draw: Draw, deep: Array) -> dict[int, Array]:
    """Watts that each load takes on average in each step."""
    rows = (-1, deep.shape[-1])
    return {
        x.index: x.watts * draw[f"use:{x.part}"] * wanted(x.habit, days.month, deep).reshape(rows)
        for x in scene.facts.loads
        if x.index not in scene.plant.sealed
    }


def _arrays(scene: Scene, days: Days, draw: Draw, deep: Array) -> Iterator[tuple[str, Array]]:
    """Watts that each array gives at its best point."""
    for array in scene.facts.arrays.values():
        light = _light(scene, array, days, deep.shape[-2])
        sort = "flush" if array.flush else "rack"
        u0, u1 = figure(f"{sort}-u0").usual, figure(f"{sort}-u1").usual
        warm = cell_warmth(light, deep, u0, u1, figure("wind").usual)
        cold = np.maximum(1.0 + figure("power-per-degree").usual * (warm - 25.0), 0.0)
        watts = array.watts * light * cold * (1.0 - draw["array-losses"])
        yield array.part, watts.reshape(-1, deep.shape[-1])


def _light(scene: Scene, array: ArrayFacts, days: Days, steps: int) -> Array:
    return on_plane(
        math.radians(scene.climate.latitude), days.number, days.sun, steps,
        math.radians(array.tilt), math.radians(array.azimuth), figure("albedo").usual,
    )  # fmt: skip


def converter_loss(watts: Array, converter: Converter, factor: Array | float = 1.0) -> Array:
    """What a converter loses while it gives so much, in watt: its no-load power, and the rest of
    what its plate's efficiency leaves at full load, part of it as the load, part as its square."""
    full = converter.watts
    if full <= 0.0:
        return np.full_like(watts, converter.idle_w)
    rest = max((1.0 / converter.efficiency - 1.0) * full - converter.idle_w, 0.0)
    x = watts / full
    return factor * (converter.idle_w + rest * (_LINEAR * x + _SQUARE * x**2))


class _Made:
    """One mode of some days."""

    def __init__(
        self, scene: Scene, wiring: Wiring, draw: Draw,
        loads: Mapping[int, Array], light: Mapping[str, Array], air: Array,
    ) -> None:  # fmt: skip
        self.scene, self.wiring, self.draw = scene, wiring, draw
        self.loads, self.light, self.air = loads, light, air
        self.shape = air.shape
        banks = (air.shape[0], max(len(scene.plant.banks), 1), air.shape[1])
        deep, flat = (
            [np.zeros(shape) for _ in range(n)] for shape, n in ((banks, 8), (air.shape, 3))
        )
        self.out = Asked(*deep, *flat)
        self.firm = [np.zeros(air.shape) for _ in wiring.firm]

    def asked(self) -> Asked:
        self._demand()
        left = self._outer()
        self._sun()
        self._engine()
        self._charging(left)
        return self.out

    def _put(self, onto: Onto, watts: Array, loads: Array, given: list[Array]) -> None:
        if onto.converter is not None:
            given[onto.converter] = given[onto.converter] + watts
        elif onto.firm is not None:
            self.firm[onto.firm] = self.firm[onto.firm] + watts
        elif onto.banks:
            for bank, share in onto.banks:
                self.out.need[:, bank] += share * watts
                self.out.loads[:, bank] += share * loads
        else:
            self.out.dead += loads

    def _demand(self) -> None:
        """Loads and converters onto what they hang on, from the leaves on."""
        given = [np.zeros(self.shape) for _ in self.wiring.converters]
        for index, watts in self.loads.items():
            self._put(self.wiring.loads.get(index, Onto()), watts, watts, given)
        own = list(given)
        losses = self.draw["converter-losses"]
        for n, (converter, onto) in enumerate(self.wiring.converters):
            watts = given[n]
            passed = np.minimum(watts, converter.watts) if converter.watts > 0.0 else watts
            self.out.beyond += watts - passed
            taken = passed + converter_loss(passed, converter, losses)
            kept = np.divide(passed, watts, out=np.zeros_like(watts), where=watts > 0.0)
            self._put(onto, taken, own[n] * kept, given)
            if onto.converter is not None:
                own[onto.converter] = own[onto.converter] + own[n] * kept

    def _outer(self) -> list[Array]:
        """What loads take from outer sources, and what these have left."""
        left = []
        for owners, watts in zip(self.wiring.firm, self.firm, strict=True):
            most = sum((self._rated(owner) for owner in owners), np.zeros(self.shape))
            served = np.minimum(watts, most)
            self.out.outer += served
            self.out.beyond += watts - served
            left.append(most - served)
        return left

    def _rated(self, owner: str) -> Array:
        """Watts that an outer source gives; a set loses with height and heat."""
        facts = self.scene.facts
        if owner not in facts.sets:
            return np.full(self.shape, facts.shore_w.get(owner, 0.0))
        high = 1.0 - self.draw["altitude-loss"] * self.scene.climate.altitude_m
        hot = 1.0 - figure("heat-loss").usual * np.maximum(self.air - 25.0, 0.0)
        watts = facts.sets[owner].va * self.draw["set-power-factor"]
        return np.maximum(watts * np.maximum(high, 0.1) * np.maximum(hot, 0.1), 0.0)

    def _sun(self) -> None:
        for charge in self.wiring.charges:
            if not charge.suns:
                continue
            taken = charge.share * sum(self.light[a] for a in charge.suns)
            if charge.joins:
                taken = taken * self.draw["joined-harvest"]
            taken = np.minimum(taken, charge.watts / charge.efficiency)
            self._give(charge, self.out.sun, self.out.sun_in, taken)
            if math.isfinite(charge.watts):
                for bank, share in charge.banks:
                    self.out.need[:, bank] += share * figure("controller-own").usual

    def _give(self, charge: Charge, into: Array, before: Array, taken: Array) -> None:
        for bank, share in charge.banks:
            into[:, bank] += share * taken * charge.efficiency
            before[:, bank] += share * taken

    def _engine(self) -> None:
        """Alternators; then what takes from a bank while its engine turns, as much as that leaves
        beside its own loads."""
        for charge in self.wiring.charges:
            if charge.alternator:
                taken = np.full(self.shape, charge.watts) * self.draw["alternator-share"]
                self._give(charge, self.out.engine, self.out.engine_in, taken)
        for charge in self.wiring.charges:
            if charge.link is not None:
                bank = charge.link
                spare = self.out.engine[:, bank] - self.out.need[:, bank]
                taken = np.clip(spare, 0.0, charge.watts / charge.efficiency)
                self.out.engine[:, bank] -= taken
                self.out.engine_in[:, bank] -= taken
                self._give(charge, self.out.engine, self.out.engine_in, taken)

    def _charging(self, left: list[Array]) -> None:
        """Chargers on outer sources; together they take what the loads leave of these."""
        mine = [c for c in self.wiring.charges if c.firm is not None]
        most = {id(c): self._most_taken(c) for c in mine}
        for number, spare in enumerate(left):
            here = [c for c in mine if c.firm == number]
            total = sum((most[id(c)] for c in here), np.zeros(self.shape))
            scale = np.divide(spare, total, out=np.ones(self.shape), where=total > spare)
            for charge in here:
                self._give(charge, self.out.firm, self.out.firm_in, most[id(charge)] * scale)

    def _most_taken(self, charge: Charge) -> Array:
        full = np.full(self.shape, charge.watts / charge.efficiency)
        if charge.limit_w is None or charge.firm is None:
            return full
        return np.clip(charge.limit_w - self.firm[charge.firm], 0.0, full)
