"""Circuits of rooms without arc-fault protection.

What is checked
    In buildings: each live outlet of the rooms in which the family asks for it
    if people live there, but those in the panels of sources, and whether a
    breaker before it, or the outlet or one before it, guards against arcs. Where
    only an outlet does, the wires before the first of them.
Why it matters
    A loose screw or a pinched cable glows and burns at a current at which no
    breaker opens.
How to cure it
    A breaker of the combination type; a dual-function one where ground-fault
    protection is asked for too.
Limits
    Whether people live there is asked on the nearest board before an outlet;
    where it is not answered, it is a note, told once for all. Whether a breaker
    is listed for a first outlet that guards, and old work, are not looked at.
Sources
    NFPA 70 (2023) 210.12 (from memory); IEC 60364-4-42 421.7.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from linework.circuit.model import FaceAt
from linework.codes import CodesError, configuration
from linework.findings.model import Evidence, Hit, Level, NotChecked, Outcome
from linework.findings.rule import Rule
from linework.findings.view import View
from linework.study.neutral.ashore import loose_leads
from linework.study.situation import Situation
from linework.study.ways.paths import parts_in_turn, parts_passed
from linework.study.wires.ratings import rules_of
from linework.wiring import Pole, SourceGroup, is_ungrounded
from linework.words import N_

LIVED_IN = N_(
    "The circuits of {where} have no arc-fault protection: in rooms where people live or sleep it"
    " is asked for."
)
MESSAGE = N_(
    "The circuits of {where} have no arc-fault protection. If people live in the building, it is"
    " asked for in its rooms; in a hut, shed or workshop it is not."
)
BEFORE = N_(
    "{where} guards against arcs from there on; the wires from {device} to it are not guarded. It"
    " is allowed where they lie in metal conduit or are metal-clad cable all along, else only with"
    " a breaker that is listed for it and within its length."
)
NO_ANSWER = N_("{fault}")

_METAL = "conduit_steel"


def check(view: View) -> Iterator[Outcome]:
    """One note for all bare outlets of the design, a warning for those of rooms where people live,
    and a note for each first outlet that guards."""
    bare: dict[str, str] = {}
    late: dict[str, _Way] = {}
    for look in view.settled_looks:
        for face in look.studies.circuit.faces:
            try:
                if face.owner in bare or not _asked(view, face):
                    continue
            except CodesError as fault:
                yield NotChecked(NO_ANSWER, {"fault": fault}, (face.owner,))
                continue
            lived_in = _lived_in(view, look.studies.situation, face)
            for way in _ways(view, look.studies.situation, face) if lived_in != "no" else ():
                if not way.guards:
                    bare[face.owner] = lived_in
                elif way.guards[0] not in way.breakers and not _in_metal(view, way.between):
                    late.setdefault(way.guards[0], way)
    yield from _told(view, bare, "yes", Level.WARNING, LIVED_IN)
    yield from _told(view, bare, "unknown", Level.NOTE, MESSAGE)
    for outlet, way in sorted(late.items()):
        yield _before(view, outlet, way)


def _told(
    view: View, bare: Mapping[str, str], lived_in: str, level: Level, message: str
) -> Iterator[Hit]:
    outlets = tuple(sorted((o for o, told in bare.items() if told == lived_in), key=view.order))
    if outlets:
        yield Hit(
            level,
            outlets,
            message,
            {"where": ", ".join(map(view.name, outlets))},
            (Evidence(N_("outlets concerned"), float(len(outlets)), "count"),),
        )


def _lived_in(view: View, situation: Situation, face: FaceAt) -> str:
    """What the nearest board before an outlet says of its rooms."""
    for node in (node for pole, node in face.nodes.items() if is_ungrounded(Pole(pole))):
        for system in situation.feeds(node):
            for part in parts_in_turn(situation, system.source, node):
                if view.part(part) is not None and view.kind(part).board:
                    return view.values(part).pick("lived_in")
    return "unknown"


def _before(view: View, outlet: str, way: _Way) -> Hit:
    lengths = (view.run_values(run).opt("length") for run in way.between)
    metres = sum(each for each in lengths if each is not None)
    return Hit(
        Level.NOTE,
        (outlet, *way.between),
        BEFORE,
        {"where": view.name(outlet), "device": view.name(way.breakers[-1])},
        (Evidence(N_("wires before it"), metres, "length"),),
    )


def _asked(view: View, face: FaceAt) -> bool:
    loose = face.owner in loose_leads(view.design) or _at_a_source(view, face.owner)
    if loose or not view.kind(face.owner).receptacle:
        return False
    made = configuration(face.data.configuration)
    area = view.values(face.owner).pick("area")
    rules = rules_of(view.design)
    return rules.arc_fault_protection(view.place_of(face.owner), area, made.volts, made.amps).value


def _at_a_source(view: View, part: str) -> bool:
    """Whether an outlet sits in the panel of a set, inverter or supply: it is in no room."""
    hosts = [seat.host for seat in view.design.seats_of(part)]
    if any(view.kind(host).source is not SourceGroup.NONE for host in hosts):
        return True
    return any(_at_a_source(view, host) for host in hosts)


@dataclass(frozen=True)
class _Way:
    """What lies before an outlet: breakers, parts that guard against arcs, and the runs between the
    last breaker and the first of these; all in the order in which current passes them."""

    breakers: tuple[str, ...]
    guards: tuple[str, ...]
    between: tuple[str, ...]


def _ways(view: View, situation: Situation, face: FaceAt) -> Iterator[_Way]:
    """The ways of alternating current to an outlet on which a breaker lies."""
    hots = [node for pole, node in face.nodes.items() if is_ungrounded(Pole(pole))]
    for node in hots:
        for system in situation.feeds(node):
            passed = parts_passed(situation, system.source, node) if system.is_ac else ()
            way = _way(view, passed)
            if way.breakers:
                yield way


def _way(view: View, passed: tuple[str, ...]) -> _Way:
    able = [p for p in passed if view.part(p) and "arc_fault" in view.kind(p).declared]
    breakers = tuple(part for part in able if not view.kind(part).receptacle)
    guards = tuple(part for part in able if view.values(part).pick("arc_fault") != "none")
    begin = passed.index(breakers[-1]) if breakers else 0
    end = passed.index(guards[0]) if guards else begin
    runs = tuple(each for each in passed[begin:end] if view.run(each) is not None)
    return _Way(breakers, guards, runs)


def _in_metal(view: View, runs: tuple[str, ...]) -> bool:
    return all(view.run_values(run).pick("installation") == _METAL for run in runs)


RULE = Rule(
    "arc-fault-missing",
    N_("Arc-fault protection"),
    check,
    {"NA": "210.12", "INT": "4-42 421.7"},
    whole=True,
)
