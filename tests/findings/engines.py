"""A van whose engine charges: small sound designs that each test spoils in one property."""

from __future__ import annotations

from linework.design import Draft
from linework.kinds import Answer
from tests.findings.banks import THICK, van

FUSE = {"type": "class_t", "interrupting": "20 kA"}
LEAD = {"size": "4 AWG", "terminals": "75", "insulation": "90"}


def engine(d: Draft, **alternator: Answer) -> Draft:
    """A starter battery, and an alternator on it behind a fuse at its post."""
    d.part("battery", "GB2", capacity="70 Ah", chemistry="flooded", fault_current="2 kA")
    d.part("alternator", "G2", **({"current": "70 A"} | alternator))
    d.part("fuse", "F10", rating="100 A", **FUSE)
    d.run("GB2.dc", "F10.line", "W50", length="0.5 ft", **THICK)
    d.run("F10.load", "G2.dc", "W51", length="6 ft", size="2 AWG", terminals="75", insulation="90")
    return d


def with_dc_charger(**ratings: Answer) -> Draft:
    """The van's bank charged from the engine by a DC-DC charger, fused at both batteries."""
    d = engine(van())
    d.part("dc_charger", "TB5", **({"current": "30 A"} | ratings))
    d.part("fuse", "F11", rating="50 A", **FUSE)
    d.run("GB2.dc", "F11.line", "W53", length="0.5 ft", **LEAD)
    d.run("F11.load", "TB5.dc_in", "W54", length="10 ft", **LEAD)
    d.part("fuse", "F12", rating="40 A", **FUSE)
    d.run("QB1.load", "F12.line", "W55", length="0.5 ft", **LEAD)
    d.run("F12.load", "TB5.dc", "W56", length="3 ft", **LEAD)
    d.run("TB5.case", "XB1.tie", "W57", length="3 ft", size="8 AWG", installation="jumper")
    return d


def with_relay(**ratings: Answer) -> Draft:
    """The two batteries joined by a charge relay, fused at both."""
    d = engine(van())
    d.part("charge_relay", "QA5", **ratings)
    d.part("fuse", "F11", rating="100 A", **FUSE)
    d.run("GB2.dc", "F11.line", "W53", length="0.5 ft", **THICK)
    d.run("F11.load", "QA5.line", "W54", length="10 ft", **THICK)
    d.part("fuse", "F12", rating="100 A", **FUSE)
    d.run("QB1.load", "F12.line", "W55", length="0.5 ft", **THICK)
    d.run("F12.load", "QA5.load", "W56", length="3 ft", **THICK)
    return d


def with_selector(alternator_on: str = "QB1.load") -> Draft:
    """A boat's two batteries on a selector, its alternator and a bilge pump on the common stud."""
    d = Draft(place="boat")
    d.part("battery_selector", "QB1", rating="300 A")
    d.part("busbar", "WC1", bar="minus", taps="4")
    for number in ("1", "2"):
        d.part(
            "battery", f"GB{number}", capacity="100 Ah", chemistry="flooded", fault_current="2 kA"
        )
        d.part("fuse", f"F{number}", rating="150 A", **FUSE)
        d.run(
            f"GB{number}.dc", f"F{number}.line", f"A{number}", length="0.5 ft", poles="+", **THICK
        )
        d.run(f"F{number}.load", f"QB1.battery{number}", f"B{number}", length="2 ft", **THICK)
        d.run(f"GB{number}.dc", f"WC1.{number}", f"C{number}", poles="-", length="3 ft", **THICK)
    d.part("alternator", "G2", current="60 A")
    d.run(alternator_on, "G2.dc", "D1", poles="+", length="4 ft", **THICK)
    d.run("G2.dc", "WC1.3", "D2", poles="-", length="4 ft", **THICK)
    d.part("fuse", "F3", rating="20 A", **FUSE)
    d.run("QB1.load", "F3.line", "E1", poles="+", length="0.5 ft", **LEAD)
    d.part("load", "EA1", circuit="dc", voltage="12 V", power="120 W")
    d.run("F3.load", "EA1.in", "E2", poles="+", length="10 ft", size="10 AWG")
    d.run("EA1.in", "WC1.4", "E3", poles="-", length="10 ft", size="10 AWG")
    return d
