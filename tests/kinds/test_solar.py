"""Solar arrays and their controllers, against published examples and the clauses of the codes."""

from __future__ import annotations

import math

import pytest

from linework.kinds import Kind, Values, kinds
from linework.kinds.solar_array import at_c, open_v, short_a
from linework.wiring import Convert, Draw, Join, Pole, Source, SourceGroup, Three
from tests.kinds.cases import rated

ARRAY, CONTROLLER = kinds()["solar_array"], kinds()["solar_controller"]
PLATE = {"voc": "22 V", "isc": "6 A", "vmp": "18 V", "imp": "5.5 A"}


def only(kind: Kind, values: Values, sort: type):  # type: ignore[no-untyped-def]
    (found,) = (e for e in kind.inside(values).elements if isinstance(e, sort))
    return found


def test_the_voltage_of_a_cold_string() -> None:
    """A published string sizing lesson (amozeshbargh.ir/post-69): 49.5 V, -0.28 %/C, -5 C give
    53.66 V, so that 18 modules and not 19 stay under 1000 V."""
    module = {"voc": "49.5 V", "isc": "10 A", "voc_per_degree": "-0.28 %", "coldest": "-5 degC"}
    assert at_c(rated(ARRAY, **module), -5.0) == pytest.approx(53.66, abs=0.01)
    assert open_v(rated(ARRAY, **module, series="18")).high < 1000.0
    assert open_v(rated(ARRAY, **module, series="19")).low > 1000.0


def test_the_lesson_when_it_is_hot() -> None:
    """The same lesson: 41.2 V at greatest power and 17 C more than the plate's leave 700 V on 18
    modules, by the formula that is used for the open string too."""
    values = rated(ARRAY, voc="41.2 V", isc="10 A", voc_per_degree="-0.28 %", series="18")
    assert at_c(values, 45.0) == pytest.approx(700.0, abs=1.0)


@pytest.mark.parametrize(("modules", "volts"), [("10", 529.7), ("9", 476.7)])
def test_a_discussed_string_at_freezing_point(modules: str, volts: float) -> None:
    """From a public thread on worst-case array design (r.arson.gg/r/SolarAmerica/comments/1rcph98):
    49.5 V modules, -0.28 %/C, 0 C."""
    module = {"voc": "49.5 V", "isc": "10 A", "voc_per_degree": "-0.28 %"}
    assert at_c(rated(ARRAY, **module, series=modules), 0.0) == pytest.approx(volts, abs=0.1)


@pytest.mark.parametrize(
    ("celsius", "factor"),
    # NFPA 70 table 690.7(A), from memory: the low end of each of its bands down to -25 C.
    [(20, 1.02), (15, 1.04), (10, 1.06), (5, 1.08), (0, 1.10), (-10, 1.14), (-20, 1.18)],
)
def test_the_slope_taken_for_an_unknown_module_is_that_of_the_table(
    celsius: int, factor: float
) -> None:
    values = rated(ARRAY, voc="100 V", isc="1 A")
    assert at_c(values, celsius) == pytest.approx(100.0 * factor)


def test_colder_than_the_table_it_is_not_below_it() -> None:
    """The last row, down to -40 C, has the factor 1.25."""
    assert at_c(rated(ARRAY, voc="100 V", isc="1 A"), -40.0) >= 125.0


def test_an_unknown_lowest_temperature_leaves_a_band() -> None:
    # By hand: -0.4 % times 25, 45 and 65 degrees on 22 V.
    band = open_v(rated(ARRAY, **PLATE))
    assert (band.low, band.usual, band.high) == pytest.approx((24.2, 25.96, 27.72))
    assert "coldest" not in rated(ARRAY, **PLATE).ratings
    assert rated(ARRAY, **PLATE).assumes("coldest")


def test_modules_in_parallel_add_their_currents() -> None:
    """A supplier's forum (altestore.com/forums topic 1356): five modules of 3 A give 15 A."""
    assert short_a(rated(ARRAY, voc="20 V", isc="3 A", strings="5")) == pytest.approx(15.0)


def test_an_array_never_gives_more_than_bright_sun() -> None:
    """NFPA 70 690.8(A)(1): 125 % of the short-circuit current of the parallel strings."""
    strings = only(ARRAY, rated(ARRAY, **PLATE, strings="2"), Source)
    assert strings.limit.first_a == strings.limit.sustained_a == Three(12.0, 12.0, 15.0)
    assert strings.limit.off_s is None
    assert strings.group is SourceGroup.SOLAR


def test_an_array_stands_at_its_knee() -> None:
    """Open: the cold voltage; at its rated current: the voltage of its greatest power."""
    values = rated(ARRAY, **PLATE, series="3", strings="2", coldest="-10 degC")
    strings = only(ARRAY, values, Source)
    assert strings.volts == pytest.approx(3 * 22.0 * 1.14)
    assert strings.rated_a == pytest.approx(11.0)
    assert strings.volts - 11.0 * strings.ohm_r.usual == pytest.approx(54.0)


def test_the_knee_where_the_plate_is_not_given() -> None:
    values = rated(ARRAY, voc="22 V", isc="6 A")
    assert values.num("vmp") == pytest.approx(18.0, abs=0.1)
    assert values.num("imp") == pytest.approx(5.64, abs=0.01)
    assert values.assumes("vmp")
    by_power = rated(ARRAY, voc="22 V", isc="6 A", vmp="18 V", power="90 W")
    assert by_power.num("imp") == pytest.approx(5.0)


def test_no_strings_without_a_plate() -> None:
    assert [e for e in ARRAY.inside(rated(ARRAY)).elements if isinstance(e, Source)] == []


def test_the_sun_can_be_down() -> None:
    values = rated(ARRAY, **PLATE)
    (sun,) = ARRAY.inside(values).selectors
    assert (sun.positions, sun.moves) == (("day", "night"), "source")
    assert only(ARRAY, values, Source).when == (("sun", frozenset({"day"})),)


# the controller


def test_a_controller_gives_its_current_and_takes_it_from_the_array() -> None:
    values = rated(CONTROLLER, current="30 A", pv_voltage="100 V", dc_voltage="24 V")
    source, draw = only(CONTROLLER, values, Source), only(CONTROLLER, values, Draw)
    assert (source.rated_a, source.group) == (30.0, SourceGroup.CHARGER)
    assert 24.0 < source.volts < 1.25 * 24.0
    assert (draw.a, draw.b) == (("pv", Pole.POS), ("pv", Pole.NEG))
    assert draw.works_v[1] == 100.0
    convert = only(CONTROLLER, values, Convert)
    assert (convert.gives, convert.takes, convert.steps) == (source.name, draw.name, True)


def test_a_switching_controller_changes_no_voltage() -> None:
    values = rated(CONTROLLER, type="pwm", current="10 A", pv_voltage="25 V")
    convert = only(CONTROLLER, values, Convert)
    assert (convert.steps, convert.efficiency) == (False, 1.0)


@pytest.mark.parametrize(("common", "joined"), [("minus", {"-"}), ("plus", {"+"}), ("none", set())])
def test_what_a_controller_joins_through(common: str, joined: set[str]) -> None:
    values = rated(CONTROLLER, current="10 A", pv_voltage="25 V", common=common)
    joins = [e for e in CONTROLLER.inside(values).elements if isinstance(e, Join)]
    assert {e.a[1] for e in joins} == joined
    assert all({e.a[0], e.b[0]} == {"pv", "dc"} for e in joins)


def test_the_array_current_of_an_unknown_controller_is_its_output_and_assumed() -> None:
    values = rated(CONTROLLER, current="20 A", pv_voltage="100 V")
    assert math.isclose(values.num("pv_current"), 20.0)
    assert values.assumes("pv_current")
    assert not rated(CONTROLLER, current="20 A", pv_current="35 A").assumes("pv_current")
