"""A power inlet without the sign that says which generator belongs on it.

What is checked
    Each inlet that a drawn generator can feed: whether a sign says that its
    neutral must be joined to its frame, or floating, and whether the wiring
    behind the inlet agrees: a link on board that stays joined asks for a
    floating one.
Why it matters
    With the other kind of set the design has two links, or none.
How to cure it
    The sign named, beside the inlet.
Limits
    Other labels a drawing cannot show. The generator that is drawn is not judged
    by the sign but by the rules on bonds.
Sources
    NFPA 70 (2023) 702.7(C); in vehicles common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from linework.findings.model import Evidence, Hit, Level, Outcome
from linework.findings.rule import Rule
from linework.findings.view import Look, View
from linework.words import N_, say

MISSING = N_("{where} has no sign that says which generator belongs on it: {kind}.")
WRONG = N_("The sign at {where} asks for another generator than the wiring does: {kind}.")

_KINDS = {
    "bonded": N_("one whose neutral is joined to its frame"),
    "floating": N_("one whose neutral is floating, for the link is on board"),
}


def check(view: View) -> Iterator[Outcome]:
    """One note for each inlet."""
    for look in view.settled_looks:
        for part in view.design.parts:
            if "expects" in view.kind(part.id).declared:
                yield from _inlet(view, look, part.id)


def _inlet(view: View, look: Look, inlet: str) -> Iterator[Hit]:
    situation = look.studies.situation
    nodes = situation.circuit.terminals[inlet, "inside"].values()
    sets = {
        s.owner
        for node in nodes
        for s in situation.feeds(node)
        if situation.circuit.sources[s.source].data.group.driven
    }
    for owner in sorted(sets):
        asked = "floating" if _linked_on_board(view, look, owner) else "bonded"
        sign = view.values(inlet).pick("expects")
        if sign != asked:
            kind = say(_KINDS[asked], family=view.family)
            yield look.hit(
                Level.NOTE,
                (inlet,),
                MISSING if sign == "none" else WRONG,
                {"where": view.name(inlet), "kind": kind},
                (Evidence(N_("sign to fit"), None, "text", kind),),
                touches=frozenset({owner}),
            )


def _linked_on_board(view: View, look: Look, owner: str) -> bool:
    """Whether a link other than in the set, or in its outlets, is on its neutral."""
    return any(
        bond.owner != owner and not _sits_in(view, bond.owner, owner)
        for system in look.studies.neutrals
        if system.is_ac and owner in system.owners
        for bond in system.bonds
    )


def _sits_in(view: View, part: str, host: str) -> bool:
    hosts = [s.host for s in view.design.seats_of(part)] if view.part(part) is not None else []
    return any(h == host or _sits_in(view, h, host) for h in hosts)


RULE = Rule(
    "label-missing",
    N_("Sign missing"),
    check,
    {"NA": "702.7(C)", "INT": "514"},
    causes=("bond-doubled",),
)
