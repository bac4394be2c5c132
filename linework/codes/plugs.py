"""Plug and outlet configurations, and which plug enters which outlet."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from functools import cache

from linework.codes.errors import closest, not_in_table
from linework.codes.tables import Row, by, confidence_of, number, rows
from linework.codes.value import weakest
from linework.data import Confidence
from linework.wiring import Pole

_AMERICAN = "na/plug_configurations"
_POLES = {"L": Pole.L, "L1": Pole.L1, "L2": Pole.L2, "L3": Pole.L3, "N": Pole.N}
_POLES |= {"G": Pole.PE, "PE": Pole.PE, "L+": Pole.POS, "L-": Pole.NEG}


@dataclass(frozen=True, slots=True)
class Configuration:
    """One pattern of contacts.

    ``volts`` the rated voltage, the higher one of 125/250; ``pole_count`` as the trade counts,
    without ground; ``polarized``: whether line and neutral cannot be exchanged.
    """

    name: str
    contacts: tuple[Pole, ...]
    voltage: str
    volts: float
    amps: float
    pole_count: str
    locking: bool
    grounding: bool
    polarized: bool
    standard: str
    note: str
    confidence: Confidence
    source: str

    @property
    def confirmed(self) -> bool:
        """Whether two sources stand behind the row."""
        return self.confidence.confirmed


class Fit(StrEnum):
    """Why a plug enters an outlet or does not."""

    SAME = "same configuration"
    CROSS = "made to fit"
    FORCED = "enters only by force"
    TRAP = "looks alike but does not fit"
    VOLTAGE = "other voltage"
    CURRENT = "other current"
    CONTACTS = "other contacts"
    LOCKING = "one of them locks"
    SHAPE = "other shape"


@dataclass(frozen=True, slots=True)
class Mating:
    """Whether a plug enters an outlet, and why.

    ``note`` is the remark of the table; ``ground_lost``: it enters, but an outlet's ground contact
    finds no pin. ``forced``: it does not fit but has been seen forced in.
    """

    plug: str
    outlet: str
    fits: bool
    fit: Fit
    note: str
    confidence: Confidence
    source: str
    ground_lost: bool = False

    @property
    def forced(self) -> bool:
        """Whether it can be forced in."""
        return self.fit is Fit.FORCED

    @property
    def confirmed(self) -> bool:
        """Whether two sources or the naming itself stand behind it."""
        return self.confidence.confirmed


def plain_name(name: str) -> str:
    """The configuration without the trailing P or R of a plug or receptacle: "5-15P" is "5-15"."""
    stripped = name[:-1] if name[-1:] in ("P", "R") else name
    return stripped if stripped in by(_AMERICAN, "config") else name


def configuration(name: str) -> Configuration:
    """The configuration of this name, with or without P or R. CodesError for an unknown one."""
    found = _configurations().get(plain_name(name))
    if found is None:
        near = closest(plain_name(name), _configurations())
        raise not_in_table(f"'{name}'", "the plug configurations", near)
    return found


def configurations() -> tuple[str, ...]:
    """The names of all configurations that the tables hold."""
    return tuple(_configurations())


@cache
def _configurations() -> dict[str, Configuration]:
    american = {row["config"]: _american(row) for row in rows(_AMERICAN)}
    others = {row["config"]: _other(row) for row in rows("common/other_configurations")}
    return american | others


def _american(row: Row) -> Configuration:
    return Configuration(
        row["config"],
        tuple(_POLES[word] for word in row["contacts"].split()),
        row["device_volts"],
        _highest(row["device_volts"]),
        float(row["amps"]),
        row["poles"],
        row["locking"] == "yes",
        row["grounding"] == "yes",
        # A two-blade plug without the wide blade goes in either way round.
        row["config"] != "1-15",
        row["standard"],
        row["geometry_note"],
        confidence_of(row),
        row["sources"],
    )


def _other(row: Row) -> Configuration:
    contacts = tuple(_POLES[word] for word in row["contacts"].split())
    return Configuration(
        row["config"],
        contacts,
        row["rated_voltage"],
        _highest(row["rated_voltage"]),
        float(row["amps"]),
        row["poles"],
        False,
        Pole.PE in contacts,
        row["polarised"] == "yes",
        row["standard"],
        row["note"],
        confidence_of(row),
        row["sources"],
    )


def _highest(text: str) -> float:
    """The highest figure in a voltage text: "125/250", "200/346-240/415 AC"."""
    figures = text.replace("AC", "").replace("-", "/").split("/")
    return max(number(figure.strip()) or 0.0 for figure in figures)


def mates(plug: str, outlet: str) -> Mating:
    """Whether ``plug`` enters ``outlet``; names with or without P and R. CodesError if unknown."""
    male, female = configuration(plug), configuration(outlet)
    pair = _pairs().get((male.name, female.name))
    if pair is not None:
        return pair
    trap = _traps().get((male.name, female.name))
    return trap if trap is not None else _misfit(male, female)


def outlets_for(plug: str) -> tuple[str, ...]:
    """The configurations of the outlets that a plug enters."""
    name = configuration(plug).name
    return tuple(pair.outlet for pair in _pairs().values() if pair.plug == name and pair.fits)


def plugs_for(outlet: str) -> tuple[str, ...]:
    """The configurations of the plugs that enter an outlet."""
    name = configuration(outlet).name
    return tuple(pair.plug for pair in _pairs().values() if pair.outlet == name and pair.fits)


@cache
def _pairs() -> dict[tuple[str, str], Mating]:
    found: dict[tuple[str, str], Mating] = {}
    for row in rows("na/plug_pairs"):
        _keep(found, plain_name(row["plug"]), plain_name(row["receptacle"]), row)
    for row in rows("common/other_pairs"):
        _keep(found, row["plug"], row["outlet"], row)
    return found


def _keep(found: dict[tuple[str, str], Mating], plug: str, outlet: str, row: Row) -> None:
    male, female = configuration(plug), configuration(outlet)
    fits = row["mates"] == "yes"
    fit = Fit.FORCED if not fits else Fit.SAME if plug == outlet else Fit.CROSS
    found[plug, outlet] = Mating(
        plug,
        outlet,
        fits,
        fit,
        row["note"],
        confidence_of(row),
        row["sources"],
        ground_lost=fits and female.grounding and not male.grounding,
    )


@cache
def _traps() -> dict[tuple[str, str], Mating]:
    found: dict[tuple[str, str], Mating] = {}
    for row in rows("na/plug_traps"):
        plug, outlet = plain_name(row["plug"]), plain_name(row["receptacle"])
        fit = Fit.FORCED if row["can_be_forced"] == "yes" else Fit.TRAP
        note, mark = row["why_it_matters"], confidence_of(row)
        found[plug, outlet] = Mating(plug, outlet, False, fit, note, mark, row["sources"])
    return found


def _misfit(male: Configuration, female: Configuration) -> Mating:
    """A pair that no row names: configurations of the standards enter only their own kind."""
    mark = weakest(male.confidence, female.confidence, Confidence.PUBLISHED)
    source = "the standards of both: no other pair is made to fit"
    return Mating(male.name, female.name, False, _difference(male, female), "", mark, source)


def _difference(male: Configuration, female: Configuration) -> Fit:
    if male.volts != female.volts:
        return Fit.VOLTAGE
    if set(male.contacts) != set(female.contacts):
        return Fit.CONTACTS
    if male.amps != female.amps:
        return Fit.CURRENT
    return Fit.LOCKING if male.locking != female.locking else Fit.SHAPE
