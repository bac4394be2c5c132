from __future__ import annotations

import pytest

from linework.kinds import Band, OneOf, Rating, RatingError, Ratings, Values, circuit_for, kinds
from linework.wiring import Pole, Three
from tests.kinds.cases import SETTING, rated

GENERATOR = kinds()["generator"]
LOAD = kinds()["load"]
LAMP = kinds()["lamp"]


def test_an_answer_goes_before_a_default() -> None:
    assert rated(GENERATOR).answer("outlets") == "2"
    assert rated(GENERATOR, outlets="4").answer("outlets") == "4"
    assert not rated(GENERATOR).given("outlets")
    assert rated(GENERATOR, outlets="4").given("outlets")


def test_quantities_come_in_base_units() -> None:
    assert rated(GENERATOR, power="5 kVA").num("power") == 5000.0
    assert rated(GENERATOR, reactance="12 %").three("reactance") == Three.exactly(0.12)
    band = Band("0.1", "0.12", "0.2")
    assert rated(GENERATOR, reactance=band).three("reactance") == Three(0.1, 0.12, 0.2)
    assert rated(GENERATOR, reactance=band).num("reactance") == 0.12


def test_nothing_known_is_told_apart_from_nought() -> None:
    values = rated(GENERATOR)
    assert not values.has("power")
    assert values.opt("power") is None
    assert rated(kinds()["inverter_charger"], charge="0 A").opt("charge") == 0.0
    with pytest.raises(KeyError):
        values.num("power")


def test_a_choice_is_no_figure() -> None:
    with pytest.raises(TypeError, match="neutral is a choice, not a quantity"):
        rated(GENERATOR, neutral="bonded").num("neutral")
    with pytest.raises(TypeError, match="configuration"):
        rated(kinds()["outlet"]).three("configuration")


def test_an_unknown_is_settled_by_the_case() -> None:
    values = rated(GENERATOR)
    assert values.open_options("neutral") == ("bonded", "floating")
    assert values.pick("neutral") == "bonded"
    settled = GENERATOR.values(Ratings(), {"neutral": "floating"}, SETTING)
    assert settled.pick("neutral") == "floating"
    assert rated(GENERATOR, neutral="relay").open_options("neutral") == ()
    either = rated(GENERATOR, neutral=OneOf(("relay", "floating")))
    assert either.open_options("neutral") == ("relay", "floating")


def test_an_undeclared_rating_is_an_error_of_the_program() -> None:
    with pytest.raises(KeyError):
        rated(LOAD).answer("colour")


def test_a_wire_size_is_an_area() -> None:
    declared = {"size": Rating("size", "Size", "size")}
    assert Values(declared, Ratings.of({"size": "2.5 mm2"})).area_mm2("size") == 2.5
    # ASTM B 258: 12 AWG is 6530 circular mils.
    twelve = Values(declared, Ratings.of({"size": "12 AWG"})).area_mm2("size")
    assert twelve == pytest.approx(3.309, abs=0.001)


@pytest.mark.parametrize(
    ("key", "circuit", "text"),
    [
        ("load", "ac", "120 V"),
        ("load", "split", "240 V"),  # it lies between the two hot conductors
        ("load", "ac240", "240 V"),
        ("load", "dc", "12 V"),
        ("lamp", "dc", "12 V"),
        ("motor", "ac240", "240 V"),
        ("plug_load", "ac", "120 V"),
        ("breaker", "split", "240 V"),
        ("panel", "split", "120 V"),  # a leg
        ("panel", "ac240", "240 V"),  # has no neutral to measure from
        ("panel", "dc", "12 V"),
        ("generator", "split", "120 V"),
        ("generator", "ac240", "240 V"),
        ("supply", "ac", "120 V"),
    ],
)
def test_the_voltage_of_the_design_as_the_circuit_has_it(key: str, circuit: str, text: str) -> None:
    values = rated(kinds()[key], circuit=circuit)
    assert values.answer("voltage") == text
    assert rated(kinds()[key], circuit=circuit, voltage="48 V").answer("voltage") == "48 V"


def test_another_design_voltage_is_followed() -> None:
    setting = {**SETTING, "voltage": "230 V"}
    assert LOAD.values(Ratings(), None, setting).num("voltage") == 230.0
    dc = LOAD.values(Ratings.of({"circuit": "dc"}), None, setting)
    assert dc.num("voltage") == 12.0


def test_what_is_assumed_is_told() -> None:
    assert not rated(LOAD).assumes("voltage")  # it is the design's
    assert rated(LOAD, circuit="dc").assumes("voltage")  # nobody said 12 V
    assert not rated(LOAD, circuit="dc", voltage="24 V").assumes("voltage")
    assert rated(LOAD, circuit="split").assumes("voltage")
    assert rated(LOAD).assumes("power_factor")
    assert not rated(LOAD, circuit="dc").assumes("power_factor")  # means nothing there
    assert not rated(LOAD).assumes("power")  # not known at all
    assert not rated(LOAD).assumes("case")  # quiet
    assert rated(kinds()["battery"]).assumes("fault_current")
    assert not rated(kinds()["battery"], fault_current="5 kA").assumes("fault_current")
    assert rated(kinds()["motor"], power="1 kW").assumes("start_current")
    assert not rated(kinds()["motor"]).assumes("start_current")
    assert rated(kinds()["fuse"]).assumes("interrupting")


@pytest.mark.parametrize(
    ("poles", "circuit"),
    [
        ((Pole.L, Pole.N, Pole.PE), "ac"),
        ((Pole.L, Pole.N), "ac"),
        ((Pole.L1, Pole.L2, Pole.PE), "ac240"),
        ((Pole.L1, Pole.N), "split"),
        ((Pole.POS,), "dc"),
        ((Pole.POS, Pole.PE), None),
        ((Pole.L, Pole.NEG), None),
    ],
)
def test_the_smallest_circuit_that_has_the_poles(poles, circuit: str | None) -> None:
    assert circuit_for(poles) == circuit


def test_a_filament_lamp_is_told_from_other_lamps() -> None:
    draws = {
        word: LAMP.inside(rated(LAMP, power="60 W", type=word)).elements[0].model
        for word in ("led", "filament")
    }
    assert draws == {"led": "impedance", "filament": "lamp"}


def test_a_set_rated_in_watt_is_taken_at_power_factor_one_and_that_is_told() -> None:
    """S = P / cos phi; a plate in watt without a power factor is read at 1 (practice)."""
    kind = kinds()["generator"]

    def values(**typed: str) -> Values:
        return kind.values(Ratings.of(typed), None, {"voltage": "120 V"})

    watts = values(power="5000 W")
    assert watts.num("power") == 5000.0
    assert watts.assumes("rated_factor")
    assert values(power="4 kW", rated_factor="0.8").num("power") == pytest.approx(5000.0)
    assert not values(power="4 kW", rated_factor="0.8").assumes("rated_factor")
    volt_amperes = values(power="5 kVA")
    assert not volt_amperes.assumes("rated_factor")
    assert not volt_amperes.applies("rated_factor")


def test_watts_are_refused_where_no_power_factor_tells_what_they_are() -> None:
    with pytest.raises(RatingError, match="volt-amperes"):
        kinds()["transformer"].declared["power"].check("5000 W")
