"""Mistakes at batteries, arrays, sources and loads."""

from __future__ import annotations

from collections.abc import Iterator

from linework.design import Design, Part
from linework.kinds import Answer
from tests.trial.judge.poles import poles
from tests.trial.judge.reading import amount
from tests.trial.mistakes.change import (
    Edit,
    Made,
    PoleNames,
    mapped,
    parts,
    poles_of,
    rated,
    told,
    tried,
)


def battery_turned(design: Design) -> Iterator[Made]:
    """A battery with its posts exchanged: every lead on the wrong post."""
    for item in parts(design, "battery"):
        if any(seat.host == item.id for seat in design.seats):
            continue
        edits: list[Edit] = []
        for run in design.runs_at(item.id):
            at_a = run.a.part == item.id
            edits.append(mapped(run, _turned(poles_of(design, run), at_a)))
        yield from tried(design, (item.id, *_leads(design, item)), *edits)


def _turned(poles: PoleNames, at_a: bool) -> PoleNames:
    other = {"+": "-", "-": "+"}
    if at_a:
        return tuple((other[p], q) for p, q in poles)
    return tuple((p, other[q]) for p, q in poles)


def _leads(design: Design, item: Part) -> tuple[str, ...]:
    return tuple(run.id for run in design.runs_at(item.id))


def battery_of_other_voltage(design: Design) -> Iterator[Made]:
    """A block of twice the voltage."""
    for item in parts(design, "battery"):
        volts = f"{2 * amount(told(item).word('voltage', '12 V')):g} V"
        yield from tried(design, (item.id, *_leads(design, item)), rated(item.id, voltage=volts))


def load_of_half_the_voltage(design: Design) -> Iterator[Made]:
    """A 12 V load on 24 V, a 120 V load on 240 V."""
    for item in _loads(design, "dc", "ac240"):
        volts = f"{amount(told(item).word('voltage', '12 V')) / 2:g} V"
        yield from tried(design, (item.id,), rated(item.id, voltage=volts))


def load_of_twice_the_voltage(design: Design) -> Iterator[Made]:
    """A 24 V load on 12 V, a 240 V load on 120 V."""
    for item in _loads(design, "dc", "ac"):
        usual = "12 V" if told(item).word("circuit") == "dc" else "120 V"
        volts = f"{2 * amount(told(item).word('voltage', usual)):g} V"
        yield from tried(design, (item.id,), rated(item.id, voltage=volts))


def _loads(design: Design, *circuits: str) -> list[Part]:
    kinds = ("load", "lamp", "motor", "heater", "electronic_load")
    found = parts(design, *kinds)
    return [x for x in found if told(x).word("circuit", "ac") in circuits]


def load_four_times_larger(design: Design) -> Iterator[Made]:
    """A load of four times the power on the same circuit."""
    for item in parts(design, "load", "lamp", "heater", "plug_load"):
        watts = f"{4 * amount(told(item).word('power')):g} W"
        around = tuple(x for run in design.runs_at(item.id) for x in (run.a.part, run.b.part))
        hosts = tuple(seat.host for seat in design.seats_of(item.id))
        place = (item.id, *around, *hosts, *_leads(design, item))
        yield from tried(design, place, rated(item.id, power=watts))


def too_many_modules(design: Design) -> Iterator[Made]:
    """Three times as many modules in series."""
    for item in parts(design, "solar_array"):
        series = f"{3 * int(told(item).word('series', '1'))}"
        place = (item.id, *(p.id for p in parts(design, "solar_controller")))
        yield from tried(design, place, rated(item.id, series=series))


def too_few_modules(design: Design) -> Iterator[Made]:
    """One module where two in series are needed."""
    for item in parts(design, "solar_array"):
        if told(item).word("series", "1") != "1":
            place = (item.id, *(p.id for p in parts(design, "solar_controller")))
            yield from tried(design, place, rated(item.id, series="1"))


def set_of_a_quarter(design: Design) -> Iterator[Made]:
    """A set of a quarter of the power."""
    for item in parts(design, "generator"):
        power: Answer = f"{amount(told(item).word('power')) / 4:g} VA"
        yield from tried(design, (item.id,), rated(item.id, power=power))


def link_where_maker_forbids(design: Design) -> Iterator[Made]:
    """A set or inverter whose maker allows no link outside, in the place of one that does."""
    for item in parts(design, "generator", "inverter_charger", "hybrid_inverter"):
        floating = told(item).word("neutral") == "floating" and "N" in poles(told(item))
        if floating and told(item).word("bond_allowed") == "yes":
            yield from tried(design, (item.id,), rated(item.id, bond_allowed="no"))
