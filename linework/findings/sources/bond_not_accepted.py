"""A link on a source whose maker forbids one.

What is checked
    In every state: whether a neutral-ground link anywhere reaches a source
    that is marked as not accepting one.
Why it matters
    Some small inverters and sets are destroyed by it, or stand at half their
    voltage against the frame.
How to cure it
    Take the link out, or use another source for fixed wiring.
Limits
    The mark on the part is believed.
Sources
    NFPA 70 (2023) 110.3(B): listed equipment is used as its instructions say.
"""

from __future__ import annotations

from collections.abc import Iterator

from linework.findings.model import Evidence, Level, Outcome
from linework.findings.rule import Rule
from linework.findings.view import View
from linework.words import N_

MESSAGE = N_("{where} joins {neutral} and {ground} on {source}, whose maker forbids it.")


def check(view: View) -> Iterator[Outcome]:
    """One hit for each such source."""
    for look in view.settled_looks:
        for system in look.studies.neutrals:
            for owner in system.owners if system.is_ac else ():
                places = sorted({b.owner for b in system.bonds} - {owner})
                if places and _forbids(view, owner):
                    yield look.hit(
                        Level.DANGER,
                        (owner,),
                        MESSAGE,
                        {
                            "where": ", ".join(view.name(p) for p in places),
                            "source": view.name(owner),
                        },
                        (
                            Evidence(
                                N_("{neutral_ground_link}s in circuit"),
                                float(len(system.bonds)),
                                "count",
                            ),
                        ),
                        touches=frozenset(places),
                    )


def _forbids(view: View, owner: str) -> bool:
    declared = view.kind(owner).declared
    return "bond_allowed" in declared and view.values(owner).pick("bond_allowed") == "no"


RULE = Rule(
    "bond-not-accepted",
    N_("Link on a source that forbids it"),
    check,
    {"NA": "110.3(B)", "INT": "maker"},
)
