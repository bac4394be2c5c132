"""What is measured on the finished installation, with the value to expect: a pure function.

Dead tests stand before insulation, and both before what is measured live. Every measurement has a
key that does not change with the order or the language, so that what is written beside it can be
read back.
"""

from __future__ import annotations

from linework.handover.content import Content
from linework.handover.devices import schedule_sheet
from linework.handover.measurements.batteries import batteries, chargers, suns
from linework.handover.measurements.dead import counts, grounds, links, looks, minus, polarity
from linework.handover.measurements.insulation import insulation, insulation_first
from linework.handover.measurements.line import Block, Bounds, Measurement
from linework.handover.measurements.outlets import direct, faults, legs, loops, outlets
from linework.handover.measurements.running import fumes, heat, motors, sets, supplies, trips
from linework.handover.measurements.transfers import pins, transfers, under_load

__all__ = ["Block", "Bounds", "Measurement", "insulation_first", "measurements", "numbers"]

_MAKERS = (
    looks,
    grounds,
    links,
    counts,
    minus,
    polarity,
    insulation,
    sets,
    supplies,
    outlets,
    legs,
    trips,
    loops,
    faults,
    transfers,
    pins,
    under_load,
    direct,
    motors,
    chargers,
    batteries,
    suns,
    heat,
    fumes,
)


def measurements(content: Content) -> list[Measurement]:
    """In the order in which they are made; worked out once, for the one page that they name."""
    return content.once(("measurements", schedule_sheet(content)), lambda: _made(content))


def _made(content: Content) -> list[Measurement]:
    found = [each for made in _MAKERS for each in made(content)]
    return sorted(found, key=lambda each: each.block)


def numbers(content: Content) -> dict[str, int]:
    """Key of each -> its number on the sheet."""
    return {each.key: number for number, each in enumerate(measurements(content), start=1)}
