"""Study: what faults to metal do to a person who touches it, and for how long."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from linework.circuit.series import string_v
from linework.codes import CodesError
from linework.design import Design, Part
from linework.study.answers.trust import known_faults
from linework.study.once import once
from linework.study.shorts.clearing import Ending
from linework.study.shorts.faults import Fault
from linework.study.situation import Situation, System
from linework.study.studies import Studies
from linework.study.wires.ratings import rules_of
from linework.wiring import Pole


@dataclass(frozen=True)
class Shock:
    """A fault to metal with its endings at weakest and strongest sources.

    ``returns``: whether metal or soil leads its current back; ``by_soil``: soil alone.
    ``system_v``: voltage of the source. ``limit_v`` and ``limit_s``: what the family allows on
    metal, and for how long.
    """

    fault: Fault
    weak: Ending
    strong: Ending
    owners: tuple[str, ...]
    returns: bool
    by_soil: bool
    system_v: float
    limit_v: float
    limit_s: float

    @property
    def worst(self) -> Ending:
        """The ending with the longer time above the touch limit, else the longer time at all."""
        key = (self.weak.over_v_for_s(self.limit_v), self.weak.latest_s)
        other = (self.strong.over_v_for_s(self.limit_v), self.strong.latest_s)
        return self.weak if key >= other else self.strong

    @property
    def metal_v(self) -> float:
        """The higher voltage on metal, in volt."""
        found = [e.metal_v for e in (self.weak, self.strong) if e.metal_v is not None]
        return max((v for v in found if not math.isnan(v)), default=0.0)

    @property
    def dangerous(self) -> bool:
        """Whether metal stands above the limit for longer than allowed."""
        return any(e.over_v_for_s(self.limit_v) > self.limit_s for e in (self.weak, self.strong))


@once
def shocks(studies: Studies, design: Design) -> list[Shock]:
    """Every fault to metal of a state, except at double-insulated loads."""
    return list(_shocks(studies, design))


def _shocks(studies: Studies, design: Design) -> Iterator[Shock]:
    situation = studies.situation
    for index, fault in enumerate(known_faults(studies)):
        if fault.point.kind != "metal" or untouchable(design, situation, fault):
            continue
        systems = [s for s in situation.feeds(fault.point.node) if s.hertz == fault.point.hertz]
        label = situation.conductive
        system_v = max((string_v(situation, s.source, label) for s in systems), default=0.0)
        dc = fault.point.hertz == 0.0
        try:
            endings = studies.ending(index), studies.ending(index, strong=True)
        except CodesError:
            continue  # "not-analysed" tells of devices that no table knows
        yield Shock(
            fault,
            *endings,
            tuple(sorted({s.owner for s in systems})),
            returns := _returns(situation, situation.conductive, fault, systems),
            returns and not _returns(situation, situation.metallic, fault, systems),
            system_v,
            rules_of(design).touch_limit_v(dc, design.settings.wet).value,
            rules_of(design).disconnection_s(system_v, dc=dc).value,
        )


def _returns(situation: Situation, label: list[int], fault: Fault, systems: list[System]) -> bool:
    """Whether what these labels join, or another winding, leads the current back; capacitance does
    not count."""
    here = label[fault.point.to_node]
    return any(here in _leading_back(situation, label, system) for system in systems)


def _leading_back(situation: Situation, label: list[int], system: System) -> set[int]:
    """Labels of all from which current finds the return end of a winding, not through itself."""
    others = [
        {label[source.plus], label[source.minus]}
        for index, source in situation.active
        if index != system.source and source.data.hertz == system.hertz
    ]
    reached = {label[situation.circuit.sources[system.source].minus]}
    while more := [pair for pair in others if pair & reached and pair - reached]:
        reached.update(*more)
    return reached


def touched(situation: Situation, found: Iterable[Shock]) -> tuple[str, ...]:
    """What a person touches who is hurt by one of these: the parts with metal of their own, and
    the bodies on it; a breaker or plug has none. Where no such part is near, all that hangs there.
    """
    points = [shock.fault.point for shock in found]
    label = situation.metallic
    metals, near = {label[p.to_node] for p in points}, {p.part for p in points}
    there = [m for m in situation.circuit.metals if label[m.node] in metals]
    own = {m.owner for m in there if m.data.body or m.owner in near}
    return tuple(sorted(own or {m.owner for m in there}))


@once
def _metals(situation: Situation) -> frozenset[int]:
    """The labels of all that metal joins and of which some can be touched."""
    return frozenset(situation.metallic[m.node] for m in situation.circuit.metals)


def untouchable(design: Design, situation: Situation, fault: Fault) -> bool:
    """Nothing to touch: a terminal without a ground wire and without metal of its own, a ground
    wire that joins no metal (in a plastic box), a double-insulated part."""
    if situation.metallic[fault.point.to_node] not in _metals(situation):
        return True
    nodes = situation.circuit.terminals[fault.point.part, fault.point.terminal]
    if Pole.PE not in nodes:
        return fault.point.hertz > 0.0
    part = design.get(fault.point.part)
    if not isinstance(part, Part):
        return False
    values = design.values(part)
    if "case" in values.declared and values.pick("case") == "insulated":
        return True
    return "marked" in values.declared and values.pick("marked") == "no_ground"
