"""A surge protective device that does not stand its place.

What is checked
    In every state: the voltage that lies on each device for good, with batteries
    charged to the end and solar arrays on the coldest day, against what it
    stands; the largest fault current at it against what it may be put behind;
    and how long its leads are.
Why it matters
    One that conducts in ordinary use gets hot and burns; one on long leads
    lets the surge through that it should take.
How to cure it
    A device made for this voltage and place, on leads of less than half a
    metre, beside the board.
Limits
    A neutral that is lost puts more than the ordinary voltage on it: that is
    told of the neutral. What a device lets through is not known. Where nothing
    is said of the fault current, up to 5 kA are taken to be within its label.
Sources
    NFPA 70 (2023) 242.6, 242.8, 242.24 (from memory); IEC 60364-5-53 534:
    Uc from 1.1 times the voltage to earth, leads of 0.5 m; IEC 60364-7-712:
    Ucpv from the greatest open voltage; UL 1449: least short-circuit current
    rating (all from memory).
"""

from __future__ import annotations

from collections.abc import Iterator

from linework.circuit.series import charged_v, string_v
from linework.codes import stated
from linework.findings.model import Evidence, Hit, Level, NotChecked, Outcome
from linework.findings.operation._arrays import in_series
from linework.findings.rule import Rule
from linework.findings.view import Look, View
from linework.kinds.solar_array import open_v
from linework.study.answers.trust import known_faults
from linework.study.situation import Situation
from linework.study.slack import exceeds
from linework.study.ways.banks import rows
from linework.words import N_

VOLTS = N_(
    "{where} stands {stands} V for good; with what is usual in a supply, or at the end of charging,"
    " up to {volts} V lie on it: it gets hot and burns."
)
SUN = N_(
    "{where} stands {stands} V for good; on the coldest morning {array} puts {volts} V on it: it"
    " gets hot and burns."
)
COLD = N_(
    "the lowest temperature decides whether {array} is too high for the {stands} V that {where}"
    " stands for good: it reaches {low} to {high} V; give it on the card"
)
BEHIND = N_(
    "{where} is made for places with up to {stands} A of fault current; here a fault drives up to"
    " {amps} A."
)
UNMARKED = N_(
    "a fault drives up to {amps} A at {where}: whether it may be put there is on its label (SCCR)"
)
LEADS = N_(
    "The leads to {where} are {length} m long: beyond {most} m they let through what it should"
    " take."
)


def check(view: View) -> Iterator[Outcome]:
    """One hit for each device and shortcoming."""
    devices = view.parts_that(lambda kind: kind.arrests)
    for look in view.settled_looks if devices else ():
        for device in devices:
            yield from _in_state(view, look, device)
    for device in devices:
        yield from _leads(view, device)


def _in_state(view: View, look: Look, device: str) -> Iterator[Hit | NotChecked]:
    values, situation = view.values(device), look.studies.situation
    nodes = {n for t in situation.circuit.terminals_of.get(device, ()) for n in t.values()}
    feeding = {system.source for node in nodes for system in situation.feeds(node)}
    yield from _in_the_sun(view, look, device, feeding)
    volts, stands_v = _lasting_v(situation, feeding), values.opt("continuous_voltage")
    if stands_v is not None and exceeds(volts, stands_v):
        shown = {"stands": f"{stands_v:g}", "volts": f"{volts:.3g}"}
        evidence = Evidence(N_("on it"), volts, "voltage")
        stands = Evidence(N_("stands for good"), stands_v, "voltage")
        yield _hit(view, look, device, VOLTS, shown, (evidence, stands))
    faults = [f.strong.current_a for f in known_faults(look.studies) if f.point.node in nodes]
    amps, behind = max(faults, default=0.0), values.opt("short_circuit")
    if behind is None:
        if exceeds(amps, stated("common", "surge_device_least_sccr").value):
            words = {"where": view.name(device), "amps": f"{amps:.0f}"}
            yield NotChecked(UNMARKED, words, (device,), look.state)
    elif exceeds(amps, behind):
        shown = {"stands": f"{behind:.0f}", "amps": f"{amps:.0f}"}
        evidence = Evidence(N_("largest fault current"), amps, "current")
        stands = Evidence(N_("may be put behind"), behind, "current")
        yield _hit(view, look, device, BEHIND, shown, (evidence, stands))


def _in_the_sun(
    view: View, look: Look, device: str, feeding: set[int]
) -> Iterator[Hit | NotChecked]:
    """On arrays the open voltage of their string on the coldest day counts, which nothing
    exceeds: it needs no margin."""
    stands_v, sources = view.values(device).opt("continuous_voltage"), look.studies.circuit.sources
    for string in rows(look.studies.situation):
        if stands_v is None or feeding.isdisjoint(string.cells):
            continue
        arrays = [sources[i].owner for i in string.cells]
        each = [open_v(view.values(array)) for array in arrays]
        mildest, coldest = sum(v.low for v in each), sum(v.high for v in each)
        words = {"array": in_series(view, arrays), "stands": f"{stands_v:g}"}
        if exceeds(mildest, stands_v):
            shown = words | {"volts": f"{coldest:.3g}"}
            evidence = Evidence(N_("on it"), coldest, "voltage")
            stands = Evidence(N_("stands for good"), stands_v, "voltage")
            yield _hit(view, look, device, SUN, shown, (evidence, stands))
        elif exceeds(coldest, stands_v):
            shown = words | {"low": f"{mildest:.0f}", "high": f"{coldest:.0f}"}
            yield NotChecked(COLD, shown | {"where": view.name(device)}, (device, *arrays))


def _lasting_v(situation: Situation, feeding: set[int]) -> float:
    """What lies there for good: the voltage of the sources with what is usual on top, or that of a
    bank, all its batteries in a row, that is charged to the end; not of arrays."""
    label, margin = situation.conductive, stated("common", "surge_device_margin").value
    others = [i for i in feeding if not situation.circuit.sources[i].data.group.solar]
    usual = (margin * string_v(situation, i, label) for i in others)
    charged = (charged_v(situation, i, label) for i in others)
    return max((*usual, *charged), default=0.0)


def _hit(
    view: View,
    look: Look,
    device: str,
    message: str,
    shown: dict[str, str],
    evidence: tuple[Evidence, ...],
) -> Hit:
    words = {"where": view.name(device), **shown}
    return look.hit(Level.DANGER, (device,), message, words, evidence)


def _leads(view: View, device: str) -> Iterator[Hit]:
    most = stated("common", "surge_device_leads").value
    lengths = [view.run_values(run.id).opt("length") for run in view.design.runs_at(device)]
    length = max((each for each in lengths if each is not None), default=0.0)
    if exceeds(length, most):
        yield Hit(
            Level.NOTE,
            (device,),
            LEADS,
            {"where": view.name(device), "length": f"{length:.2g}", "most": f"{most:g}"},
            (
                Evidence(N_("leads"), length, "length"),
                Evidence(N_("at the most"), most, "length"),
            ),
        )


RULE = Rule(
    "surge-device-wrong",
    N_("Surge protective device that does not fit"),
    check,
    {"NA": "242", "INT": "5-53 534"},
)
