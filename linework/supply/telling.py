"""The answers in sentences that a person without a course understands."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from linework.design import Design
from linework.supply.answers import Answers, Month, Moved
from linework.supply.assumptions import Assumption
from linework.supply.climate import LENGTHS
from linework.supply.together import Together
from linework.wiring import Three
from linework.words import N_, say

MONTH_NAMES = (
    N_("January"), N_("February"), N_("March"), N_("April"), N_("May"), N_("June"), N_("July"),
    N_("August"), N_("September"), N_("October"), N_("November"), N_("December"),
)  # fmt: skip
_HARDLY_H, _HARDLY_KWH = 1.0, 0.05
_MOST_BARRED = 8
_FEW = 5
"""So many assumptions are told that move the answers most."""


def sentences(design: Design, found: Answers) -> list[str]:
    """Every line of the answer, what is assumed last."""
    return [
        *_place(found),
        *_verdict(design, found),
        *_charge(found),
        *_set(design, found),
        *_wasted(found),
        *_moves(design, found),
        *_left_out(design, found),
        *_assumed(design, found.assumptions),
        *_links(found),
        say("Bands: one year in ten lies under the first figure, half under the middle one, nine in"
            " ten under the last. Worked out from the assumptions above; a real year differs."),
        say("Left out: what is lost in the wires of loads, snow, and peaks shorter than a quarter"
            " of an hour."),
    ]  # fmt: skip


def run_together(design: Design, found: Sequence[Together]) -> list[str]:
    """What may not run together on each source, and what may."""
    lines: list[str] = []
    for each in found:
        source = name(design, each.source)
        if each.alone:
            lines.append(say("{loads} asks more than {source} gives, by itself.",
                             loads=_names(design, each.alone), source=source))  # fmt: skip
        barred = [b for b in each.barred if len(b) > 1]
        lines += [
            say("Not {loads} together on {source}.", source=source, loads=_and(design, some))
            for some in barred[:_MOST_BARRED]
        ]
        if len(barred) > _MOST_BARRED:
            more = len(barred) - _MOST_BARRED
            lines.append(say("... and {more} more sets on {source}.", more=more, source=source))
        if not each.barred:
            lines.append(say("All that hangs on {source} may run together, by its rating.",
                             source=source))  # fmt: skip
        if each.surge_a is None:
            lines.append(say("What {source} gives for a start is not known: starting motors were"
                             " not looked at.", source=source))  # fmt: skip
        if each.always:
            lines.append(say("Taken as always on: {loads}.", loads=_names(design, each.always)))
    return lines


def _and(design: Design, parts: Sequence[str]) -> str:
    told = [name(design, part) for part in sorted(parts)]
    return say("{some} and {last}", some=", ".join(told[:-1]), last=told[-1])


def name(design: Design, part: str) -> str:
    """A part as people call it: "EA1 refrigerator"."""
    element = design.part(part)
    return " ".join(filter(None, (element.designation, element.title)))


def _names(design: Design, parts: Sequence[str]) -> str:
    return ", ".join(name(design, part) for part in sorted(parts))


def _three(band: Three, digits: int = 0) -> str:
    """ "3 to 9, usually 5"; one figure where they are the same."""
    low, usual, high = (f"{value:.{digits}f}" for value in (band.low, band.usual, band.high))
    if low == usual == high:
        return usual
    return say("{low} to {high}, usually {usual}", low=low, usual=usual, high=high)


def _percent(band: Three) -> str:
    scaled = Three(*(100.0 * max(x, 0.0) for x in (band.low, band.usual, band.high)))
    return _three(scaled) + " %"


def _place(found: Answers) -> Iterator[str]:
    climate = found.climate
    if climate.assumed:
        yield say(
            "Nobody says where this is: the sun and warmth of {place} are taken [assumed]. Set"
            " climate, or latitude with own figures, in the settings.",
            place=climate.place,
        )
    else:
        yield say("Place: {place}, {latitude:g} degrees.", place=climate.place,
                  latitude=climate.latitude)  # fmt: skip
    if climate.licence:
        yield say("Its sun is from {licence}.", licence=climate.licence)
    if not climate.known:
        yield say("Its warmth is guessed by latitude and height [assumed].")


def _verdict(design: Design, found: Answers) -> Iterator[str]:
    if not found.scene.facts.loads:
        yield say("Nothing is drawn that uses power.")
        return
    hours, kwh, waits = found.year.short_h, found.year.unmet, found.year.waits_h
    worst = say(MONTH_NAMES[found.worst])
    carried = hours.high < _HARDLY_H and kwh.high < _HARDLY_KWH
    if carried and (waits.high >= _HARDLY_H or found.never_fed or found.sealed):
        yield say("What hangs on a battery is carried through the year under these assumptions;"
                  " not all loads are: see below.")  # fmt: skip
        return
    if carried:
        yield say("Under these assumptions the loads are carried in nine years of ten at least; the"
                  " month that asks most is {month}.", month=worst)  # fmt: skip
        return
    yield say("Some loads are without supply for {hours} hours a year ({kwh} kWh missing).",
              hours=_three(hours), kwh=_three(kwh, 1))  # fmt: skip
    month = found.months[found.worst]
    yield say("The worst month is {month}: {hours} of its {whole} hours, {kwh} kWh missing.",
              month=worst, hours=_three(month.short_h), whole=24 * LENGTHS[found.worst],
              kwh=_three(month.unmet, 1))  # fmt: skip


def _charge(found: Answers) -> Iterator[str]:
    if not any(found.scene.plant.banks):
        yield say(
            "There is no battery: what the sun or an engine does not give is missing at once."
        )
        return
    month = found.months[found.worst]
    yield say("Least charge of the battery in a year: {least}; in {month}: {then}. It counts as"
              " empty at {floor:.0f} %.", least=_percent(found.year.least),
              month=say(MONTH_NAMES[found.worst]), then=_percent(month.least),
              floor=100.0 * found.floor[0])  # fmt: skip


def _set(design: Design, found: Answers) -> Iterator[str]:
    if not found.scene.facts.sets:
        return
    sets = _names(design, [*found.scene.facts.sets])
    worst, year = found.months[found.worst], found.year
    if year.set_h.high < _HARDLY_H:
        yield say("{sets} need not run.", sets=sets)
        return
    yield say("{sets}: {hours} hours in {month}, {year} a year.", sets=sets,
              hours=_three(worst.set_h), month=say(MONTH_NAMES[found.worst]),
              year=_three(year.set_h))  # fmt: skip
    if all(s.line is None for s in found.scene.facts.sets.values()):
        yield say("How much {sets} burn is not worked out: there are no figures for that fuel.",
                  sets=sets)  # fmt: skip
    else:
        yield say("Fuel: {litres} litres in {month}, {year} a year; mean load {load:.0f} % of the"
                  " rating.", litres=_three(worst.litres), month=say(MONTH_NAMES[found.worst]),
                  year=_three(year.litres), load=100.0 * found.set_load)  # fmt: skip


def _wasted(found: Answers) -> Iterator[str]:
    year: Month = found.year
    if found.scene.facts.arrays:
        yield say("Sun: {sun} kWh a year are used, {wasted} kWh find no taker.",
                  sun=_three(year.sun), wasted=_three(year.wasted))  # fmt: skip


def _moves(design: Design, found: Answers) -> Iterator[str]:
    told = [m for m in found.moved if _counts(m)][:_FEW]
    if told:
        yield say("What moves this most:")
    for each in told:
        yield "    " + _move(design, found, each)


def _counts(each: Moved) -> bool:
    hours = abs(each.high[1] - each.low[1])
    return (
        abs(each.high[0] - each.low[0]) > _HARDLY_KWH
        or hours > _HARDLY_H
        or (abs(each.high[2] - each.low[2]) > 0.01)
    )


def _move(design: Design, found: Answers, each: Moved) -> str:
    a = each.assumption
    what = say(a.what) + (f" ({name(design, a.part)})" if a.part else "")
    ends = [
        _end(found, value, *told)
        for value, told in ((a.band.low, each.low), (a.band.high, each.high))
    ]
    return f"{what}: {'; '.join(ends)}"


def _end(found: Answers, value: float, unmet: float, hours: float, least: float) -> str:
    told = say("at {value:g} {unmet:.1f} kWh a year missing, least charge {least:.0f} %",
               value=value, unmet=unmet, least=100.0 * least)  # fmt: skip
    if not found.scene.facts.sets:
        return told
    return say("{told}, {hours:.0f} h of the set", told=told, hours=hours)


def _left_out(design: Design, found: Answers) -> Iterator[str]:
    if found.outer_only and found.year.waits_h.high >= _HARDLY_H:
        yield say("Only shore or a set feeds {loads}: wanted and off for {hours} hours a year, most"
                  " in {month}.", loads=_names(design, found.outer_only),
                  hours=_three(found.year.waits_h), month=_waiting_most(found))  # fmt: skip
    if found.never_fed:
        yield say("Nothing ever feeds {loads}.", loads=_names(design, found.never_fed))
    if found.sealed:
        yield say("Not worked out: {loads} hang on cells that are sealed into a part; what"
                  " those hold is not drawn.", loads=_names(design, found.sealed))  # fmt: skip


def _waiting_most(found: Answers) -> str:
    most = max(range(12), key=lambda m: found.months[m].waits_h.usual)
    return say(MONTH_NAMES[most])


def _links(found: Answers) -> Iterator[str]:
    charges = (c for w in found.scene.plant.wirings.values() for c in w.charges)
    if any(c.link is not None for c in charges):
        yield "    [" + say("chargers from battery to battery work only while an engine runs") + "]"


def _assumed(design: Design, every: Sequence[Assumption]) -> Iterator[str]:
    mine = [a for a in every if a.assumed]
    if mine:
        yield say("Assumed, because nobody said it:")
    for a in sorted(mine, key=lambda each: (each.part, each.key)):
        where = name(design, a.part) + ": " if a.part else ""
        ends = dict.fromkeys((a.band.low, a.band.usual, a.band.high))
        band = " .. ".join(f"{value:g}" for value in ends)
        note = f" ({a.note})" if a.note else ""
        yield f"    [{where}{say(a.what)} {band}{note}]"
