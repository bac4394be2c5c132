"""Published examples of solar strings."""

from __future__ import annotations

import pytest

from linework.design import Draft
from linework.kinds.solar_array import at_c, open_v, short_a
from tests.examples.published import published
from tests.findings.told import found, number


def array(pv_voltage: str, size: str, **ratings: str) -> Draft:
    """An array on a controller and its battery."""
    d = Draft(place="building")
    d.part("solar_array", "GP1", **ratings)
    d.part("solar_controller", "TC1", current="30 A", pv_voltage=pv_voltage)
    d.part("battery", "GB1")
    d.run("GP1.dc", "TC1.pv", "w", size=size, length="40 ft")
    d.run("TC1.dc", "GB1.dc", "b", size="6 AWG", length="1 ft")
    return d


@published("080", "String sizing lesson", "amozeshbargh.ir/post-69")
def test_how_many_modules_an_input_of_1000_v_stands() -> None:
    # 49.5 V, -0.28 % for each degree, -5 C: 53.66 V a module, eighteen of them. At 45 C 41.2 V
    # become 38.9 V, 700 V in all; the lesson takes the same coefficient for both.
    module = {"voc": "49.5 V", "isc": "10 A", "voc_per_degree": "-0.28 %", "coldest": "-5 degC"}
    one = array("1000 V", "10 AWG", **module)
    assert open_v(one.design.values(one.design.part("GP1"))).high == pytest.approx(53.66, abs=0.01)
    assert found(array("1000 V", "10 AWG", series="18", **module), "string-voltage-high") == []
    (hit,) = found(array("1000 V", "10 AWG", series="19", **module), "string-voltage-high")
    volts = number(hit, "open-circuit voltage on the coldest day")
    assert volts == pytest.approx(19 * 53.66, abs=19 * 0.01)
    hot = array("1000 V", "10 AWG", series="18", **(module | {"voc": "41.2 V"}))
    values = hot.design.values(hot.design.part("GP1"))
    assert at_c(values, 45.0) / 18 == pytest.approx(38.9, abs=0.05)
    assert at_c(values, 45.0) == pytest.approx(700.0, abs=1.0)


@published("082", "Panel to converter in-line fuse size", "altestore.com/forums topic 1356")
def test_five_modules_on_12_awg() -> None:
    # 5 x 3 A = 15 A, x 1.56 = 23.4 A: more than the 20 A of 12 AWG.
    module = {"voc": "22 V", "isc": "3 A", "strings": "5"}
    thin = array("100 V", "12 AWG", **module)
    assert short_a(thin.design.values(thin.design.part("GP1"))) == pytest.approx(15.0, abs=0.05)
    told = {f.subjects: f.message for f in found(thin, "run-unprotected")}
    assert "23.4 A are needed" in told[("w",)]
    assert ("w",) not in [f.subjects for f in found(array("100 V", "10 AWG", **module),
                                                    "run-unprotected")]  # fmt: skip
