"""A neutral bar beside a ground bar in a field box: sound, and with one wire on the wrong bar."""

from __future__ import annotations

from linework.design import Draft
from tests.findings.test_windings import told


def box(ends_on: str = "WC1.2", bar: str = "60 A") -> Draft:
    """A set, two breakers in a box of its own making, a neutral bar, a ground bar, two loads."""
    d = Draft(place="field")
    d.part("generator", "G1", power="3 kVA", neutral="bonded", breaker="30 A")
    d.part("busbar", "WC1", bar="neutral", rating=bar, taps="3")
    d.part("busbar", "WC2", bar="ground", taps="3")
    wire = {"size": "10 AWG", "length": "6 ft"}
    for n, watts in (("1", "900 W"), ("2", "600 W")):
        d.part("breaker", f"QF{n}", rating="15 A")
        d.part("load", f"EA{n}", power=watts)
        d.run("G1.out", f"QF{n}.line", f"a{n}", poles="L>L PE>PE", **wire)
        out = {"poles": "L>L PE>PE", "size": "14 AWG", "length": "10 ft"}
        d.run(f"QF{n}.load", f"EA{n}.in", f"l{n}", **out)
    d.run("G1.out", "WC1.feed", "n", poles="N>N", **wire)
    d.run("G1.out", "WC2.feed", "g", poles="PE>PE", **wire)
    d.run("WC1.1", "EA1.in", "n1", poles="N>N", size="14 AWG", length="10 ft")
    last = ends_on.split(".", maxsplit=1)[0]
    poles = "N>N" if last == "WC1" else "PE>N"
    d.run(ends_on, "EA2.in", "n2", poles=poles, size="14 AWG", length="10 ft")
    return d


def test_a_neutral_bar_beside_a_ground_bar_is_sound() -> None:
    assert told(box()) == set()


def test_a_neutral_on_the_ground_bar() -> None:
    rules = {rule for rule, _ in told(box("WC2.3"))}
    assert rules & {"ground-carries-load", "neutral-used-as-ground", "neutral-missing"}


def test_a_bar_smaller_than_what_can_come_back_by_it() -> None:
    # loads of 12.5 A, but two breakers of 15 A and one of 30 A before them
    assert ("rating-exceeded", ("WC1",)) in told(box(bar="20 A"))
    assert told(box(bar="30 A")) == set()


def test_a_bar_smaller_than_what_comes_back_by_it() -> None:
    assert "WC1" in {place for _, where in told(box(bar="10 A")) for place in where}
