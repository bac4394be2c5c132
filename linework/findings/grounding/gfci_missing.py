"""An outlet whose place asks for ground-fault protection and that has none.

What is checked
    In every state: each live outlet that lies where the family asks for it, by
    kind of place, by where in it the outlet is, by its voltage and current:
    whether a device of the right sort stands between it and every source.
Why it matters
    A person in the fault circuit is hurt by a tenth of what trips a breaker.
How to cure it
    An outlet or breaker with a class A device; elsewhere a 30 mA device.
Limits
    Where an outlet is has to be told; else it is taken as dry and indoors, and
    that is listed as assumed. The outlets of a supply are its owner's. One that
    feeds a boat needs 30 mA only (555.35(A), from memory). What the maker of a
    bonded portable set must fit is a note. On a source that may float no device
    can act, and none is asked for. Dedicated and inaccessible outlets, and
    vehicles with a single circuit (551.40(C)), are not looked at.
Sources
    NFPA 70 (2023) 210.8, 445.20(B), 551.41(C); ABYC E-11; IEC 60364-4-41 411.3.3,
    60364-7-721.
"""

from __future__ import annotations

from collections.abc import Iterator

from linework.circuit.model import FaceAt
from linework.codes import CodesError, Configuration, configuration
from linework.findings.grounding._levels import missing_bond_level
from linework.findings.mending import change_part
from linework.findings.model import Evidence, Level, Mend, NotChecked, Outcome
from linework.findings.rule import Rule
from linework.findings.view import Look, View
from linework.study.answers.downstream import watching
from linework.study.neutral.ashore import inlets_fed
from linework.study.situation import Situation
from linework.study.ways.paths import parts_passed
from linework.study.wires.ratings import rules_of
from linework.wiring import Pole, SourceGroup, is_protective, is_ungrounded
from linework.words import N_, say

MESSAGE = N_(
    "{where} ({area}) has no ground-fault protection against {source}: there it is asked for."
)
ARCS = N_(
    "{where} ({area}) has no ground-fault protection against {source}: there it is asked for."
    " {device} guards against arcs only, not against current through a person."
)
ANYWHERE = N_("{where} has no residual-current device of 30 mA against {source}.")
OF_A_SET = N_(
    "{where} of {source}: bonded portable sets of up to 15 kVA are sold with ground-fault"
    " protection on such outlets. Look whether it is there, and draw it: a second link would trip"
    " it."
)
FAULT = N_("{fault}")


def check(view: View) -> Iterator[Outcome]:
    """One hit for each outlet."""
    for look in view.settled_looks:
        for face in look.studies.circuit.faces:
            if view.kind(face.owner).receptacle and not _of_a_supply(view, face.owner):
                yield from _face(view, look, face)


def _of_a_supply(view: View, outlet: str) -> bool:
    """Whether an outlet sits in a supply, straight or behind a breaker there."""
    source = _host(view, outlet)
    return source is not None and view.kind(source).source.off_site


def _host(view: View, part: str) -> str | None:
    """The source that a part sits in, straight or behind a breaker there."""
    for seat in view.design.seats_of(part):
        own = view.kind(seat.host).source is not SourceGroup.NONE
        found = seat.host if own else _host(view, seat.host)
        if found is not None:
            return found
    return None


def _face(view: View, look: Look, face: FaceAt) -> Iterator[Outcome]:
    try:
        sources = _unguarded(look.studies.situation, face, _guards(view, look, face.owner))
        if not sources or _floats(view, look, sources):
            return
        made = configuration(face.data.configuration)
        clause = _asked(view, face.owner, made)
    except CodesError as fault:
        yield NotChecked(FAULT, {"fault": fault}, (face.owner,))
        return
    if not clause:
        yield from _of_a_set(view, look, face, made)
        return
    area = view.values(face.owner).pick("area")
    label = next(c.label for c in view.kind(face.owner).declared["area"].choices if c.value == area)
    arcs = _arc_guards(view, look.studies.situation, face)
    anywhere = _asked(view, face.owner, made, "")
    yield look.hit(
        Level.WARNING,
        (face.owner,),
        ANYWHERE if anywhere else ARCS if arcs else MESSAGE,
        {
            "where": view.name(face.owner),
            "area": say(label, family=view.family),
            "source": ", ".join(view.name(owner) for owner in sources),
            "device": ", ".join(view.name(device) for device in arcs),
        },
        (Evidence(N_("devices before it"), 0.0, "count"),),
        touches=frozenset(sources) | watching(look.studies.situation, (face.owner,)),
        mend=_mend(view, face.owner),
        clause=clause,
    )


def _guards(view: View, look: Look, outlet: str) -> frozenset[int]:
    """The contacts that protect people at an outlet: opened by the devices that the family names,
    or by one for 30 mA where a boat's cord is in it."""
    rules, sensors = rules_of(view.design), look.studies.circuit.sensors
    styles = rules.outlet_guards()
    boat = any(view.place_of(inlet).afloat for inlet in inlets_fed(view.design, outlet))
    most = rules.leakage_afloat_ma().value if boat else 0.0
    return frozenset(
        i for s in sensors if s.data.style in styles or s.data.trip_ma.high <= most for i in s.opens
    )


def _arc_guards(view: View, situation: Situation, face: FaceAt) -> list[str]:
    """The arc-fault breakers before an outlet, which people take for ground-fault ones."""
    passed = {
        part
        for pole, node in face.nodes.items()
        if is_ungrounded(Pole(pole))
        for system in situation.feeds(node)
        for part in parts_passed(situation, system.source, node)
        if view.part(part) is not None and "arc_fault" in view.kind(part).declared
    }
    return sorted(part for part in passed if view.values(part).pick("arc_fault") != "none")


def _floats(view: View, look: Look, owners: tuple[str, ...]) -> bool:
    """Whether none of the sources is bonded and all that hangs on them may float: no device could
    act there."""
    bonded = any(n.bonds for n in look.studies.neutrals if set(owners) & set(n.owners))
    return not bonded and missing_bond_level(view, look, owners) is Level.NOTE


def _of_a_set(view: View, look: Look, face: FaceAt, made: Configuration) -> Iterator[Outcome]:
    """An outlet in the panel of a bonded set that its maker must protect."""
    owner = _host(view, face.owner)
    if owner is None or not view.kind(owner).source.driven:
        return
    set_va = view.values(owner).opt("power") or 0.0
    try:
        asked = rules_of(view.design).set_outlet_protection(made.volts, made.amps, set_va)
    except CodesError as fault:
        yield NotChecked(FAULT, {"fault": fault}, (face.owner,))
        return
    bonded = any(b.owner == owner for n in look.studies.neutrals for b in n.bonds)
    if bonded and asked.value:
        yield look.hit(
            Level.NOTE,
            (face.owner,),
            OF_A_SET,
            {"where": view.name(face.owner), "source": view.name(owner)},
            (Evidence(N_("devices before it"), 0.0, "count"),),
            touches=frozenset({owner}),
            mend=_mend(view, face.owner),
            clause=asked.clause.removeprefix(f"{rules_of(view.design).title} "),
        )


def _asked(view: View, outlet: str, made: Configuration, area: str | None = None) -> str:
    """The clause that asks for protection of an outlet where it is, or in another area ("" for no
    special one); empty where none does."""
    if area is None:
        area = view.values(outlet).pick("area")
    rules = rules_of(view.design)
    asked = rules.ground_fault_protection(view.place_of(outlet), area, made.volts, made.amps)
    return asked.clause.removeprefix(f"{rules.title} ") if asked.value else ""


def _unguarded(situation: Situation, face: FaceAt, opens: frozenset[int]) -> tuple[str, ...]:
    """The AC sources that reach an outlet past all of these contacts."""
    circuit = situation.circuit
    cut = situation.metallic_without(opens)
    found = {
        system.owner
        for pole, node in face.nodes.items()
        if not is_protective(Pole(pole))  # also where line and neutral are exchanged
        for system in situation.feeds(node)
        if system.is_ac and cut[circuit.sources[system.source].plus] == cut[node]
    }
    return tuple(sorted(found))


def _mend(view: View, outlet: str) -> Mend | None:
    """None for an outlet that is not made with a device of its own."""
    if "ground_fault" not in view.kind(outlet).declared:
        return None
    style = rules_of(view.design).outlet_guards()[0]

    title = say("Give {what} ground-fault protection of its own", what=view.name(outlet))
    return change_part(title, outlet, {"ground_fault": style})


RULE = Rule(
    "gfci-missing",
    N_("{Gfci} missing"),
    check,
    {"NA": "210.8, 551.41(C)", "INT": "411.3.3, 7-721"},
    causes=("device-in-grounded-conductor",),
)
