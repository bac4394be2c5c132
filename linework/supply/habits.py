"""When loads run: from what a person says of each, else from the usual habit of its kind."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from linework.design import Design, Part
from linework.kinds import Values
from linework.quantity import read
from linework.supply.figures import figure, habit_row

Array = np.ndarray
_HOUR = 3600.0
_THERMOSTATS = ("keeps_cold", "cools_room", "heats_room")


@dataclass(frozen=True)
class Habit:
    """How a load runs.

    ``start`` and ``end``: between these hours of the day; ``hours``: so many of them, spread
    evenly; ``share``: the part of that in which it draws. ``first`` and ``last``: months, 1 to 12.
    ``given``: somebody said so; else it is the usual one of its kind, the row ``row``.
    """

    use: str
    hours: float
    start: float
    end: float
    share: float
    first: int = 1
    last: int = 12
    given: bool = True
    row: str = ""

    @property
    def hours_a_day(self) -> float:
        """Hours a day at full power, in its season; of a thermostat at the told temperature."""
        return self.hours * self.share


def habit_of(design: Design, part: Part) -> Habit:
    """The habit of a part that consumes; each answer that is missing is taken from its row."""
    values, kind = design.values(part), design.kind(part)
    name = kind.habit(values) or "laptop"
    row = habit_row(name)
    use = values.pick("use")
    said = use != "unsaid" or any(values.given(key) for key in ("use_hours", "use_share"))
    use = row["use"] if use == "unsaid" else use
    if use == "never":
        return Habit("never", 0.0, 0.0, 24.0, 0.0, given=said, row=name)
    whole = use == "always" or use != row["use"]
    start = _hours(values, "use_from", 0.0 if whole else _told(row["from"]))
    end = _hours(values, "use_until", 24.0 if whole else _told(row["until"]))
    length = (end - start) % 24.0 or 24.0
    usual = length if whole and use != "hours" else min(_told(row["hours"]), length)
    hours = min(_hours(values, "use_hours", usual), length)
    share = values.opt("use_share")
    if share is None:
        share = 1.0 if use in ("always", "hours") and whole else read(row["share"], "ratio")
    return Habit(
        use, hours, start, end, share, int(values.num("use_first")), int(values.num("use_last")),
        said, name,
    )  # fmt: skip


def _told(text: str) -> float:
    return read(text, "time") / _HOUR


def _hours(values: Values, key: str, default: float) -> float:
    found = values.opt(key)
    return default if found is None else found / _HOUR


def wanted(habit: Habit, month: Array, air_c: Array) -> Array:
    """The part of its power that a load takes on average in each step, (days, steps, samples).

    What has a thermostat runs in proportion to how far the air is from where it would not run
    (steady loss through walls, common practice).
    """
    steps = air_c.shape[-2]
    length = (habit.end - habit.start) % 24.0 or 24.0
    on = within(habit.start, length, steps)[:, None] * (habit.hours / length)
    season = _in_season(habit.first, habit.last, month)
    if habit.use not in _THERMOSTATS:
        plain: Array = on * season * habit.share * np.ones_like(air_c)
        return plain
    name = habit.use.replace("_", "-")
    reference, still = figure(f"{name}-reference").usual, figure(f"{name}-inside").usual
    pull = np.clip(habit.share * (air_c - still) / (reference - still), 0.0, 1.0)
    found: Array = on * season * pull
    return found


def within(start: float, length: float, steps: int) -> Array:
    """The part of each step that lies within a span of the day, which may go over midnight."""
    edges = np.arange(steps) * 24.0 / steps
    width = 24.0 / steps
    found = np.zeros(steps)
    for shift in (-24.0, 0.0, 24.0):
        low = np.maximum(edges, start + shift)
        high = np.minimum(edges + width, start + length + shift)
        found += np.maximum(high - low, 0.0) / width
    return found


def _in_season(first: int, last: int, month: Array) -> Array:
    number = np.asarray(month) + 1
    inside = (number >= first) & (number <= last)
    over = (number >= first) | (number <= last)
    return (inside if first <= last else over).astype(float)
