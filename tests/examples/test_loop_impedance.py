"""Published examples of earth-fault loop impedance."""

from __future__ import annotations

import pytest

from linework.codes import resistance, trip_band
from linework.design import Draft
from linework.study.shorts.faults import faults
from tests.designs import situation_of
from tests.examples.published import published


@published("022", "Question urgent for sparks (finding Zs)", "diydoctor.org.uk/forums t2402")
def test_a_radial_of_ten_meters() -> None:
    # Ze 0.6 ohm, 10 m of 1.5 / 1.0 mm2, 12.1 and 18.1 mohm/m at 20 C, x 1.2: R1 + R2 = 0.36 ohm,
    # Zs = 0.96 ohm. The multiplier 1.2 belongs to 70 C.
    ohms = [resistance(size, temperature_c=20.0).value for size in ("1.5 mm2", "1 mm2")]
    assert ohms == pytest.approx([12.1e-3, 18.1e-3])
    loop = 10.0 * sum(resistance(s, temperature_c=70.0).value for s in ("1.5 mm2", "1 mm2"))
    assert loop == pytest.approx(0.36, abs=0.005)
    assert 0.6 + loop == pytest.approx(0.96, abs=0.005)
    # Drawn, the conductors are at 75 C, 4 mohm more; the breaker's contact adds some.
    d = Draft(place="building", voltage="230 V", frequency="50 Hz")
    d.part(
        "supply",
        "GS1",
        prospective=f"{230 / 0.6!r} A",
        x_over_r="0",
        breaker="32 A",
        outage="no",
    )
    d.part("load", "EA1", power="100 W")
    d.run("GS1.out", "EA1.in", size="1.5 mm2", ground_size="1 mm2", length="10 m")
    (fault,) = (
        f for f in faults(situation_of(d), "GS1") if (f.point.part, f.point.to) == ("EA1", "PE")
    )
    assert 230.0 / fault.weak.current_a == pytest.approx(0.96, abs=0.005 + 0.004 + 0.006)


@published("024", "Basic Electrical Installation Work, table 12.2", "zdroje.elektrika.cz p. 261")
@pytest.mark.parametrize(
    ("rating", "ohm"),
    [(6, 7.67), (10, 4.6), (16, 2.87), (20, 2.3), (25, 1.84), (32, 1.44), (40, 1.15), (50, 0.92)],
)
def test_greatest_loop_impedance_of_type_b(rating: float, ohm: float) -> None:
    # 230 V, 0.4 s. 230 / 80 is 2.875; the page drops the last digit.
    band = trip_band("iec_b", rating)
    assert band.opens_by_s(230.0 / (ohm - 0.0051)) <= 0.4 < band.opens_by_s(230.0 / (ohm + 0.0051))
