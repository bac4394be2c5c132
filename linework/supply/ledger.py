"""Days added up to months, for many years side by side."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np

from linework.supply.assumptions import Draw
from linework.supply.exogenous import Scene
from linework.supply.facts import SetFacts
from linework.supply.simulate import Outcome
from linework.supply.stores import banks_of

Array = np.ndarray
_FELT = 1e-3
"""So small a part of what is wanted is no want."""


@dataclass
class Ledger:
    """Sums by month and year, arrays (12, years): kWh, hours, litres; ``least``: the least state of
    charge (of the whole capacity), (12, banks, years); ``depth``: mean depth of a day's cycle."""

    served: Array
    unmet: Array
    short_h: Array
    waits: Array
    waits_h: Array
    sun: Array
    engine: Array
    shore: Array
    set: Array
    wasted: Array
    converted: Array
    lost: Array
    set_h: Array
    litres: Array
    least: Array
    depth: Array
    imbalance: Array

    def total(self, name: str) -> Array:
        """The sum of a year in each."""
        found: Array = getattr(self, name).sum(axis=0)
        return found


def ledger_of(scene: Scene, outcomes: Iterable[Outcome], draw: Draw, size: int) -> Ledger:
    """The books of a year of days; each day belongs to one month."""
    count = max(len(scene.plant.banks), 1)
    book = Ledger(
        **{name: np.zeros((12, size)) for name in _MONTHLY},
        least=np.ones((12, count, size)),
        depth=np.zeros((12, count, size)),
        imbalance=np.zeros(size),
    )
    capacity = np.maximum(banks_of(scene, draw, size).capacity, 1e-9)
    days = np.zeros(12)
    for each in outcomes:
        month = int(each.days.month.flat[0])
        count_of_days = each.days.number.shape[0]
        days[month] += count_of_days
        _add(book, each, month)
        idle, slope = _fuel(scene)
        book.litres[month] += draw["fuel"] * (
            idle * each.running.sum(axis=0) * each.hours
            + slope * each.set.sum(axis=0) * each.hours / 1000.0
        )
        state = each.charge / capacity
        book.least[month] = np.minimum(book.least[month], state.min(axis=0))
        by_day = state.reshape(count_of_days, -1, *state.shape[1:])
        book.depth[month] += (by_day.max(axis=1) - by_day.min(axis=1)).sum(axis=0)
        book.imbalance += each.imbalance
    book.depth /= np.maximum(days, 1.0)[:, None, None]
    return book


_MONTHLY = (
    "served", "unmet", "short_h", "waits", "waits_h", "sun", "engine", "shore", "set", "wasted",
    "converted", "lost", "set_h", "litres",
)  # fmt: skip
_ENERGIES = ("served", "unmet", "sun", "engine", "shore", "set", "wasted", "converted", "lost")


def _add(book: Ledger, each: Outcome, month: int) -> None:
    kwh = each.hours / 1000.0
    for name in _ENERGIES:
        getattr(book, name)[month] += getattr(each, name).sum(axis=0) * kwh
    book.unmet[month] += each.beyond.sum(axis=0) * kwh
    waits = each.dead
    book.waits[month] += waits.sum(axis=0) * kwh
    book.waits_h[month] += (waits > 1.0).sum(axis=0) * each.hours
    wanted = each.served + each.unmet + each.beyond
    lacking = each.unmet + each.beyond > _FELT * np.maximum(wanted, 1e-6)
    book.short_h[month] += lacking.sum(axis=0) * each.hours
    book.set_h[month] += each.running.sum(axis=0) * each.hours


def _fuel(scene: Scene) -> tuple[float, float]:
    """Litres an hour without load of all sets that run together, and for each kWh."""
    sets: list[SetFacts] = [s for s in scene.facts.sets.values() if s.line is not None]
    lines = [s.line for s in sets if s.line is not None]
    power = sum(s.va for s in sets)
    slope = (
        sum(s.va * x.per_kwh for s, x in zip(sets, lines, strict=True)) / power if power else 0.0
    )
    return sum(x.idle for x in lines), slope
