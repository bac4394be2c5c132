"""Load calculation of dwellings and vehicles by the methods of their articles, line by line."""

from __future__ import annotations

from collections.abc import Iterator

from reportlab.lib.units import mm
from reportlab.platypus import Flowable, Spacer

from linework.codes import CodesError
from linework.codes.demands import Demands
from linework.design import Part
from linework.design.names import natural
from linework.handover.content import Content
from linework.handover.sheets import Room
from linework.handover.styles import Cell, table, text, with_room
from linework.study.demand.drawn import (
    drawn_dwelling,
    inlets_aboard,
    is_dwelling,
    vehicle_circuits,
)
from linework.study.demand.dwelling import Dwelling, neutral_va, optional, standard
from linework.study.demand.lines import Calculation, Line
from linework.study.wires.ratings import rules_of


def dwellings(content: Content, room: Room) -> list[Flowable]:
    """Each dwelling by the standard method and, from 100 A on, by the optional one; where its
    floor area is not given, that. The supply that a vehicle needs by its circuits."""
    try:
        demands = rules_of(content.design).demands()
    except CodesError:
        return []
    supplies = [p for p in content.design.parts if is_dwelling(content.design, p)]
    supplies.sort(key=lambda part: natural(part.designation))
    out = [each for part in supplies for each in _dwelling(content, part, demands, room)]
    return [*out, *_vehicle(content, demands)]


def _dwelling(content: Content, supply: Part, demands: Demands, room: Room) -> Iterator[Flowable]:
    say, name = content.say, content.full_name(supply.id)
    fed = {
        load.part
        for report in content.reports
        for load in report.loads
        if supply.id in load.sources
    }
    dwelling = drawn_dwelling(content.design, supply, fed)
    yield with_room()
    yield text(say("Load calculation: the dwelling on {supply}", supply=name), "heading")
    if dwelling is None:
        told = say(
            "Not by the methods of article 220: they need the floor area, which the card of"
            " {supply} does not give. What is summed instead is the drawn loads, above.",
            supply=supply.designation,
        )
        yield text(told, "small")
        return
    values = content.design.values(supply)
    legs = (2.0 if values.pick("circuit") == "split" else 1.0) * values.num("voltage")
    yield from _method(content, dwelling, supply, demands, room, legs)


def _method(
    content: Content, dwelling: Dwelling, supply: Part, demands: Demands, room: Room, volts: float
) -> Iterator[Flowable]:
    """``volts``: between its hots."""
    say = content.say
    device = content.design.values(supply).num("breaker")
    try:
        by_standard = standard(dwelling, demands)
    except CodesError as fault:
        yield text(say("Not by the standard method: {fault}", fault=fault), "small")
    else:
        service = demands.figure("service")
        end = say(
            "; neutral {amps} A ({clause}); service of one dwelling {least} A at least ({service})",
            amps=f"{neutral_va(dwelling, demands) / volts:.1f}",
            clause=_short(demands.figure("neutral_share").clause),
            least=f"{service.value:.0f}",
            service=_short(service.clause),
        )
        yield text(say("Standard method, 220 part III"), "strong")
        yield _lines(content, by_standard, room, volts, device, end)
    least = demands.figure("optional_service")
    if device < least.value:
        told = say(
            "Not by the optional method: it begins at {amps} A ({clause}).",
            amps=f"{least.value:.0f}",
            clause=least.clause,
        )
        yield text(told, "small")
        return
    yield Spacer(1, 2 * mm)
    yield text(say("Optional method, 220.82"), "strong")
    yield _lines(content, optional(dwelling, demands), room, volts, device, "")


def _lines(
    content: Content, made: Calculation, room: Room, volts: float, device_a: float, end: str
) -> Flowable:
    say = content.say
    heads = [say("line"), say("VA"), say("counts VA"), say("clause")]
    rows: list[list[Cell]] = [_line(content, line) for line in made.lines]
    amps = made.total / volts
    told = say(
        "together: {amps} A at {volts} V, {percent} % of {device} A",
        amps=f"{amps:.1f}",
        volts=f"{volts:g}",
        percent=f"{100 * amps / device_a:.0f}",
        device=f"{device_a:g}",
    )
    rows.append(
        [text(told + end, "strong"), "", text(f"{made.total:.0f}", "strong", right=True), ""]
    )
    return table(heads, rows, room.width, right=(1, 2))


def _line(content: Content, line: Line) -> list[Cell]:
    by = line.by
    sure = "" if by is None or by.confirmed else content.say(" (not confirmed)")
    counts = f"{line.counts:.0f}" if line.counts else ""
    clause = "" if by is None else _short(by.clause) + sure
    return [content.say(line.what, **line.words), f"{line.of:.0f}", counts, clause]


def _short(clause: str) -> str:
    """A clause without its standard, which the title block names: "220.52(A)"."""
    return clause.split(") ", 1)[-1]


def _vehicle(content: Content, demands: Demands) -> Iterator[Flowable]:
    """The least supply by the number of circuits, beside each inlet."""
    number = vehicle_circuits(content.design)
    inlets = inlets_aboard(content.design)
    if not number or not inlets:
        return
    least = demands.vehicle_supply(number)
    made = ", ".join(
        f"{content.name(part)} {amps:g} A" for part, amps in sorted(inlets.items()) if amps
    )
    told = content.say(
        "Vehicle by its circuits ({clause}{sure}): {number} on alternating current ask for a supply"
        " of {least} A at least; inlets: {inlets}.",
        clause=least.clause,
        sure="" if least.confirmed else content.say(", not confirmed"),
        number=str(number),
        least=f"{least.value:.0f}",
        inlets=made or content.say("not given"),
    )
    yield Spacer(1, 2 * mm)
    yield text(told, "small")
