"""The banks of a plant in figures: capacity, what of it is usable, how fast they charge."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from linework.supply.assumptions import Assumption, Draw, by_figure
from linework.supply.exogenous import Scene
from linework.supply.facts import Store
from linework.supply.figures import capacity_share, figure
from linework.wiring import Three
from linework.words import N_

Array = np.ndarray
_HOURS_A_MONTH = 730.0
_WARM_C = 15.0
"""Where a battery is kept warm (common practice, no source)."""


@dataclass(frozen=True)
class Banks:
    """Arrays (banks, samples). ``capacity`` Wh, ``usable`` share, ``back`` round-trip efficiency,
    ``most_w`` the most that it takes, ``taper`` the state of charge from which it takes less,
    ``gives_w`` the most that it gives, ``leak`` per hour of what is usable."""

    capacity: Array
    usable: Array
    back: Array
    most_w: Array
    taper: Array
    gives_w: Array
    leak: Array
    stores: tuple[Store | None, ...]


def stores_of(scene: Scene) -> list[Store | None]:
    """For each bank its largest battery, whose chemistry counts for all; None for none."""
    known = scene.facts.stores
    return [
        max((known[p] for p in parts), key=lambda s: (s.wh, s.part), default=None)
        for parts in scene.plant.banks
    ]


def assumptions_of(scene: Scene) -> Iterator[Assumption]:
    """What is assumed of the batteries."""
    seen: set[str] = set()
    for store in stores_of(scene):
        if store is None or store.cells in seen:
            continue
        seen.add(store.cells)
        usable = by_figure(f"usable-{store.cells}", N_("usable part of the battery"), store.part)
        if store.usable is not None:
            band = Three.exactly(store.usable)
            usable = Assumption(usable.key, usable.what, band, store.part, False)
        yield usable
        if not store.warmth_given:
            what = N_("it is as cold as the air (1)")
            one = Three.exactly(1.0)
            yield Assumption(f"as-cold:{store.part}", what, one, store.part)
        yield by_figure(
            f"round-trip-{store.cells}", N_("energy that the battery gives back"), store.part
        )
        yield by_figure(
            f"charge-rate-{store.cells}", N_("how fast the battery charges"), store.part
        )


def banks_of(scene: Scene, draw: Draw, size: int) -> Banks:
    """The banks in each sample."""
    chosen = stores_of(scene)
    count = max(len(chosen), 1)
    found = {name: np.zeros((count, size)) for name in ("cap", "use", "rate", "gives", "leak")}
    back, taper = np.ones((count, size)), np.ones((count, size))
    for n, (store, parts) in enumerate(zip(chosen, scene.plant.banks, strict=True)):
        if store is None:
            continue
        mine = [scene.facts.stores[p] for p in parts]
        wh = sum(s.wh for s in mine)
        found["cap"][n] = wh
        found["use"][n] = draw[f"usable-{store.cells}"]
        back[n] = draw[f"round-trip-{store.cells}"]
        rate = wh * draw[f"charge-rate-{store.cells}"]
        found["rate"][n] = np.minimum(rate, _bound(mine, "takes_w", wh))
        found["gives"][n] = _bound(mine, "gives_w", wh)
        taper[n] = figure(f"taper-{store.cells}").usual
        found["leak"][n] = figure(f"self-discharge-{store.cells}").usual / _HOURS_A_MONTH
    return Banks(
        found["cap"], found["use"], back, found["rate"], taper, found["gives"], found["leak"],
        tuple(chosen),
    )  # fmt: skip


def _bound(stores: list[Store], key: str, wh: float) -> float:
    """What the management of all lets through: that of the weakest in proportion."""
    shares = [getattr(s, key) / s.wh for s in stores if getattr(s, key) is not None and s.wh > 0.0]
    return min(shares) * wh if shares else np.inf


def floor_and_most(banks: Banks, air_mean: Array, draw: Draw) -> tuple[Array, Array]:
    """Of each day (days, banks, samples), by its mean temperature (days, 1, samples): the charge in
    Wh below which nothing is taken out, and the power in W that goes in.

    Cold takes from the usable end; lithium iron phosphate takes no charge when it freezes.
    """
    shape = (len(air_mean), *banks.capacity.shape)
    floor, most = np.zeros(shape), banks.most_w * np.ones(shape)
    air = air_mean[:, 0]
    for n, store in enumerate(banks.stores):
        if store is None:
            continue
        warmth = np.maximum(air, _WARM_C) if store.kept_warm else air
        share = capacity_share("lead" if store.lead else "lithium", warmth)
        floor[:, n] = banks.capacity[n] * (1.0 - banks.usable[n] * share)
        if not store.lead:
            most[:, n] = np.where(warmth < draw["lithium-charge-above"], 0.0, most[:, n])
    return floor, most
