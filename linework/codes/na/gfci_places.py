"""Where outlets need ground-fault protection (NFPA 70 210.8, 551.41(C); ABYC E-11), and their
circuits arc-fault protection (210.12)."""

from __future__ import annotations

from linework.codes.na.edition import LATEST, cite, valid_in
from linework.codes.tables import Row, confidence_of, rows
from linework.codes.value import Sourced


def ground_fault_protection(
    place: str, area: str, volts: float, amps: float, edition: str = LATEST
) -> Sourced[bool]:
    """Whether an outlet rated ``volts`` and ``amps`` needs a class A device.

    ``place``: the kind of place of the design; ``area``: where in it the outlet is. CodesError for
    an edition that is not known.
    """
    cite("210.8", edition)
    row = next(r for r in rows("na/gfci_places") if r["place"] == place and valid_in(r, edition))
    return _asked(row, place, area, volts, amps, edition)


def arc_fault_protection(
    place: str, area: str, volts: float, amps: float, edition: str = LATEST
) -> Sourced[bool]:
    """Whether the circuit of an outlet rated ``volts`` and ``amps`` needs arc-fault protection, if
    people live there; as above."""
    cite("210.12", edition)
    row = next(r for r in rows("na/arc_fault_places") if valid_in(r, edition))
    return _asked(row, place, area, volts, amps, edition)


def _asked(
    row: Row, place: str, area: str, volts: float, amps: float, edition: str
) -> Sourced[bool]:
    """Whether a row of a table asks for it."""
    asked = (
        place == row["place"]
        and area in row["areas"].split(";")
        and volts <= float(row["max_volts"])
        and amps <= float(row["max_amps"])
    )
    where = f"{place}, {area}, {volts:g} V, {amps:g} A"
    clause = _clause(row, edition)
    return Sourced(asked, "", clause, where, confidence_of(row), row["sources"], edition)


def _clause(row: Row, edition: str) -> str:
    own = row["clause"]
    return own if own.startswith("ABYC") else cite(own, edition)
