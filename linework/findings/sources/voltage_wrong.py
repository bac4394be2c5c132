"""A load or outlet on a voltage it is not made for.

What is checked
    In every state, with the drawn loads on: the voltage at each load against
    the band it is made for (in series with others too, as after the loss of a
    neutral), its kind of current, and the voltage between the
    contacts of each outlet against its configuration. The nominal voltage of
    batteries and supplies against that of the converters joined to them.
Why it matters
    240 V on 120 V equipment burns it, often with the person beside it.
How to cure it
    Feed it from the right legs or source; change the outlet to the
    configuration of the voltage it carries.
Limits
    Low voltage from long cables is voltage-drop-high, not this.
Sources
    NFPA 70 (2023) 110.4, 210.6; IEC 60364-5-51 512.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from linework.circuit.model import FaceAt, Load
from linework.codes import CodesError, configuration
from linework.design.names import natural
from linework.findings.model import Evidence, Hit, Level, Outcome
from linework.findings.rule import Rule
from linework.findings.sources._converters import converters_on_others
from linework.findings.view import Look, View
from linework.study.answers.through_loads import through_others
from linework.study.answers.trust import loaded_or_none
from linework.study.loads.loaded import Loaded
from linework.study.ways.paths import fed_parts, volts_between
from linework.study.ways.windings import wound_inputs
from linework.wiring import Pole
from linework.words import N_

HIGH = N_("{where} is made for {rated} V and gets {volts} V.")
SERIES = N_(
    "{where} lies in series with other loads: its {neutral} does not come back to {source}. It is"
    " made for {rated} V and gets {volts} V."
)
MOST = N_("{source} gives {volts} V; {where} are made for another voltage.")
LOW = N_("{where} is made for {rated} V and gets only {volts} V, whatever the cable.")
CURRENT = N_("{where} is made for another kind of current than {source} gives.")
OUTLET = N_("The {outlet} contacts of {where} carry {volts} V; they are made for {rated} V.")

_FAR_BELOW = 0.75
"""Below this share of the rated voltage no cable of ours explains it (practice, no source)."""


def check(view: View) -> Iterator[Outcome]:
    """One hit for each load, converter or outlet."""
    for look in view.settled_looks:
        loaded = loaded_or_none(look.studies)
        if loaded is not None:
            hits = list(_loads(view, look, loaded))
            yield from _source(view, look, hits)
            yield from hits
            for index, owners in through_others(look.studies, loaded):
                yield from _series(view, look, index, owners, loaded.load_v[index])
        yield from converters_on_others(view, look)
        for face in look.studies.circuit.faces:
            yield from _face(view, look, face)


def _loads(view: View, look: Look, loaded: Loaded) -> Iterator[Hit]:
    """Windings that drive others come first: what these give then follows from it."""
    circuit, fed = look.studies.circuit, look.studies.energised.fed
    wound = wound_inputs(circuit)
    told: set[str] = set()
    for index, owners in sorted(fed.items(), key=lambda item: item[0] not in wound):
        if not circuit.loads[index].data.own and index not in wound:
            continue
        if index not in wound and told & set(owners):
            continue
        for hit in _load(view, look, index, owners, loaded.load_v.get(index, 0.0)):
            told.update(hit.subjects if index in wound else ())
            yield hit


def _load(
    view: View, look: Look, index: int, owners: tuple[str, ...], volts: float
) -> Iterator[Hit]:
    load = look.studies.circuit.loads[index]
    hertz = {s.data.hertz for _, s in look.studies.situation.active if s.owner in owners}
    made_dc = load.data.hertz == 0.0
    if all((h == 0.0) != made_dc for h in hertz):
        yield _hit(view, look, load, owners, CURRENT, 0.0)
        return
    if volts > load.data.works_v[1]:
        yield _hit(view, look, load, owners, HIGH, volts)
    elif volts < _FAR_BELOW * load.data.volts and _nominal_low(look, load):
        yield _hit(view, look, load, owners, LOW, volts)


def _series(
    view: View, look: Look, index: int, owners: tuple[str, ...], volts: float
) -> Iterator[Hit]:
    """A load whose current comes through other loads: their sizes decide what it gets."""
    load = look.studies.circuit.loads[index]
    if not _FAR_BELOW * load.data.volts <= volts <= load.data.works_v[1]:
        yield _hit(view, look, load, owners, SERIES, volts)


def _nominal_low(look: Look, load: Load) -> bool:
    """Whether the voltage without any load is already far below."""
    volts = volts_between(look.studies.situation, load.a, load.b)
    return volts < _FAR_BELOW * load.data.volts


def _hit(
    view: View, look: Look, load: Load, owners: tuple[str, ...], message: str, volts: float
) -> Hit:
    return look.hit(
        Level.DANGER,
        (load.owner,),
        message,
        {
            "where": view.name(load.owner),
            "rated": f"{load.data.volts:g}",
            "volts": f"{volts:.0f}",
            "source": ", ".join(view.name(o) for o in owners),
        },
        (
            Evidence(N_("voltage at it"), volts, "voltage"),
            Evidence(N_("made for"), load.data.volts, "voltage"),
        ),
        touches=frozenset({*owners, *(run.id for run in view.design.runs_at(load.owner))}),
        explains=frozenset({load.owner}),
    )


def _source(view: View, look: Look, hits: Sequence[Hit]) -> Iterator[Hit]:
    """A source on which most loads are wrong is itself the wrong one."""
    situation = look.studies.situation
    for owner in {s.owner for _, s in situation.active if s.data.group.stores}:
        fed = fed_parts(situation, owner)
        wrong = {s for hit in hits if hit.message in (HIGH, LOW) for s in hit.subjects} & fed
        own = {load.owner for _, load in situation.loads if load.data.own} & fed
        volts = [s.data.volts for _, s in situation.active if s.owner == owner]
        if len(wrong) > 1 and 2 * len(wrong) > len(own):
            words = {
                "source": view.name(owner),
                "volts": f"{volts[0]:.3g}",
                "where": ", ".join(sorted(map(view.name, wrong), key=natural)),
            }
            evidence = (Evidence(N_("voltage of the source"), volts[0], "voltage"),)
            yield look.hit(Level.DANGER, (owner,), MOST, words, evidence, explains=frozenset(fed))


def _face(view: View, look: Look, face: FaceAt) -> Iterator[Hit]:
    """Contacts that the configuration calls line and neutral, at the voltage of their legs."""
    try:
        made = configuration(face.data.configuration)
    except CodesError:
        return
    situation = look.studies.situation
    ends = [p for p in (Pole.L, Pole.L1, Pole.L2, Pole.N, Pole.POS, Pole.NEG) if p in face.nodes]
    if len(ends) < 2 or not made.volts:
        return
    legs = {s.source: s for pole in ends[:2] for s in situation.feeds(face.nodes[pole])}
    if not legs:
        return
    volts = volts_between(situation, face.nodes[ends[0]], face.nodes[ends[1]])
    if volts > 1.1 * made.volts:
        yield look.hit(
            Level.DANGER,
            (face.owner,),
            OUTLET,
            {
                "where": view.name(face.owner),
                "outlet": made.name,
                "volts": f"{volts:.0f}",
                "rated": f"{made.volts:g}",
            },
            (
                Evidence(N_("voltage between its contacts"), volts, "voltage"),
                Evidence(N_("made for"), made.volts, "voltage"),
            ),
            touches=frozenset(s.owner for s in legs.values()),
        )


RULE = Rule(
    "voltage-wrong",
    N_("Wrong voltage"),
    check,
    {"NA": "110.4, 210.6", "INT": "512"},
    causes=("batteries-unlike", "battery-turned", "sources-meet", "neutral-missing"),
    hangs_on=("polarity-reversed", "conductors-shorted"),
)
