"""Small plants for tests: a cabin with a battery, and what a test adds."""

from __future__ import annotations

from linework.design import Draft

WIRE = {"size": "6 AWG", "length": "3 ft"}
PLACE = {"climate": "denver"}


def cabin(
    watts: str = "60 W", capacity: str = "200 Ah", array: str = "200 W", place: str = "building",
    chemistry: str = "lithium", use: dict[str, str] | None = None, **settings: str,
) -> Draft:  # fmt: skip
    """A 12 V battery, one load that runs day and night, and an array behind its controller."""
    d = Draft(place=place, **{**PLACE, **settings})
    d.part("battery", "GB1", voltage="12 V", capacity=capacity, chemistry=chemistry,
           kept_warm="yes")  # fmt: skip
    d.part("load", "EA1", circuit="dc", voltage="12 V", power=watts, **(use or {"use": "always"}))
    d.run("GB1.dc", "EA1.in", **WIRE)
    if array:
        d.part("solar_array", "GP1", voc="22 V", isc="12 A", power=array)
        d.part("solar_controller", "TC1", current="30 A", pv_voltage="100 V")
        d.run("GP1.dc", "TC1.pv", **WIRE)
        d.run("TC1.dc", "GB1.dc", **WIRE)
    return d


def with_set(d: Draft, **rule: str) -> Draft:
    """A set that charges the battery through a charger."""
    d.part("generator", "G1", power="2 kVA", neutral="bonded", fuel="gasoline",
           excitation="electronic", **rule)  # fmt: skip
    d.part("charger", "TB9", current="40 A")
    d.run("G1.out", "TB9.ac_in", **WIRE)
    d.run("TB9.dc", "GB1.dc", **WIRE)
    return d
