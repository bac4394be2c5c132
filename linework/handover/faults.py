"""The shorts at every point: the least and most current, voltage on metal, what ends them, when."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from typing import TypeAlias

from reportlab.platypus import Flowable

from linework.design import End
from linework.design.names import natural
from linework.findings.evidence import value_text
from linework.handover.content import Content
from linework.handover.ends import end_text
from linework.handover.sheets import Room
from linework.handover.styles import Cell, table, text, with_room
from linework.study.report import FaultReport
from linework.words import N_

HOT_TO_HOT = N_("{hot} to {hot}")
_TO_METAL = N_("to metal")
SOURCE = "source"
"""What stands for a device in a report where the source itself ends a short."""
FLOWS = 1e-3
"""What drives less (ampere) is no fault current."""


def at_part(content: Content, part: str) -> tuple[float, float] | None:
    """The least and most current of any short at a part, faults to metal included, over all states
    of rest; None where none flows."""
    at = [f for r in content.reports for f in r.faults if f.part == part and f.weak_a > FLOWS]
    return (min(f.weak_a for f in at), max(f.strong_a for f in at)) if at else None


def fault_table(content: Content, room: Room) -> list[Flowable]:
    """One line for each part and kind of short, parts of which the same is to be said in one: over
    all states the span of currents, the most on metal, and the latest end."""
    say = content.say
    found: dict[tuple[Spot, str], list[FaultReport]] = {}
    for report in content.reports:
        for fault in report.faults:
            if fault.weak_a > FLOWS and _can_be_found(content, fault):
                found.setdefault((_point(content, fault), between(fault)), []).append(fault)
    rows = _rows(content, found)
    heads = [
        say("point"),
        say("short"),
        say("least"),
        say("most"),
        say("on metal"),
        say("ended by"),
        say("at the latest"),
    ]
    return [
        with_room(),
        text(say("Faults and what ends them"), "heading", anchor="faults"),
        text(
            say(
                "Dead shorts of every state; least: weakest source, hot wires; most: strongest,"
                " cold wires. On metal: the most of both; by what and when: the latest end, which"
                " need not be that of the most on metal. A source that gives up is no isolation: it"
                " may come back. Where minutes stand, no magnetic release is assumed below the"
                " current from which the maker promises one."
            ),
            "small",
        ),
        table(heads, rows, room.width, right=(2, 3, 4)) if rows else text(say(NO_FAULT)),
    ]


NO_FAULT = N_("In no state does a short drive a current.")


def _can_be_found(content: Content, fault: FaultReport) -> bool:
    """At a terminal that a person can find, not at a point inside a part."""
    design = content.design
    part = design.part(fault.part)
    return fault.terminal in {t.name for t in design.kind(part).terminals(design.values(part))}


Spot: TypeAlias = tuple[str, str]
"""A part, and of what takes and gives current the terminal, for its sides have other sources."""


def _point(content: Content, fault: FaultReport) -> Spot:
    kind = content.design.kind(content.design.part(fault.part))
    return fault.part, fault.terminal if kind.source and not kind.source.stores else ""


def _rows(
    content: Content, found: Mapping[tuple[Spot, str], list[FaultReport]]
) -> list[list[Cell]]:
    """In the order of the first point of each."""
    sides: dict[str, set[str]] = {}
    for (part, terminal), _ in found:
        sides.setdefault(part, set()).add(terminal)
    names = {
        (part, terminal): end_text(content, End(part, terminal))
        if len(sides[part]) > 1
        else content.name(part)
        for (part, terminal), _ in found
    }
    alike: dict[tuple[str, ...], list[Spot]] = {}
    for spot, short in sorted(found, key=lambda key: (natural(names[key[0]]), key[1])):
        alike.setdefault(_told(content, found[spot, short]), []).append(spot)
    return [
        [[_linked(content, spot, names[spot]) for spot in spots], *told]
        for told, spots in alike.items()
    ]


def _linked(content: Content, spot: Spot, name: str) -> Flowable:
    """With a link to where it is drawn."""
    return text(name, "cell", link=content.link_to(spot[0]))


def _told(content: Content, faults: list[FaultReport]) -> tuple[str, ...]:
    joins = between(faults[0])
    last = max(faults, key=lambda f: (f.latest_s, weight(f)))
    touched = [v for v in map(metal_v, faults) if not math.isnan(v)]
    volts = _metal_volts(max(touched, default=math.nan)) if joins == _TO_METAL else ""
    return (
        content.say(joins),
        value_text(min(f.weak_a for f in faults), "current"),
        value_text(max(f.strong_a for f in faults), "current"),
        volts,
        _ended_by(content, last, faults),
        value_text(last.latest_s, "time"),
    )


def _ended_by(content: Content, last: FaultReport, faults: Iterable[FaultReport]) -> str:
    """What ends it at the latest; and that in another state no device does."""
    if last.by == SOURCE:
        return content.say("source gives up")
    by = content.name(last.by) or content.say("nothing")
    gives_up = any(f.by == SOURCE for f in faults)
    return content.say("{device} or source", device=by) if gives_up else by


def between(fault: FaultReport) -> str:
    """Which conductors a short joins."""
    if fault.kind == "metal":
        return _TO_METAL
    if fault.pole in ("+", "-"):
        return N_("plus to minus")
    return N_("{hot} to {neutral}") if fault.to == "N" else HOT_TO_HOT


def metal_v(f: FaultReport) -> float:
    """The most on metal, at the weakest source or at the strongest; NaN: not defined."""
    found = [v for v in (f.metal_v, f.strong_metal_v) if v is not None and not math.isnan(v)]
    return max(found, default=math.nan)


def span_text(content: Content, least_a: float, most_a: float) -> str:
    """ "37.5 to 530 A"; two units where they differ."""
    least, most = (value_text(amps, "current") for amps in (least_a, most_a))
    if least == most:
        return most
    figure, unit = least.split()
    least = figure if most.endswith(f" {unit}") else least
    return content.say("{least} to {most}", least=least, most=most)


def _metal_volts(volts: float) -> str:
    """Less than a tenth of a volt is what rounding leaves of none."""
    return value_text(0.0 if volts < 0.1 else volts, "voltage")


def weight(f: FaultReport) -> tuple[float, float, float]:
    """The longest of those that leave a voltage on metal above 50 V, else the highest voltage."""
    volts = 0.0 if f.metal_v is None or math.isnan(f.metal_v) else f.metal_v
    lasts = min(f.latest_s, 1e6)
    return (lasts if volts > 50.0 or f.kind != "metal" else 0.0, volts, lasts)
