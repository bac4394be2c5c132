"""The charge of the banks, step by step, for many years side by side.

Energy in Wh, power in W. What is known before the charge is (what is asked and brought) is worked
out a day at a time for all steps together; only the charge itself goes on step by step.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

import numpy as np

from linework.supply.assumptions import Draw
from linework.supply.exogenous import Asked, DaysAsked, Scene, asked_of
from linework.supply.stores import Banks, banks_of, floor_and_most
from linework.supply.weather import Days

Array = np.ndarray
STEPS = 96
"""Of a day: a quarter of an hour each."""
_TINY = 1e-9


@dataclass(frozen=True)
class Outcome:
    """What became of some days, step after step. Arrays (steps, samples), or (steps, banks,
    samples) where banks are told apart; all in W but ``charge`` (Wh, after each step), ``before``
    (Wh, at the beginning) and ``running``.

    ``served``: what loads took; ``unmet``: what they wanted of a bank and did not get, ``short``
    with what is lost on the way; ``beyond`` and ``dead`` as of :class:`Asked`. ``sun``, ``engine``,
    ``shore``, ``set``: what came in; ``wasted``: sun that nobody took. ``converted``: lost in
    converters and chargers, ``lost``: in batteries.
    """

    days: Days
    charge: Array
    before: Array
    served: Array
    unmet: Array
    short: Array
    beyond: Array
    dead: Array
    sun: Array
    engine: Array
    shore: Array
    set: Array
    wasted: Array
    converted: Array
    lost: Array
    running: Array
    hours: float

    @property
    def imbalance(self) -> Array:
        """Energy in, less what was taken, lost and stored, in Wh: zero but for rounding."""
        came = self.sun + self.engine + self.shore + self.set
        went = self.served + self.converted + self.lost
        stored = (self.charge[-1] - self.before).sum(axis=0)
        found: Array = (came - went).sum(axis=0) * self.hours - stored
        return found


def simulate(
    scene: Scene, days: Iterable[Days], draw: Draw, size: int, steps: int = STEPS
) -> Iterator[Outcome]:
    """Day after day, from full banks on."""
    run = _Run(scene, draw, size, steps)
    for some in days:
        yield run.days(some)


class _Run:
    """The state that goes from one day to the next."""

    def __init__(self, scene: Scene, draw: Draw, size: int, steps: int) -> None:
        self.scene, self.draw, self.size, self.steps = scene, draw, size, steps
        self.hours = 24.0 / steps
        self.banks: Banks = banks_of(scene, draw, size)
        self.charge = self.banks.capacity.copy()
        self.on = np.zeros(size, bool)
        self.lead, self.fed = _lead(scene)
        there = np.sqrt(self.banks.back)
        self.into, self.out = there * self.hours, self.hours / there
        """Wh that a watt at the posts adds within a step, and that it takes."""
        gives = -self.banks.gives_w * self.out
        self.gives = gives if np.isfinite(gives).any() else None
        self.bound, self.zero = np.empty_like(self.charge), np.zeros_like(self.charge)

    def approach(self, most: Array) -> Array:
        """The share of what is missing that goes in within a step at the most: near full the
        current falls as exp(-t / tau), tau being what is left to fill over the current."""
        room = self.banks.capacity * (1.0 - self.banks.taper)
        tau = np.divide(room, most, out=np.zeros_like(most), where=most > 0.0)
        return np.where(tau > 0.0, 1.0 - np.exp(-self.hours / np.maximum(tau, _TINY)), 1.0)

    def days(self, some: Days) -> Outcome:
        """The next days."""
        asked = asked_of(self.scene, some, self.draw, self.steps, self.size)
        warmth = some.warmth * np.ones(self.size)
        floor, most = floor_and_most(self.banks, warmth, self.draw)
        before = self.charge.copy()
        moved, leaked, charge, on = self._walk(asked, floor, most)
        flow = np.where(moved > 0.0, moved / self.into, moved / self.out)
        return _booked(self, some, asked, flow, leaked, on, charge, before)

    def _walk(
        self, asked: DaysAsked, floor: Array, most: Array
    ) -> tuple[Array, Array, Array, Array]:
        """Wh into the store in each step (negative: out), Wh that leak, the charge, whether a set
        runs."""
        still = self._stored(_net(asked.still))
        running = None if asked.running is None else self._stored(_net(asked.running))
        moved, leaked = np.empty_like(still), np.zeros_like(still)
        on = np.zeros((len(still), self.size), bool)
        gain, room = self.approach(most), most * self.into
        for day in range(len(floor)):
            rows = slice(day * self.steps, (day + 1) * self.steps)
            pace = _Pace(gain[day], room[day], floor[day], self.gives)
            if self.charge.size == 1:
                hold = (asked.allowed[rows, 0], asked.calls[rows, 0])
                more = still if running is None else running
                self._alone(still[rows], more[rows], moved[rows], on[rows], hold, pace)
            elif running is None:
                for want, change in zip(still[rows], moved[rows], strict=True):
                    self._step(want, change, pace)
            else:
                hold = (asked.allowed[rows], asked.calls[rows])
                self._day_with_set(still[rows], running[rows], moved[rows], on[rows], hold, pace)
            gone = np.maximum(self.charge - floor[day], 0.0) * self.banks.leak * 24.0
            leaked[rows.stop - 1] = gone
            self.charge -= gone
        steps = np.cumsum(moved - leaked, axis=0)
        return moved, leaked, self.charge - steps[-1] + steps, on

    def _stored(self, net: Array) -> Array:
        """Watts at the posts as Wh in the store within a step."""
        found: Array = np.minimum(net * self.into, net * self.out)
        return found

    def _step(self, want: Array, change: Array, pace: _Pace) -> None:
        """One step: as much as there is or is asked, as far as the bank takes it or has it. Written
        without new arrays: there are 35 040 of these in a year."""
        bound, charge = self.bound, self.charge
        np.subtract(pace.floor, charge, out=bound)
        np.minimum(bound, self.zero, out=bound)
        if pace.gives is not None:
            np.maximum(bound, pace.gives, out=bound)
        np.maximum(want, bound, out=change)
        np.subtract(self.banks.capacity, charge, out=bound)
        np.multiply(bound, pace.gain, out=bound)
        np.minimum(bound, pace.room, out=bound)
        np.minimum(change, bound, out=change)
        np.add(charge, change, out=charge)

    def _alone(
        self, still: Array, running: Array, moved: Array, on: Array,
        hold: tuple[Array, Array], pace: _Pace,
    ) -> None:  # fmt: skip
        """The same for one bank in one year, ten times as fast: plain numbers need no arrays."""
        cap, charge = float(self.banks.capacity[0, 0]), float(self.charge[0, 0])
        gain, room, floor = float(pace.gain[0, 0]), float(pace.room[0, 0]), float(pace.floor[0, 0])
        gives = -float("inf") if pace.gives is None else float(pace.gives[0, 0])
        starts = float(self.draw["set-starts"][0]) * cap * self.fed
        stops, runs = float(self.draw["set-stops"][0]) * cap, bool(self.on[0])
        wishes, others, allowed, calls = (x.ravel().tolist() for x in (still, running, *hold))
        changes, states = [], []
        for want, more, may, call in zip(wishes, others, allowed, calls, strict=True):
            falls, rises = charge + 0.5 * want, charge + 0.5 * more
            runs = may and (call or falls < starts or (runs and rises < stops))
            change = more if runs else want
            change = max(change, min(floor - charge, 0.0), gives)
            change = min(change, (cap - charge) * gain, room)
            charge += change
            changes.append(change)
            states.append(runs)
        moved[:, 0, 0], on[:, 0] = changes, states
        self.charge[0, 0], self.on = charge, np.array([runs])

    def _day_with_set(
        self, still: Array, running: Array, moved: Array, on: Array,
        hold: tuple[Array, Array], pace: _Pace,
    ) -> None:  # fmt: skip
        """A day on which a set is started and stopped as its rule has it. What the charge will be
        in the middle of the step decides, so that longer steps start it no later on average."""
        cap, level = self.banks.capacity[self.lead], self.charge[self.lead]
        starts, stops = self.draw["set-starts"] * cap * self.fed, self.draw["set-stops"] * cap
        runs = self.on
        for want, more, change, now, allowed, calls in zip(
            still, running, moved, on, *hold, strict=True
        ):
            falls, rises = level + 0.5 * want[self.lead], level + 0.5 * more[self.lead]
            runs = ((runs & (rises < stops)) | (falls < starts) | calls) & allowed
            now[:] = runs
            self._step(np.where(runs, more, want), change, pace)
        self.on = runs


@dataclass(frozen=True)
class _Pace:
    """What bounds a bank on one day: the share of what is missing that goes in within a step, the
    Wh that go in, the charge that stays in, and the Wh that come out (None: no bound)."""

    gain: Array
    room: Array
    floor: Array
    gives: Array | None


def _lead(scene: Scene) -> tuple[int, bool]:
    """The largest bank that a set charges, by which it is started; whether there is one."""
    banks = [
        bank
        for mode, wiring in scene.plant.wirings.items()
        for charge in wiring.charges
        for bank, _ in charge.banks
        if mode.run and charge.firm is not None
    ]
    return min(banks, default=0), bool(banks)


def _net(asked: Asked) -> Array:
    """What comes less what is asked, before the bank has its say."""
    found: Array = asked.sun + asked.engine + asked.firm - asked.need
    return found


def _chosen(asked: DaysAsked, on: Array) -> Asked:
    """Of each step the mode that held."""
    if asked.running is None or not on.any():
        return asked.still
    deep = on[:, None, :]
    pairs = zip(vars(asked.still).values(), vars(asked.running).values(), strict=True)
    return Asked(*(np.where(deep if a.ndim == 3 else on, b, a) for a, b in pairs))


def _share(part: Array, whole: Array) -> Array:
    found: Array = np.divide(part, whole, out=np.zeros_like(whole), where=whole > 0.0)
    return found


def _booked(
    run: _Run, some: Days, asked: DaysAsked, flow: Array, leaked: Array, on: Array, charge: Array,
    before: Array,
) -> Outcome:  # fmt: skip
    """The books of some days: who got what, and what was lost where."""
    held = _chosen(asked, on)
    rest = flow - _net(held)
    short, spare = np.maximum(rest, 0.0), np.maximum(-rest, 0.0)
    firm = held.firm - np.minimum(spare, held.firm)
    spare = np.maximum(spare - held.firm, 0.0)
    engine = held.engine - np.minimum(spare, held.engine)
    sun = held.sun - np.maximum(spare - held.engine, 0.0)
    met = 1.0 - _share(short, held.need)
    taken = {
        "sun": _share(sun, held.sun) * held.sun_in,
        "engine": _share(engine, held.engine) * held.engine_in,
        "firm": _share(firm, held.firm) * held.firm_in,
    }
    came = sun + engine + firm
    converted = sum(taken.values()) - came + (held.need - held.loads) * met
    there = np.sqrt(run.banks.back)
    lost = np.where(flow > 0.0, flow * (1.0 - there), -flow * (1.0 / there - 1.0))
    lost = lost + leaked / run.hours
    outer = held.outer + taken["firm"].sum(axis=1)
    return Outcome(
        some, charge, before, (held.loads * met).sum(axis=1) + held.outer,
        (held.loads * (1.0 - met)).sum(axis=1), short, held.beyond, held.dead,
        taken["sun"].sum(axis=1), taken["engine"].sum(axis=1), np.where(on, 0.0, outer),
        np.where(on, outer, 0.0), (held.sun_in - taken["sun"]).sum(axis=1),
        converted.sum(axis=1), lost.sum(axis=1), on.astype(float), run.hours,
    )  # fmt: skip
