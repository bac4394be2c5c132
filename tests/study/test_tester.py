"""What a tester of three lamps shows, against its published truth table.

The table beside this file is that of tester makers and trade articles: S70 tester code table
(2013), S70b note on open grounds, S71 "Outlet tester light meanings", S72 a recorded talk on
testers, S73 "Plug-In Electrical Testers", S65 generator bonding articles; rows marked "derived" or
M follow from them by circuit theory.
"""

from __future__ import annotations

import csv
import math
from pathlib import Path

import pytest

from linework.design import Draft
from linework.study.loads.loaded import loaded
from linework.study.tester import METER_OHM, Reading, readings
from tests.designs import situation_of

TABLE = Path(__file__).parent / "receptacle_tester_truth_table.csv"


def rows() -> dict[str, tuple[str, str, str]]:
    """Condition -> the lamps line-neutral, line-ground, neutral-ground as the table has them."""
    with TABLE.open(encoding="utf-8", newline="") as file:
        return {
            row["condition"]: (
                row["lamp_hot_neutral"],
                row["lamp_hot_ground"],
                row["lamp_neutral_ground"],
            )
            for row in csv.DictReader(file)
        }


ALLOWED = {
    "1": {"lit"},
    "0": {"dark"},
    "dim": {"dim", "dark"},
    "0 or dim": {"dark", "dim"},
}
"""A lamp between 46 and 67 V is dark or dim, so the program's "dim" covers both."""


def outlet(poles: str = "", load: bool = False, **run: str) -> Reading:
    """An outlet on a supply with its link off site; ``load``: a lamp further on the circuit."""
    d = Draft(place="building")
    d.part("supply", "GS1", outage="no")
    d.part("outlet", "XD1")
    d.run("GS1.out", "XD1.feed", poles=poles, size="12 AWG", length="30 ft", **run)
    if load:
        d.part("load", "EA1", power="60 W")
        d.run("XD1.onward", "EA1.in", size="12 AWG", length="10 ft")
    (found,) = readings(situation_of(d))
    return found


def bootleg(poles: str) -> Reading:
    """Ground contact joined to a neighbour contact at the outlet, no ground wire in the cable."""
    return outlet(poles)


def floating() -> Reading:
    d = Draft(place="field")
    d.part("generator", "G1", power="3 kVA", neutral="floating")
    d.part("outlet", "XD1")
    d.run("G1.out", "XD1.feed", size="12 AWG", length="6 ft")
    (found,) = readings(situation_of(d, G1="running"))
    return found


def doubled() -> Reading:
    d = Draft(place="building")
    d.part("supply", "GS1", outage="no")
    d.part("panel", "QP1", bond="fitted")
    d.part("breaker", "QF1", rating="20 A")
    d.part("outlet", "XD1")
    d.run("GS1.out", "QP1.feed", size="6 AWG", length="30 ft")
    d.seat("QF1", "QP1", "1")
    d.run("QF1.load", "XD1.feed", size="12 AWG", length="30 ft")
    (found,) = readings(situation_of(d))
    return found


def both_hots() -> Reading:
    d = Draft(place="building")
    d.part("supply", "GS1", circuit="split", outage="no")
    d.part("outlet", "XD1")
    d.run("GS1.out", "XD1.feed", poles="L1>L L2>N PE>PE", size="12 AWG", length="30 ft")
    (found,) = readings(situation_of(d))
    return found


DRAWN = {
    "correct": (outlet(), "correct"),
    "open ground": (outlet(broken="PE"), "open_ground"),
    "open neutral, no load on circuit": (outlet(broken="N"), "open_neutral"),
    "open hot": (outlet(broken="L"), "dead"),
    "hot and neutral swapped": (outlet("L>N N>L PE>PE"), "reversed"),
    "hot and ground swapped": (outlet("L>PE N>N PE>L"), "ground_reversed"),
    "open neutral with a load switched on elsewhere on the circuit": (
        outlet(broken="N", load=True),
        "ground_reversed",
    ),
    "neutral and ground swapped": (outlet("L>L N>PE PE>N"), "correct"),
    "bootleg ground (N-G joined at outlet)": (bootleg("L>L N>N N>PE"), "correct"),
    "bootleg ground and reversed polarity": (bootleg("L>N N>L L>PE"), "correct"),
    "floating-neutral generator or inverter, ground pin tied only to frame": (
        floating(),
        "open_ground",
    ),
    "second N-G bond anywhere": (doubled(), "correct"),
    "both hots of a 240 V circuit on a 120 V face": (both_hots(), "too_high"),
}
NOT_DRAWN = {"source with each leg about 60 V from chassis (centre-referenced inverter)"}


def test_every_condition_of_the_table_is_drawn_or_named() -> None:
    assert rows().keys() == DRAWN.keys() | NOT_DRAWN


@pytest.mark.parametrize("condition", DRAWN)
def test_the_lamps_of_the_table(condition: str) -> None:
    reading, picture = DRAWN[condition]
    for lamp, told in zip(reading.lamps, rows()[condition], strict=True):
        assert lamp in (ALLOWED[told] | ({"dim"} if told == "0" else set()))
    assert reading.picture == picture


def test_a_lamp_said_to_be_dark_is_dim_only_where_two_share_the_voltage() -> None:
    # The table has 0 for them: neon that strikes late stays dark, neon that strikes early glows.
    # Half of 120 V lies between, wherever a contact hangs on nothing but two lamps.
    dim = {c for c, (r, _) in DRAWN.items() if "dim" in r.lamps}
    assert dim == {
        "open ground",
        "open neutral, no load on circuit",
        "floating-neutral generator or inverter, ground pin tied only to frame",
    }


def test_a_floating_set_and_a_cut_ground_wire_show_the_same_lamps() -> None:
    apart, cut = floating(), DRAWN["open ground"][0]
    assert apart.lamps == cut.lamps == ("lit", "dim", "dim")
    assert (apart.ground_whole, apart.bonded) == (True, False)
    assert cut.ground_whole is False


def test_a_meter_tells_what_lamps_cannot() -> None:
    correct, swapped = DRAWN["correct"][0], DRAWN["bootleg ground and reversed polarity"][0]
    assert correct.lamps == swapped.lamps
    assert correct.meter_v[0] == pytest.approx(120.0, rel=1e-3)
    assert correct.meter_v[2] == pytest.approx(0.0, abs=0.1)


def test_an_outlet_without_a_source_reads_nothing() -> None:
    d = Draft(place="building")
    d.part("outlet", "XD1")
    (found,) = readings(situation_of(d))
    assert found.picture == "dead"
    assert found.volts == (0.0, 0.0, 0.0)
    assert found.ground_whole is None
    assert found.bonded is None


def test_a_meter_is_no_reference_by_itself() -> None:
    # Nothing ties the set to its frame but the meter: it reads what its own current leaves.
    d = Draft(place="field")
    d.part(
        "generator",
        "G1",
        power="3 kVA",
        neutral="floating",
        stray_line="0 nF",
        stray_neutral="0 nF",
    )
    d.part("outlet", "XD1")
    d.run("G1.out", "XD1.feed", size="12 AWG", length="1 ft")
    (found,) = readings(situation_of(d, G1="running"))
    assert found.meter_v[1] == pytest.approx(0.0, abs=1e-3)
    assert found.meter_v[2] == pytest.approx(0.0, abs=1e-3)
    assert found.volts[1] == pytest.approx(60.0, rel=1e-3)
    assert math.isclose(METER_OHM, 1e7)


def test_a_second_bond_shows_nothing_on_the_lamps_and_trips_what_compares() -> None:
    d = Draft(place="vehicle")
    d.part("generator", "G1", power="3 kVA", neutral="bonded")
    d.part("breaker", "QF1", rating="20 A", ground_fault="class_a")
    d.part("panel", "QP1", bond="fitted")
    d.part("breaker", "QF2", rating="20 A")
    d.part("outlet", "XD1")
    d.part("plug_load", "EP1", power="600 W")
    d.seat("QF1", "G1", "1")
    d.run("QF1.load", "QP1.feed", "W1", size="12 AWG", length="25 ft")
    d.seat("QF2", "QP1", "1")
    d.run("QF2.load", "XD1.feed", size="12 AWG", length="20 ft")
    d.seat("EP1", "XD1", "face")
    situation = situation_of(d, G1="running")
    (reading,) = readings(situation)
    assert reading.picture == "correct"
    found = loaded(situation)
    (ground,) = (
        i for i, b in enumerate(situation.circuit.branches) if (b.owner, b.pole) == ("W1", "PE")
    )
    assert 2.0 < found.amps(ground) < 3.0  # half of some 5 A
    assert 1000.0 * found.residual_a[0] > situation.circuit.sensors[0].data.trip_ma.high
