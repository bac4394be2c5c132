"""In which places an outlet needs ground-fault protection (NFPA 70 210.8, 551.41(C); ABYC E-11)."""

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
    where = f"{place}, {area}, {volts:g} V, {amps:g} A"
    cite("210.8", edition)
    row = next(r for r in rows("na/gfci_places") if r["place"] == place and valid_in(r, edition))
    asked = (
        area in row["areas"].split(";")
        and volts <= float(row["max_volts"])
        and amps <= float(row["max_amps"])
    )
    clause = _clause(row, edition)
    return Sourced(asked, "", clause, where, confidence_of(row), row["sources"], edition)


def _clause(row: Row, edition: str) -> str:
    own = row["clause"]
    return own if own.startswith("ABYC") else cite(own, edition)
