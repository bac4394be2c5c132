"""Study: what devices carry with all drawn loads on, and the runs that they protect."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from linework.circuit.model import Device
from linework.codes import CodesError
from linework.design import Design
from linework.study.answers.trust import loaded_or_none
from linework.study.slack import within
from linework.study.studies import Studies
from linework.study.ways.protection import smallest
from linework.study.wires.ratings import rules_of

HARDLY = 0.4
"""Below this share of its rating no load is too much: half of 80 %, whatever the wires lose."""


@dataclass(frozen=True)
class Carried:
    """A device with the current of its worst contact in ampere, and the part of it that flows
    long."""

    device: Device
    amps: float
    long_a: float

    @property
    def rating_a(self) -> float:
        """Its rating in ampere."""
        return self.device.data.rating_a


def carried(studies: Studies) -> Iterator[Carried]:
    """Every device in circuit of a state whose loads could be solved, unless it is hardly used."""
    loaded = loaded_or_none(studies)
    if loaded is None:
        return
    for device in studies.circuit.devices:
        contacts = [i for i in device.branches if i in studies.situation.closed]
        most_a = max(map(loaded.amps, contacts), default=0.0)
        if most_a > HARDLY * device.data.rating_a:
            # Of contacts that carry the same, the one whose current flows long.
            hardest = [i for i in contacts if within(most_a, loaded.amps(i))]
            yield Carried(device, *max(map(studies.demand.amps, hardest), key=lambda a: a[::-1]))


def needed_a(design: Design, item: Carried) -> float:
    """The rating in ampere that a device needs for what it carries, long loads counted as the
    family has it; where it has no rule for them as they are."""
    try:
        rules = rules_of(design)
        return rules.design_current(item.amps - item.long_a, item.long_a).value
    except CodesError:
        return item.amps


def runs_behind(studies: Studies, device: Device) -> frozenset[str]:
    """The runs that a device protects in a state."""
    situation = studies.situation
    return frozenset(feed.run for feed in studies.feeds if smallest(situation, feed) is device)
