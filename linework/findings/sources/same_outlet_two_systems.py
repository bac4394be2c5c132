"""Outlets of one shape for two systems, or an outlet of the mains shape on direct current.

What is checked
    Each outlet, plug and inlet: whether what its configuration is made for and
    what its circuit carries are both alternating or both direct current. And
    over all positions the voltages of outlets of one configuration, without load,
    where each is within what that is made for.
Why it matters
    A plug goes wherever it fits. What was made for 12 V gets 120 V in the next
    room or the next house, and burns with the person who holds it; what is made
    for 12 V burns on 24 V.
How to cure it
    A configuration for each voltage and kind of current, made for that.
Limits
    An adapter that somebody brings along is not known. Voltages up to half as
    high again count as one. A voltage above what a configuration is made for is
    voltage-wrong.
Sources
    NFPA 70 (2023) 406.4(F); IEC 60364-4-41 414.4.3 and 411.7.5, from memory.
"""

from __future__ import annotations

from collections.abc import Iterator

from linework.codes import CodesError, configuration
from linework.design.names import natural
from linework.findings.model import Evidence, Hit, Level, Outcome
from linework.findings.rule import Rule
from linework.findings.view import Look, View
from linework.study.slack import exceeds, within
from linework.study.ways.paths import volts_between
from linework.wiring import Pole, is_ac, is_dc
from linework.words import N_

ON_MAINS = N_(
    "{where}: a {name} is made for alternating current of {rated} V, and this circuit is direct"
    " current. Who plugs what belongs here into another {name} puts {rated} V on it."
)
ON_LOW = N_(
    "{where}: a {name} is made for direct current of {rated} V, and this circuit is alternating"
    " current. What is made for {rated} V fits into it."
)
UNLIKE = N_(
    "{low} of {volts} V and {high} of {more} V are both a {name}: what is made for the one fits"
    " into the other."
)
APART = 1.5
"""Voltages less than this apart are those of one system (practice, no source)."""
_LIVE = (Pole.L, Pole.L1, Pole.L2, Pole.N, Pole.POS, Pole.NEG)


def check(view: View) -> Iterator[Outcome]:
    """One hit for each outlet with what is plugged into it, one for each configuration."""
    yield from _kinds_of_current(view)
    volts: dict[str, dict[str, float]] = {}
    for look in view.settled_looks:
        for owner, name, across in _faces(look):
            known = volts.setdefault(name, {})
            known[owner] = max(across, known.get(owner, 0.0))
    for name, known in sorted(volts.items()):
        low, high = min(known.values()), max(known.values())
        if exceeds(high, APART * low):
            yield _unlike(view, name, known, (low, high))


# kinds of current


def _kinds_of_current(view: View) -> Iterator[Hit]:
    wrong: dict[str, tuple[str, str, float]] = {}
    for part in sorted(view.design.parts, key=lambda part: natural(part.designation)):
        found = _against_its_circuit(view, part.id)
        if found is not None:
            wrong[part.id] = found
    hosts = {seat.part: seat.host for seat in view.design.seats if seat.host in wrong}
    for part_id, (message, name, rated) in wrong.items():
        if part_id in hosts:
            continue  # told with its outlet
        here = (part_id, *(p for p in wrong if hosts.get(p) == part_id))
        yield Hit(
            Level.DANGER,
            here,
            message,
            {"where": view.names(here), "name": name, "rated": f"{rated:g}"},
            (Evidence(N_("made for"), rated, "voltage"),),
            touches=frozenset(here),
        )


def _against_its_circuit(view: View, part_id: str) -> tuple[str, str, float] | None:
    """The message, the configuration and its voltage, where one of these is of the other kind of
    current than what its circuit carries."""
    kind, values = view.kind(part_id), view.values(part_id)
    if "configuration" not in kind.declared or not values.has("configuration"):
        return None
    try:
        made = configuration(values.text("configuration"))
    except CodesError:
        return None
    poles = kind.terminals(values)[0].poles
    if any(map(is_dc, poles)) and any(map(is_ac, made.contacts)):
        return ON_MAINS, made.name, made.volts
    if any(map(is_ac, poles)) and any(map(is_dc, made.contacts)):
        return ON_LOW, made.name, made.volts
    return None


# voltages


def _faces(look: Look) -> Iterator[tuple[str, str, float]]:
    """Each live outlet with its configuration and the voltage between its contacts."""
    situation = look.studies.situation
    for face in look.studies.circuit.faces:
        ends = [
            p for p in (Pole.L, Pole.L1, Pole.L2, Pole.N, Pole.POS, Pole.NEG) if p in face.nodes
        ]
        if len(ends) < 2 or not situation.feeds(face.nodes[ends[0]]):
            continue
        try:
            made = configuration(face.data.configuration)
        except CodesError:
            continue
        volts = volts_between(situation, face.nodes[ends[0]], face.nodes[ends[1]])
        alike = is_dc(ends[0]) == any(map(is_dc, made.contacts))
        if volts and alike and within(volts, 1.1 * made.volts):
            yield face.owner, made.name, volts


def _unlike(view: View, name: str, known: dict[str, float], bounds: tuple[float, float]) -> Hit:
    low, high = bounds
    lower = sorted((o for o, v in known.items() if not exceeds(v, APART * low)), key=view.order)
    higher = sorted((o for o, v in known.items() if o not in lower), key=view.order)
    return Hit(
        Level.DANGER,
        (*lower, *higher),
        UNLIKE,
        {
            "low": view.names(lower),
            "high": view.names(higher),
            "volts": f"{low:.3g}",
            "more": f"{high:.3g}",
            "name": name,
        },
        (
            Evidence(N_("voltage of the lower"), low, "voltage"),
            Evidence(N_("voltage of the higher"), high, "voltage"),
        ),
        touches=frozenset(known),
    )


RULE = Rule(
    "same-outlet-two-systems",
    N_("One shape of outlet for two systems"),
    check,
    {"NA": "406.4(F)", "INT": "414.4.3"},
    causes=("voltage-wrong", "battery-turned", "batteries-unlike"),
    whole=True,
)
