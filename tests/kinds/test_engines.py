"""What charges from an engine, and what parts batteries from each other."""

from __future__ import annotations

import pytest

from linework.kinds import Kind, Values, kinds
from linework.wiring import Contact, Convert, Draw, Join, Link, Pole, Source, SourceGroup
from tests.kinds.cases import rated

ALTERNATOR, DC_CHARGER = kinds()["alternator"], kinds()["dc_charger"]
RELAY, SELECTOR = kinds()["charge_relay"], kinds()["battery_selector"]
ISOLATOR, KIT, STATION = (
    kinds()["galvanic_isolator"],
    kinds()["parallel_kit"],
    kinds()["power_station"],
)


def sorts(kind: Kind, values: Values, sort: type) -> list:
    return [e for e in kind.inside(values).elements if isinstance(e, sort)]


def test_an_alternator_gives_while_its_engine_runs() -> None:
    values = rated(ALTERNATOR, current="90 A")
    (source,) = sorts(ALTERNATOR, values, Source)
    assert (source.rated_a, source.group) == (90.0, SourceGroup.ALTERNATOR)
    assert source.group.charges
    assert source.group.needs_store
    assert source.limit is not None
    assert source.limit.off_s is None
    (engine,) = ALTERNATOR.inside(values).selectors
    assert (engine.moves, engine.rest) == ("source", "stopped")


@pytest.mark.parametrize(
    ("written", "charges_at"),
    [("12 V", 13.5), ("14 V", 13.5), ("28 V", 27.0), ("24 V", 27.0), ("36 V", 40.5)],
)
def test_an_alternator_of_14_v_on_its_plate_charges_12_v(written: str, charges_at: float) -> None:
    (source,) = sorts(ALTERNATOR, rated(ALTERNATOR, current="90 A", dc_voltage=written), Source)
    assert source.volts == pytest.approx(charges_at)


def test_a_dc_charger_takes_on_one_side_what_it_gives_on_the_other() -> None:
    values = rated(DC_CHARGER, current="30 A", in_voltage="24 V")
    (draw,), (source,) = sorts(DC_CHARGER, values, Draw), sorts(DC_CHARGER, values, Source)
    (convert,) = sorts(DC_CHARGER, values, Convert)
    assert (draw.a, draw.volts, source.plus[0]) == (("dc_in", Pole.POS), 24.0, "dc")
    assert (convert.gives, convert.takes) == (source.name, draw.name)
    apart = rated(DC_CHARGER, current="30 A", common="none")
    assert len(sorts(DC_CHARGER, values, Join)) == 1
    assert sorts(DC_CHARGER, apart, Join) == []


@pytest.mark.parametrize("kind", [RELAY, SELECTOR])
def test_what_joins_batteries_opens_their_plus_alone(kind: Kind) -> None:
    contacts = sorts(kind, rated(kind), Contact)
    assert {point[1] for c in contacts for point in (c.a, c.b)} == {Pole.POS}


def test_a_selector_passes_both_on_the_way() -> None:
    contacts = sorts(SELECTOR, rated(SELECTOR), Contact)
    closed = {p: [c.name for c in contacts if p in c.when[0][1]] for p in ("1", "both", "2", "off")}
    assert closed == {"1": ["1"], "both": ["1", "2"], "2": ["2"], "off": []}


def test_a_galvanic_isolator_is_a_ground_wire_to_a_fault() -> None:
    (link,) = sorts(ISOLATOR, rated(ISOLATOR), Link)
    assert {link.a, link.b} == {("shore", Pole.PE), ("boat", Pole.PE)}
    assert link.ohm.high < 0.02


def test_a_kit_joins_like_conductors_of_both_sets() -> None:
    joins = {(j.a, j.b) for j in sorts(KIT, rated(KIT), Join)}
    for pole in (Pole.L, Pole.N, Pole.PE):
        assert (("set1", pole), ("set2", pole)) in joins
    # behind a breaker the outlets lie, not the sets
    guarded = {(j.a, j.b) for j in sorts(KIT, rated(KIT, breaker="30 A"), Join)}
    assert (("set1", Pole.L), ("out", Pole.L)) not in guarded


def test_a_power_station_is_a_small_inverter_of_its_own() -> None:
    found = {s.name: s for s in sorts(STATION, rated(STATION, power="1.8 kVA"), Source)}
    source = found["inverter"]
    assert source.rated_a == pytest.approx(15.0)
    assert source.limit is not None
    assert source.limit.off_s == 5.0
    assert sorts(STATION, rated(STATION, neutral="floating"), Link) == []
    assert [e.bond for e in sorts(STATION, rated(STATION, neutral="bonded"), Link)] == [True]


def test_nothing_of_a_power_stations_cells_is_at_a_terminal() -> None:
    for through in ("yes", "no"):
        values = rated(STATION, power="1.8 kVA", through=through)
        names = {terminal.name for terminal in STATION.terminals(values)}
        (cells,) = (s for s in sorts(STATION, values, Source) if s.group.sealed)
        assert {cells.plus[0], cells.minus[0]}.isdisjoint(names)
        touching = [c for c in sorts(STATION, values, Contact) if "cells" in (c.a[0], c.b[0])]
        assert touching == []


def test_what_a_power_station_is_charged_with() -> None:
    values = rated(STATION, power="1 kVA", charge_power="600 W", in_current="8 A")
    draws = {d.name: d for d in sorts(STATION, values, Draw)}
    sources = {s.name: s for s in sorts(STATION, values, Source)}
    assert draws["battery side"].a == ("dc_in", Pole.POS)
    # 48 V cells at 54 V: 600 W and 12 V x 8 A, with a tenth lost
    assert sources["charger"].rated_a == pytest.approx(0.9 * 600.0 / 54.0)
    assert sources["vehicle"].rated_a == pytest.approx(0.9 * 96.0 / 54.0)
    assert all(not draw.own for draw in draws.values())
    assumed = rated(STATION, power="1 kVA")
    assert assumed.num("charge_power") == 1000.0
    assert assumed.assumes("charge_power")


def test_a_power_station_passes_every_pole_of_its_input_on_or_none() -> None:
    values = rated(STATION, power="1 kVA")
    moved = [c for c in sorts(STATION, values, Contact) if c.a[0] == "ac_in"]
    assert [c.a[1] for c in moved] == [Pole.L, Pole.N]
    assert all(c.when == (("relay", frozenset({"passing"})),) for c in moved)
    apart = rated(STATION, power="1 kVA", through="no")
    assert [c for c in sorts(STATION, apart, Contact) if c.a[0] == "ac_in"] == []
