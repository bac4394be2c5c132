"""What devices further on let through conductors that none protects itself."""

from __future__ import annotations

from linework.design import Draft
from linework.study.situation import Situation
from linework.study.ways.bounds import bounds
from tests.designs import situation_of
from tests.study.ways.test_sums import batteries

THIN = {"size": "10 AWG", "length": "3 ft"}


def bars(main: str = "100 A") -> Draft:
    """A bank behind a main fuse, a plus and a minus bar, two fused lamps; the minus runs apart."""
    d = Draft(place="field", voltage="12 V")
    d.part("battery", "GB1", fault_current="3 kA")
    d.part("fuse", "F1", rating=main, type="class_t")
    d.run("GB1.dc", "F1.line", "W1", poles="+", **THIN)
    d.part("busbar", "WC1", bar="plus", rating="150 A", taps="2")
    d.part("busbar", "WC2", bar="minus", rating="150 A", taps="2")
    d.run("F1.load", "WC1.feed", "W2", poles="+", **THIN)
    d.run("GB1.dc", "WC2.feed", "back", poles="-", **THIN)
    for n, amps in ((1, "20 A"), (2, "30 A")):
        d.part("fuse", f"F1{n}", rating=amps, type="ato")
        d.run(f"WC1.{n}", f"F1{n}.line", f"p{n}", poles="+", **THIN)
        d.part("lamp", f"EL{n}", circuit="dc", voltage="12 V", power="24 W")
        d.run(f"F1{n}.load", f"EL{n}.in", f"q{n}", poles="+", **THIN)
        d.run(f"WC2.{n}", f"EL{n}.in", f"r{n}", poles="-", **THIN)
    return d


def limits(situation: Situation, *runs: str) -> dict[str, tuple[str, float]]:
    """Run -> what bounds it, and the current."""
    circuit = situation.circuit
    wanted = [i for run in runs for i in circuit.branches_of[run]]
    return {
        circuit.branches[r.branch].owner: (
            " ".join(sorted(r.inflow.owners(situation))),
            r.inflow.amps,
        )
        for r in bounds(situation, wanted)
    }


def test_each_return_by_the_device_of_its_own_load() -> None:
    found = limits(situation_of(bars()), "r1", "r2")
    assert found == {"r1": ("F11", 20.0), "r2": ("F12", 30.0)}


def test_the_common_return_by_all_of_them_together() -> None:
    assert limits(situation_of(bars()), "back") == {"back": ("F11 F12", 50.0)}


def test_or_by_the_one_before_them_all() -> None:
    assert limits(situation_of(bars("40 A")), "back") == {"back": ("F1", 40.0)}


def test_with_a_second_way_back_none_depends_on_it() -> None:
    d = bars()
    d.part("busbar", "WC3", bar="minus", rating="150 A", taps="2")
    d.run("WC2.feed", "WC3.feed", "round", poles="-", **THIN)
    d.run("WC3.1", "EL1.in", "again", poles="-", **THIN)
    assert limits(situation_of(d), "r1", "again") == {}


def test_a_second_wire_beside_it_leaves_both_with_all() -> None:
    """What each carries of it hangs on their resistance: 310.10(G) asks for thick, equal ones."""
    d = bars()
    d.run("WC2.1", "EL1.in", "again", poles="-", **THIN)
    assert limits(situation_of(d), "r1", "again") == {"r1": ("F11", 20.0), "again": ("F11", 20.0)}


def test_a_lead_before_its_fuse_by_that_fuse() -> None:
    situation = situation_of(bars("40 A"))
    assert limits(situation, "W1") == {"W1": ("F1", 40.0)}


def test_the_links_of_a_string_and_both_its_ends() -> None:
    d = Draft(place="building")
    for name in ("GB1", "GB2"):
        d.part("battery", name, fault_current="3 kA")
    d.run("GB1.dc", "GB2.dc", "link", poles="->+", **THIN)
    d.part("fuse", "F1", rating="60 A", type="class_t")
    d.run("GB1.dc", "F1.line", "plus", poles="+", **THIN)
    d.part("load", "EA1", circuit="dc", voltage="24 V", power="240 W")
    d.run("F1.load", "EA1.in", "on", poles="+", **THIN)
    d.run("GB2.dc", "EA1.in", "minus", poles="-", **THIN)
    found = limits(situation_of(d), "link", "plus", "minus")
    assert found == dict.fromkeys(("link", "plus", "minus"), ("F1", 60.0))


def test_what_no_device_precedes_has_no_bound() -> None:
    d = bars()
    d.part("lamp", "EL3", circuit="dc", voltage="12 V", power="24 W")
    d.run("F1.line", "EL3.in", "bare", poles="+", **THIN)
    d.run("GB1.dc", "EL3.in", "bare minus", poles="-", **THIN)
    assert limits(situation_of(d), "W1", "bare minus") == {}


def test_the_common_minus_of_several_batteries_by_what_all_let_through() -> None:
    d = batteries(3)
    assert limits(situation_of(d), "back") == {"back": ("F1 F2 F3", 300.0)}
    assert limits(situation_of(d), "m1") == {"m1": ("F1", 100.0)}
    assert limits(situation_of(batteries(1)), "back") == {"back": ("F1", 100.0)}


def test_the_minus_of_an_array_by_the_sun() -> None:
    d = Draft(place="building", voltage="12 V")
    d.part("battery", "GB1", fault_current="3 kA")
    d.part("solar_controller", "TC1", current="20 A", pv_voltage="100 V")
    d.run("GB1.dc", "TC1.dc", "bank", size="6 AWG", length="2 ft")
    d.part("solar_array", "GP1", voc="22 V", isc="10 A", vmp="18 V", imp="9 A")
    d.run("GP1.dc", "TC1.pv", "plus", poles="+", **THIN)
    d.run("GP1.dc", "TC1.pv", "minus", poles="-", **THIN)
    # 125 % of the plate (690.8(A)(1))
    assert limits(situation_of(d, GP1="day"), "minus") == {"minus": ("GP1", 12.5)}
