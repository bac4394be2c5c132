"""Circuits of rooms without arc-fault protection.

What is checked
    In buildings: each live outlet of the rooms in which the family asks for it
    if people live there, and whether a breaker before it guards against arcs.
Why it matters
    A loose screw or a pinched cable glows and burns at a current at which no
    breaker opens.
How to cure it
    A breaker of the combination type; a dual-function one where ground-fault
    protection is asked for too.
Limits
    Whether people live there is not known: it is a note, told once. Arc-fault
    devices at the first outlet, and old work, are not looked at.
Sources
    NFPA 70 (2023) 210.12 (from memory); IEC 60364-4-42 421.7.
"""

from __future__ import annotations

from collections.abc import Iterator

from linework.circuit.model import FaceAt
from linework.codes import CodesError, configuration
from linework.findings.model import Evidence, Hit, Level, NotChecked, Outcome
from linework.findings.rule import Rule
from linework.findings.view import Look, View
from linework.study.neutral.ashore import loose_leads
from linework.study.situation import Situation
from linework.study.ways.paths import parts_passed
from linework.study.wires.ratings import rules_of
from linework.wiring import Pole, is_ungrounded
from linework.words import N_

MESSAGE = N_(
    "The circuits of {where} have no arc-fault protection. If people live in the building, it is"
    " asked for in its rooms; in a hut, shed or workshop it is not."
)
NO_ANSWER = N_("{fault}")


def check(view: View) -> Iterator[Outcome]:
    """One note for the whole design."""
    bare: set[str] = set()
    for look in view.settled_looks:
        for face in look.studies.circuit.faces:
            try:
                if face.owner not in bare and _asked(view, face) and _bare(view, look, face):
                    bare.add(face.owner)
            except CodesError as fault:
                yield NotChecked(NO_ANSWER, {"fault": fault}, (face.owner,))
    if bare:
        outlets = tuple(sorted(bare, key=view.name))
        yield Hit(
            Level.NOTE,
            outlets,
            MESSAGE,
            {"where": ", ".join(map(view.name, outlets))},
            (Evidence(N_("outlets concerned"), float(len(outlets)), "count"),),
        )


def _asked(view: View, face: FaceAt) -> bool:
    loose = face.owner in loose_leads(view.design)
    if loose or not view.kind(face.owner).receptacle:
        return False
    made = configuration(face.data.configuration)
    area = view.values(face.owner).pick("area")
    rules = rules_of(view.design)
    return rules.arc_fault_protection(view.place_of(face.owner), area, made.volts, made.amps).value


def _bare(view: View, look: Look, face: FaceAt) -> bool:
    """Whether breakers lie before an outlet and none of them guards against arcs."""
    situation = look.studies.situation
    hot = [node for pole, node in face.nodes.items() if is_ungrounded(Pole(pole))]
    before = {device for node in hot for device in _breakers(view, situation, node)}
    guards = (view.values(device).pick("arc_fault") != "none" for device in before)
    return bool(before) and not any(guards)


def _breakers(view: View, situation: Situation, node: int) -> set[str]:
    """The breakers in the way of alternating current to a node."""
    return {
        part
        for system in situation.feeds(node)
        if system.is_ac
        for part in parts_passed(situation, system.source, node)
        if view.part(part) is not None and "arc_fault" in view.kind(part).declared
    }


RULE = Rule(
    "arc-fault-missing",
    N_("Arc-fault protection"),
    check,
    {"NA": "210.12", "INT": "4-42 421.7"},
    whole=True,
)
